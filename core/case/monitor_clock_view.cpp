// The difference of two clocks of which one shows no date.
#include "core/case/monitor_clock_view.h"

namespace brimline {

std::optional<TimeOfDay> TimeOfDay::of(int hour, int minute, int second) {
    const auto within = [](int value, int most) { return value >= 0 && value <= most; };
    return within(hour, 23) && within(minute, 59) && within(second, 59)
               ? std::optional{TimeOfDay{hour, minute, second}}
               : std::nullopt;
}

int monitor_offset_s(const TimeOfDay& shown, Instant now, const Zone& zone) {
    constexpr std::int64_t day = 86'400;
    const auto here = whole_seconds(zone.local(now).of_day);
    auto ahead = (shown.hour * 3600 + shown.minute * 60 + shown.second - here) % day;
    ahead = ahead > day / 2 ? ahead - day : ahead;
    ahead = ahead <= -day / 2 ? ahead + day : ahead;
    return static_cast<int>(ahead);
}

}  // namespace brimline
