// Moments, dates and the clinic's time zone as values. Core never asks a clock: the time is always an argument.
#pragma once
#include <chrono>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace brimline {

using Duration = std::chrono::microseconds;
using LocalDate = std::chrono::year_month_day;

/// A moment in UTC, in whole microseconds since 1970.
class Instant {
public:
    constexpr Instant() = default;
    [[nodiscard]] static constexpr Instant of_us(std::int64_t us) { return Instant{us}; }
    [[nodiscard]] constexpr std::int64_t in_us() const { return us_; }
    friend constexpr auto operator<=>(Instant, Instant) = default;
    friend constexpr Instant operator+(Instant t, Duration d) { return Instant{t.us_ + d.count()}; }
    friend constexpr Instant operator-(Instant t, Duration d) { return Instant{t.us_ - d.count()}; }
    friend constexpr Duration operator-(Instant a, Instant b) { return Duration{a.us_ - b.us_}; }

private:
    explicit constexpr Instant(std::int64_t us) : us_{us} {}
    std::int64_t us_{0};
};

/// Whole minutes, seconds dropped (towards zero).
[[nodiscard]] constexpr std::int64_t whole_minutes(Duration d) {
    return std::chrono::duration_cast<std::chrono::minutes>(d).count();
}
/// Whole seconds, the rest dropped (towards zero).
[[nodiscard]] constexpr std::int64_t whole_seconds(Duration d) {
    return std::chrono::duration_cast<std::chrono::seconds>(d).count();
}

/// A wall-clock reading without a zone, to the microsecond.
struct LocalTime {
    LocalDate date{};
    Duration of_day{};
    friend constexpr bool operator==(const LocalTime&, const LocalTime&) = default;
};

/// The clinic's zone as a table: from each moment on, this offset from UTC. The first row holds from the beginning.
class Zone {
public:
    struct Row {
        Instant from;
        std::chrono::seconds offset{0};
    };
    /// UTC, without a table.
    Zone() : name_{"UTC"}, rows_{{Instant{}, std::chrono::seconds{0}}} {}
    /// Shape: rows ascend; at least one (asserted).
    Zone(std::string name, std::vector<Row> rows);

    [[nodiscard]] const std::string& name() const { return name_; }
    [[nodiscard]] std::chrono::seconds offset_at(Instant t) const;
    [[nodiscard]] LocalTime local(Instant t) const;
    [[nodiscard]] LocalDate date_of(Instant t) const { return local(t).date; }
    /// Every moment that shows this wall-clock time: none in a spring gap, two in an autumn overlap (earlier first).
    [[nodiscard]] std::vector<Instant> moments(const LocalTime& t) const;
    /// Midnight, or the first moment of that day where midnight is skipped.
    [[nodiscard]] Instant start_of(LocalDate date) const;

private:
    std::string name_;
    std::vector<Row> rows_;
};

/// "2026-11-25T09:38:23+00:00" (seconds may have a fraction, "Z" is an offset); empty when it is anything else, has no
/// offset, or names a date or time that does not exist. Source: RFC 3339 section 5.6.
[[nodiscard]] std::optional<Instant> parse_instant(std::string_view text);
/// RFC 3339 with the zone's offset, seconds without a fraction unless there is one (then three digits).
[[nodiscard]] std::string instant_text(Instant t, const Zone& zone);
/// "2026-11-25"; empty when it is anything else or no such date.
[[nodiscard]] std::optional<LocalDate> parse_date(std::string_view text);
/// "2026-11-25"
[[nodiscard]] std::string date_text(LocalDate date);
/// "25 May 2027", for people.
[[nodiscard]] std::string date_words(LocalDate date);
/// "09:41" or "09:41:27" local, for people.
[[nodiscard]] std::string clock_text(Instant t, const Zone& zone, bool seconds = false);
/// "14 min", "1 h 56 min", "45 s" (below one minute); never a colon.
[[nodiscard]] std::string duration_words(Duration d);
/// date + n months by the calendar, the day clamped to the month's last. Source: after.md section 8.
[[nodiscard]] LocalDate add_months(LocalDate date, int months);
/// date + n days.
[[nodiscard]] LocalDate add_days(LocalDate date, int days);
/// Days from `from` to `to`, negative when `to` is earlier.
[[nodiscard]] int days_between(LocalDate from, LocalDate to);
/// Completed years; someone born on 29 February has the birthday on 1 March in common years. Source: before.md 3.
[[nodiscard]] int age_on(LocalDate born, LocalDate on);

}  // namespace brimline
