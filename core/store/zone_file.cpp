#include "core/store/zone_file.h"

#include <date/tz.h>

#include <stdexcept>

namespace brimline::store {
namespace {

Zone table_of(const date::time_zone& zone) {
    using date::sys_days;
    using std::chrono::seconds;
    const date::sys_seconds begin = sys_days{date::year{1970} / 1 / 1};
    const date::sys_seconds end = sys_days{date::year{2101} / 1 / 1};
    std::vector<Zone::Row> rows;
    for (date::sys_seconds at = begin; at < end;) {
        const date::sys_info info = zone.get_info(at);
        if (rows.empty() || rows.back().offset != info.offset) {
            rows.push_back({Instant::of_us(at.time_since_epoch().count() * 1'000'000), info.offset});
        }
        if (info.end <= at) {
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
