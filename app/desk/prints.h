// What is printed of a case, as finished PDFs: record, patient's sheet, balloon card; and the paper sheet for
// when the kiosk is down. For the command line and for the kiosk's buttons alike.
#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "app/loop/room.h"
#include "core/print/canvas.h"

namespace brimline {

enum class PrintKind { record, leaflet, card, downtime };
constexpr auto names_of(PrintKind) {
    return std::array<std::string_view, 4>{"record", "leaflet", "card", "downtime"};
}
/// Everything that is not the record is printed from these.
struct PrintSource {
    const CaseState* state{};  ///< null for the downtime sheet
    const Desk& desk;
    const Policy& policy;
    const Zone& zone;
    Instant now;
    std::filesystem::path assets;
};
/// "a4", "letter", "card"; the policy's paper where it is empty. Errors: unknown-paper.
[[nodiscard]] Expected<print::PageSize> page_size(const std::string& paper, const Policy& policy);

/// The patient's sheet. `language` empty = the patient's own where the clinic approved it, else the clinic's.
/// Errors: language-not-approved, sheet-words, does-not-fit.
[[nodiscard]] Expected<std::string> leaflet_pdf_of(const PrintSource& source, const std::string& language,
                                                   print::PageSize page);
/// The card. Errors: as above, and no-balloon where none stays in.
[[nodiscard]] Expected<std::string> card_pdf_of(const PrintSource& source, const std::string& language,
                                                print::PageSize page);
/// The paper for a morning without a kiosk, by the policy.
[[nodiscard]] Expected<std::string> downtime_pdf_of(const PrintSource& source, print::PageSize page);
/// A record as it goes onto paper: how it stood at the seal, what was added since, and the seal itself.
struct RecordSource {
    const CaseState& told;  // at the seal, else as it stands
    const CaseState& now;
    const Desk& desk_then;
    const Desk& desk_now;
    const Policy& policy_then;
    const Policy& policy_now;
    const Zone& zone;
    const store::SealedRow* sealed{};  // null when it is not sealed
    std::string key;                   // of the kiosk that sealed it, hex
};
[[nodiscard]] Expected<std::string> record_pdf_of(const RecordSource& source, print::PageSize page);
/// The record: the sealed one as it was sealed, with what was added since; else the case as it stands.
[[nodiscard]] Expected<std::string> record_pdf_of(const Reading& reading, const CaseState& state,
                                                  print::PageSize page);

}  // namespace brimline
