// Sorting the bays.
#include "core/desk/bays.h"

#include <algorithm>
#include <cstdint>

#include "core/rules/vitals.h"

namespace brimline {
namespace {

Lateness lateness_of(Instant due, Instant now, const VitalsPolicy& policy) {
    switch (rules::vitals_state(due, now, policy.interval, policy.lead)) {
        case rules::DueState::overdue_high:
            return Lateness::overdue;
        case rules::DueState::overdue:
        case rules::DueState::soon:
            return Lateness::due;
        default:
            return Lateness::none;
    }
}

BayPatient patient_of(const CaseState& s, const Policy& policy, Instant now) {
    BayPatient one;
    one.state = &s;
    one.coming = !s.accepted;
    one.due = next_vitals_due(s, policy);
    if (one.due) {
        one.lateness = lateness_of(*one.due, now, policy.vitals);
    }
    one.score = s.scores.empty() ? nullptr : &s.scores.back();
    one.fit = fit_since(s, policy);
    for (const auto& set : s.vitals) {
        if (set.is.not_taken) {
            continue;
        }
        one.last = &set;
        if (s.accepted && set.stamp.happened >= s.accepted->stamp.happened && set.is.spo2) {
            one.lowest_here = std::min(one.lowest_here.value_or(*set.is.spo2), *set.is.spo2);
        }
    }
    return one;
}

}  // namespace

std::vector<BayPatient> bays_of(const Desk& desk, const Policy& policy, Instant now) {
    std::vector<BayPatient> bays;
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        if (state != nullptr && !state->discharged && !state->cancelled &&
            (state->accepted || state->offered || state->left_room)) {
            bays.push_back(patient_of(*state, policy, now));
        }
    }
    std::stable_sort(bays.begin(), bays.end(), [](const BayPatient& a, const BayPatient& b) {
        if (a.coming != b.coming) {
            return b.coming;
        }
        return a.due.value_or(Instant::of_us(INT64_MAX)) < b.due.value_or(Instant::of_us(INT64_MAX));
    });
    return bays;
}

}  // namespace brimline
