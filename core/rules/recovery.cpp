// The modified Aldrete score, fitness for leaving recovery, and the recovery's vital-signs clock.
#include "core/rules/recovery.h"

#include <algorithm>
#include <cstdlib>
#include <numeric>
#include <vector>

namespace brimline::rules {
namespace {

// Fixed by the scale. Source: after.md 2.1 (J Clin Anesth 1995;7:89-91, secondary copies; gaps are our
// reading).
constexpr int full_share = 20;      // percent, included
constexpr int half_share = 50;      // percent, not included
constexpr int full_air_above = 92;  // SpO2
constexpr int half_above = 90;

bool after(const AldreteScore& score, const std::optional<Instant>& dose) {
    return !dose || score.at > *dose;
}

/// The unbroken run of qualifying scores at the end of the list.
struct Row {
    int counted = 0;
    std::optional<Instant> last_counted, completed;
    std::vector<Instant> qualifying;
};

Row newest_row(std::span<const AldreteScore> scores, const RecoveryTimes& times,
               const RecoveryPolicy& policy) {
    Row row;
    for (const AldreteScore& score : scores) {
        if (!aldrete_qualifies(score.items, policy.threshold, policy.item_floor)) {
            row = Row{};
            continue;
        }
        if (!after(score, times.sedative_or_opioid) || !after(score, times.reversal)) {
            continue;
        }
        row.qualifying.push_back(score.at);
        if (!row.last_counted || score.at - *row.last_counted >= policy.gap) {
            ++row.counted;
            row.last_counted = score.at;
            if (row.counted == policy.consecutive) {
                row.completed = score.at;
            }
        }
    }
    return row;
}

}  // namespace

std::optional<int> aldrete_circulation(std::optional<int> before, int now) {
    if (!before || *before <= 0) {
        return std::nullopt;
    }
    const std::int64_t away = 100 * std::abs(std::int64_t{now} - *before);
    if (away <= std::int64_t{full_share} * *before) {
        return 2;
    }
    return away < std::int64_t{half_share} * *before ? 1 : 0;
}

int aldrete_oxygen(int spo2, bool on_oxygen, bool as_at_home) {
    if (on_oxygen && !as_at_home) {
        return spo2 > half_above ? 1 : 0;
    }
    return spo2 > full_air_above ? 2 : spo2 > half_above ? 1 : 0;
}

std::optional<int> aldrete_total(const AldreteAnswers& answers) {
    int total = 0;
    for (const auto& answer : answers) {
        if (!answer) {
            return std::nullopt;
        }
        total += *answer;
    }
    return total;
}

int aldrete_total(const AldreteItems& items) { return std::accumulate(items.begin(), items.end(), 0); }

bool aldrete_qualifies(const AldreteItems& items, int threshold, int item_floor) {
    return aldrete_total(items) >= threshold && *std::min_element(items.begin(), items.end()) >= item_floor;
}

std::string_view name_of(Trend t) {
    static constexpr std::array<std::string_view, 5> names{"none", "first", "rising", "steady", "falling"};
    return names[static_cast<std::size_t>(t)];
}

Trend aldrete_trend(std::span<const int> totals) {
    if (totals.size() < 2) {
        return totals.empty() ? Trend::none : Trend::first;
    }
    const int before = totals[totals.size() - 2];
    return totals.back() > before ? Trend::rising : totals.back() == before ? Trend::steady : Trend::falling;
}

Priority aldrete_drop(std::span<const AldreteScore> scores, const RecoveryPolicy& policy) {
    if (scores.size() < 2) {
        return Priority::none;
    }
    const AldreteItems& before = scores[scores.size() - 2].items;
    const AldreteItems& now = scores.back().items;
    if (!aldrete_qualifies(before, policy.threshold, policy.item_floor) ||
        aldrete_qualifies(now, policy.threshold, policy.item_floor)) {
        return Priority::none;
    }
    return aldrete_total(before) - aldrete_total(now) >= policy.drop_alert ? Priority::high
                                                                           : Priority::medium;
}

std::optional<Instant> fit_from(std::span<const AldreteScore> scores, const RecoveryTimes& times,
                                const RecoveryPolicy& policy) {
    const Row row = newest_row(scores, times, policy);
    if (!row.completed) {
        return std::nullopt;
    }
    Instant fit = *row.completed;
    if (times.sedative_or_opioid) {
        fit = std::max(fit, *times.sedative_or_opioid + policy.since_sedative);
    }
    if (times.accepted) {
        fit = std::max(fit, *times.accepted + policy.min_stay);
    }
    if (times.reversal) {
        const Instant end = *times.reversal + policy.since_reversal;
        const auto first =
            std::find_if(row.qualifying.begin(), row.qualifying.end(), [&](Instant at) { return at >= end; });
        if (first == row.qualifying.end()) {
            return std::nullopt;
        }
        fit = std::max(fit, *first);
    }
    return fit;
}

Instant recovery_vitals_due(Instant last, std::optional<Instant> reversal, minutes interval,
                            minutes after_reversal, minutes reversal_wait) {
    const Instant usual = last + interval;
    if (!reversal || last >= *reversal + reversal_wait) {
        return usual;
    }
    return std::min(usual, std::max(last, *reversal) + after_reversal);
}

Instant recovery_vitals_due(Instant accepted, std::optional<Instant> last, std::optional<Instant> reversal,
                            bool fit, const RecoveryPolicy& policy) {
    if (!last || *last < accepted) {
        return accepted + policy.first_set;
    }
    return recovery_vitals_due(*last, reversal, fit ? policy.vitals_when_fit : policy.vitals,
                               policy.vitals_after_reversal, policy.since_reversal);
}

}  // namespace brimline::rules
