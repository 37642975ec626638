// What Look shows, from the state and the policy alone.
#include "core/case/look_view.h"

#include <algorithm>
#include <span>

#include "core/rules/look.h"

namespace brimline {

FindingWeight weight_of_finding(const Finding& finding, const Policy& policy) {
    const rules::Seen seen{finding.kind, finding.grade, finding.size_cm};
    const auto judged = rules::judge_look(std::span{&seen, 1}, policy.look);
    if (judged.stop()) {
        return FindingWeight::stopping;
    }
    return judged.review.empty() ? FindingWeight::plain : FindingWeight::review;
}

std::optional<FindingSeen> finding_seen(const CaseState& state, const Policy& policy, std::string_view kind) {
    const auto found = std::find_if(state.findings.rbegin(), state.findings.rend(),
                                    [&](const Noted<Finding>& f) { return f.is.kind == kind; });
    if (found == state.findings.rend()) {
        return std::nullopt;
    }
    return FindingSeen{*found, weight_of_finding(found->is, policy)};
}

GoSaid go_said(const CaseState& state) {
    if (!state.go && !state.no_go) {
        return GoSaid::nothing;
    }
    if (!state.go || !state.no_go) {
        return state.go ? GoSaid::go : GoSaid::no_go;
    }
    return state.go->seq > state.no_go->stamp.seq ? GoSaid::go : GoSaid::no_go;
}

bool go_needs_override(const CaseState& state) { return state.standing("look-stopping-finding") != nullptr; }

}  // namespace brimline
