// PlaceView: what Place still misses, how a label stands, and which scans failed. Nothing is decided here:
// whatever is missing may stay missing, and becomes an open item.
#pragma once
#include "core/case/figures.h"
#include "core/desk/desk.h"

namespace brimline {

/// What belongs to Place, in the order in which the kiosk points to it.
enum class PlaceStep : std::uint8_t { label, volume, saline, dye, passed, position, ready };
constexpr auto names_of(PlaceStep) {
    return std::array<std::string_view, 7>{"label", "volume", "saline", "dye", "passed", "position", "ready"};
}
/// The steps without an entry for the device in hand, in order. An unreadable label is an entry.
[[nodiscard]] std::vector<PlaceStep> place_missing(const CaseState& state);

/// How the parts of a label stand; empty where the part is not known.
struct LabelStanding {
    std::optional<bool> in_date, lot_free;  ///< not expired today; on no recall list
};
[[nodiscard]] LabelStanding label_standing(const std::optional<std::string>& lot,
                                           const std::optional<LocalDate>& expiry, const Desk& desk,
                                           const Policy& policy, LocalDate today);

/// A label as far as it is typed.
struct TypedLabelStanding {
    std::optional<bool> number_fits;     ///< 14 digits are there, and the check digit is theirs
    std::optional<LocalDate> expiry;     ///< of six digits that are a date
    bool expiry_wrong{false};            ///< six digits that are none
    std::optional<bool> last_four_same;  ///< four digits were read aloud, and they are those typed
    [[nodiscard]] bool complete() const {
        return number_fits == true && !expiry_wrong && last_four_same == true;
    }
};
/// `read_aloud` is compared with the end of the serial, or of the number where there is no serial.
[[nodiscard]] TypedLabelStanding typed_standing(const TypedLabel& typed, const std::string& read_aloud,
                                                LocalDate today);

/// Scans that could not be read since the last device was opened.
[[nodiscard]] std::vector<Stamp> failed_scans(const CaseState& state);

/// Filling would cross gate 3 now: nobody said that the position is seen, and nothing is in.
[[nodiscard]] bool fill_asks_position(const CaseState& state);

}  // namespace brimline
