// A month in figures, each with its denominator: what a clinic asks itself, worked out from the same events
// as the records. A figure without a denominator, or of nobody, is absent. Sources: after.md 7; 8-practice
// row 53 and seat 7.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/desk/desk_book.h"
#include "core/units/fraction.h"

namespace brimline {

/// So many of so many.
struct Share {
    int n{0}, of{0};
};
struct MonthFigures {
    int placements{0}, deferred{0}, abandoned{0}, removals{0};
    Share removed_on_time;                  // of the entries whose due date lies in the month
    int overdue_at_end{0};                  // still in, past their date, at the end of the month or today
    Share entered_live;                     // entries, within the policy's minutes
    Share counts_parted;                    // count checks that differed, of all
    std::map<std::string, int> overrides;   // by reason
    std::optional<Fraction> median_volume;  // mL, of what was left in
    std::optional<Duration> median_fill;    // first to last syringe
};
/// Cases of the month by the day of their sedation, else of their plan. The book's day bounds what can be
/// overdue.
[[nodiscard]] MonthFigures month_figures(const DeskBook& book, const Policy& policy,
                                         std::chrono::year_month month);

}  // namespace brimline
