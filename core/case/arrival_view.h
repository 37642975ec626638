// ArrivalView: what Arrival shows of each section, who may override a hold now, and what is missing.
#pragma once
#include "core/case/figures.h"
#include "core/desk/desk.h"

namespace brimline {

/// How an override is entered now. Source: 10-decisions A4.
enum class OverrideBy : std::uint8_t {
    own_pin,  ///< the chosen person is a physician
    said,     ///< the scope is in: another enters what the physician says, to countersign
    nobody,   ///< a physician must enter it
};
[[nodiscard]] OverrideBy override_by(const CaseState& state, const PersonKnown* chosen);
/// A physician may go on over a hold of this class.
[[nodiscard]] bool may_be_overridden(const Hold& hold);

}  // namespace brimline
