// The parts and the total of the home-readiness score.
#include "core/rules/padss.h"

#include <algorithm>
#include <cassert>
#include <cstdlib>

namespace brimline::rules {
namespace {

// Fixed by the scale, ends included (equality is our reading). Source: after.md 2.3.
constexpr int full_share = 20;
constexpr int half_share = 40;

int points(int before, int now) {
    const std::int64_t away = 100 * std::abs(std::int64_t{now} - before);
    if (away <= std::int64_t{full_share} * before) {
        return 2;
    }
    return away <= std::int64_t{half_share} * before ? 1 : 0;
}

}  // namespace

std::optional<int> padss_vital(std::optional<int> systolic_before, int systolic_now,
                               std::optional<int> pulse_before, int pulse_now) {
    if (!systolic_before || !pulse_before || *systolic_before <= 0 || *pulse_before <= 0) {
        return std::nullopt;
    }
    return std::min(points(*systolic_before, systolic_now), points(*pulse_before, pulse_now));
}

int symptom_points(int rating) {
    assert(rating >= 0 && rating <= 10);
    return rating <= 3 ? 2 : rating <= 6 ? 1 : 0;
}

std::optional<int> padss_total(const PadssAnswers& answers) {
    int total = 0;
    for (const auto& answer : answers) {
        if (!answer) {
            return std::nullopt;
        }
        total += *answer;
    }
    return total;
}

bool padss_met(std::span<const int> totals, const DischargePolicy& policy) {
    const auto broken = std::find_if(totals.rbegin(), totals.rend(), [&](int total) {
        return !padss_qualifies(total, policy.padss_threshold);
    });
    return broken - totals.rbegin() >= policy.padss_consecutive;
}

}  // namespace brimline::rules
