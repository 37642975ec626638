// SizeView: what Size may show. While the read-back is open nothing here tells a volume; afterwards it tells
// what the agreed volume rests on.
#pragma once
#include "core/case/figures.h"
#include "core/desk/desk.h"

namespace brimline {

/// Why a person may not type the read-back.
enum class ReadBackBar : std::uint8_t {
    none,
    matter_first,  ///< the matter was not looked at, nor was it said that there is none
    assistant,     ///< holds the count
    same_person,   ///< says the number; another person enters it while the scope is in
};
/// Source: 10-decisions A12 and F3. Scripts and late entries go past it; the kiosk's page does not.
[[nodiscard]] ReadBackBar read_back_bar(const CaseState& state, const PersonKnown* typing,
                                        std::string_view says);
/// Only two were named at the pause before the device, so the physician's pedal serves as read-back.
[[nodiscard]] bool pedal_serves(const CaseState& state);

/// What the last look at the matter came to; no numbers.
struct MatterLook {
    Instant at{};
    SalineMethod method{};
    bool judged{false}, agrees{false};
};
[[nodiscard]] std::optional<MatterLook> matter_look(const CaseState& state, const Policy& policy);

/// What an agreed read-back rests on.
struct AgreedBy {
    Noted<ReadBackSaid> read_back;
    std::optional<int> pedal, row;     ///< presses; syringes of the row
    std::optional<Millilitres> scale;  ///< of the bag, with dye
    bool pair{false};                  ///< there is no third witness
};
/// Empty unless the last read-back was equal and nothing went in or out since.
[[nodiscard]] std::optional<AgreedBy> agreed_by(const CaseState& state, const Policy& policy);
/// The last read-back was not equal, and its count hold stands.
[[nodiscard]] bool read_back_differs(const CaseState& state);

}  // namespace brimline
