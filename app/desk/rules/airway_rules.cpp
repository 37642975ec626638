// Worked examples of airway and sedation risk.
#include <algorithm>

#include "app/desk/rules/rule.h"
#include "core/rules/airway.h"
#include "core/rules/body.h"

namespace brimline::worked {
namespace {

rules::StopBang answers_of(const Inputs& in) {
    rules::StopBang answers;
    answers.snores = in.maybe_truth("snore");
    answers.tired = in.maybe_truth("tired");
    answers.observed = in.maybe_truth("observed");
    answers.pressure = in.maybe_truth("pressure");
    answers.bmi_over = in.maybe_truth("bmi_gt_35");
    answers.age_over = in.maybe_truth("age_gt_50");
    answers.neck_over = in.maybe_truth("neck_gt_40cm");
    answers.male = in.maybe_truth("male");
    return answers;
}

Outputs put_score(const rules::StopBangScore& score) {
    Outputs out;
    if (score.least == score.most) {
        out.put("score", score.least);
    }
    out.put("score_min", score.least).put("score_max", score.most).put("risk", rules::name_of(score.risk));
    return out;
}

Outputs answer_stop_bang(const Inputs& in) {
    return put_score(rules::stop_bang(answers_of(in), in.house().airway.two_step));
}

Outputs answer_derived(const Inputs& in) {
    const auto age = rules::age_checked(in.date("birth"), in.date("on"));
    if (!age || in.kg("weight_kg") <= Kilograms{} || in.cm("height_cm") <= Centimetres{}) {
        return refused(age ? "out-of-range" : age.error().code);
    }
    rules::StopBang answers = answers_of(in);
    const bool bmi = rules::stop_bang_bmi(rules::bmi(in.kg("weight_kg"), in.cm("height_cm")));
    const bool neck = rules::stop_bang_neck(in.decimal("neck_cm"), in.house().airway);
    answers.bmi_over = bmi;
    answers.age_over = rules::stop_bang_age(*age);
    answers.neck_over = neck;
    Outputs out = put_score(rules::stop_bang(answers, in.house().airway.two_step));
    out.put("bmi_item", bmi).put("age_item", rules::stop_bang_age(*age)).put("neck_item", neck);
    return out;
}

Outputs answer_asa(const Inputs& in) {
    if (in.kg("weight_kg") <= Kilograms{} || in.cm("height_cm") <= Centimetres{}) {
        return refused("out-of-range");
    }
    const Fraction bmi = rules::bmi(in.kg("weight_kg"), in.cm("height_cm"));
    Outputs out;
    out.put("ask", rules::asa_asked(in.whole("asa_class"), bmi))
        .put("lowest_expected", rules::asa_expected(bmi));
    return out;
}

Outputs answer_review(const Inputs& in) {
    auto risk = rules::ApnoeaRisk::incomplete;
    for (const auto one :
         {rules::ApnoeaRisk::low, rules::ApnoeaRisk::intermediate, rules::ApnoeaRisk::high}) {
        risk = rules::name_of(one) == in.text("stop_bang_risk") ? one : risk;
    }
    Outputs out;
    out.put("physician_review",
            rules::airway_reviewed(in.maybe_whole("asa_class"), in.maybe_whole("mallampati"), risk,
                                   in.truth("previous_sedation_trouble"), in.house().airway));
    return out;
}

Outputs answer_mallampati(const Inputs& in) {
    const auto seen = in.texts("seen");
    const auto has = [&](std::string_view what) {
        return std::find(seen.begin(), seen.end(), what) != seen.end();
    };
    rules::Throat throat;
    throat.pillars = has("pillars");
    throat.fauces = has("fauces");
    throat.whole_uvula = has("uvula");
    throat.base_of_uvula = has("base of uvula");
    throat.soft_palate = has("soft palate");
    Outputs out;
    out.put("mallampati", rules::mallampati(throat));
    return out;
}

}  // namespace

std::vector<Rule> airway_rules() {
    constexpr std::string_view chest =
        "before.md 4: Chest 2016;149:631-638, 10.1378/chest.15-0903, supplement";
    return {
        {"stop-bang",
         "snore?: true/false, tired?: true/false, observed?: true/false, pressure?: true/false, "
         "bmi_gt_35?: true/false, age_gt_50?: true/false, neck_gt_40cm?: true/false, male?: true/false",
         "score?: whole, risk: text, score_min?: whole, score_max?: whole", chest, answer_stop_bang},
        {"stop-bang-derived",
         "weight_kg: tenths, height_cm: tenths, birth: time, on: time, neck_cm: decimal, male?: true/false, "
         "snore?: true/false, tired?: true/false, observed?: true/false, pressure?: true/false",
         "bmi_item: true/false, age_item: true/false, neck_item: true/false, score?: whole, risk: text, "
         "score_min?: whole, score_max?: whole, refused?: true/false, reason?: text",
         chest, answer_derived},
        {"asa-class", "weight_kg: tenths, height_cm: tenths, asa_class: whole",
         "ask: true/false, lowest_expected: whole, refused?: true/false, reason?: text",
         "before.md 4: ASA Physical Status Classification, 13 Dec 2020 (secondary pages)", answer_asa},
        {"airway-review",
         "asa_class?: whole, mallampati?: whole, stop_bang_risk?: one of low|intermediate|high|incomplete, "
         "previous_sedation_trouble?: true/false",
         "physician_review: true/false", "before.md 4: Endoscopy 2015;47:1175-1189, rec. 2 (in part)",
         answer_review},
        {"mallampati", "seen: list of one of hard palate|soft palate|fauces|uvula|base of uvula|pillars",
         "mallampati: whole", "before.md 4: Anaesthesia 1987;42:487-490 (tables in open papers)",
         answer_mallampati},
    };
}

}  // namespace brimline::worked
