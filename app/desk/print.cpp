// brimline print: record, patient's sheet, balloon card and downtime sheet as PDF, into a file or to the
// printer.
#include <fmt/format.h>

#include <algorithm>

#include "app/desk/commands.h"
#include "app/desk/printer.h"
#include "app/desk/prints.h"
#include "app/loop/policy_source.h"
#include "core/store/clock.h"

namespace brimline::desk {
namespace {

struct Options {
    std::string kind, name, out, paper, language, printer;
    std::filesystem::path data;
    std::optional<std::filesystem::path> policy;
    bool to_printer{false};
};

int complain(const Refusal& refusal, int code) {
    return desk::complain(refusal.say + (refusal.next.empty() ? "" : " " + refusal.next), code);
}

/// Into the file that was named, or into the data folder, and on to the printer where that was asked for.
int put_out(const Options& options, const std::string& pdf) {
    const auto own = options.data / "prints" /
                     fmt::format("{}{}.pdf", options.name.empty() ? "" : options.name + "-", options.kind);
    const auto kept = keep_print(options.out.empty() ? own : std::filesystem::path{options.out}, pdf);
    if (!kept) {
        return complain(kept.error(), 3);
    }
    if (!options.to_printer) {
        fmt::print("{}\n", kept->string());
        return 0;
    }
    const auto sent = send_to_printer(*kept, options.printer);
    if (!sent) {
        complain(sent.error(), 1);
        return desk::complain(fmt::format("The PDF is kept: {}", kept->string()), 1);
    }
    fmt::print("{}\n{}\n", kept->string(), *sent);
    return 0;
}

Expected<std::string> made(const Options& options, const Reading& reading, const CaseState& state,
                           print::PageSize page) {
    if (options.kind == "record") {
        return record_pdf_of(reading, state, page);
    }
    const auto assets = assets_folder();
    if (!assets) {
        return tl::unexpected{assets.error()};
    }
    const auto& desk = reading.memory.desk;
    store::SystemClock clock;
    const PrintSource source{&state,
                             desk,
                             reading.in_force.policy,
                             reading.in_force.zone,
                             desk.scripts_only ? desk.last_at : clock.utc(),
                             *assets};
    return options.kind == "leaflet" ? leaflet_pdf_of(source, options.language, page)
                                     : card_pdf_of(source, options.language, page);
}

/// By the policy recorded in the store where there is one, else by the clinic's folder.
int run_downtime(const Options& options) {
    Desk none;
    auto in_force = policy_in_force(none, options.policy);
    if (auto reading = read_store(options.data); reading && !options.policy) {
        in_force = std::move(reading->in_force);
    }
    if (!in_force) {
        return desk::complain(in_force.error().say, in_force.error().exit_code);
    }
    const auto assets = assets_folder();
    if (!assets) {
        return complain(assets.error(), 3);
    }
    const auto page = page_size(options.paper, in_force->policy);
    if (!page || page->w < print::a4.w / 2) {
        return desk::complain("--paper: allowed for this sheet are a4, letter.", 2);
    }
    const PrintSource source{nullptr, none, in_force->policy, in_force->zone, Instant{}, *assets};
    const auto pdf = downtime_pdf_of(source, *page);
    return pdf ? put_out(options, *pdf) : complain(pdf.error(), 1);
}

int run_print(const Options& options) {
    const auto kinds = names_of(PrintKind{});
    if (std::find(kinds.begin(), kinds.end(), options.kind) == kinds.end()) {
        return desk::complain(
            fmt::format("print {}: allowed are record, leaflet, card, downtime.", options.kind), 2);
    }
    if (options.kind == "downtime") {
        return run_downtime(options);
    }
    const auto reading = read_store(options.data);
    if (!reading) {
        return desk::complain(reading.error().say, reading.error().exit_code);
    }
    tell_copy(reading->copied);
    const auto* state = reading->memory.desk.find_case(options.name);
    if (state == nullptr) {
        return desk::complain(fmt::format("There is no case \"{}\".", options.name), 1);
    }
    const auto page = page_size(options.paper, reading->in_force.policy);
    if (!page || (page->w < print::a4.w / 2 && options.kind != "card")) {
        return desk::complain(
            fmt::format("--paper {}: allowed are a4, letter, and card for the card.", options.paper), 2);
    }
    const auto pdf = made(options, *reading, *state, *page);
    return pdf ? put_out(options, *pdf) : complain(pdf.error(), 1);
}

void add_common(CLI::App& command, Options& options) {
    command.add_option("-o,--out", options.out, "File to write; the data folder's prints/ without it")
        ->type_name("FILE");
    command.add_option("--paper", options.paper, "a4, letter, or card for the card; the policy's without it")
        ->type_name("PAPER");
    command.add_flag("--lp", options.to_printer, "Sends it to the printer as well; the PDF is kept");
    command.add_option("--printer", options.printer, "Name of the printer; the system's default without it")
        ->type_name("NAME");
    add_data_option(command, options.data);
}

}  // namespace

void add_print(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("print", "Record, leaflet, card or downtime sheet as PDF");
    command->add_option("KIND", options->kind, "record, leaflet, card, downtime")->required();
    command->add_option("CASE", options->name, "Name of the case");
    command->add_option("--language", options->language,
                        "Of leaflet and card; without it the patient's where the clinic approved it");
    add_common(*command, *options);
    command->callback([options, &run] { run = [options] { return run_print(*options); }; });

    auto sheet = std::make_shared<Options>();
    sheet->kind = "downtime";
    auto* paper = app.add_subcommand("sheet", "The paper sheet for when the kiosk is down, as PDF");
    add_common(*paper, *sheet);
    paper->add_option("--policy", sheet->policy, "The clinic's folder, for a store that has none yet")
        ->type_name("DIR");
    paper->callback([sheet, &run] { run = [sheet] { return run_downtime(*sheet); }; });
}

}  // namespace brimline::desk
