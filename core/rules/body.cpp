// BMI and what hangs on it, in exact fractions of the tenths that were typed.
#include "core/rules/body.h"

#include <algorithm>
#include <array>
#include <cassert>

namespace brimline::rules {
namespace {

/// Lower bounds of the classes above underweight. Source: WHO Technical Report Series 894 (2000).
constexpr std::array<Decimal, 5> class_bounds{Decimal::of_millionths(18'500'000), Decimal::of(25),
                                              Decimal::of(30), Decimal::of(35), Decimal::of(40)};

/// The oldest that a birth date is taken for. Source: before.md 3, birth-date (case design).
constexpr int oldest_years = 120;

bool contradicts(const Fraction& exact, Decimal shown, std::span<const Decimal> above) {
    const Fraction seen{shown};
    const bool class_moved = std::any_of(class_bounds.begin(), class_bounds.end(), [&](Decimal bound) {
        return (exact >= Fraction{bound}) != (seen >= Fraction{bound});
    });
    return class_moved || std::any_of(above.begin(), above.end(), [&](Decimal limit) {
               return (exact > Fraction{limit}) != (seen > Fraction{limit});
           });
}

}  // namespace

Fraction bmi(Kilograms weight, Centimetres height) {
    assert(height.in_tenths() > 0);
    return {weight.in_tenths() * 100'000, height.in_tenths() * height.in_tenths()};  // (w/10) / (h/1000)^2
}

std::string_view name_of(BmiClass c) {
    static constexpr std::array<std::string_view, 6> names{"underweight", "normal",    "overweight",
                                                           "obesity-1",   "obesity-2", "obesity-3"};
    return names[static_cast<std::size_t>(c)];
}

BmiClass bmi_class(const Fraction& bmi) {
    const auto reached = std::count_if(class_bounds.begin(), class_bounds.end(),
                                       [&](Decimal bound) { return bmi >= Fraction{bound}; });
    return static_cast<BmiClass>(reached);
}

std::string bmi_text(const Fraction& bmi, std::span<const Decimal> above) {
    for (const int places : {1, 2}) {
        if (!contradicts(bmi, bmi.rounded(places), above)) {
            return bmi.text(places);
        }
    }
    return bmi.cut(2).rounded(2);
}

Fraction ideal_weight(Centimetres height, Decimal ideal_bmi) {
    const auto h = height.in_tenths();
    return {ideal_bmi.in_millionths() * h * h, std::int64_t{1'000'000'000'000}};  // millionths x (h/1000)^2
}

Fraction excess_weight(Kilograms weight, Centimetres height, Decimal ideal_bmi) {
    const Fraction ideal = ideal_weight(height, ideal_bmi);
    const std::int64_t own = weight.in_tenths() * (ideal.denominator() / 10);
    return {std::max<std::int64_t>(own - ideal.numerator(), 0), ideal.denominator()};
}

bool bmi_reviewed(const Fraction& bmi, const BodyPolicy& policy) {
    return bmi < Fraction{policy.review_bmi_below} || bmi > Fraction{policy.review_bmi_above};
}

bool age_reviewed(int age, const BodyPolicy& policy) {
    return age < policy.review_age_below || age > policy.review_age_above;
}

Expected<int> age_checked(LocalDate born, LocalDate on) {
    if (born > on) {
        return refuse("born-in-future", "This birth date is later than today.", "Check the year.");
    }
    if (born < add_months(on, -12 * oldest_years)) {
        return refuse("born-too-long-ago", "This birth date is more than 120 years ago.", "Check the year.");
    }
    return age_on(born, on);
}

std::string_view name_of(Typed t) {
    static constexpr std::array<std::string_view, 3> names{"accept", "ask", "refuse"};
    return names[static_cast<std::size_t>(t)];
}

Typed judge_typed(Decimal value, const Limits& limits) {
    if (value < limits.hard_low || limits.hard_high < value) {
        return Typed::refuse;
    }
    return value < limits.ask_low || limits.ask_high < value ? Typed::ask : Typed::accept;
}

std::optional<Decimal> height_suggested(Decimal typed, const Limits& limits) {
    const Decimal in_cm = typed * 100;
    const bool helps = judge_typed(typed, limits) == Typed::refuse && typed < limits.hard_low &&
                       typed > Decimal{} && judge_typed(in_cm, limits) != Typed::refuse;
    return helps ? std::optional{in_cm} : std::nullopt;
}

Fraction kg_from_lb(Decimal lb) {
    return {lb.in_millionths() * 45'359'237, std::int64_t{100'000'000'000'000}};
}

Fraction lb_from_kg(Decimal kg) { return {kg.in_millionths() * 100, std::int64_t{45'359'237}}; }

Fraction cm_from_inches(Decimal feet, Decimal inches) {
    return {(feet * 12 + inches).in_millionths() * 254, 100 * Decimal::scale};
}

Fraction kpa_from_mmhg(Decimal mmhg) { return {mmhg.in_millionths() * 133'322, Decimal::scale * 1'000'000}; }

}  // namespace brimline::rules
