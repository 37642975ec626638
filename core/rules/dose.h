// Doses: totals, per kg, volume, and a check of typing. Never advice on a dose. Source: before.md 9.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "core/clinic/policy.h"
#include "core/units/fraction.h"

namespace brimline::rules {

/// An amount in mg or ug as micrograms. Errors: out-of-range when it is finer than a microgram or no amount,
/// dose-unit for any other unit.
[[nodiscard]] Expected<Micrograms> micrograms(Decimal amount, std::string_view unit);
/// Micrograms as an amount in mg or ug, exact. Shape: unit mg or ug (asserted).
[[nodiscard]] Decimal amount_in(Micrograms mass, std::string_view unit);

/// Per kg of body weight in that unit, exact. Shape: weight above 0 (asserted).
[[nodiscard]] Fraction per_kg(Micrograms total, Kilograms weight, std::string_view unit);
/// The same for an amount in any unit.
[[nodiscard]] Fraction per_kg(Decimal total, Kilograms weight);
/// Two decimals, three when below 0.1. Source: before.md 9, dose-total.
[[nodiscard]] std::string per_kg_text(const Fraction& per_kg);
/// mL = amount / concentration, exact; .text(2) is shown. Shape: per_ml above 0 (asserted), in the amount's
/// unit.
[[nodiscard]] Fraction dose_volume(Decimal amount, Decimal per_ml);

/// Outside the usual single span, ends included; a drug without a span is not asked. Source: before.md 9,
/// dose-span.
[[nodiscard]] bool dose_asked(Decimal amount, std::optional<Decimal> usual_low,
                              std::optional<Decimal> usual_high);
/// The total above which one quiet reminder comes: the older patient's from that age on; the lower of it and
/// the limit per kg (weight not known = without). Empty = off. Source: before.md 9, dose-cumulative,
/// lidocaine.
[[nodiscard]] std::optional<Fraction> dose_limit(const Drug& drug, std::optional<int> age,
                                                 std::optional<Kilograms> weight, const DosePolicy& policy);
/// Above; equal is not above.
[[nodiscard]] bool dose_reminds(Decimal total, const std::optional<Fraction>& limit);

/// Dye in mg = mL x mg/mL, exact, in micrograms' precision. Source: before.md 11, dye-dose.
[[nodiscard]] Fraction dye_mg(Millilitres volume, Decimal mg_per_ml);
/// The same per kg.
[[nodiscard]] Fraction dye_mg_per_kg(Millilitres volume, Decimal mg_per_ml, Kilograms weight);

}  // namespace brimline::rules
