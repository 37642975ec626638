// Readiness for home, modified PADSS. Its pressure item is cut at 40 %, Aldrete's at 50 %: never copy one
// from the other. Source: after.md 2.3.
#pragma once
#include <array>
#include <optional>
#include <span>

#include "core/clinic/policy.h"

namespace brimline::rules {

/// vital signs, walking, nausea, pain, bleeding; 0 to 2 each.
using PadssItems = std::array<int, 5>;
using PadssAnswers = std::array<std::optional<int>, 5>;

/// The worse of systolic pressure and pulse against before: up to 20 % 2, up to 40 % 1, else 0. Empty without
/// both.
[[nodiscard]] std::optional<int> padss_vital(std::optional<int> systolic_before, int systolic_now,
                                             std::optional<int> pulse_before, int pulse_now);
/// 0-3 2, 4-6 1, 7-10 0; published for pain, used for nausea too. Shape: 0 to 10 (asserted).
[[nodiscard]] int symptom_points(int rating);
/// The sum; empty while an item is not answered.
[[nodiscard]] std::optional<int> padss_total(const PadssAnswers& answers);
[[nodiscard]] constexpr bool padss_qualifies(int total, int threshold) { return total >= threshold; }
/// Whether the newest scores qualify as often in a row as the policy asks. Shape: totals in order of time.
[[nodiscard]] bool padss_met(std::span<const int> totals, const DischargePolicy& policy);

}  // namespace brimline::rules
