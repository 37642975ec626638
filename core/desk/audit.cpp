// Counting a month.
#include "core/desk/audit.h"

#include <algorithm>

#include "core/case/figures.h"
#include "core/desk/register.h"
#include "core/rules/outcome.h"

namespace brimline {
namespace {

std::chrono::year_month month_of(LocalDate date) { return date.year() / date.month(); }

struct Counting {
    const Policy& policy;
    MonthFigures figures;
    std::vector<Millilitres> volumes;
    std::vector<Duration> fills;

    void outcome(const CaseState& state) {
        const auto outcome = outcome_of(state);
        const bool placed = outcome == CaseOutcome::completed && state.kind == CaseKind::placement;
        figures.placements += placed ? 1 : 0;
        figures.removals += state.out ? 1 : 0;
        figures.deferred += outcome == CaseOutcome::deferred ? 1 : 0;
        figures.abandoned += outcome == CaseOutcome::abandoned ? 1 : 0;
        if (placed) {
            volumes.push_back(running_volume(state.device()));
            if (const auto span = fill_span(state.device())) {
                fills.push_back(span->last - span->first);
            }
        }
    }
    void entries(const CaseState& state) {
        for (const auto& kept : state.history) {
            if (kept.first.stamp.role == Role::kiosk) {
                continue;
            }
            ++figures.entered_live.of;
            figures.entered_live.n += entered_late(kept.first.stamp, policy) ? 0 : 1;
        }
        for (const auto& hold : state.holds) {
            for (const auto& one : hold.overrides) {
                ++figures.overrides[one.is.reason];
            }
        }
        for (const auto& block : state.devices) {
            for (const auto& check : block.checks) {
                ++figures.counts_parted.of;
                figures.counts_parted.n += check.is.agreed ? 0 : 1;
            }
        }
    }
    void entry(const RegisterEntry& entry, std::chrono::year_month month, LocalDate until) {
        if (month_of(entry.placement.due) == month) {
            ++figures.removed_on_time.of;
            figures.removed_on_time.n += entry.out && *entry.out <= entry.placement.latest ? 1 : 0;
        }
        figures.overdue_at_end += is_overdue(entry, until) ? 1 : 0;
    }
    void medians() {
        figures.median_volume = rules::median_ml(volumes);
        if (!fills.empty()) {
            std::sort(fills.begin(), fills.end());
            const auto middle = fills.size() / 2;
            figures.median_fill =
                fills.size() % 2 == 1 ? fills[middle] : (fills[middle - 1] + fills[middle]) / 2;
        }
    }
};

}  // namespace

MonthFigures month_figures(const DeskBook& book, const Policy& policy, std::chrono::year_month month) {
    Counting counting{policy, {}, {}, {}};
    book.each_case_of(month, [&](const CaseState& state) {
        counting.outcome(state);
        counting.entries(state);
    });
    const LocalDate last{month / std::chrono::last};
    const auto until = std::min(last, book.on());
    for (std::size_t i = 0; i < book.size(); ++i) {
        counting.entry(book.at(i), month, until);
    }
    counting.medians();
    return counting.figures;
}

}  // namespace brimline
