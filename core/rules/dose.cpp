// Amounts, per kg, volumes and reminders of doses; all exact until a text is asked for.
#include "core/rules/dose.h"

#include <algorithm>
#include <cassert>

namespace brimline::rules {
namespace {

/// Micrograms in one of the unit; 0 for any other unit.
std::int64_t per_unit(std::string_view unit) { return unit == "mg" ? 1000 : unit == "ug" ? 1 : 0; }

}  // namespace

Expected<Micrograms> micrograms(Decimal amount, std::string_view unit) {
    if (per_unit(unit) == 0) {
        return refuse("dose-unit", "A mass is given in mg or mcg.", "Choose the unit of the ampoule.");
    }
    const auto whole = amount.whole(per_unit(unit));
    if (!whole || *whole <= 0) {
        return refuse("out-of-range", "The amount must be above 0 and no finer than 1 mcg.",
                      "Type it again.");
    }
    return Micrograms::of(*whole);
}

Decimal amount_in(Micrograms mass, std::string_view unit) {
    assert(per_unit(unit) != 0);
    return Decimal::of_millionths(mass.in_micrograms() * (Decimal::scale / per_unit(unit)));
}

Fraction per_kg(Micrograms total, Kilograms weight, std::string_view unit) {
    assert(weight.in_tenths() > 0 && per_unit(unit) != 0);
    return {total.in_micrograms() * 10, weight.in_tenths() * per_unit(unit)};
}

Fraction per_kg(Decimal total, Kilograms weight) {
    assert(weight.in_tenths() > 0);
    return {total.in_millionths() * 10, weight.in_tenths() * Decimal::scale};
}

std::string per_kg_text(const Fraction& per_kg) {
    return per_kg.text(per_kg < Fraction{Decimal::of_millionths(100'000)} ? 3 : 2);
}

Fraction dose_volume(Decimal amount, Decimal per_ml) {
    assert(per_ml > Decimal{});
    return {amount.in_millionths(), per_ml.in_millionths()};
}

bool dose_asked(Decimal amount, std::optional<Decimal> usual_low, std::optional<Decimal> usual_high) {
    return (usual_low && amount < *usual_low) || (usual_high && *usual_high < amount);
}

std::optional<Fraction> dose_limit(const Drug& drug, std::optional<int> age, std::optional<Kilograms> weight,
                                   const DosePolicy& policy) {
    std::optional<Fraction> limit;
    const auto lower_to = [&](const Fraction& other) { limit = limit ? std::min(*limit, other) : other; };
    if (drug.remind_above) {
        lower_to(Fraction{*drug.remind_above});
    }
    if (drug.remind_above_older && age && *age >= policy.age_reduced_from) {
        lower_to(Fraction{*drug.remind_above_older});
    }
    if (drug.remind_per_kg && weight) {
        lower_to({drug.remind_per_kg->in_millionths() * weight->in_tenths(), 10 * Decimal::scale});
    }
    return limit;
}

bool dose_reminds(Decimal total, const std::optional<Fraction>& limit) {
    return limit && Fraction{total} > *limit;
}

Fraction dye_mg(Millilitres volume, Decimal mg_per_ml) {
    return {volume.in_tenths() * mg_per_ml.in_millionths(), 10 * Decimal::scale};
}

Fraction dye_mg_per_kg(Millilitres volume, Decimal mg_per_ml, Kilograms weight) {
    assert(weight.in_tenths() > 0);
    return {volume.in_tenths() * mg_per_ml.in_millionths(), weight.in_tenths() * Decimal::scale};
}

}  // namespace brimline::rules
