// brimline export: records, documents, tables and events on their way out. It changes nothing in the store.
#include <fmt/format.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>

#include "app/desk/commands.h"
#include "app/desk/export_folder.h"
#include "core/record/calendar.h"
#include "core/record/register_sheet.h"
#include "core/record/schema.h"

namespace brimline::desk {
namespace {

struct Options {
    std::string name, format, out, table{"events"}, on;
    std::filesystem::path data, folder;
    bool all{false}, schema{false}, sign{false}, no_sign{false};
    int year{0}, addendum{0};
};

volatile std::sig_atomic_t stop_asked = 0;
void ask_to_stop(int) { stop_asked = 1; }

std::optional<CsvTable> table_named(std::string_view name) {
    for (const auto table : {CsvTable::vital_signs, CsvTable::doses, CsvTable::events, CsvTable::entries}) {
        if (name_of(table) == name) {
            return table;
        }
    }
    return std::nullopt;
}

/// The day on which the register is read: --on, else the day of the store's last entry, so that the same
/// store gives the same bytes.
LocalDate day_of(const Options& options, const Archive& archive) {
    const auto on = parse_date(options.on);
    return on.value_or(archive.in_force().zone.date_of(archive.last_entry()));
}

int put_out(const Options& options, const std::string& text) {
    if (options.out.empty()) {
        std::fwrite(text.data(), 1, text.size(), stdout);
        return std::fflush(stdout) == 0 ? 0
                                        : complain("The text could not be written to standard output.", 3);
    }
    WholeFile file{options.out};
    file.write(text);
    const auto done = file.finish();
    return done ? 0 : complain(done.error(), 3);
}

/// A case's text into its file, with the signature beside it.
int put_signed(const Options& options, const std::string& text, const CaseFile& file, Archive& archive) {
    if (const int code = put_out(options, text); code != 0) {
        return code;
    }
    const bool sign = !options.no_sign && !options.out.empty() && (options.sign || file.sealed);
    if (!sign) {
        return 0;
    }
    const auto name = std::filesystem::path{options.out}.filename().string();
    const auto signature = signature_of(text, comment_of(name, file, head_of(file)), archive);
    if (!signature) {
        return complain("The file is written; it is not signed, because sign.key is not in the data folder.",
                        1);
    }
    Options beside = options;
    beside.out += ".minisig";
    return put_out(beside, *signature);
}

std::string calendar_text(const CaseFile& file, const Archive& archive, LocalDate on) {
    const RegisterAsk ask{file.desk, archive.in_force().policy, archive.in_force().zone, on, std::nullopt,
                          false};
    return calendar_begin() + calendar_days(file.now(), ask, archive.last_entry()) + calendar_end();
}

/// What one case is in the format that was asked; a table without mark and header.
std::string text_of(const Options& options, const CaseFile& file, Archive& archive) {
    if (options.format == "json") {
        return events_text(file);
    }
    if (options.format == "csv") {
        return table_lines(*table_named(options.table), file, archive, day_of(options, archive));
    }
    if (options.format == "ics") {
        return calendar_text(file, archive, day_of(options, archive));
    }
    if (options.format == "fhir") {
        return options.addendum > 0
                   ? fhir_addendum_text(file, archive, static_cast<std::size_t>(options.addendum - 1))
                   : fhir_text(file, archive);
    }
    return record_body(file, archive) + added_text(file, archive);
}

std::string head_of_table(const Options& options) {
    return options.format == "csv" ? std::string{csv_mark} + csv_header(*table_named(options.table)) : "";
}

int export_pdf(const Options& options, const CaseFile& file, Archive& archive) {
    const auto pdf = record_pdf(file, archive);
    return pdf ? put_signed(options, *pdf, file, archive) : complain(pdf.error().say, 1);
}

int export_one(const Options& options, Archive& archive) {
    const auto file = archive.read(options.name);
    if (!file) {
        return complain(fmt::format("There is no case \"{}\".", options.name), 1);
    }
    for (const auto& finding : file->unreadable) {
        complain(finding.sentence, 1);
    }
    if (options.format == "pdf") {
        return export_pdf(options, *file, archive);
    }
    const auto added = file->now().addenda.size();
    if (options.addendum < 0 || static_cast<std::size_t>(options.addendum) > added) {
        return complain(
            fmt::format("--addendum {}: case \"{}\" has {}.", options.addendum, options.name, added), 1);
    }
    if (options.format == "fhir" && options.addendum == 0 && file->sealed && added > 0) {
        complain(fmt::format("{} after the seal: a document of its own each, by --addendum 1 to {}.",
                             added == 1 ? "1 addendum" : fmt::format("{} addenda", added), added),
                 0);
    }
    return put_signed(options, head_of_table(options) + text_of(options, *file, archive), *file, archive);
}

/// All cases behind one another: records, events in the order of the journal, or one table.
int export_all_as_one(const Options& options, Archive& archive) {
    std::string text = head_of_table(options);
    if (options.format == "json") {
        std::map<std::string, std::string> names;
        for (const auto& listed : archive.cases()) {
            names[listed.id] = listed.name;
        }
        for (const auto& row : in_order(archive.journal().events(0, 0).rows)) {
            const auto name = names.find(store::hex(row.case_id));
            text += event_line(row, name == names.end() ? "" : name->second);
        }
        return put_out(options, text);
    }
    for (const auto& listed : archive.cases()) {
        if (const auto file = archive.read(listed.name)) {
            text += options.format == "text" && !text.empty() ? "\f\n" : "";
            text += text_of(options, *file, archive);
        }
    }
    return put_out(options, text);
}

std::set<ExportFormat> formats_of(const Options& options) {
    std::set<ExportFormat> all{ExportFormat::text, ExportFormat::pdf, ExportFormat::fhir,
                               ExportFormat::json, ExportFormat::csv, ExportFormat::ics};
    if (options.format.empty()) {
        return all;
    }
    std::erase_if(all, [&](ExportFormat format) { return name_of(format) != options.format; });
    return all;
}

bool show_progress(std::size_t done, std::size_t of) {
    const bool live = isatty(STDERR_FILENO) != 0;
    const std::size_t step = live || of < 20 ? 1 : of / 20;
    if (done % step == 0 || done == of) {
        fmt::print(stderr, "{}{} of {} cases{}", live ? "\r" : "", done, of, live && done != of ? "" : "\n");
        std::fflush(stderr);
    }
    return stop_asked == 0;
}

int export_to_folder(const Options& options, Archive& archive) {
    struct sigaction action {};
    action.sa_handler = ask_to_stop;
    sigaction(SIGINT, &action, nullptr);
    sigaction(SIGTERM, &action, nullptr);
    const FolderAsk ask{
        options.folder,           formats_of(options),
        !options.no_sign,         options.year == 0 ? std::nullopt : std::optional{options.year},
        day_of(options, archive), archive.last_entry()};
    const auto done = export_folder(ask, archive, show_progress);
    if (!done) {
        return complain(done.error(), 3);
    }
    if (done->stopped) {
        return complain(
            fmt::format("Stopped after {} of {} cases. What stands in {} is whole; the tables were left out. "
                        "Start again with another folder.",
                        done->cases, done->of, options.folder.string()),
            1);
    }
    fmt::print("{} cases, {} files in {}\n", done->cases, done->files, options.folder.string());
    return 0;
}

std::optional<std::string> misused(const Options& options) {
    if (options.all == !options.name.empty()) {
        return "Name one case, or --all.";
    }
    if (!options.folder.empty() && !options.all) {
        return "--folder goes with --all; for one case use --out FILE, or brimline package.";
    }
    const bool file_each = options.format == "fhir" || options.format == "ics" || options.format == "pdf";
    if (options.folder.empty() && options.all && file_each) {
        return fmt::format("--all --format {} needs --folder DIR: each is a file of its own.",
                           options.format);
    }
    if (!table_named(options.table)) {
        return fmt::format("--table {}: allowed are vital-signs, doses, events, register.", options.table);
    }
    if (!options.on.empty() && !parse_date(options.on)) {
        return fmt::format("--on {}: a date that exists is needed, as 2026-11-25.", options.on);
    }
    return std::nullopt;
}

int run_export(Options options) {
    if (options.schema) {
        return put_out(options, event_schema_text());
    }
    if (const auto why = misused(options)) {
        return complain(*why, 2);
    }
    auto archive = Archive::open(options.data);
    if (!archive) {
        return complain(archive.error().say, archive.error().exit_code);
    }
    tell_copy(archive->journal().copied());
    for (const auto& finding : archive->damage()) {
        complain(finding.sentence, 1);
    }
    if (!options.folder.empty()) {
        return export_to_folder(options, *archive);
    }
    options.format = options.format.empty() ? "text" : options.format;
    return options.all ? export_all_as_one(options, *archive) : export_one(options, *archive);
}

}  // namespace

void add_export(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command =
        app.add_subcommand("export", "Records, FHIR documents, tables, dates, or the events of the journal");
    command->add_option("CASE", options->name, "Name of the case");
    command
        ->add_option("--format", options->format,
                     "text = the record (default), pdf = on pages, fhir = FHIR R4 document, json = the "
                     "events, one a line, csv = one "
                     "table, ics = its dates")
        ->check(CLI::IsMember({"text", "pdf", "fhir", "json", "csv", "ics"}));
    command
        ->add_option("--table", options->table,
                     "Which table of csv: vital-signs, doses, events (default), register")
        ->type_name("NAME");
    command->add_option("--addendum", options->addendum, "With fhir: that addendum as a document, from 1")
        ->type_name("N");
    command->add_option("--out", options->out, "File to write; standard output without it")
        ->type_name("FILE");
    command->add_flag("--all", options->all, "Every case");
    command
        ->add_option("--folder", options->folder,
                     "With --all: a new folder for every case in every format, signed")
        ->type_name("DIR");
    command->add_option("--year", options->year, "With --folder: cases booked in that year")
        ->check(CLI::Range(1970, 9999));
    command
        ->add_option("--on", options->on,
                     "The register as if today were that day; without it the last entry's day")
        ->type_name("DATE");
    command->add_flag("--sign", options->sign,
                      "FILE.minisig beside --out; sealed records are signed without asking");
    command->add_flag("--no-sign", options->no_sign, "No signature");
    command->add_flag("--schema", options->schema, "Prints the JSON Schema of the events instead");
    add_data_option(*command, options->data);
    command->callback([options, &run] { run = [options] { return run_export(*options); }; });
}

}  // namespace brimline::desk
