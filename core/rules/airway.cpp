// The sleep apnoea score with its two-step rule, ASA class against BMI, Mallampati, and the review of the
// airway.
#include "core/rules/airway.h"

#include <algorithm>
#include <array>

namespace brimline::rules {
namespace {

// The instrument's own fixed limits. Source: Chest 2016;149:631-638, supplement ("more than", "older than").
constexpr Decimal bmi_limit = Decimal::of(35);
constexpr int age_limit = 50;
constexpr int intermediate_from = 3;
constexpr int high_from = 5;
constexpr int two_step_answers = 2;

bool yes(const std::optional<bool>& answer) { return answer.value_or(false); }

ApnoeaRisk risk_of(const StopBang& a, int score, bool two_step) {
    const int first_four = yes(a.snores) + yes(a.tired) + yes(a.observed) + yes(a.pressure);
    const bool beside = yes(a.male) || yes(a.bmi_over) || yes(a.neck_over);
    if (score >= high_from || (two_step && first_four >= two_step_answers && beside)) {
        return ApnoeaRisk::high;
    }
    return score >= intermediate_from ? ApnoeaRisk::intermediate : ApnoeaRisk::low;
}

}  // namespace

std::string_view name_of(ApnoeaRisk risk) {
    static constexpr std::array<std::string_view, 4> names{"low", "intermediate", "high", "incomplete"};
    return names[static_cast<std::size_t>(risk)];
}

StopBangScore stop_bang(const StopBang& answers, bool two_step) {
    const std::array all{answers.snores,   answers.tired,    answers.observed,  answers.pressure,
                         answers.bmi_over, answers.age_over, answers.neck_over, answers.male};
    StopBangScore score;
    score.least = static_cast<int>(std::count_if(all.begin(), all.end(), yes));
    const auto open = std::count_if(all.begin(), all.end(), [](const auto& a) { return !a.has_value(); });
    score.most = score.least + static_cast<int>(open);
    score.risk = open > 0 ? ApnoeaRisk::incomplete : risk_of(answers, score.least, two_step);
    return score;
}

bool stop_bang_bmi(const Fraction& bmi) { return bmi > Fraction{bmi_limit}; }
bool stop_bang_age(int age) { return age > age_limit; }
bool stop_bang_neck(Decimal neck_cm, const AirwayPolicy& policy) { return neck_cm > policy.neck_cm; }

int asa_expected(const Fraction& bmi) {
    if (bmi >= Fraction{Decimal::of(40)}) {
        return 3;
    }
    return bmi >= Fraction{Decimal::of(30)} ? 2 : 1;
}

bool asa_asked(int asa, const Fraction& bmi) { return asa < asa_expected(bmi); }

bool asa_holds(int asa, const AirwayPolicy& policy) { return asa >= policy.hold_from_asa; }

bool airway_reviewed(std::optional<int> asa, std::optional<int> mallampati, ApnoeaRisk risk,
                     bool earlier_trouble, const AirwayPolicy& policy) {
    return (asa && *asa >= policy.review_from_asa) ||
           (mallampati && *mallampati >= policy.review_from_mallampati) || risk == ApnoeaRisk::high ||
           earlier_trouble;
}

int mallampati(const Throat& seen) {
    if (seen.pillars) {
        return 1;
    }
    if (seen.whole_uvula || seen.fauces) {
        return 2;
    }
    return seen.base_of_uvula || seen.soft_palate ? 3 : 4;
}

}  // namespace brimline::rules
