// The list of a day: which cases stand on it and in which order, and which balloons are due out.
// Pure functions of the desk's state; what is overdue always stands first, so that no screen can lose it.
#pragma once
#include <optional>
#include <vector>

#include "core/case/figures.h"
#include "core/desk/desk_book.h"

namespace brimline {

/// One case of the list. `overdue`: planned for an earlier day and not yet sealed.
struct Listed {
    const CaseState* state{nullptr};
    std::optional<Stage> stage{};  ///< the first with work open; empty once sealed
    bool overdue{false};
};
/// Cases of the day of `now`, with those of earlier days that nobody finished and those without a plan.
/// Shape: overdue first, the oldest on top; then by the planned moment; those without a plan stand by their
/// start, which is when they were written down. A cancelled case is not on the list.
[[nodiscard]] std::vector<Listed> list_of_day(const Desk& desk, const Zone& zone, Instant now);
/// The same from a book that stands at this day.
[[nodiscard]] std::vector<Listed> list_of_day(const DeskBook& book, const Zone& zone, Instant now);

/// A balloon that has to come out. `days_left` is negative when it is overdue.
struct DueOut {
    const CaseState* state{nullptr};
    LocalDate due{};
    int days_left{0};
    bool overdue{false};  ///< past its latest date, the days of grace included
};
/// Balloons in place that are overdue or due within the policy's days, the longest overdue first.
[[nodiscard]] std::vector<DueOut> due_out(const Desk& desk, const Policy& policy, const Zone& zone,
                                          Instant now);
/// The same from a book, for its day.
[[nodiscard]] std::vector<DueOut> due_out(const DeskBook& book, const Policy& policy);

}  // namespace brimline
