// Sorting a day.
#include "core/desk/today.h"

#include <algorithm>

#include "core/desk/register.h"

namespace brimline {
namespace {

/// Where a case stands in time: as planned, else when its first entry was made.
Instant place_in_time(const CaseState& state) {
    if (state.planned) {
        return *state.planned;
    }
    return state.history.empty() ? Instant{} : state.history.front().first.stamp.happened;
}

}  // namespace

std::vector<Listed> list_of_day(const Desk& desk, const Zone& zone, Instant now) {
    const auto today = zone.date_of(now);
    std::vector<Listed> list;
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        if (state == nullptr || state->cancelled) {
            continue;
        }
        const auto day = zone.date_of(place_in_time(*state));
        const bool earlier = day < today && !state->sealed;
        if (day == today || earlier) {
            list.push_back({state, stage_of(*state, zone, now), earlier});
        }
    }
    std::stable_sort(list.begin(), list.end(), [](const Listed& a, const Listed& b) {
        return a.overdue != b.overdue ? a.overdue : place_in_time(*a.state) < place_in_time(*b.state);
    });
    return list;
}

std::vector<DueOut> due_out(const Desk& desk, const Policy& policy, const Zone& zone, Instant now) {
    const auto today = zone.date_of(now);
    std::vector<DueOut> list;
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        const auto entry = state == nullptr ? std::nullopt : entry_on(*state, desk, policy, zone, today);
        if (entry && entry->open() && entry->days_left <= policy.dwell.soon_days) {
            list.push_back({state, entry->placement.due, entry->days_left, is_overdue(*entry, today)});
        }
    }
    std::stable_sort(list.begin(), list.end(),
                     [](const DueOut& a, const DueOut& b) { return a.due < b.due; });
    return list;
}

}  // namespace brimline
