// Recovery: the modified Aldrete score, when someone is fit, and when vital signs are due. Parts worked out
// here are only proposed; the nurse decides. Source: after.md 2.1 and 2.2.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <string_view>

#include "core/clinic/policy.h"
#include "core/rules/vitals.h"

namespace brimline::rules {

/// activity, respiration, circulation, consciousness, oxygen; 0 to 2 each.
using AldreteItems = std::array<int, 5>;
using AldreteAnswers = std::array<std::optional<int>, 5>;

/// 4 limbs 2, 3 or 2 limbs 1, else 0.
[[nodiscard]] constexpr int aldrete_activity(int limbs_moved) {
    return limbs_moved >= 4 ? 2 : limbs_moved >= 2 ? 1 : 0;
}
/// By systolic pressure against that before sedation; empty without one.
[[nodiscard]] std::optional<int> aldrete_circulation(std::optional<int> before, int now);
/// By SpO2 in air or on oxygen. `as_at_home`: the policy lets oxygen as at home score as air, and it is.
[[nodiscard]] int aldrete_oxygen(int spo2, bool on_oxygen, bool as_at_home = false);

/// The sum; empty while an item is not answered.
[[nodiscard]] std::optional<int> aldrete_total(const AldreteAnswers& answers);
[[nodiscard]] int aldrete_total(const AldreteItems& items);
/// At or above the threshold with no item below the floor.
[[nodiscard]] bool aldrete_qualifies(const AldreteItems& items, int threshold, int item_floor);
enum class Trend : std::uint8_t { none, first, rising, steady, falling };
[[nodiscard]] std::string_view name_of(Trend t);
[[nodiscard]] Trend aldrete_trend(std::span<const int> totals);

struct AldreteScore {
    Instant at;
    AldreteItems items{};
};
/// When the newest score no longer qualifies after one that did: high from the policy's fall on, else medium.
/// Shape: scores ascend. Source: after.md 2.1, aldrete-drop.
[[nodiscard]] Priority aldrete_drop(std::span<const AldreteScore> scores, const RecoveryPolicy& policy);

/// The last doses and the start of the stay; empty where there was none.
struct RecoveryTimes {
    std::optional<Instant> sedative_or_opioid, reversal, accepted;
};
/// From when the criteria hold with the newest score qualifying; may lie ahead of the newest score. Empty =
/// not fit. Shape: scores ascend. A score at or before the last dose does not count; one that does not
/// qualify breaks the row, also inside the gap (the cautious reading). Source: after.md 2.1,
/// aldrete-consecutive; 2.2, recovery-fit.
[[nodiscard]] std::optional<Instant> fit_from(std::span<const AldreteScore> scores,
                                              const RecoveryTimes& times, const RecoveryPolicy& policy);

/// When the next set is due: last + interval; while a reversal wait runs also the later of last set and
/// reversal + short interval; the earlier of the two. Source: after.md 2.2, recovery-vitals-interval.
[[nodiscard]] Instant recovery_vitals_due(Instant last, std::optional<Instant> reversal, minutes interval,
                                          minutes after_reversal, minutes reversal_wait);
/// The same by policy: the first set soon after acceptance, longer intervals once fit. Source: 10-decisions
/// G2.
[[nodiscard]] Instant recovery_vitals_due(Instant accepted, std::optional<Instant> last,
                                          std::optional<Instant> reversal, bool fit,
                                          const RecoveryPolicy& policy);

}  // namespace brimline::rules
