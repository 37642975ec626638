// Worked examples of body measures: BMI, ideal weight, typing limits, units, age.
#include "app/desk/rules/rule.h"
#include "core/rules/body.h"

namespace brimline::worked {
namespace {

constexpr std::string_view no_measure = "out-of-range";

bool measured(const Inputs& in) {
    return in.kg("weight_kg") > Kilograms{} && in.cm("height_cm") > Centimetres{};
}

Outputs answer_bmi(const Inputs& in) {
    if (!measured(in)) {
        return refused(no_measure);
    }
    const Fraction bmi = rules::bmi(in.kg("weight_kg"), in.cm("height_cm"));
    Outputs out;
    out.put_shown("bmi_display", rules::bmi_text(bmi))
        .put("who_class", rules::name_of(rules::bmi_class(bmi)));
    return out;
}

Outputs answer_ideal(const Inputs& in) {
    if (!measured(in)) {
        return refused(no_measure);
    }
    const Decimal ideal_bmi = in.house().body.ideal_bmi;
    Outputs out;
    out.put("ideal_kg", rules::ideal_weight(in.cm("height_cm"), ideal_bmi), 1)
        .put("excess_kg", rules::excess_weight(in.kg("weight_kg"), in.cm("height_cm"), ideal_bmi), 1);
    return out;
}

Outputs answer_typed(const Inputs& in) {
    const bool height = in.text("field") == "height_cm";
    const Limits limits =
        limits_over(height ? in.house().body.height_cm : in.house().body.weight_kg, in.policy());
    const Decimal value = in.decimal("value");
    Outputs out;
    out.put("result", rules::name_of(rules::judge_typed(value, limits)));
    if (height) {
        out.put("suggest", rules::height_suggested(value, limits));
    }
    return out;
}

Outputs answer_units(const Inputs& in) {
    Outputs out;
    if (const auto lb = in.maybe_decimal("weight_lb")) {
        out.put("weight_kg", rules::kg_from_lb(*lb), 1);
    }
    if (const auto kg = in.maybe_decimal("weight_kg")) {
        out.put("weight_lb", rules::lb_from_kg(*kg), 1);
    }
    if (in.has("feet") || in.has("inches")) {
        out.put("height_cm", rules::cm_from_inches(in.decimal("feet"), in.decimal("inches")), 1);
    }
    if (const auto mmhg = in.maybe_decimal("etco2_mmHg")) {
        out.put("etco2_kPa", rules::kpa_from_mmhg(*mmhg), 1);
    }
    return out;
}

Outputs answer_age(const Inputs& in) {
    const auto age = rules::age_checked(in.date("birth"), in.date("on"));
    if (!age) {
        return refused(age.error().code);
    }
    Outputs out;
    out.put("age_years", *age).put("refused", false);
    return out;
}

}  // namespace

Limits limits_over(Limits house, const Inputs& policy) {
    if (const auto hard = policy.decimals("hard"); hard.size() == 2) {
        house.hard_low = hard[0];
        house.hard_high = hard[1];
    }
    if (const auto ask = policy.decimals("ask"); ask.size() == 2) {
        house.ask_low = ask[0];
        house.ask_high = ask[1];
    }
    return house;
}

std::vector<Rule> body_rules() {
    constexpr std::string_view who = "before.md 0 and 3: WHO Technical Report Series 894 (2000)";
    return {
        {"bmi", "weight_kg: tenths, height_cm: tenths",
         "bmi_display: decimal, who_class: text, refused?: true/false, reason?: text", who, answer_bmi},
        {"ideal-weight", "weight_kg: tenths, height_cm: tenths",
         "ideal_kg: decimal, excess_kg: decimal, refused?: true/false, reason?: text",
         "before.md 3: Surg Obes Relat Dis 2015;11:489-506 (from memory)", answer_ideal},
        {"anthropometry-input",
         "field: one of weight_kg|height_cm, value: decimal, policy?: {hard?: list of decimal, ask?: list of "
         "decimal}",
         "result: text, suggest?: decimal", "before.md 0 and 3: case design, common practice", answer_typed},
        {"units",
         "weight_lb?: decimal, weight_kg?: decimal, feet?: decimal, inches?: decimal, etco2_mmHg?: decimal",
         "weight_kg?: decimal, weight_lb?: decimal, height_cm?: decimal, etco2_kPa?: decimal",
         "before.md 3 and 7: 16 CFR 500.19 (agreement of 1959); 1 mmHg = 0.133322 kPa", answer_units},
        {"age", "birth: time, on: time", "age_years?: whole, refused?: true/false, reason?: text",
         "before.md 3: house rule on 29 February, case design", answer_age},
    };
}

}  // namespace brimline::worked
