// Sums, marks, pace and counts of the fill, in whole tenths of a millilitre and microseconds.
#include "core/rules/fill.h"

#include <algorithm>
#include <array>
#include <cassert>

#include "core/units/fraction.h"

namespace brimline::rules {
namespace {

constexpr std::size_t last_few = 3;  // before.md 13: "last three"

/// Time between two moments without the pauses in it.
Duration moving_time(Instant from, Instant to, std::span<const Pause> pauses) {
    Duration moving = to - from;
    for (const auto& [start, end] : pauses) {
        const Instant begin = std::max(start, from);
        const Instant stop = std::min(end, to);
        if (begin < stop) {
            moving -= stop - begin;
        }
    }
    return moving;
}

/// mL/min as a fraction of tenths and microseconds: tenths/10 per us/60 000 000.
std::optional<Fraction> per_minute(Millilitres volume, Duration moving) {
    if (moving <= Duration{0}) {
        return std::nullopt;
    }
    return Fraction{volume.in_tenths() * 6'000'000, moving.count()};
}

std::optional<std::int64_t> whole(const std::optional<Fraction>& rate) {
    return rate ? std::optional{ratio_whole(rate->numerator(), rate->denominator())} : std::nullopt;
}

}  // namespace

FillSum fill_sum(std::span<const FillEntry> entries) {
    FillSum sum;
    for (const FillEntry& entry : entries) {
        switch (entry.kind) {
            case FillEntry::Kind::dye:
                sum.running += entry.volume;
                break;
            case FillEntry::Kind::syringe:
            case FillEntry::Kind::part:
                sum.running += entry.volume;
                ++sum.syringes;
                break;
            case FillEntry::Kind::withdrawn:
                sum.running -= entry.volume;
                break;
            case FillEntry::Kind::correction:
                sum.running += entry.volume;
                sum.syringes += entry.syringes;
                break;
        }
    }
    return sum;
}

Expected<FillPlan> check_plan(Millilitres least, const FillPlan& plan) {
    if (plan.low < least) {
        return refuse("plan-order", "The band starts below what the device allows.",
                      "Raise the start of the band.");
    }
    if (plan.aim < plan.low) {
        return refuse("plan-order", "The aim lies below the band.", "Raise the aim or lower the band.");
    }
    if (plan.high < plan.aim) {
        return refuse("plan-order", "The aim lies above the band.", "Lower the aim or raise the band.");
    }
    if (plan.ceiling < plan.high) {
        return refuse("plan-order", "The band reaches above the ceiling.", "Lower the end of the band.");
    }
    return plan;
}

std::string_view name_of(FillState s) {
    static constexpr std::array<std::string_view, 4> names{"below", "in-band", "above-band", "above-ceiling"};
    return names[static_cast<std::size_t>(s)];
}

FillState fill_state(Millilitres running, const FillPlan& plan) {
    if (running > plan.ceiling) {
        return FillState::above_ceiling;
    }
    if (running > plan.high) {
        return FillState::above_band;
    }
    return running >= plan.low ? FillState::in_band : FillState::below;
}

int syringes_until(Millilitres running, Millilitres mark, Millilitres syringe) {
    assert(syringe > Millilitres{});
    const std::int64_t left = std::max<std::int64_t>(mark.in_tenths() - running.in_tenths(), 0);
    return static_cast<int>((left + syringe.in_tenths() - 1) / syringe.in_tenths());
}

int syringes_that_fit(Millilitres running, Millilitres ceiling, Millilitres syringe) {
    assert(syringe > Millilitres{});
    return static_cast<int>(std::max<std::int64_t>(ceiling.in_tenths() - running.in_tenths(), 0) /
                            syringe.in_tenths());
}

bool is_double_tap(Duration since_last, seconds limit) { return since_last < limit; }

FillPace fill_pace(Instant from, std::span<const Delivery> deliveries, std::span<const Pause> pauses,
                   int fast_ml_min) {
    FillPace pace;
    if (deliveries.empty()) {
        return pace;
    }
    const auto volume_from = [&](std::size_t first) {
        Millilitres volume;
        for (std::size_t i = first; i < deliveries.size(); ++i) {
            volume += deliveries[i].volume;
        }
        return volume;
    };
    const Instant last = deliveries.back().at;
    const std::size_t first_of_few = deliveries.size() > last_few ? deliveries.size() - last_few : 0;
    const Instant few_from = first_of_few == 0 ? from : deliveries[first_of_few - 1].at;
    const auto few = per_minute(volume_from(first_of_few), moving_time(few_from, last, pauses));
    pace.overall = whole(per_minute(volume_from(0), moving_time(from, last, pauses)));
    pace.last_three = whole(few);
    pace.fast = few && *few > Fraction{Decimal::of(fast_ml_min)};
    return pace;
}

bool fill_stalled(Instant last, Instant now, bool stopped, seconds limit) {
    return !stopped && now - last >= limit;
}

bool count_check_due(int syringes, int last_agreed, int every) { return syringes - last_agreed >= every; }

SyringeCheck syringe_check(int laid_out, int left_over, int counted) {
    return {laid_out - left_over - counted};
}

BagCheck bag_check(Millilitres start, Millilitres left, Millilitres waste, Millilitres counted,
                   Millilitres tolerance) {
    const Millilitres difference = start - left - waste - counted;
    const bool hold = difference >= tolerance || Millilitres{-difference} >= tolerance;
    return {difference, hold};
}

}  // namespace brimline::rules
