// Writing whole, signed files.
#include "app/desk/export_folder.h"

#include <fmt/format.h>

#include "app/loop/policy_source.h"
#include "core/record/calendar.h"
#include "core/record/register_sheet.h"

namespace brimline::desk {
namespace fs = std::filesystem;
namespace {

using Done = tl::expected<void, std::string>;

std::string not_written(const fs::path& path) {
    return fmt::format("{}: cannot be written; check the folder and the space.", path.string());
}

Done put_whole(const fs::path& path, std::string_view text) {
    WholeFile file{path};
    file.write(text);
    if (const auto done = file.finish(); !done) {
        return tl::unexpected{done.error()};
    }
    return {};
}

/// Finishes a file and puts its signature beside it.
Done finish_signed(WholeFile& file, const TrustedComment& comment, bool sign, Archive& archive) {
    const auto digest = file.finish();
    if (!digest) {
        return tl::unexpected{digest.error()};
    }
    if (!sign) {
        return {};
    }
    const auto text =
        store::minisign_file(*digest, archive.journal().kiosk().public_key, trusted_comment(comment),
                             [&](std::string_view bytes) { return archive.journal().sign(bytes); });
    if (!text) {
        return tl::unexpected{
            std::string{"The kiosk's key, sign.key, is not in the data folder, so nothing can be "
                        "signed; use --no-sign to export without signatures."}};
    }
    return put_whole(file.path().string() + ".minisig", *text);
}

/// A table of all cases that grows while the cases go by.
struct GrowingTable {
    CsvTable table;
    WholeFile file;
};

std::vector<GrowingTable> begin_tables(const FolderAsk& ask) {
    std::vector<GrowingTable> tables;
    if (ask.formats.count(ExportFormat::csv) != 0) {
        for (const auto table :
             {CsvTable::vital_signs, CsvTable::doses, CsvTable::events, CsvTable::entries}) {
            tables.push_back({table, WholeFile{ask.folder / fmt::format("{}.csv", name_of(table))}});
            tables.back().file.write(csv_mark);
            tables.back().file.write(csv_header(table));
        }
    }
    return tables;
}

std::string calendar_lines(const CaseFile& file, const Archive& archive, const FolderAsk& ask) {
    const RegisterAsk reg{file.desk, archive.in_force().policy, archive.in_force().zone, ask.on, std::nullopt,
                          false};
    return calendar_days(file.now(), reg, ask.made);
}

Done kiosk_events(const FolderAsk& ask, Archive& archive, const TrustedComment& comment) {
    WholeFile file{ask.folder / "kiosk.events.jsonl"};
    for (const auto& row : archive.kiosk_rows()) {
        file.write(event_line(row, ""));
    }
    return finish_signed(file, comment, ask.sign, archive);
}

bool in_year(const ListedCase& listed, const FolderAsk& ask, const Archive& archive) {
    return !ask.year || static_cast<int>(archive.in_force().zone.date_of(listed.booked).year()) == *ask.year;
}

/// Everything of a folder that is not a case's own: tables, calendar, kiosk's events.
Done finish_shared(const FolderAsk& ask, Archive& archive, std::vector<GrowingTable>& tables,
                   std::optional<WholeFile>& calendar, std::size_t& files) {
    const auto head = archive.journal().head();
    const auto hash = head ? store::hex(head->hash) : std::string{};
    const auto comment = [&](const std::string& name) {
        return TrustedComment{name, "", archive.last_entry(), hash};
    };
    for (auto& table : tables) {
        const auto name = table.file.path().filename().string();
        if (auto done = finish_signed(table.file, comment(name), ask.sign, archive); !done) {
            return done;
        }
        ++files;
    }
    if (calendar) {
        calendar->write(calendar_end());
        if (auto done = finish_signed(*calendar, comment("dates.ics"), ask.sign, archive); !done) {
            return done;
        }
        ++files;
    }
    if (ask.formats.count(ExportFormat::json) != 0) {
        if (auto done = kiosk_events(ask, archive, comment("kiosk.events.jsonl")); !done) {
            return done;
        }
        ++files;
    }
    return {};
}

}  // namespace

WholeFile::WholeFile(fs::path path) : path_{std::move(path)}, part_{path_.string() + ".part"} {
    out_.open(part_, std::ios::binary | std::ios::trunc);
}

WholeFile::~WholeFile() {
    if (out_.is_open()) {
        out_.close();
        std::error_code ignored;
        fs::remove(part_, ignored);
    }
}

void WholeFile::write(std::string_view text) {
    out_ << text;
    digest_.add(text);
}

tl::expected<store::Digest64, std::string> WholeFile::finish() {
    out_.flush();
    const bool good = static_cast<bool>(out_);
    out_.close();
    std::error_code error;
    if (good && out_) {
        fs::rename(part_, path_, error);
    }
    if (!good || !out_ || error) {
        fs::remove(part_, error);
        return tl::unexpected{not_written(path_)};
    }
    return digest_.finish();
}

Done take_folder(const fs::path& folder) {
    std::error_code error;
    if (fs::exists(folder, error) && (!fs::is_directory(folder, error) || !fs::is_empty(folder, error))) {
        return tl::unexpected{fmt::format(
            "{}: is not an empty folder; name a new one, so that nothing is mixed or overwritten.",
            folder.string())};
    }
    fs::create_directories(folder, error);
    if (!fs::is_directory(folder, error)) {
        return tl::unexpected{not_written(folder)};
    }
    return {};
}

Done write_signed(const FolderAsk& ask, const std::string& name, std::string_view text, const CaseFile& file,
                  Archive& archive) {
    WholeFile out{ask.folder / name};
    out.write(text);
    const auto head = head_of(file);
    return finish_signed(out, comment_of(name, file, head), ask.sign, archive);
}

Done write_key_and_page(const fs::path& folder, const store::Kiosk& kiosk) {
    const auto comment = fmt::format("public key of Brimline kiosk {}", store::hex(kiosk.id));
    if (auto done = put_whole(folder / "brimline.pub", store::minisign_key_file(kiosk.public_key, comment));
        !done) {
        return done;
    }
    const auto assets = assets_folder();
    const auto page = assets ? *assets / "help" / "verify.md" : fs::path{};
    std::ifstream in{page, std::ios::binary};
    const std::string text{std::istreambuf_iterator<char>{in}, {}};
    if (text.empty()) {
        return tl::unexpected{
            std::string{"The page assets/help/verify.md is not beside the program; install Brimline "
                        "again."}};
    }
    return put_whole(folder / "verify.md", text);
}

tl::expected<std::size_t, std::string> write_case(const FolderAsk& ask, const CaseFile& file,
                                                  Archive& archive) {
    std::size_t files = 0;
    const auto stem = file_stem(file);
    const auto put = [&](const std::string& name, const std::string& text) -> Done {
        ++files;
        return write_signed(ask, name, text, file, archive);
    };
    Done done;
    if (ask.formats.count(ExportFormat::text) != 0) {
        done = put(stem + ".txt", record_body(file, archive));
        if (const auto added = added_text(file, archive); done && !added.empty()) {
            done = put(stem + ".added.txt", added);
        }
    }
    if (done && ask.formats.count(ExportFormat::pdf) != 0) {
        const auto pdf = record_pdf(file, archive);
        done = pdf ? put(stem + ".pdf", *pdf) : tl::unexpected{pdf.error().say + " " + pdf.error().next};
    }
    if (done && ask.formats.count(ExportFormat::fhir) != 0) {
        done = put(stem + ".fhir.json", fhir_text(file, archive));
        for (std::size_t i = 0; done && file.sealed && i < file.now().addenda.size(); ++i) {
            done = put(fmt::format("{}.addendum-{}.fhir.json", stem, i + 1),
                       fhir_addendum_text(file, archive, i));
        }
    }
    if (done && ask.formats.count(ExportFormat::json) != 0) {
        done = put(stem + ".events.jsonl", events_text(file));
    }
    return done ? tl::expected<std::size_t, std::string>{files} : tl::unexpected{done.error()};
}

tl::expected<FolderDone, std::string> export_folder(
    const FolderAsk& ask, Archive& archive, const std::function<bool(std::size_t, std::size_t)>& go_on) {
    if (auto taken = take_folder(ask.folder); !taken) {
        return tl::unexpected{taken.error()};
    }
    if (auto key = write_key_and_page(ask.folder, archive.journal().kiosk()); !key) {
        return tl::unexpected{key.error()};
    }
    FolderDone done;
    auto tables = begin_tables(ask);
    std::optional<WholeFile> calendar;
    if (ask.formats.count(ExportFormat::ics) != 0) {
        calendar.emplace(ask.folder / "dates.ics");
        calendar->write(calendar_begin());
    }
    done.of = static_cast<std::size_t>(
        std::count_if(archive.cases().begin(), archive.cases().end(),
                      [&](const auto& listed) { return in_year(listed, ask, archive); }));
    for (const auto& listed : archive.cases()) {
        if (!in_year(listed, ask, archive)) {
            continue;
        }
        if (!go_on(done.cases, done.of)) {
            done.stopped = true;
            return done;  // the tables are not whole: they go with their names never taken
        }
        const auto file = archive.read(listed.name);
        if (!file) {
            return tl::unexpected{
                fmt::format("Case \"{}\" cannot be read; run brimline verify.", listed.name)};
        }
        const auto written = write_case(ask, *file, archive);
        if (!written) {
            return tl::unexpected{written.error()};
        }
        for (auto& table : tables) {
            table.file.write(table_lines(table.table, *file, archive, ask.on));
        }
        if (calendar) {
            calendar->write(calendar_lines(*file, archive, ask));
        }
        done.files += *written;
        ++done.cases;
    }
    if (auto shared = finish_shared(ask, archive, tables, calendar, done.files); !shared) {
        return tl::unexpected{shared.error()};
    }
    (void)go_on(done.cases, done.of);
    return done;
}

}  // namespace brimline::desk
