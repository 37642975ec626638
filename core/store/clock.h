// The clock as a port: wall time, a tick that never runs backwards and counts sleep, and the boot it belongs
// to.
#pragma once
#include <cstdint>

#include "core/store/ids.h"
#include "core/units/time.h"

namespace brimline::store {

class Clock {
public:
    Clock() = default;
    Clock(const Clock&) = delete;
    Clock& operator=(const Clock&) = delete;
    virtual ~Clock() = default;
    [[nodiscard]] virtual Instant utc() = 0;
    [[nodiscard]] virtual std::int64_t tick_us() = 0;  // microseconds since the boot
    [[nodiscard]] virtual Id16 boot() = 0;
};

/// The tablet's clocks. Source: clock_gettime(2) CLOCK_REALTIME and CLOCK_BOOTTIME; random(4) boot_id.
class SystemClock final : public Clock {
public:
    SystemClock();
    [[nodiscard]] Instant utc() override;
    [[nodiscard]] std::int64_t tick_us() override;
    [[nodiscard]] Id16 boot() override { return boot_; }

private:
    Id16 boot_{};  // all zero when the kernel does not tell
};

/// A clock that stands still until it is moved.
class SetClock final : public Clock {
public:
    explicit SetClock(Instant utc, std::int64_t tick_us = 0) : utc_{utc}, tick_us_{tick_us} {}
    [[nodiscard]] Instant utc() override { return utc_; }
    [[nodiscard]] std::int64_t tick_us() override { return tick_us_; }
    [[nodiscard]] Id16 boot() override { return boot_; }

    /// Time passes on both clocks.
    void pass(Duration d);
    /// The wall clock alone is moved, forwards or back.
    void jump(Duration d);
    /// To this wall time; the tick goes forward by as much, and never back.
    void move_to(Instant utc);
    /// The tablet was started anew: the tick begins at 0.
    void start_again();

private:
    Instant utc_;
    std::int64_t tick_us_;
    Id16 boot_{};
};

}  // namespace brimline::store
