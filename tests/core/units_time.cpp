// Moments, zones, dates and calendar steps against before.md 1 and 3, after.md 3 to 8 and RFC 3339.
#include <algorithm>

#include "core/units/time.h"
#include "tests/catch.h"
#include "tests/core/zones.h"

namespace brimline {
namespace {

using test::at;
using test::berlin;
using test::day;
using test::london;
using test::wall;

TEST_CASE("an RFC 3339 instant is read to the microsecond", "[units][time]") {
    CHECK(parse_instant("1970-01-01T00:00:00Z") == Instant::of_us(0));
    CHECK(parse_instant("1970-01-01T00:00:01.5Z") == Instant::of_us(1'500'000));
    CHECK(parse_instant("1970-01-01T00:00:00.000001Z") == Instant::of_us(1));
    CHECK(parse_instant("1969-12-31T23:59:59Z") == Instant::of_us(-1'000'000));
    CHECK(parse_instant("2026-11-25T09:38:23+00:00") == parse_instant("2026-11-25T10:38:23+01:00"));
    CHECK(parse_instant("2026-11-25T00:30:00+01:00") == parse_instant("2026-11-24T23:30:00Z"));
    CHECK(parse_instant("2026-11-25T09:38:23-05:30") == parse_instant("2026-11-25T15:08:23Z"));
    CHECK(at("2026-11-25T00:00:00Z") ==
          Instant::of_us(1'795'564'800'000'000));  // checked with date -d ... +%s
}

TEST_CASE("anything that is no full RFC 3339 instant is not read", "[units][time]") {
    for (const auto* text : {"",
                             "2026-11-25",
                             "2026-11-25T09:38:23",
                             "2026-11-25 09:38:23Z",
                             "2026-11-25t09:38:23Z",
                             "2026-11-25T09:38:23z",
                             "2026-11-25T09:38Z",
                             "2026-11-25T09:38:23.Z",
                             "2026-11-25T09:38:23,5Z",
                             "2026-11-25T09:38:23.1234567Z",
                             "2026-11-25T24:00:00Z",
                             "2026-11-25T09:60:00Z",
                             "2026-11-25T09:38:60Z",
                             "2026-02-29T00:00:00Z",
                             "2026-13-01T00:00:00Z",
                             "2026-00-10T00:00:00Z",
                             "2026-11-31T00:00:00Z",
                             "2026-11-25T09:38:23+24:00",
                             "2026-11-25T09:38:23+01:60",
                             "2026-11-25T09:38:23+0100",
                             "2026-11-25T09:38:23+01",
                             "2026-11-25T09:38:23Z ",
                             " 2026-11-25T09:38:23Z",
                             "26-11-25T09:38:23Z",
                             "2026-11-25T9:38:23Z",
                             "2026-11-25T09:38:23ZZ",
                             "+026-11-25T09:38:23Z",
                             "2026-11-25T09:38:-3Z",
                             "2026/11/25T09:38:23Z",
                             "2026-11-25T09:38:23+-1:00"}) {
        INFO(text);
        CHECK_FALSE(parse_instant(text).has_value());
    }
}

TEST_CASE("an instant is written with the zone's offset and reads back", "[units][time]") {
    CHECK(instant_text(at("2026-11-25T09:38:23Z"), london()) == "2026-11-25T09:38:23+00:00");
    CHECK(instant_text(at("2026-07-01T09:00:00Z"), london()) == "2026-07-01T10:00:00+01:00");
    CHECK(instant_text(at("2026-11-25T09:38:23.250Z"), berlin()) == "2026-11-25T10:38:23.250+01:00");
    const Zone west{"Test/West", {{Instant{}, -std::chrono::hours{3} - std::chrono::minutes{30}}}};
    CHECK(instant_text(at("2026-11-25T01:00:00Z"), west) == "2026-11-24T21:30:00-03:30");
    CHECK(at(instant_text(at("2026-11-25T01:00:00Z"), west)) == at("2026-11-25T01:00:00Z"));
}

TEST_CASE("an offset with seconds is written to the minute and still names the same moment",
          "[units][time]") {
    const Zone mean{"Test/Mean", {{Instant{}, -std::chrono::seconds{75}}}};
    const auto t = at("1840-01-01T00:00:00Z");
    CHECK(instant_text(t, mean) == "1839-12-31T23:58:00-00:02");
    CHECK(at(instant_text(t, mean)) == t);
}

TEST_CASE("the hours that a clock change makes or eats are found", "[units][time][zone]") {
    CHECK(london().moments(wall("2026-03-29 01:30")).empty());
    CHECK(london().moments(wall("2026-03-29 02:00")) == std::vector{at("2026-03-29T01:00:00Z")});
    CHECK(london().moments(wall("2026-03-29 00:59")) == std::vector{at("2026-03-29T00:59:00Z")});
    CHECK(london().moments(wall("2026-10-25 01:30")) ==
          std::vector{at("2026-10-25T00:30:00Z"), at("2026-10-25T01:30:00Z")});
    CHECK(london().moments(wall("2026-10-25 02:00")) == std::vector{at("2026-10-25T02:00:00Z")});
    CHECK(berlin().moments(wall("2026-10-25 02:15")) ==
          std::vector{at("2026-10-25T00:15:00Z"), at("2026-10-25T01:15:00Z")});
    CHECK(Zone{}.moments(wall("2026-10-25 01:30")) == std::vector{at("2026-10-25T01:30:00Z")});
}

TEST_CASE("every hour of two years comes back from its local reading", "[units][time][zone]") {
    const auto end = at("2028-01-01T00:00:00Z");
    int ambiguous = 0;
    for (Instant t = at("2026-01-01T00:00:00Z"); t < end; t = t + std::chrono::minutes{30}) {
        const auto found = berlin().moments(berlin().local(t));
        ambiguous += found.size() == 2 ? 1 : 0;
        REQUIRE(std::find(found.begin(), found.end(), t) != found.end());
    }
    CHECK(ambiguous == 8);  // two half hours, each twice, in two autumns
}

TEST_CASE("a day starts at midnight, or at its first moment where midnight is skipped",
          "[units][time][zone]") {
    CHECK(london().start_of(day("2026-07-01")) == at("2026-06-30T23:00:00Z"));
    CHECK(london().start_of(day("2026-11-25")) == at("2026-11-25T00:00:00Z"));
    const auto change = at("2026-04-01T03:00:00Z");  // midnight local, straight to 01:00
    const Zone skips{"Test/Skips", {{Instant{}, -std::chrono::hours{3}}, {change, -std::chrono::hours{2}}}};
    CHECK(skips.moments(wall("2026-04-01 00:00")).empty());
    CHECK(skips.start_of(day("2026-04-01")) == change);
    CHECK(skips.start_of(day("2026-04-02")) == at("2026-04-02T02:00:00Z"));
}

TEST_CASE("the first row of a zone holds from the beginning", "[units][time][zone]") {
    const Zone zone{"Test/Late", {{at("2000-01-01T00:00:00Z"), std::chrono::hours{5}}}};
    CHECK(zone.offset_at(at("1950-01-01T00:00:00Z")) == std::chrono::hours{5});
    CHECK(clock_text(at("1950-01-01T00:00:00Z"), zone) == "05:00");
}

TEST_CASE("a date is read only where it exists", "[units][time]") {
    CHECK(date_text(day("2028-02-29")) == "2028-02-29");
    for (const auto* text :
         {"2027-02-29", "2027-2-9", "2027-02-30", "20270201", "2027-02-01T", "", "0x27-01-01"}) {
        INFO(text);
        CHECK_FALSE(parse_date(text).has_value());
    }
}

TEST_CASE("dates, times and durations are worded for people without a colon in a duration", "[units][time]") {
    CHECK(date_words(day("2027-05-25")) == "25 May 2027");
    CHECK(date_words(day("2027-01-03")) == "3 Jan 2027");
    CHECK(clock_text(at("2026-07-25T08:41:27Z"), london()) == "09:41");
    CHECK(clock_text(at("2026-07-25T08:41:27Z"), london(), true) == "09:41:27");
    using namespace std::chrono_literals;
    const std::vector<std::pair<Duration, std::string>> table{
        {0s, "0 s"},       {45s, "45 s"},           {59'999ms, "59 s"},     {60s, "1 min"},
        {14min, "14 min"}, {59min + 59s, "59 min"}, {120min, "2 h 00 min"}, {116min + 30s, "1 h 56 min"},
        {-5min, "-5 min"}, {-300ms, "0 s"}};
    for (const auto& [duration, words] : table) {
        INFO(words);
        CHECK(duration_words(duration) == words);
    }
    CHECK(whole_minutes(119min + 59s) == 119);
    CHECK(whole_seconds(1999ms) == 1);
}

TEST_CASE("months are added by the calendar and clamped to the month's last day", "[units][time][dates]") {
    struct Row {
        const char* from;
        int months;
        const char* to;
        int span;
    };
    // after.md 5 and 8
    const std::vector<Row> table{{"2026-11-25", 6, "2027-05-25", 181}, {"2026-11-30", 6, "2027-05-30", 181},
                                 {"2026-03-31", 6, "2026-09-30", 183}, {"2027-08-30", 6, "2028-02-29", 183},
                                 {"2026-02-28", 6, "2026-08-28", 181}, {"2007-03-31", 1, "2007-04-30", 30},
                                 {"2011-01-30", 1, "2011-02-28", 29},  {"2027-07-31", 6, "2028-01-31", 184},
                                 {"2026-11-30", 3, "2027-02-28", 90},  {"2027-02-28", 1, "2027-03-28", 28},
                                 {"2026-11-30", 4, "2027-03-30", 120}, {"2027-03-31", -1, "2027-02-28", -31},
                                 {"2027-01-31", -2, "2026-11-30", -62}};
    for (const auto& row : table) {
        INFO(row.from << " + " << row.months);
        CHECK(date_text(add_months(day(row.from), row.months)) == row.to);
        CHECK(days_between(day(row.from), add_months(day(row.from), row.months)) == row.span);
    }
}

TEST_CASE("six months are 181 to 184 days over all days of a 400-year cycle", "[units][time][dates]") {
    int least = 1000;
    int most = 0;
    int count = 0;
    for (LocalDate d = day("2000-01-01"); d < day("2400-01-01"); d = add_days(d, 1)) {
        const int span = days_between(d, add_months(d, 6));
        least = std::min(least, span);
        most = std::max(most, span);
        ++count;
    }
    CHECK(count == 146'097);  // after.md 8, measured there
    CHECK(least == 181);
    CHECK(most == 184);
}

TEST_CASE("days are added to dates, not hours to moments", "[units][time][dates]") {
    CHECK(date_text(add_days(day("2027-10-30"), 3)) == "2027-11-02");  // after.md 4.2: 72 h would give 1 Nov
    CHECK(date_text(add_days(day("2028-03-01"), -1)) == "2028-02-29");
    CHECK(days_between(day("2026-11-25"), day("2027-05-25")) == 181);
    CHECK(days_between(day("2027-05-25"), day("2026-11-25")) == -181);
}

TEST_CASE("age counts completed years, a leap-day child has the birthday on 1 March", "[units][time]") {
    CHECK(age_on(day("1986-03-14"), day("2026-11-25")) == 40);  // before.md 3
    CHECK(age_on(day("1980-02-29"), day("2026-02-28")) == 45);
    CHECK(age_on(day("1980-02-29"), day("2026-03-01")) == 46);
    CHECK(age_on(day("1980-02-29"), day("2028-02-29")) == 48);
    CHECK(age_on(day("1986-11-25"), day("2026-11-25")) == 40);
    CHECK(age_on(day("1986-11-26"), day("2026-11-25")) == 39);
}

}  // namespace
}  // namespace brimline
