// Vital signs: mean pressure, what prompts, and when the next set is due. Never an alarm. Source:
// before.md 7.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "core/clinic/policy.h"
#include "core/units/fraction.h"

namespace brimline::rules {

enum class Priority : std::uint8_t { none, low, medium, high };
[[nodiscard]] std::string_view name_of(Priority p);

/// (systolic + 2 diastolic) / 3 in mmHg, exact; .text(0) is shown. Errors: map-order unless systolic is above
/// diastolic. Source: before.md 7, map.
[[nodiscard]] Expected<Fraction> mean_pressure(int systolic, int diastolic);
/// Below the limit, exactly; the limit itself is not. Source: before.md 7, alert-map.
[[nodiscard]] bool map_alerts(const Fraction& map, int below);
/// Whole mmHg; one decimal where the whole number would sit on the other side of the limit.
[[nodiscard]] std::string map_text(const Fraction& map, int below);

enum class Sign : std::uint8_t { hr, systolic, spo2, rr };
/// Single-parameter band 0 to 3 of NEWS2, chart 1; never summed, no NEWS on screen. Source: before.md 7.
[[nodiscard]] int alert_band(Sign sign, int value);
/// Band 3 high, below it medium, under the policy's band none. Source: before.md 7, alert-band.
[[nodiscard]] Priority band_prompt(int band, int prompt_band);
/// More than this share away from baseline, either way; exactly is not. Source: before.md 7, alert-baseline.
[[nodiscard]] bool baseline_changed(int baseline, int value, int percent);
/// At or above the limit, or this far from baseline. Source: before.md 7, etco2-high.
[[nodiscard]] bool etco2_alerts(int value, std::optional<int> baseline, const VitalsPolicy& policy);
/// Whether end-tidal CO2 is missed: once, low, when it is expected at this depth and none was recorded.
/// Source: before.md 7, etco2-expected.
[[nodiscard]] bool etco2_missed(std::optional<int> moaas, bool propofol_given, bool recorded,
                                const VitalsPolicy& policy);

/// Lower ends included: soon from `lead` before due, overdue from due, overdue_high from one interval after.
enum class DueState : std::uint8_t { none, soon, overdue, overdue_high };
[[nodiscard]] std::string_view name_of(DueState s);
/// low, medium, high for the three.
[[nodiscard]] Priority priority_of(DueState s);
/// Last set (its taken-at time) at or after sedation start + interval, else start + interval. Source:
/// before.md 7, vitals-due. A set early restarts the clock.
[[nodiscard]] Instant vitals_due(Instant sedation_start, std::optional<Instant> last_set, seconds interval);
[[nodiscard]] DueState vitals_state(Instant due, Instant now, seconds interval, seconds lead);

}  // namespace brimline::rules
