// The system's clocks and the settable one.
#include "core/store/clock.h"

#include <algorithm>
#include <ctime>

#include "core/store/small_file.h"

namespace brimline::store {
namespace {

std::int64_t microseconds_of(clockid_t clock) {
    timespec now{};
    ::clock_gettime(clock, &now);
    return static_cast<std::int64_t>(now.tv_sec) * 1'000'000 + now.tv_nsec / 1000;
}

}  // namespace

SystemClock::SystemClock() {
    const auto text = read_file("/proc/sys/kernel/random/boot_id", 4096);
    if (!text) {
        return;
    }
    std::string digits;
    std::copy_if(text->begin(), text->end(), std::back_inserter(digits),
                 [](char c) { return c != '-' && c != '\n'; });
    boot_ = id_from_hex(digits).value_or(Id16{});
}

Instant SystemClock::utc() { return Instant::of_us(microseconds_of(CLOCK_REALTIME)); }

std::int64_t SystemClock::tick_us() { return microseconds_of(CLOCK_BOOTTIME); }

void SetClock::pass(Duration d) {
    utc_ = utc_ + d;
    tick_us_ += std::max<std::int64_t>(d.count(), 0);
}

void SetClock::jump(Duration d) { utc_ = utc_ + d; }

void SetClock::move_to(Instant utc) { pass(utc - utc_); }

void SetClock::start_again() {
    tick_us_ = 0;
    ++boot_.back();
}

}  // namespace brimline::store
