// A time as worked examples write it: a date, a reading of a clock, or both, with or without an offset.
#pragma once
#include <optional>
#include <string_view>

#include "core/units/time.h"

namespace brimline::worked {

/// At least one of `date` and `of_day` is there; an offset only beside `of_day`.
struct Written {
    std::optional<LocalDate> date;
    std::optional<Duration> of_day;
    std::optional<std::chrono::seconds> offset;

    /// The moment, when date and clock are there; without an offset the reading is taken as UTC.
    [[nodiscard]] Instant as_utc() const;
    /// The reading of a wall clock.
    [[nodiscard]] LocalTime reading() const;
};

/// Reads "2026-11-25", "09:30", "09:30:15", "2026-11-25 09:30", "2026-11-25T09:30:00Z", "...+01:00"; empty
/// when it is anything else or no such date or time.
[[nodiscard]] std::optional<Written> read_written(std::string_view text);

}  // namespace brimline::worked
