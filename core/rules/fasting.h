// Fasting before a placement and preparation before a removal: how long since, whether long enough, from
// when. Pure arithmetic on instants, so that a clock change never adds or eats an hour.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "core/clinic/policy.h"

namespace brimline::rules {

/// Breast milk and infant formula belong to infants and are not on adult screens.
enum class Intake : std::uint8_t {
    clear_fluid,
    breast_milk,
    infant_formula,
    milk,
    full_liquid,
    light_meal,
    fatty_meal,
    meal_unknown
};
/// Whether this holds solids, for the liquid day of GLP-1 drugs.
[[nodiscard]] bool is_solid(Intake kind);

/// The wait that this kind needs before sedation. Source: before.md 1.
[[nodiscard]] minutes fasting_required(Intake kind, const FastingPolicy& policy);
/// Tea or coffee with this share of milk: clear fluid or milk. Source: before.md 1, fasting-milk-in-tea.
[[nodiscard]] Intake drink_with_milk(int milk_percent, const FastingPolicy& policy);
/// Whether chewing gum delays an adult: only while it is in the mouth. Source: before.md 1, fasting-gum.
[[nodiscard]] constexpr bool gum_delays(bool removed) { return !removed; }

/// Judged at the plan, or at now once that has passed, until sedation starts. Source: before.md 1,
/// fasting-reference.
[[nodiscard]] Instant fasting_reference(Instant planned, Instant now);

/// Units: whole minutes of real time, seconds dropped; `earliest` = last + required; met at exactly the wait.
struct Fast {
    std::int64_t elapsed_min = 0;
    bool met = false;
    Instant earliest;
    bool operator==(const Fast&) const = default;
};
[[nodiscard]] Fast judge_fast(Instant last, Instant judged_at, minutes required);

/// One item of a combined answer: a time, "none" (nothing of the kind), or neither = not answered.
struct FastingItem {
    std::optional<Instant> last;
    minutes required{};
    bool none = false;
};
/// `all_from` = the latest of the earliest; empty while an item is missing, or when nothing was taken at all.
/// `missing` = places of items that were not answered (never taken as "none").
struct CombinedFast {
    std::vector<bool> met;
    bool all_met = false;
    std::optional<Instant> all_from;
    std::vector<std::size_t> missing;
};
[[nodiscard]] CombinedFast combine_fasts(std::span<const FastingItem> items, Instant judged_at);

/// Whether a wall-clock reading occurs twice, so that a person must say which. Source: before.md 1,
/// fasting-clock-change.
[[nodiscard]] bool occurs_twice(const LocalTime& reading, const Zone& zone);
/// The moment of a wall-clock reading. A reading that occurs twice is the later one (the shorter fast) unless
/// the person answered "the first". Errors: no-such-local-time where the clock jumped over it.
[[nodiscard]] Expected<Instant> intake_moment(const LocalTime& reading, const Zone& zone,
                                              bool first_of_two = false);
/// Whether an intake is so old that it is asked about once. Errors: in-the-future when later than its entry.
/// Source: before.md 1, fasting-future; exactly the limit is not asked.
[[nodiscard]] Expected<bool> intake_asked(Instant last, Instant entered, const FastingPolicy& policy);

/// Earliest removal: the latest of the three waits; empty (undetermined, a hold) when one time is not known.
/// Source: after.md 6, removal-prep.
[[nodiscard]] std::optional<Instant> removal_ready(std::optional<Instant> solid,
                                                   std::optional<Instant> full_liquid,
                                                   std::optional<Instant> clear, const FastingPolicy& policy);

}  // namespace brimline::rules
