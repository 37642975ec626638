// brimline package: one case for the next clinic in one folder: letter, record, events, FHIR document,
// signatures, the public key and how to check. It changes nothing in the store.
#include <fmt/format.h>

#include <algorithm>

#include "app/desk/commands.h"
#include "app/desk/export_folder.h"
#include "core/record/letter.h"

namespace brimline::desk {
namespace {

struct Options {
    std::string name;
    std::filesystem::path data, folder;
};

std::vector<std::string> names_in(const std::filesystem::path& folder) {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator{folder}) {
        const auto name = entry.path().filename().string();
        if (!name.ends_with(".minisig")) {
            names.push_back(name);
        }
    }
    std::sort(names.begin(), names.end());
    return names;
}

tl::expected<void, std::string> write_pdf(const FolderAsk& ask, const CaseFile& file, Archive& archive) {
    const auto pdf = record_pdf(file, archive);
    return pdf ? write_signed(ask, file_stem(file) + ".pdf", *pdf, file, archive)
               : tl::unexpected{pdf.error().say};
}

tl::expected<void, std::string> pack(const Options& options, const CaseFile& file, Archive& archive) {
    if (auto taken = take_folder(options.folder); !taken) {
        return taken;
    }
    const auto& kiosk = archive.journal().kiosk();
    if (auto key = write_key_and_page(options.folder, kiosk); !key) {
        return key;
    }
    const FolderAsk ask{
        options.folder, {ExportFormat::text, ExportFormat::fhir, ExportFormat::json}, true, {}, {}, {}};
    if (const auto written = write_case(ask, file, archive); !written) {
        return tl::unexpected{written.error()};
    }
    if (auto printed = write_pdf(ask, file, archive); !printed) {
        return printed;
    }
    const auto letter = letter_text(file.now(), file.desk, archive.in_force().policy, archive.in_force().zone,
                                    names_in(options.folder), store::minisign_key(kiosk.public_key));
    return write_signed(ask, "letter.txt", letter, file, archive);
}

int run_package(const Options& options) {
    auto archive = Archive::open(options.data);
    if (!archive) {
        return complain(archive.error().say, archive.error().exit_code);
    }
    tell_copy(archive->journal().copied());
    for (const auto& finding : archive->damage()) {
        complain(finding.sentence, 1);
    }
    const auto file = archive->read(options.name);
    if (!file) {
        return complain(fmt::format("There is no case \"{}\".", options.name), 1);
    }
    if (const auto done = pack(options, *file, *archive); !done) {
        return complain(done.error(), 3);
    }
    fmt::print("{}: {} files and their signatures\n", options.folder.string(),
               names_in(options.folder).size());
    return 0;
}

}  // namespace

void add_package(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* command =
        app.add_subcommand("package", "One case for the next clinic: letter, record, document, signatures");
    command->add_option("CASE", options->name, "Name of the case")->required();
    command->add_option("-o,--folder", options->folder, "A new folder")->required()->type_name("DIR");
    add_data_option(*command, options->data);
    command->callback([options, &run] { run = [options] { return run_package(*options); }; });
}

}  // namespace brimline::desk
