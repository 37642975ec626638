// Exports into a folder: one pass over the cases, a file at a time, each whole or not there, each with its
// signature.
#pragma once
#include <filesystem>
#include <fstream>
#include <functional>
#include <set>
#include <string>

#include "app/desk/export_texts.h"
#include "core/store/minisign.h"

namespace brimline::desk {

enum class ExportFormat : std::uint8_t { text, pdf, fhir, json, csv, ics };
constexpr auto names_of(ExportFormat) {
    return std::array<std::string_view, 6>{"text", "pdf", "fhir", "json", "csv", "ics"};
}

/// A file that takes its name only when it is whole; until then it is NAME.part, and gone when it is given
/// up.
class WholeFile {
public:
    explicit WholeFile(std::filesystem::path path);
    WholeFile(WholeFile&&) noexcept = default;
    WholeFile& operator=(WholeFile&&) noexcept = delete;
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;
    ~WholeFile();
    void write(std::string_view text);
    /// Errors: a sentence when the disk took it not.
    [[nodiscard]] tl::expected<store::Digest64, std::string> finish();
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_, part_;
    std::ofstream out_;
    store::Digest digest_;
};

struct FolderAsk {
    std::filesystem::path folder;
    std::set<ExportFormat> formats;
    bool sign{true};
    std::optional<int> year;  ///< by the clinic's day of booking
    LocalDate on{};           ///< the day on which the register is read
    Instant made{};           ///< of the calendar: the last entry in the store
};
struct FolderDone {
    std::size_t cases{0}, of{0}, files{0};
    bool stopped{false};
};
/// Writes all cases. `go_on(done, of)` is asked before each case and shows the progress; false stops, and
/// what stands in the folder then is whole. Errors: a sentence.
[[nodiscard]] tl::expected<FolderDone, std::string> export_folder(
    const FolderAsk& ask, Archive& archive, const std::function<bool(std::size_t, std::size_t)>& go_on);

/// The files of one case in these formats (csv and ics are tables of all cases and are left out here).
/// Gives how many files were written. Errors: a sentence.
[[nodiscard]] tl::expected<std::size_t, std::string> write_case(const FolderAsk& ask, const CaseFile& file,
                                                                Archive& archive);
/// The kiosk's public key and the page that says how to check, without us.
[[nodiscard]] tl::expected<void, std::string> write_key_and_page(const std::filesystem::path& folder,
                                                                 const store::Kiosk& kiosk);
/// One text of a case under a name, with its signature when that is asked. Errors: a sentence.
[[nodiscard]] tl::expected<void, std::string> write_signed(const FolderAsk& ask, const std::string& name,
                                                           std::string_view text, const CaseFile& file,
                                                           Archive& archive);
/// Makes the folder, or takes it when it is empty. Errors: a sentence.
[[nodiscard]] tl::expected<void, std::string> take_folder(const std::filesystem::path& folder);

}  // namespace brimline::desk
