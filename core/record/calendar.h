// Dates of the register for a calendar: book by and due, as whole days. Nothing in it tells who the patient
// is or what was done, because it ends up on a telephone. Source: RFC 5545; interchange.md 3.3.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "core/units/time.h"

namespace brimline {

/// One day to be reminded of. `uid` stays the same when the date changes; `sequence` then grows.
struct CalendarDay {
    std::string uid, summary;
    LocalDate date{};
    int sequence{0};
    std::vector<int> remind_days;  ///< how many days before; 0 = on the day
};
/// The lines before the first day, after the last, and of one day. Shape: CRLF; no line longer than 75
/// octets, none broken inside a letter; backslash, semicolon, comma and line break escaped in text.
[[nodiscard]] std::string calendar_begin();
[[nodiscard]] std::string calendar_day(const CalendarDay& day, Instant made);
[[nodiscard]] std::string calendar_end();

}  // namespace brimline
