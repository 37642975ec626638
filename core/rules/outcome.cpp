// Weight outcomes and register rates as exact fractions.
#include "core/rules/outcome.h"

#include <algorithm>
#include <cassert>
#include <vector>

#include "core/rules/body.h"

namespace brimline::rules {
namespace {

/// Below this excess a note says to read the total loss. Source: after.md 7.
constexpr std::int64_t small_excess_kg = 5;

Fraction percent_of(int part, int whole) { return {std::int64_t{100} * part, whole}; }

}  // namespace

Fraction tbwl_percent(Kilograms start, Kilograms end) {
    assert(start.in_tenths() > 0);
    return {100 * (start.in_tenths() - end.in_tenths()), start.in_tenths()};
}

std::optional<Fraction> ewl_percent(Kilograms start, Kilograms end, Centimetres height, Decimal ideal_bmi) {
    const Fraction excess = excess_weight(start, height, ideal_bmi);
    if (excess.numerator() <= 0) {
        return std::nullopt;
    }
    const std::int64_t lost = (start.in_tenths() - end.in_tenths()) * (excess.denominator() / 10);
    return Fraction{100 * lost, excess.numerator()};
}

Fraction bmi_loss(Kilograms start, Kilograms end, Centimetres height) {
    const Fraction first = bmi(start, height);
    const Fraction last = bmi(end, height);
    return {first.numerator() - last.numerator(), first.denominator()};
}

bool excess_small(Kilograms start, Centimetres height, Decimal ideal_bmi) {
    return excess_weight(start, height, ideal_bmi) < Fraction{Decimal::of(small_excess_kg)};
}

bool responder(Kilograms start, Kilograms end, int mark_percent) {
    return tbwl_percent(start, end) >= Fraction{Decimal::of(mark_percent)};
}

RegisterRates register_rates(const RegisterCounts& counts) {
    RegisterRates rates;
    rates.matured = counts.placed - counts.in_place;
    if (rates.matured > 0) {
        rates.early = percent_of(counts.early, rates.matured);
        rates.on_time = percent_of(counts.on_time, rates.matured);
        rates.late_or_not_out =
            percent_of(counts.late + counts.still_in_past_latest + counts.lost, rates.matured);
    }
    return rates;
}

std::optional<Fraction> median_ml(std::span<const Millilitres> volumes) {
    if (volumes.empty()) {
        return std::nullopt;
    }
    std::vector<Millilitres> sorted{volumes.begin(), volumes.end()};
    std::sort(sorted.begin(), sorted.end());
    const Millilitres low = sorted[(sorted.size() - 1) / 2];
    const Millilitres high = sorted[sorted.size() / 2];
    return Fraction{low.in_tenths() + high.in_tenths(), 20};
}

}  // namespace brimline::rules
