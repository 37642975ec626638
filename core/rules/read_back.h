// The blind read-back of the final volume, and what a volume outside the band asks for. Source: before.md 15.
#pragma once
#include "core/rules/fill.h"

namespace brimline::rules {

/// `equal` within the tolerance (0 by default: to the tenth); `confirmed` = equal and two different people.
struct ReadBack {
    bool equal = false, confirmed = false;
    bool operator==(const ReadBack&) const = default;
};
[[nodiscard]] ReadBack judge_read_back(Millilitres counted, Millilitres said, bool same_person,
                                       Millilitres tolerance);

/// Outside the band: a reason; above the ceiling: withdrawal, or the physician's override.
[[nodiscard]] constexpr bool reason_needed(FillState s) {
    return s == FillState::below || s == FillState::above_band;
}
[[nodiscard]] constexpr bool withdraw_or_override(FillState s) { return s == FillState::above_ceiling; }

}  // namespace brimline::rules
