// Airway and sedation risk: the sleep apnoea questions, ASA class against BMI, Mallampati, what the physician
// looks at. Source: before.md 4.
#pragma once
#include <optional>
#include <string_view>

#include "core/clinic/policy.h"
#include "core/units/fraction.h"

namespace brimline::rules {

/// The eight answers; empty = not answered, which is never "no".
struct StopBang {
    std::optional<bool> snores, tired, observed, pressure, bmi_over, age_over, neck_over, male;
};
enum class ApnoeaRisk : std::uint8_t { low, intermediate, high, incomplete };
[[nodiscard]] std::string_view name_of(ApnoeaRisk risk);
/// `least` = `most` when everything was answered; otherwise the possible span and risk incomplete.
struct StopBangScore {
    int least = 0, most = 0;
    ApnoeaRisk risk = ApnoeaRisk::incomplete;
    bool operator==(const StopBangScore&) const = default;
};
/// 0-2 low, 3-4 intermediate, 5-8 high; with the two-step rule also two of the first four together with sex,
/// BMI or neck. Source: before.md 4 (Chest 2016;149:631-638, supplement).
[[nodiscard]] StopBangScore stop_bang(const StopBang& answers, bool two_step);

/// Items filled from the record, exact and strictly greater: 35.0, 50 years and the neck limit itself score
/// 0.
[[nodiscard]] bool stop_bang_bmi(const Fraction& bmi);
[[nodiscard]] bool stop_bang_age(int age);
[[nodiscard]] bool stop_bang_neck(Decimal neck_cm, const AirwayPolicy& policy);

/// The lowest ASA class that the BMI suggests: 30 and up 2, 40 and up 3, else 1. Source: before.md 4,
/// asa-versus-bmi.
[[nodiscard]] int asa_expected(const Fraction& bmi);
/// Whether a chosen class is asked about once. Shape: 1 to 6.
[[nodiscard]] bool asa_asked(int asa, const Fraction& bmi);
/// Whether the class stops for the physician. Source: before.md 4, asa-limit.
[[nodiscard]] bool asa_holds(int asa, const AirwayPolicy& policy);

/// Whether the airway is shown to the physician. Empty values raise nothing. Source: before.md 4,
/// airway-review.
[[nodiscard]] bool airway_reviewed(std::optional<int> asa, std::optional<int> mallampati, ApnoeaRisk risk,
                                   bool earlier_trouble, const AirwayPolicy& policy);

/// What is seen with the mouth open, tongue out, no "ah".
struct Throat {
    bool pillars = false, fauces = false, whole_uvula = false, base_of_uvula = false, soft_palate = false;
};
/// 1 to 4. Source: before.md 4, mallampati.
[[nodiscard]] int mallampati(const Throat& seen);

}  // namespace brimline::rules
