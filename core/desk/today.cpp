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

struct Day {
    const Zone& zone;
    Instant now;
    std::vector<Listed> list{};

    void look_at(const CaseState& state) {
        if (state.cancelled) {
            return;
        }
        const auto today = zone.date_of(now);
        const auto day = zone.date_of(place_in_time(state));
        const bool earlier = day < today && !state.sealed;
        if (day == today || earlier) {
            list.push_back({&state, stage_of(state, zone, now), earlier});
        }
    }
    [[nodiscard]] std::vector<Listed> sorted() {
        std::stable_sort(list.begin(), list.end(), [](const Listed& a, const Listed& b) {
            return a.overdue != b.overdue ? a.overdue : place_in_time(*a.state) < place_in_time(*b.state);
        });
        return std::move(list);
    }
};

void put_due(const RegisterEntry& entry, const Policy& policy, LocalDate today, std::vector<DueOut>& list) {
    if (entry.open() && entry.days_left <= policy.dwell.soon_days) {
        list.push_back({entry.state, entry.placement.due, entry.days_left, is_overdue(entry, today)});
    }
}

std::vector<DueOut> by_due(std::vector<DueOut> list) {
    std::stable_sort(list.begin(), list.end(), [](const DueOut& a, const DueOut& b) {
        return a.due != b.due ? a.due < b.due : a.state->name < b.state->name;
    });
    return list;
}

}  // namespace

std::vector<Listed> list_of_day(const Desk& desk, const Zone& zone, Instant now) {
    Day day{zone, now};
    for (const auto& name : desk.case_order) {
        if (const auto* state = desk.find_case(name)) {
            day.look_at(*state);
        }
    }
    return day.sorted();
}

std::vector<Listed> list_of_day(const DeskBook& book, const Zone& zone, Instant now) {
    Day day{zone, now};
    book.each_on_hand([&](const CaseState& state) { day.look_at(state); });
    return day.sorted();
}

std::vector<DueOut> due_out(const Desk& desk, const Policy& policy, const Zone& zone, Instant now) {
    const auto today = zone.date_of(now);
    std::vector<DueOut> list;
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        if (const auto entry =
                state == nullptr ? std::nullopt : entry_on(*state, desk, policy, zone, today)) {
            put_due(*entry, policy, today, list);
        }
    }
    return by_due(std::move(list));
}

std::vector<DueOut> due_out(const DeskBook& book, const Policy& policy) {
    std::vector<DueOut> list;
    for (std::size_t i = 0; i < book.size(); ++i) {
        put_due(book.at(i), policy, book.on(), list);
    }
    return by_due(std::move(list));
}

}  // namespace brimline
