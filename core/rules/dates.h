// Dates after a placement: due, book-by, diet, visits, medicines, and where an entry of the register stands.
// Every date counts from the placement date, in days and months of the calendar, never in hours. Source:
// after.md 4, 5 and 8.
#pragma once
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "core/clinic/policy.h"

namespace brimline::rules {

/// Local date of detachment. Source: after.md 5, placement date.
[[nodiscard]] LocalDate placement_date(Instant detached, const Zone& zone);
/// The shorter of policy and device; empty device = the policy's.
[[nodiscard]] int dwell_in_force(int policy_months, std::optional<int> device_months);
/// Placement + months, the day clamped to the month's last. Source: after.md 5, due-date.
[[nodiscard]] LocalDate due_date(LocalDate placed, int months);
/// The same where days are counted too: the earlier of both; 0 days = months alone.
[[nodiscard]] LocalDate due_date(LocalDate placed, int months, int days);
[[nodiscard]] LocalDate latest_date(LocalDate due, int grace_days);
/// By when the removal has its appointment. Source: after.md 5.
[[nodiscard]] LocalDate book_by_date(LocalDate due, int book_by_days);

/// Weekdays less closed dates (Monday to Friday are open).
class OpenDays {
public:
    explicit OpenDays(std::vector<LocalDate> closed) : closed_{std::move(closed)} {}
    /// From policy text; dates that do not read are left out (the loader has refused them).
    [[nodiscard]] static OpenDays of(const Clinic& clinic);
    [[nodiscard]] bool open(LocalDate date) const;
    [[nodiscard]] LocalDate forward(LocalDate date) const;   // the first open day at or after
    [[nodiscard]] LocalDate backward(LocalDate date) const;  // the last open day at or before

private:
    std::vector<LocalDate> closed_;
};

/// Day 1 = placement. First and last day of each phase, and the first of regular food. Source: after.md 4.2.
struct DietPlan {
    LocalDate clear_from, clear_through, full_from, full_through, soft_from, soft_through, regular_from;
    bool operator==(const DietPlan&) const = default;
};
[[nodiscard]] DietPlan diet_plan(LocalDate placed, const DietPolicy& policy);

/// Two calls and the programme's months, each moved forward to an open day. Source: after.md 4.4.
struct VisitPlan {
    LocalDate first_call, second_call;
    std::vector<std::pair<int, LocalDate>> months;  // months from placement, date
};
[[nodiscard]] VisitPlan visit_plan(LocalDate placed, const DischargePolicy& calls,
                                   const std::vector<int>& months, const OpenDays& days);

/// Last day of the antiemetic: day 1 = placement. Acid suppression is planned to the due date. Source:
/// after.md 4.2.
[[nodiscard]] LocalDate antiemetic_through(LocalDate placed, int days);

/// Which word applies first: out, lost, overdue, due, soon, in place. Source: after.md 5, register-status.
enum class Standing : std::uint8_t { out, lost, overdue, due, due_soon, in_place };
[[nodiscard]] std::string_view name_of(Standing s);
struct RegisterStatus {
    Standing standing = Standing::in_place;
    std::optional<int> days_left;    // due - today, negative after; empty when out
    bool counts_as_overdue = false;  // not out and past the latest date, whatever the flag says
    bool operator==(const RegisterStatus&) const = default;
};
[[nodiscard]] RegisterStatus register_status(LocalDate due, LocalDate latest, LocalDate today,
                                             std::optional<LocalDate> out, bool lost, int soon_days);

/// The days an entry has been in place; placement = day 0. Source: 10-decisions G14.
[[nodiscard]] inline int days_in_place(LocalDate placed, LocalDate on) { return days_between(placed, on); }

enum class Way : std::uint8_t { phone, message, letter, in_person };
struct FailedContact {
    LocalDate date;
    Way way{};
};
/// What is missing before someone may be called lost. Source: after.md 5, lost-to-follow-up.
struct LostCheck {
    bool before_due = false, attempts = false, dates = false, ways = false;
    [[nodiscard]] bool allowed() const { return !before_due && !attempts && !dates && !ways; }
    bool operator==(const LostCheck&) const = default;
};
[[nodiscard]] LostCheck may_be_lost(LocalDate due, LocalDate today, std::span<const FailedContact> failed,
                                    const RegisterPolicy& policy);

/// The later of last seal and removal + years, clamped; the kiosk never deletes. Source: after.md 9,
/// record-retention.
[[nodiscard]] LocalDate keep_through(LocalDate sealed, std::optional<LocalDate> out, int years);

}  // namespace brimline::rules
