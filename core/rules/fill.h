// Fill: the sum, where it stands, what is left, taps, pace and counts. Source: before.md 13.
#pragma once
#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "core/clinic/policy.h"

namespace brimline::rules {

/// One entry of the fill. Volumes are signed for corrections alone; `syringes` counts for corrections alone.
struct FillEntry {
    enum class Kind : std::uint8_t { dye, syringe, part, withdrawn, correction } kind{};
    Millilitres volume;
    int syringes = 0;
};
struct FillSum {
    Millilitres running;
    int syringes = 0;  // full and part alike count one
    bool operator==(const FillSum&) const = default;
};
[[nodiscard]] FillSum fill_sum(std::span<const FillEntry> entries);

/// The plan of one fill. Order: least <= low <= aim <= high <= ceiling. Source: before.md 13,
/// fill-band-order.
struct FillPlan {
    Millilitres low, high, aim, ceiling;
};
/// Errors: plan-order, naming the first pair that breaks the order.
[[nodiscard]] Expected<FillPlan> check_plan(Millilitres least, const FillPlan& plan);

/// below < low; in band low..high; above band high..ceiling; above ceiling beyond. Ends belong to the band
/// and ceiling.
enum class FillState : std::uint8_t { below, in_band, above_band, above_ceiling };
[[nodiscard]] std::string_view name_of(FillState s);
[[nodiscard]] FillState fill_state(Millilitres running, const FillPlan& plan);

/// Syringes until reached (rounded up), and how many still fit (rounded down); never below 0.
/// Shape: the syringe is above 0 mL (asserted). Source: before.md 13, fill-left.
[[nodiscard]] int syringes_until(Millilitres running, Millilitres mark, Millilitres syringe);
[[nodiscard]] int syringes_that_fit(Millilitres running, Millilitres ceiling, Millilitres syringe);

/// Sooner than the limit after the last tap of any kind; at the limit it counts. Source: before.md 13,
/// double-tap.
[[nodiscard]] bool is_double_tap(Duration since_last, seconds limit);

struct Delivery {
    Instant at;
    Millilitres volume;
};
using Pause = std::pair<Instant, Instant>;
/// mL/min, half away from zero; empty when no time passed. `fast` is judged on the exact last three, above
/// the limit.
struct FillPace {
    std::optional<std::int64_t> overall, last_three;
    bool fast = false;
    bool operator==(const FillPace&) const = default;
};
/// Shape: deliveries ascend; `from` = line connected, or the first tap with the later ones as deliveries
/// (10-decisions G5). Pauses are taken out where they overlap. Source: before.md 13, fill-pace, fill-fast.
[[nodiscard]] FillPace fill_pace(Instant from, std::span<const Delivery> deliveries,
                                 std::span<const Pause> pauses, int fast_ml_min);
/// No tap and no stop for this long; at exactly the limit it stalls. Source: before.md 13, fill-stalled.
[[nodiscard]] bool fill_stalled(Instant last, Instant now, bool stopped, seconds limit);

/// Due when this many were counted since the last agreed check. Source: before.md 13, count-check.
[[nodiscard]] bool count_check_due(int syringes, int last_agreed, int every);

/// Numbers of syringes, not mL. Any difference is a hold. Source: before.md 13, syringe-check.
struct SyringeCheck {
    int difference = 0;  // laid out - left over - counted
    [[nodiscard]] bool hold() const { return difference != 0; }
    bool operator==(const SyringeCheck&) const = default;
};
[[nodiscard]] SyringeCheck syringe_check(int laid_out, int left_over, int counted);

/// Bag start - left - waste - counted; a hold when at least the tolerance away. Source: before.md 13,
/// bag-check.
struct BagCheck {
    Millilitres difference;
    bool hold = false;
    bool operator==(const BagCheck&) const = default;
};
[[nodiscard]] BagCheck bag_check(Millilitres start, Millilitres left, Millilitres waste, Millilitres counted,
                                 Millilitres tolerance);

}  // namespace brimline::rules
