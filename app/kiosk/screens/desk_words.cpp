// Dates and roles in words.
#include "app/kiosk/screens/desk_words.h"

#include <fmt/format.h>

namespace brimline::screens {

std::string shown_date(const touch::Glass& glass, LocalDate date) {
    const auto& words = glass.words();
    const auto month = words.say(fmt::format("date.month-{}", static_cast<unsigned>(date.month())));
    return words.say("date.shown", {{"day", std::to_string(static_cast<unsigned>(date.day()))},
                                    {"month", month},
                                    {"year", std::to_string(static_cast<int>(date.year()))}});
}

std::string weekday_date(const touch::Glass& glass, Instant t, const Zone& zone) {
    const auto date = zone.date_of(t);
    const std::chrono::weekday day{std::chrono::sys_days{date}};
    return glass.words().say(fmt::format("date.weekday-{}", day.iso_encoding())) + " " +
           shown_date(glass, date);
}

std::string role_words(const touch::Glass& glass, const PersonKnown& person) {
    if (person.roles.empty()) {
        return "";
    }
    return glass.words().say(fmt::format("role.{}", name_of(person.roles.front())));
}

}  // namespace brimline::screens
