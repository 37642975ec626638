// How far the monitor's clock is off the kiosk's, from the time of day that the monitor shows.
#pragma once
#include <optional>

#include "core/units/time.h"

namespace brimline {

/// A time of day as a monitor shows it: hours, minutes, seconds.
struct TimeOfDay {
    int hour{0}, minute{0}, second{0};

    /// None when there is no such time on a clock of 24 hours.
    [[nodiscard]] static std::optional<TimeOfDay> of(int hour, int minute, int second);
};

/// Seconds that the monitor is ahead of the kiosk (negative: behind), by the shorter way round the day: a
/// monitor shows no date. Between -43,199 and 43,200. The part of a second is dropped.
[[nodiscard]] int monitor_offset_s(const TimeOfDay& shown, Instant now, const Zone& zone);

}  // namespace brimline
