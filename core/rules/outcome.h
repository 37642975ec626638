// Outcomes in weight, and the register's rates. Exact fractions; what cannot be computed is empty, never 0.
// Source: after.md 7.
#pragma once
#include <optional>
#include <span>

#include "core/clinic/policy.h"
#include "core/units/fraction.h"

namespace brimline::rules {

/// 100 (start - end) / start; loss positive. Shape: start above 0 (asserted).
[[nodiscard]] Fraction tbwl_percent(Kilograms start, Kilograms end);
/// 100 (start - end) / (start - ideal); empty when start is at or below the ideal weight.
[[nodiscard]] std::optional<Fraction> ewl_percent(Kilograms start, Kilograms end, Centimetres height,
                                                  Decimal ideal_bmi);
/// BMI at start - BMI at end, one exact fraction (never the difference of rounded ones); loss positive.
[[nodiscard]] Fraction bmi_loss(Kilograms start, Kilograms end, Centimetres height);
/// Whether the excess is under 5 kg, so that a note says to read the total loss instead.
[[nodiscard]] bool excess_small(Kilograms start, Centimetres height, Decimal ideal_bmi);
/// At or above the mark.
[[nodiscard]] bool responder(Kilograms start, Kilograms end, int mark_percent);

struct RegisterCounts {
    int placed = 0, in_place = 0, early = 0, on_time = 0, late = 0, still_in_past_latest = 0, lost = 0;
};
/// Percent of matured (placed less those in place and not past latest); empty when none matured.
struct RegisterRates {
    int matured = 0;
    std::optional<Fraction> early, on_time, late_or_not_out;
};
[[nodiscard]] RegisterRates register_rates(const RegisterCounts& counts);
/// Middle value; the mean of the two middle ones, exact; empty of none.
[[nodiscard]] std::optional<Fraction> median_ml(std::span<const Millilitres> volumes);

}  // namespace brimline::rules
