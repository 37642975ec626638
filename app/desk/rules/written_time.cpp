// Reads times of worked examples by putting what is missing in front of or behind them.
#include "app/desk/rules/written_time.h"

#include <string>

namespace brimline::worked {
namespace {

constexpr std::size_t date_size = 10;
constexpr std::string_view any_date = "1970-01-01";

/// "09:30" and "09:30:15.5" as microseconds of the day.
std::optional<Duration> read_clock(std::string_view text) {
    const std::string seconds = text.size() == 5 ? ":00" : "";
    const auto moment = parse_instant(std::string{any_date} + "T" + std::string{text} + seconds + "Z");
    return moment ? std::optional{Duration{moment->in_us()}} : std::nullopt;
}

/// Where the offset of a clock reading begins; the end where there is none.
std::size_t offset_from(std::string_view clock) {
    const auto at = clock.find_first_of("Z+-");
    return at == std::string_view::npos ? clock.size() : at;
}

/// "Z", "+01:00"
std::optional<std::chrono::seconds> read_offset(std::string_view text) {
    const auto moment = parse_instant(std::string{any_date} + "T00:00:00" + std::string{text});
    return moment ? std::optional{std::chrono::seconds{-moment->in_us() / 1'000'000}} : std::nullopt;
}

}  // namespace

Instant Written::as_utc() const {
    const std::chrono::sys_days day{date.value_or(LocalDate{std::chrono::sys_days{}})};
    const Duration since = Duration{day.time_since_epoch()} + of_day.value_or(Duration{});
    return Instant::of_us((since - Duration{offset.value_or(std::chrono::seconds{})}).count());
}

LocalTime Written::reading() const {
    return {date.value_or(LocalDate{std::chrono::sys_days{}}), of_day.value_or(Duration{})};
}

std::optional<Written> read_written(std::string_view text) {
    Written written;
    const bool dated = text.size() >= date_size && text[4] == '-';
    if (dated) {
        written.date = parse_date(text.substr(0, date_size));
        text.remove_prefix(date_size);
        if (!written.date || text.empty()) {
            return written.date ? std::optional{written} : std::nullopt;
        }
        if (text.front() != 'T' && text.front() != ' ') {
            return std::nullopt;
        }
        text.remove_prefix(1);
    }
    const auto split = offset_from(text);
    written.of_day = read_clock(text.substr(0, split));
    if (split < text.size()) {
        written.offset = read_offset(text.substr(split));
        if (!written.offset) {
            return std::nullopt;
        }
    }
    return written.of_day ? std::optional{written} : std::nullopt;
}

}  // namespace brimline::worked
