// Removal: volume out against volume in, the colour of the fluid, early or late. Source: after.md 6.
#pragma once
#include <optional>
#include <string_view>

#include "core/clinic/policy.h"
#include "core/units/fraction.h"

namespace brimline::rules {

enum class Recovered : std::uint8_t { within, less, more, not_comparable };
[[nodiscard]] std::string_view name_of(Recovered r);
/// Signed difference; percent = recovered / filled, deviation = difference / filled, both exact and times
/// 100. Filled unknown or 0: not comparable, nothing else. Exactly the tolerance is within. Never clamped.
struct RecoveredVolume {
    Recovered state = Recovered::not_comparable;
    std::optional<Millilitres> difference;
    std::optional<Fraction> percent, deviation;
};
[[nodiscard]] RecoveredVolume recovered_volume(std::optional<Millilitres> filled, Millilitres recovered,
                                               int tolerance_percent);

enum class FluidOut : std::uint8_t { clear, dyed, cloudy_or_brown };
enum class FluidReading : std::uint8_t { expected, leak_suspected, contents_changed, record_mismatch };
[[nodiscard]] std::string_view name_of(FluidReading r);
/// Dye in and dye out is normal; dye in and clear out is a leak. Source: after.md 6, removal-fluid-colour.
[[nodiscard]] FluidReading read_fluid(bool dye_at_placement, FluidOut out);
/// Dye colour in the stomach before puncture: a leak.
[[nodiscard]] constexpr FluidReading read_stomach(bool coloured_before_puncture) {
    return coloured_before_puncture ? FluidReading::leak_suspected : FluidReading::expected;
}

enum class RemovalTiming : std::uint8_t { early, on_time, late };
[[nodiscard]] std::string_view name_of(RemovalTiming t);
/// Early before due - window, late after latest. Source: after.md 6, removal-timing.
[[nodiscard]] RemovalTiming removal_timing(LocalDate out, LocalDate due, LocalDate latest,
                                           int early_window_days);

}  // namespace brimline::rules
