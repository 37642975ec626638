// Body measures: BMI as an exact fraction, its class and how it is shown, weight at the ideal BMI, typing
// limits. Source: before.md 3.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "core/clinic/policy.h"
#include "core/units/fraction.h"

namespace brimline::rules {

/// kg / m2, exact. Shape: height above 0 (asserted).
[[nodiscard]] Fraction bmi(Kilograms weight, Centimetres height);

enum class BmiClass : std::uint8_t { underweight, normal, overweight, obesity_1, obesity_2, obesity_3 };
[[nodiscard]] std::string_view name_of(BmiClass c);
/// The lower bound belongs to the class: 18.5, 25, 30, 35, 40. Source: before.md 3, bmi-class (WHO 894).
[[nodiscard]] BmiClass bmi_class(const Fraction& bmi);

/// As shown: one decimal; two where one would sit on the other side of a limit; cut to two where even two
/// would. Shape: `above` = further limits that only more than counts as beyond (35 of the questionnaire, 40
/// of the policy). Source: before.md 0, display-no-contradiction.
[[nodiscard]] std::string bmi_text(const Fraction& bmi, std::span<const Decimal> above = {});

/// Weight in kg at that BMI, and what is above it (never below 0). Source: before.md 3, ideal-weight.
[[nodiscard]] Fraction ideal_weight(Centimetres height, Decimal ideal_bmi);
[[nodiscard]] Fraction excess_weight(Kilograms weight, Centimetres height, Decimal ideal_bmi);

/// Shown to the physician, no hold. "Below" and "above" are strict. Source: before.md 3, bmi-eligibility,
/// age-limits.
[[nodiscard]] bool bmi_reviewed(const Fraction& bmi, const BodyPolicy& policy);
[[nodiscard]] bool age_reviewed(int age, const BodyPolicy& policy);
/// Completed years. Errors: born-in-future, born-too-long-ago (more than 120 years). Source: before.md 3,
/// birth-date.
[[nodiscard]] Expected<int> age_checked(LocalDate born, LocalDate on);

enum class Typed : std::uint8_t { accept, ask, refuse };
[[nodiscard]] std::string_view name_of(Typed t);
/// Accept inside ask, ask once outside it, refuse outside hard; ends included. Source: before.md 0,
/// limits-two-steps.
[[nodiscard]] Typed judge_typed(Decimal value, const Limits& limits);
/// For a height refused because it was typed in metres: the same in cm. Source: before.md 3,
/// height-in-metres.
[[nodiscard]] std::optional<Decimal> height_suggested(Decimal typed, const Limits& limits);

/// Units, exact by the 1959 agreement. Source: before.md 3, units; etco2: 1 mmHg = 0.133322 kPa.
[[nodiscard]] Fraction kg_from_lb(Decimal lb);
[[nodiscard]] Fraction lb_from_kg(Decimal kg);
[[nodiscard]] Fraction cm_from_inches(Decimal feet, Decimal inches);
[[nodiscard]] Fraction kpa_from_mmhg(Decimal mmhg);

}  // namespace brimline::rules
