// The yearly rule at the end of a zone's table file: it goes on where the listed transitions end (2037).
// Inside the store only. Source: POSIX.1 "TZ" with the extensions of RFC 8536 section 3.3 (signed times of up
// to 167 hours).
#pragma once
#include <chrono>
#include <optional>
#include <string_view>
#include <vector>

#include "core/units/time.h"

namespace brimline::store {

/// On which day of a year, and when on it, the clock is moved.
struct ZoneRuleDay {
    enum class Kind { week_of_month, day_without_leap, day_from_zero };
    Kind kind{Kind::week_of_month};
    int month{1}, week{1}, weekday{0};  // week 5 = the last; weekday 0 = Sunday
    int day{0};                         // 1 to 365 without 29 February, or 0 to 365 with it
    std::chrono::seconds at{7200};      // from midnight, by the clock that is then left
};

struct ZoneRule {
    std::chrono::seconds standard{0}, summer{0};  // offsets from UTC
    struct Change {
        ZoneRuleDay summer_begins, summer_ends;
    };
    std::optional<Change> change;  // none = standard time for ever
};

/// Reads "GMT0BST,M3.5.0/1,M10.5.0"; empty when it is anything else.
[[nodiscard]] std::optional<ZoneRule> parse_zone_rule(std::string_view text);
/// The two changes of that year in order of time; none without summer time.
[[nodiscard]] std::vector<Zone::Row> changes_in(const ZoneRule& rule, int year);

}  // namespace brimline::store
