// Findings into what stops and what is looked at again.
#include "core/rules/look.h"

#include <algorithm>

namespace brimline::rules {
namespace {

bool listed(const std::vector<std::string>& list, const std::string& id) {
    return std::find(list.begin(), list.end(), id) != list.end();
}

}  // namespace

bool hernia_stops(Decimal size_cm, Decimal ceiling_cm) { return size_cm > ceiling_cm; }

LookOutcome judge_look(std::span<const Seen> findings, const LookPolicy& policy) {
    LookOutcome outcome;
    for (const Seen& seen : findings) {
        const bool graded = seen.id == "oesophagitis";
        const bool sized = seen.id == "hiatal-hernia";
        const bool by_grade = graded && seen.grade && listed(policy.stopping_grades, *seen.grade);
        const bool by_size = sized && seen.size_cm && hernia_stops(*seen.size_cm, policy.hernia_ceiling_cm);
        const bool unmeasured = (graded && !seen.grade) || (sized && !seen.size_cm);
        if (listed(policy.stopping_findings, seen.id) || by_grade || by_size) {
            outcome.stopping.push_back(seen.id);
        } else if (listed(policy.review_findings, seen.id) || unmeasured) {
            outcome.review.push_back(seen.id);
        }
        if (unmeasured) {
            outcome.unmeasured.push_back(seen.id);
        }
    }
    return outcome;
}

}  // namespace brimline::rules
