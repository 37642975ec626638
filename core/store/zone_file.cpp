// Loading a zone's table from the system.
#include "core/store/zone_file.h"

#include <date/tz.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <stdexcept>

#include "core/store/small_file.h"
#include "core/store/zone_rule.h"

namespace brimline::store {
namespace {

/// The rule that stands in the last line of the zone's table file. Source: RFC 8536 section 3.3.
std::optional<ZoneRule> rule_of(const std::string& zone) {
    const char* set = std::getenv("TZDIR");
    const std::filesystem::path tables = set != nullptr ? set : "/usr/share/zoneinfo";
    const auto text = read_file(tables / zone, 1'000'000);
    if (!text || text->substr(0, 4) != "TZif" || text->size() < 8 || text->back() != '\n') {
        return std::nullopt;
    }
    const std::size_t line = text->rfind('\n', text->size() - 2);
    if (line == std::string::npos) {
        return std::nullopt;
    }
    return parse_zone_rule(std::string_view{*text}.substr(line + 1, text->size() - line - 2));
}

/// Where the listed transitions end, the rule goes on.
void go_on(std::vector<Zone::Row>& rows, date::sys_seconds last_listed, const std::string& zone) {
    const auto rule = rule_of(zone);
    if (!rule) {
        return;
    }
    const Instant listed_to = Instant::of_us(last_listed.time_since_epoch().count() * 1'000'000);
    for (int year = 1970; year <= 2100; ++year) {
        for (const Zone::Row& row : changes_in(*rule, year)) {
            if (row.from > listed_to && row.offset != rows.back().offset) {
                rows.push_back(row);
            }
        }
    }
}

Zone table_of(const date::time_zone& zone) {
    using date::sys_days;
    const date::sys_seconds begin = sys_days{date::year{1970} / 1 / 1};
    const date::sys_seconds end = sys_days{date::year{2101} / 1 / 1};
    std::vector<Zone::Row> rows;
    for (date::sys_seconds at = begin; at < end;) {
        const date::sys_info info = zone.get_info(at);
        if (rows.empty() || rows.back().offset != info.offset) {
            rows.push_back({Instant::of_us(at.time_since_epoch().count() * 1'000'000), info.offset});
        }
        if (info.end <= at || info.end >= end) {
            go_on(rows, std::max(at, begin), zone.name());
            break;
        }
        at = info.end;
    }
    return Zone{zone.name(), std::move(rows)};
}

}  // namespace

Expected<Zone> load_zone(const std::string& name) {
    try {
        return table_of(*date::locate_zone(name));
    } catch (const std::exception&) {  // the library's way to say that it has no such zone or no tables
        return refuse("zone-unknown", "The time zone \"" + name + "\" is not known on this system.",
                      "Use a name such as Europe/London, and check that tzdata is installed.");
    }
}

Expected<Zone> system_zone() {
    try {
        return table_of(*date::current_zone());
    } catch (const std::exception&) {
        return refuse("zone-unknown", "The system does not tell its time zone.",
                      "Set clinic.zone in the policy, or the zone of the system.");
    }
}

}  // namespace brimline::store
