// Dates that follow from a placement, and where an entry of the register stands on a day.
#include "core/rules/dates.h"

#include <algorithm>
#include <array>
#include <set>

namespace brimline::rules {

LocalDate placement_date(Instant detached, const Zone& zone) { return zone.date_of(detached); }

int dwell_in_force(int policy_months, std::optional<int> device_months) {
    return std::min(policy_months, device_months.value_or(policy_months));
}

LocalDate due_date(LocalDate placed, int months) { return add_months(placed, months); }

LocalDate due_date(LocalDate placed, int months, int days) {
    const auto by_months = due_date(placed, months);
    return days > 0 ? std::min(by_months, add_days(placed, days)) : by_months;
}

LocalDate latest_date(LocalDate due, int grace_days) { return add_days(due, grace_days); }

LocalDate book_by_date(LocalDate due, int book_by_days) { return add_days(due, -book_by_days); }

OpenDays OpenDays::of(const Clinic& clinic) {
    std::vector<LocalDate> closed;
    for (const std::string& text : clinic.closed_dates) {
        if (const auto date = parse_date(text)) {
            closed.push_back(*date);
        }
    }
    return OpenDays{std::move(closed)};
}

bool OpenDays::open(LocalDate date) const {
    const std::chrono::weekday day{std::chrono::sys_days{date}};
    return day.iso_encoding() <= 5 && std::find(closed_.begin(), closed_.end(), date) == closed_.end();
}

LocalDate OpenDays::forward(LocalDate date) const {
    while (!open(date)) {
        date = add_days(date, 1);
    }
    return date;
}

LocalDate OpenDays::backward(LocalDate date) const {
    while (!open(date)) {
        date = add_days(date, -1);
    }
    return date;
}

DietPlan diet_plan(LocalDate placed, const DietPolicy& policy) {
    const auto day = [&](int n) { return add_days(placed, n - 1); };
    return {placed,
            day(policy.clear_days),
            day(policy.clear_days + 1),
            day(policy.full_through),
            day(policy.full_through + 1),
            day(policy.soft_through),
            day(policy.soft_through + 1)};
}

VisitPlan visit_plan(LocalDate placed, const DischargePolicy& calls, const std::vector<int>& months,
                     const OpenDays& days) {
    VisitPlan plan;
    plan.first_call = days.forward(add_days(placed, calls.call_day_first - 1));
    plan.second_call = days.forward(add_days(placed, calls.call_day_second - 1));
    for (const int n : months) {
        plan.months.emplace_back(n, days.forward(add_months(placed, n)));
    }
    return plan;
}

LocalDate antiemetic_through(LocalDate placed, int days) { return add_days(placed, days - 1); }

std::string_view name_of(Standing s) {
    static constexpr std::array<std::string_view, 6> names{"out", "lost to follow-up", "overdue",
                                                           "due", "due soon",          "in place"};
    return names[static_cast<std::size_t>(s)];
}

RegisterStatus register_status(LocalDate due, LocalDate latest, LocalDate today, std::optional<LocalDate> out,
                               bool lost, int soon_days) {
    if (out && *out <= today) {
        return {Standing::out, std::nullopt, false};
    }
    RegisterStatus status{Standing::in_place, days_between(today, due), today > latest};
    if (lost) {
        status.standing = Standing::lost;
    } else if (today > latest) {
        status.standing = Standing::overdue;
    } else if (today >= due) {
        status.standing = Standing::due;
    } else if (today >= add_days(due, -soon_days)) {
        status.standing = Standing::due_soon;
    }
    return status;
}

LostCheck may_be_lost(LocalDate due, LocalDate today, std::span<const FailedContact> failed,
                      const RegisterPolicy& policy) {
    std::set<LocalDate> dates;
    std::set<Way> ways;
    for (const FailedContact& contact : failed) {
        dates.insert(contact.date);
        ways.insert(contact.way);
    }
    return {today < due, static_cast<int>(failed.size()) < policy.lost_attempts,
            static_cast<int>(dates.size()) < policy.lost_dates,
            static_cast<int>(ways.size()) < policy.lost_ways};
}

LocalDate keep_through(LocalDate sealed, std::optional<LocalDate> out, int years) {
    return add_months(std::max(sealed, out.value_or(sealed)), 12 * years);
}

}  // namespace brimline::rules
