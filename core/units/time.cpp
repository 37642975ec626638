// Moments, dates and zones: reading, writing and calendar steps. Pure arithmetic on values, no clock and no
// zone files.
#include "core/units/time.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>

namespace brimline {
namespace {

using std::chrono::days;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::year_month_day;

/// Reads fixed shapes from the left; the first thing that does not fit spoils it for good.
class Reader {
public:
    explicit Reader(std::string_view text) : rest_{text} {}

    /// Exactly `width` decimal digits.
    int number(std::size_t width) {
        if (rest_.size() < width) {
            good_ = false;
            return 0;
        }
        int value = 0;
        for (const char c : rest_.substr(0, width)) {
            good_ = good_ && c >= '0' && c <= '9';
            value = good_ ? value * 10 + (c - '0') : 0;
        }
        rest_.remove_prefix(width);
        return value;
    }
    /// One of `allowed`; answers which.
    char one_of(std::string_view allowed) {
        if (rest_.empty() || allowed.find(rest_.front()) == std::string_view::npos) {
            good_ = false;
            return '\0';
        }
        const char c = rest_.front();
        rest_.remove_prefix(1);
        return c;
    }
    /// One to six digits as microseconds.
    int fraction() {
        std::size_t width = 0;
        while (width < rest_.size() && rest_[width] >= '0' && rest_[width] <= '9') {
            ++width;
        }
        good_ = good_ && width >= 1 && width <= 6;
        if (!good_) {
            return 0;
        }
        int value = number(width);
        for (; width < 6; ++width) {
            value *= 10;
        }
        return value;
    }
    [[nodiscard]] bool next_is(char c) const { return !rest_.empty() && rest_.front() == c; }
    [[nodiscard]] bool ended() const { return good_ && rest_.empty(); }

private:
    std::string_view rest_;
    bool good_{true};
};

LocalDate read_date(Reader& reader) {
    const int y = reader.number(4);
    reader.one_of("-");
    const int m = reader.number(2);
    reader.one_of("-");
    const int d = reader.number(2);
    return std::chrono::year{y} / std::chrono::month{static_cast<unsigned>(m)} /
           std::chrono::day{static_cast<unsigned>(d)};
}

/// The wall-clock reading as microseconds since 1970 as if it were UTC.
std::int64_t flat_us(const LocalTime& t) {
    return Duration{sys_days{t.date}.time_since_epoch()}.count() + t.of_day.count();
}

LocalTime split(std::int64_t flat) {
    const Duration since{flat};
    const auto day = std::chrono::floor<days>(since);
    return {year_month_day{sys_days{day}}, since - day};
}

std::int64_t us(seconds s) { return Duration{s}.count(); }

std::string offset_text(minutes offset) {
    const auto n = offset.count() < 0 ? -offset.count() : offset.count();
    return fmt::format("{}{:02}:{:02}", offset.count() < 0 ? '-' : '+', n / 60, n % 60);
}

}  // namespace

Zone::Zone(std::string name, std::vector<Row> rows) : name_{std::move(name)}, rows_{std::move(rows)} {
    assert(!rows_.empty());
    assert(std::is_sorted(rows_.begin(), rows_.end(),
                          [](const Row& a, const Row& b) { return a.from < b.from; }));
}

std::chrono::seconds Zone::offset_at(Instant t) const {
    const auto after = std::upper_bound(rows_.begin(), rows_.end(), t,
                                        [](Instant moment, const Row& row) { return moment < row.from; });
    return after == rows_.begin() ? rows_.front().offset : std::prev(after)->offset;
}

LocalTime Zone::local(Instant t) const { return split(t.in_us() + us(offset_at(t))); }

std::vector<Instant> Zone::moments(const LocalTime& t) const {
    std::vector<Instant> found;
    for (const Row& row : rows_) {
        const Instant candidate = Instant::of_us(flat_us(t) - us(row.offset));
        if (offset_at(candidate) == row.offset) {
            found.push_back(candidate);
        }
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

Instant Zone::start_of(LocalDate date) const {
    const LocalTime midnight{date, Duration{0}};
    if (const auto found = moments(midnight); !found.empty()) {
        return found.front();
    }
    const std::int64_t flat = flat_us(midnight);  // skipped: the clock jumps over it at one row's start
    for (std::size_t i = 1; i < rows_.size(); ++i) {
        const std::int64_t from = rows_[i].from.in_us();
        if (from + us(rows_[i - 1].offset) <= flat && flat < from + us(rows_[i].offset)) {
            return rows_[i].from;
        }
    }
    return Instant::of_us(flat - us(rows_.front().offset));
}

std::optional<Instant> parse_instant(std::string_view text) {
    Reader reader{text};
    const LocalDate date = read_date(reader);
    reader.one_of("T");
    const int h = reader.number(2);
    reader.one_of(":");
    const int m = reader.number(2);
    reader.one_of(":");
    const int s = reader.number(2);
    int fraction = 0;
    if (reader.next_is('.')) {
        reader.one_of(".");
        fraction = reader.fraction();
    }
    seconds offset{0};
    if (const char sign = reader.one_of("Z+-"); sign != 'Z') {
        const int oh = reader.number(2);
        reader.one_of(":");
        const int om = reader.number(2);
        if (oh > 23 || om > 59) {
            return std::nullopt;
        }
        offset = seconds{hours{oh} + minutes{om}} * (sign == '-' ? -1 : 1);
    }
    if (!reader.ended() || !date.ok() || h > 23 || m > 59 || s > 59) {
        return std::nullopt;
    }
    const Duration of_day = hours{h} + minutes{m} + seconds{s} + Duration{fraction};
    return Instant::of_us(flat_us({date, of_day}) - us(offset));
}

std::string instant_text(Instant t, const Zone& zone) {
    const auto offset =
        std::chrono::floor<minutes>(zone.offset_at(t));  // RFC 3339 has no seconds in an offset
    const LocalTime local = split(t.in_us() + us(offset));
    const std::chrono::hh_mm_ss clock{local.of_day};
    const auto ms = clock.subseconds().count() / 1000;
    return fmt::format("{}T{:02}:{:02}:{:02}{}{}", date_text(local.date), clock.hours().count(),
                       clock.minutes().count(), clock.seconds().count(),
                       ms != 0 ? fmt::format(".{:03}", ms) : "", offset_text(offset));
}

std::optional<LocalDate> parse_date(std::string_view text) {
    Reader reader{text};
    const LocalDate date = read_date(reader);
    return reader.ended() && date.ok() ? std::optional{date} : std::nullopt;
}

std::string date_text(LocalDate date) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string date_words(LocalDate date) {
    static constexpr std::array<std::string_view, 12> names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                            "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    assert(date.ok());
    return fmt::format("{} {} {}", static_cast<unsigned>(date.day()),
                       names[static_cast<unsigned>(date.month()) - 1], static_cast<int>(date.year()));
}

std::string clock_text(Instant t, const Zone& zone, bool with_seconds) {
    const std::chrono::hh_mm_ss clock{zone.local(t).of_day};
    const std::string short_form = fmt::format("{:02}:{:02}", clock.hours().count(), clock.minutes().count());
    return with_seconds ? fmt::format("{}:{:02}", short_form, clock.seconds().count()) : short_form;
}

std::string duration_words(Duration d) {
    const std::string sign = d < seconds{0} && whole_seconds(d) != 0 ? "-" : "";
    const auto s = whole_seconds(d < seconds{0} ? -d : d);
    if (s < 60) {
        return fmt::format("{}{} s", sign, s);
    }
    const auto m = s / 60;
    return m < 60 ? fmt::format("{}{} min", sign, m) : fmt::format("{}{} h {:02} min", sign, m / 60, m % 60);
}

LocalDate add_months(LocalDate date, int months) {
    const auto target = date.year() / date.month() + std::chrono::months{months};
    const LocalDate same_day = target / date.day();
    return same_day.ok() ? same_day : LocalDate{target / std::chrono::last};
}

LocalDate add_days(LocalDate date, int n) { return year_month_day{sys_days{date} + days{n}}; }

int days_between(LocalDate from, LocalDate to) {
    return static_cast<int>((sys_days{to} - sys_days{from}).count());
}

int age_on(LocalDate born, LocalDate on) {
    const int years = static_cast<int>(on.year()) - static_cast<int>(born.year());
    const bool before_birthday =
        on.month() < born.month() || (on.month() == born.month() && on.day() < born.day());
    return years - (before_birthday ? 1 : 0);
}

}  // namespace brimline
