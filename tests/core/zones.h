// Zones for tests, built from the published rule and not from the system's tables: clocks change at 01:00 UTC
// on the last Sunday of March and of October. Source: Directive 2000/84/EC, articles 2 and 3.
#pragma once
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/units/time.h"

namespace brimline::test {

/// A zone of that rule for 2000 to 2099 with this winter offset.
inline Zone european_zone(std::string name, std::chrono::hours winter) {
    using std::chrono::October, std::chrono::March, std::chrono::Sunday, std::chrono::last,
        std::chrono::sys_days;
    std::vector<Zone::Row> rows{{Instant{}, winter}};
    const auto at_one = [](auto day) {
        return Instant::of_us(Duration{sys_days{day}.time_since_epoch() + std::chrono::hours{1}}.count());
    };
    for (int y = 2000; y < 2100; ++y) {
        const std::chrono::year year{y};
        rows.push_back({at_one(year / March / Sunday[last]), winter + std::chrono::hours{1}});
        rows.push_back({at_one(year / October / Sunday[last]), winter});
    }
    return {std::move(name), std::move(rows)};
}
inline const Zone& london() {
    static const Zone zone = european_zone("Europe/London", std::chrono::hours{0});
    return zone;
}
inline const Zone& berlin() {
    static const Zone zone = european_zone("Europe/Berlin", std::chrono::hours{1});
    return zone;
}

/// "2026-11-25T09:30:00Z"; a slip in a test stops it.
inline Instant at(std::string_view text) {
    const auto t = parse_instant(text);
    if (!t) {
        throw std::invalid_argument{"no instant: " + std::string{text}};
    }
    return *t;
}
inline LocalDate day(std::string_view text) {
    const auto d = parse_date(text);
    if (!d) {
        throw std::invalid_argument{"no date: " + std::string{text}};
    }
    return *d;
}
/// "2026-11-25 09:30" as a wall-clock reading.
inline LocalTime wall(std::string_view text) {
    const std::string utc = std::string{text.substr(0, 10)} + "T" + std::string{text.substr(11)} + ":00Z";
    return Zone{}.local(at(utc));
}

}  // namespace brimline::test
