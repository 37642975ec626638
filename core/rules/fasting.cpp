// Fasting: waits by kind, elapsed real minutes, combined answers, and wall-clock readings that a clock change
// spoils.
#include "core/rules/fasting.h"

#include <algorithm>
#include <cstdlib>

namespace brimline::rules {

bool is_solid(Intake kind) {
    return kind == Intake::light_meal || kind == Intake::fatty_meal || kind == Intake::meal_unknown;
}

minutes fasting_required(Intake kind, const FastingPolicy& policy) {
    switch (kind) {
        case Intake::clear_fluid:
            return policy.clear_fluid;
        case Intake::breast_milk:
            return policy.breast_milk;
        case Intake::infant_formula:
            return policy.infant_formula;
        case Intake::milk:
            return policy.milk;
        case Intake::full_liquid:
            return policy.full_liquid;
        case Intake::light_meal:
            return policy.light_meal;
        case Intake::fatty_meal:
            return policy.fatty_meal;
        case Intake::meal_unknown:
            return policy.meal_unknown;
    }
    std::abort();  // no kind of intake: a corrupted program must not go on
}

Intake drink_with_milk(int milk_percent, const FastingPolicy& policy) {
    return milk_percent <= policy.milk_in_tea_percent ? Intake::clear_fluid : Intake::milk;
}

Instant fasting_reference(Instant planned, Instant now) { return std::max(planned, now); }

Fast judge_fast(Instant last, Instant judged_at, minutes required) {
    const Duration elapsed = judged_at - last;
    return {whole_minutes(elapsed), elapsed >= required, last + required};
}

CombinedFast combine_fasts(std::span<const FastingItem> items, Instant judged_at) {
    CombinedFast combined;
    combined.all_met = true;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const FastingItem& item = items[i];
        bool met = item.none;
        if (item.last && !item.none) {
            const Fast fast = judge_fast(*item.last, judged_at, item.required);
            met = fast.met;
            combined.all_from = std::max(combined.all_from.value_or(fast.earliest), fast.earliest);
        } else if (!item.none) {
            combined.missing.push_back(i);
        }
        combined.met.push_back(met);
        combined.all_met = combined.all_met && met;
    }
    if (!combined.missing.empty()) {
        combined.all_from.reset();
    }
    return combined;
}

bool occurs_twice(const LocalTime& reading, const Zone& zone) { return zone.moments(reading).size() > 1; }

Expected<Instant> intake_moment(const LocalTime& reading, const Zone& zone, bool first_of_two) {
    const auto moments = zone.moments(reading);
    if (moments.empty()) {
        return refuse("no-such-local-time", "The clock jumped over this time that night.",
                      "Check the time: it does not exist.");
    }
    return first_of_two ? moments.front() : moments.back();
}

Expected<bool> intake_asked(Instant last, Instant entered, const FastingPolicy& policy) {
    if (last > entered) {
        return refuse("in-the-future", "This intake is later than now.", "Check the time and the date.");
    }
    return entered - last > policy.oldest_unasked;
}

std::optional<Instant> removal_ready(std::optional<Instant> solid, std::optional<Instant> full_liquid,
                                     std::optional<Instant> clear, const FastingPolicy& policy) {
    if (!solid || !full_liquid || !clear) {
        return std::nullopt;
    }
    return std::max({*solid + policy.removal_solid, *full_liquid + policy.removal_full_liquid,
                     *clear + policy.removal_clear});
}

}  // namespace brimline::rules
