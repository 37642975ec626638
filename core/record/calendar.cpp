// Writing iCalendar.
#include "core/record/calendar.h"

#include <fmt/format.h>

#include <algorithm>

namespace brimline {
namespace {

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        out += c == '\n'                             ? "\\n"
               : c == '\r'                           ? ""
               : (c == '\\' || c == ';' || c == ',') ? std::string{'\\', c}
                                                     : std::string{c};
    }
    return out;
}

bool goes_on(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

/// One content line, folded: what follows the first 75 octets stands on lines that begin with a blank.
std::string folded(std::string_view line) {
    constexpr std::size_t most_octets = 75;
    std::string out;
    std::size_t room = most_octets;
    while (line.size() > room) {
        std::size_t cut = room;
        while (cut > 0 && goes_on(line[cut])) {
            --cut;
        }
        cut = cut == 0 ? room : cut;  // bytes that are no UTF-8 are broken anywhere
        out += std::string{line.substr(0, cut)} + "\r\n ";
        line.remove_prefix(cut);
        room = most_octets - 1;
    }
    return out + std::string{line} + "\r\n";
}

std::string compact(std::string text) {
    text.erase(std::remove_if(text.begin(), text.end(), [](char c) { return c == '-' || c == ':'; }),
               text.end());
    return text;
}

}  // namespace

std::string calendar_begin() {
    return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Brimline//Register//EN\r\n";
}

std::string calendar_day(const CalendarDay& day, Instant made) {
    const auto stamp = compact(instant_text(made, Zone{}).substr(0, 19)) + "Z";
    const auto summary = escaped(day.summary);
    std::string out = "BEGIN:VEVENT\r\n";
    out += folded("UID:" + escaped(day.uid));
    out += folded("DTSTAMP:" + stamp);
    out += folded("DTSTART;VALUE=DATE:" + compact(date_text(day.date)));
    out += folded("DTEND;VALUE=DATE:" + compact(date_text(add_days(day.date, 1))));
    out += folded("SUMMARY:" + summary);
    out += folded(fmt::format("SEQUENCE:{}", day.sequence));
    out += "CLASS:PRIVATE\r\nTRANSP:TRANSPARENT\r\n";
    for (const int days : day.remind_days) {
        out += "BEGIN:VALARM\r\nACTION:DISPLAY\r\n" + folded("DESCRIPTION:" + summary);
        out += folded(fmt::format("TRIGGER:-P{}D", days)) + "END:VALARM\r\n";
    }
    return out + "END:VEVENT\r\n";
}

std::string calendar_end() { return "END:VCALENDAR\r\n"; }

}  // namespace brimline
