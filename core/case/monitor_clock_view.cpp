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
    using namespace std::chrono;
    const auto there = hours{shown.hour} + minutes{shown.minute} + seconds{shown.second};
    const auto here = floor<seconds>(zone.local(now).of_day);
    const auto half = seconds{days{1}} / 2;
    seconds ahead = there - here;
    ahead = ahead > half ? ahead - days{1} : ahead;
    ahead = ahead <= -half ? ahead + days{1} : ahead;
    return static_cast<int>(ahead.count());
}

}  // namespace brimline
