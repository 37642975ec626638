// brimline export: records and events on their way out. It changes nothing in the store.
#include <fmt/format.h>

#include <cstdio>
#include <fstream>

#include "app/desk/commands.h"
#include "app/desk/prints.h"
#include "app/loop/room.h"
#include "core/case/codec.h"
#include "core/record/text.h"
#include "core/store/ids.h"

namespace brimline::desk {
namespace {

struct Options {
    std::string name, format{"text"}, out;
    std::filesystem::path data;
    bool all{false};
};

/// One event of the journal as one line of JSON.
std::string event_line(const store::StoredEvent& row, const Desk& desk) {
    auto payload = parse_json(row.payload).value_or(Json{});
    Json line = Json::object();
    line["seq"] = row.seq;
    line["kind"] = row.kind;
    line["hash"] = store::hex(row.hash);
    line["utc_us"] = row.utc.in_us();
    line["tick_us"] = row.tick_us;
    line["boot"] = store::hex(row.boot);
    const auto found = desk.cases.find(store::hex(row.case_id));
    line["case"] = found == desk.cases.end() ? Json{} : Json(found->second.name);
    line["by"] = row.person;
    line["role"] = row.role;
    if (payload.is_object() && payload.contains("@said_by")) {
        line["said_by"] = payload["@said_by"];
    }
    line["payload"] = std::move(payload);
    return line.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string events_text(const Reading& reading, const CaseState* only) {
    std::string text;
    for (const auto& row : reading.rows) {
        if (only == nullptr || store::hex(row.case_id) == only->id) {
            text += event_line(row, reading.memory.desk);
        }
    }
    return text;
}

/// The key of the kiosk that sealed it, which is another one after a restore.
store::Key32 key_of(const Reading& reading, const store::SealedRow& row) {
    const auto found = reading.keys.find(row.kiosk);
    return found == reading.keys.end() ? store::Key32{} : found->second;
}

/// The sealed text as it was signed, with its signature below; or the record as it stands.
std::string record_of(const Reading& reading, const CaseState& state) {
    for (const auto& row : reading.sealed) {
        if (store::hex(row.case_id) != state.id || row.addendum != 0) {
            continue;
        }
        return fmt::format("{}\nSealed {}\nhash      {}\nsignature {}\nkey       {}\n{}", row.body,
                           row.number, store::hex(row.body_hash), store::hex(row.signature),
                           store::hex(key_of(reading, row)),
                           addenda_text(state, reading.memory.desk, reading.in_force.zone));
    }
    return record_text(state, reading.memory.desk, reading.in_force.policy, reading.in_force.zone, "");
}

std::string all_records(const Reading& reading) {
    std::string text;
    for (const auto& name : reading.memory.desk.case_order) {
        text += (text.empty() ? "" : "\f\n") + record_of(reading, *reading.memory.desk.find_case(name));
    }
    return text;
}

int put_out(const Options& options, const std::string& text) {
    if (options.out.empty()) {
        std::fwrite(text.data(), 1, text.size(), stdout);
        return std::fflush(stdout) == 0 ? 0
                                        : complain("The text could not be written to standard output.", 3);
    }
    std::ofstream file{options.out, std::ios::binary | std::ios::trunc};
    file << text;
    file.close();
    return file ? 0
                : complain(fmt::format("{}: cannot be written; check the folder and the space.", options.out),
                           3);
}

int run_export(const Options& options) {
    if (options.all == !options.name.empty()) {
        return complain("Name one case, or --all.", 2);
    }
    if (options.format != "text" && options.format != "json" && options.format != "pdf") {
        return complain(fmt::format("--format {}: allowed are text, json, pdf.", options.format), 2);
    }
    if (options.format == "pdf" && options.all) {
        return complain("--format pdf: one case at a time; name it instead of --all.", 2);
    }
    const auto reading = read_store(options.data);
    if (!reading) {
        return complain(reading.error().say, reading.error().exit_code);
    }
    for (const auto& finding : reading->damage) {
        complain(finding.sentence, 1);
    }
    const auto* state = options.all ? nullptr : reading->memory.desk.find_case(options.name);
    if (!options.all && state == nullptr) {
        return complain(fmt::format("There is no case \"{}\".", options.name), 1);
    }
    if (options.format == "pdf") {
        const auto page = page_size("", reading->in_force.policy);
        const auto pdf = page ? record_pdf_of(*reading, *state, *page) : tl::unexpected{page.error()};
        return pdf ? put_out(options, *pdf) : complain(pdf.error().say, 1);
    }
    if (options.format == "json") {
        return put_out(options, events_text(*reading, state));
    }
    return put_out(options, options.all ? all_records(*reading) : record_of(*reading, *state));
}

}  // namespace

void add_export(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("export", "A record, or the events of the journal");
    command->add_option("CASE", options->name, "Name of the case");
    command
        ->add_option("--format", options->format, "text and pdf = the record, json = the events, one a line")
        ->type_name("text|pdf|json");
    command->add_option("--out", options->out, "File to write; standard output without it")
        ->type_name("FILE");
    command->add_flag("--all", options->all, "Every case");
    add_data_option(*command, options->data);
    command->callback([options, &run] { run = [options] { return run_export(*options); }; });
}

}  // namespace brimline::desk
