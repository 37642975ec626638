// The register: dates, statuses, flags, calls, closing, and that nobody is lost. Sources: after.md 5;
// 10-decisions A6, F10, F11, H2, H3, H8, H9.
#include <random>

#include "core/desk/register.h"
#include "core/record/register_sheet.h"
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

LocalDate date(const char* text) { return *parse_date(text); }

/// Case A with 500 mL, its catheter off on 25 Nov 2026.
Bed bed_placed(Policy policy = demo_policy()) {
    auto bed = bed_ready_to_fill(std::move(policy));
    tap(bed, 10, 38);
    bed.at("09:50", R"("by":"noor","said_by":"ilse","do":"read-back","ml":500)");
    bed.at("09:51", R"("by":"tomas","do":"device-off")");
    return bed;
}

RegisterEntry entry(const Bed& bed, const char* on, const std::string& name = "A") {
    const auto found = entry_on(bed.state(name), bed.desk, bed.policy(), bed.zone(), date(on));
    REQUIRE(found);
    return *found;
}
std::string status(const Bed& bed, const char* on) { return std::string{name_of(entry(bed, on).status)}; }

Outcome on_day(Bed& bed, const std::string& day, const std::string& fields) {
    return bed.say(R"({"at":")" + day + R"(T10:00:00Z","by":"pia",)" + fields + "}");
}
Outcome call(Bed& bed, const std::string& day, const std::string& more = R"("outcome":"not-reached")") {
    return on_day(bed, day, R"("do":"call","entry":"A",)" + more);
}

}  // namespace

TEST_CASE("status by date: in place, book by, due, overdue (after.md 5; 10-decisions A6)", "[register]") {
    auto bed = bed_placed();
    CHECK(entry(bed, "2026-11-25").placement.due == date("2027-05-25"));
    CHECK(entry(bed, "2026-11-25").placement.book_by == date("2027-03-30"));
    CHECK(status(bed, "2027-03-29") == "in place");
    CHECK(status(bed, "2027-03-30") == "book by");
    CHECK(status(bed, "2027-05-24") == "book by");
    CHECK(status(bed, "2027-05-25") == "due");
    CHECK(status(bed, "2027-05-26") == "overdue");
    CHECK(entry(bed, "2027-05-26").days_left == -1);
}

TEST_CASE("a leak flag makes the balloon due now, other flags hide no date (10-decisions A6)", "[register]") {
    auto bed = bed_placed();
    on_day(bed, "2027-01-10", R"("do":"flag","entry":"A","flag":"intolerance")");
    CHECK(status(bed, "2027-01-10") == "in place");
    CHECK(has(entry(bed, "2027-01-10").flags, "intolerance"));
    CHECK(has(bed.open_items(), "review-intolerance"));
    on_day(bed, "2027-01-12", R"("do":"flag","entry":"A","flag":"leak-suspected")");
    CHECK(status(bed, "2027-01-12") == "due");
    CHECK(status(bed, "2027-01-13") == "overdue");
    CHECK(entry(bed, "2027-01-13").next->say == "Leak suspected: remove now");
    CHECK(entry(bed, "2027-01-13").next->owner == "ilse");
    CHECK(result_of(on_day(bed, "2027-01-14", R"("do":"flag","entry":"A","flag":"happy")")) == "not-on-list");
}

TEST_CASE(
    "three failed contacts on three dates are not reached: a letter and the physician (10-decisions A6)",
    "[register]") {
    auto bed = bed_placed();
    call(bed, "2027-05-26");
    call(bed, "2027-05-26", R"("outcome":"not-reached","way":"message")");
    call(bed, "2027-05-27");
    CHECK_FALSE(has(entry(bed, "2027-05-28").flags, "not-reached"));  // two dates only
    call(bed, "2027-05-28", R"("outcome":"wrong-number","next":"2027-06-02")");
    CHECK(has(entry(bed, "2027-05-28").flags, "not-reached"));
    CHECK(status(bed, "2027-05-28") == "overdue");  // the flag hides no date
    CHECK(entry(bed, "2027-05-28").next->owner == "ilse");
    CHECK(entry(bed, "2027-05-28").next->date == date("2027-06-02"));
    CHECK(has(bed.open_items(), "letter"));
    call(bed, "2027-06-01",
         R"("outcome":"reached","next":{"words":"comes for the removal","date":"2027-06-05"})");
    CHECK_FALSE(has(entry(bed, "2027-06-01").flags, "not-reached"));
    CHECK_FALSE(has(bed.open_items(), "letter"));
    CHECK(entry(bed, "2027-06-01").next->say == "comes for the removal");
    CHECK(entry(bed, "2027-06-01").next->owner == "pia");
}

TEST_CASE("lost to follow-up needs attempts, dates, ways, the due date and two people (after.md 5; H3)",
          "[register]") {
    auto bed = bed_placed();
    const std::string both = R"("second":"ilse","pins":{"pia":"123456","ilse":"123456"})";
    const std::string lost = R"("do":"lost-to-follow-up","entry":"A",)";
    const auto early = on_day(bed, "2027-05-24", lost + both);
    REQUIRE(early.refusal);
    CHECK(early.refusal->code == "lost-not-allowed");
    CHECK(early.refusal->say.find("before due date, attempts, dates, ways") != std::string::npos);
    for (const char* day : {"2027-05-26", "2027-05-27"}) {
        call(bed, day);
    }
    call(bed, "2027-05-28", R"("outcome":"not-reached","way":"letter")");
    CHECK(result_of(on_day(bed, "2027-05-29", lost + R"("second":"ilse","pins":{"pia":"123456"})")) ==
          "pin-wrong");
    CHECK(result_of(on_day(bed, "2027-05-29",
                           lost + R"("second":"ilse","pins":{"pia":"123456","ilse":"654321"})")) ==
          "pin-wrong");
    CHECK(result_of(on_day(bed, "2027-05-29", lost + R"("second":"pia","pins":{"pia":"123456"})")) ==
          "same-person");
    CHECK(result_of(on_day(bed, "2027-05-29",
                           lost + R"("second":"wren","pins":{"pia":"123456","wren":"123456"})")) ==
          "role-may-not");
    CHECK(result_of(on_day(bed, "2027-05-29", lost + both)) == "recorded");
    CHECK(has(entry(bed, "2027-05-30").flags, "lost-to-follow-up"));
    CHECK(entry(bed, "2027-05-30").open());
    CHECK(status(bed, "2027-05-30") == "overdue");  // counted as overdue, whatever the flag says
    call(bed, "2027-07-01", R"("outcome":"reached")");
    CHECK_FALSE(has(entry(bed, "2027-07-01").flags, "lost-to-follow-up"));
}

TEST_CASE(
    "closing without proof stays open as not verified; proof or a physician's PIN closes (10-decisions H2, "
    "F11)",
    "[register]") {
    auto bed = bed_placed();
    const std::string passed =
        R"("do":"close-entry","entry":"A","outcome":"passed","known_from":"patient, by phone")";
    CHECK(result_of(on_day(bed, "2027-02-01", passed)) == "recorded");
    CHECK(status(bed, "2027-02-02") == "closed, not verified");
    REQUIRE(entry(bed, "2027-02-02").open());
    CHECK(entry(bed, "2027-02-02").next->owner == "pia");
    CHECK(result_of(on_day(bed, "2027-02-03", passed + R"(,"proof":"none")")) == "recorded");
    CHECK(entry(bed, "2027-02-03").open());
    CHECK(result_of(on_day(bed, "2027-02-04", passed + R"(,"pin":"123456")")) == "role-may-not");
    CHECK(result_of(on_day(bed, "2027-02-04", passed + R"(,"said_by":"ilse","pin":"999999")")) ==
          "pin-wrong");
    CHECK(result_of(on_day(bed, "2027-02-05", passed + R"(,"proof":"image")")) == "recorded");
    CHECK(status(bed, "2027-02-06") == "passed");
    CHECK_FALSE(entry(bed, "2027-02-06").open());
    CHECK(result_of(on_day(bed, "2027-02-07", passed + R"(,"proof":"image")")) == "entry-closed");
}

TEST_CASE("closed without proof and past its date is overdue all the same (after.md 5, overdue-count)",
          "[register]") {
    auto bed = bed_placed();
    const auto june = *parse_date("2027-06-10");
    CHECK(is_overdue(entry(bed, "2027-06-10"), june));
    on_day(bed, "2027-06-01",
           R"("do":"close-entry","entry":"A","outcome":"passed","known_from":"patient, by phone")");
    CHECK(status(bed, "2027-06-10") == "closed, not verified");
    CHECK(is_overdue(entry(bed, "2027-06-10"), june));
    CHECK_FALSE(is_overdue(entry(bed, "2027-02-02"), *parse_date("2027-02-02")));
    on_day(bed, "2027-06-11",
           R"("do":"close-entry","entry":"A","outcome":"passed","known_from":"image","proof":"image")");
    CHECK_FALSE(is_overdue(entry(bed, "2027-06-12"), *parse_date("2027-06-12")));
}

TEST_CASE("a physician's PIN stands for proof", "[register]") {
    auto bed = bed_placed();
    CHECK(result_of(on_day(bed, "2027-02-05",
                           R"("said_by":"ilse","do":"close-entry","entry":"A","outcome":"died",)"
                           R"("known_from":"daughter","pin":"123456")")) == "recorded");
    CHECK(status(bed, "2027-02-06") == "died");
}

TEST_CASE("transferred and declined close nothing: owner and day of review (10-decisions A6)", "[register]") {
    auto bed = bed_placed();
    on_day(bed, "2027-02-01",
           R"("do":"close-entry","entry":"A","outcome":"transferred","known_from":"letter",)"
           R"("proof":"document","owner":"ilse","review":"2027-03-01")");
    CHECK(entry(bed, "2027-02-02").open());
    CHECK(entry(bed, "2027-02-02").next->say == "Transferred: review");
    CHECK(entry(bed, "2027-02-02").next->date == date("2027-03-01"));
    CHECK(entry(bed, "2027-02-02").next->owner == "ilse");
    CHECK(status(bed, "2027-05-26") == "overdue");
}

TEST_CASE("bad entries of the register: one sentence, nothing changed (issue: out again)", "[register]") {
    auto bed = bed_placed();
    const auto before = bed.desk.last_seq;
    const auto refused = [&](const Outcome& outcome, const char* code) { return result_of(outcome) == code; };
    CHECK(refused(
        bed.say(R"({"at":"2026-11-24T10:00:00Z","by":"pia","do":"call","entry":"A","outcome":"reached"})"),
        "out-of-range"));  // before the placement
    CHECK(refused(call(bed, "2026-12-01", R"("outcome":"reached","happened":"2026-12-02T10:00:00Z")"),
                  "out-of-range"));  // in the future
    CHECK(refused(call(bed, "2026-12-01", R"("outcome":"vanished")"), "not-on-list"));
    CHECK(refused(call(bed, "2026-12-01", R"("outcome":"reached","way":"pigeon")"), "not-on-list"));
    CHECK(refused(call(bed, "2026-12-01", R"("outcome":"reached","next":"2026-11-30")"), "out-of-range"));
    CHECK(refused(call(bed, "2026-12-01", R"("outcome":"reached","owner":"nobody")"), "no-such-person"));
    CHECK(bed.desk.last_seq == before);
}

TEST_CASE("a removal is booked for an open entry of that very patient", "[register]") {
    auto bed = bed_placed();
    const auto book = [&](const std::string& number, const std::string& entry_name, const std::string& name) {
        return bed.say(
            R"({"at":"2027-05-01T10:00:00Z","by":"pia","case":")" + name +
            R"(","do":"book","kind":"removal","patient":{"number":")" + number +
            R"(","family_name":"Quill","given_name":"Marta","born":"1986-03-14","sex_at_birth":"f"},)" +
            R"("planned":"2027-05-20T09:30:00Z","room":"Room 1","entry":")" + entry_name + "\"}");
    };
    CHECK(result_of(book("HM-9999", "A", "R")) == "entry-of-another");
    CHECK(result_of(book("HM-4471", "B", "R")) == "no-such-entry");
    CHECK(result_of(book("HM-4471", "A", "R")) == "recorded");
    CHECK(entry(bed, "2027-05-02").next->say == "Removal booked for 20 May 2027: remind");
    CHECK(entry(bed, "2027-05-02").next->date == date("2027-05-06"));  // 14 days before
    CHECK(entry(bed, "2027-05-20").next->say == "Removal, Room 1 09:30");
    bed.say(
        R"({"at":"2027-05-20T09:50:00Z","by":"tomas","case":"R","do":"out","complete":true,"kept":false})");
    CHECK(status(bed, "2027-05-20") == "removed");
    CHECK_FALSE(entry(bed, "2027-05-20").open());
    CHECK(result_of(book("HM-4471", "A", "R2")) == "entry-closed");
}

TEST_CASE("adopting a policy moves no date that was given (10-decisions F10)", "[register]") {
    auto bed = bed_with_case();
    Recorded first{{}, PolicyAdopted{"one", bed.policy().text}};
    first.stamp.seq = ++bed.desk.last_seq;
    evolve(bed.desk, bed.desk.kiosk_id, first);
    auto ready = bed_placed();
    ready.desk.policies = bed.desk.policies;
    auto shorter = ready.policy();
    shorter.dwell.months = 4;
    for (auto& profile : shorter.devices) {
        profile.dwell_months = 4;
    }
    Recorded second{{}, PolicyAdopted{"two", ready.policy().text}};
    second.stamp.seq = ready.desk.last_seq + 1;
    evolve(ready.desk, ready.desk.kiosk_id, second);
    REQUIRE(ready.desk.policies.size() == 2);
    CHECK(dates_given(ready.state(), ready.desk, shorter, ready.zone()).due == date("2027-05-25"));
    CHECK(dates_of(ready.state(), shorter, ready.zone()).due == date("2027-03-25"));
}

TEST_CASE("a lot finds entries and devices that were used and not left in (10-decisions E, register)",
          "[register]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", R"("by":"tomas","do":"syringe-in")");
    bed.at("09:39", R"("by":"tomas","do":"device-not-left-in","reason":"would-not-unfold","out_ml":50)");
    bed.at("09:45",
           R"("by":"tomas","do":"device","raw":"(01)02001234026413(17)280531(10)DW-2700(21)0008000")");
    bed.at("09:46", R"("by":"tomas","do":"balloon-passed")");
    bed.at("09:47", R"("by":"tomas","said_by":"ilse","do":"position-seen")");
    tap(bed, 10, 48);
    bed.at("10:00", R"("by":"noor","said_by":"ilse","do":"read-back","ml":500)");
    bed.at("10:01", R"("by":"tomas","do":"device-off")");
    CHECK(entry(bed, "2026-11-26").placement.entry == "A/2");  // H8
    const RegisterAsk ask{bed.desk, bed.policy(), bed.zone(), date("2026-11-26"), "DW-2641", false};
    const auto lines = register_lines(ask);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].status == "used, not left in");
    CHECK(lines[0].entry.empty());
    CHECK(lines[0].number == "HM-4471");
    CHECK(result_of(bed.say(
              R"({"at":"2026-12-01T10:00:00Z","by":"pia","do":"call","entry":"A/2","outcome":"reached"})")) ==
          "recorded");
}

TEST_CASE("CSV is quoted as RFC 4180 says and guards against formulas; the calendar names no patient",
          "[register]") {
    auto bed = bed_placed();
    on_day(bed, "2026-12-01", R"("case":"A","do":"patient","given_name":"=M\"a","reason":"test")");
    const RegisterAsk ask{bed.desk, bed.policy(), bed.zone(), date("2026-12-01"), {}, false};
    const auto csv = register_csv(ask);
    CHECK(csv.find("\xEF\xBB\xBF"
                   "entry,number,name,placed,volume,lot,serial,due,book_by,status,flags,next,next_date,owner,"
                   "guarded\r\n") == 0);
    CHECK(csv.find("A,HM-4471,\"Quill, =M\"\"a\",2026-11-25,500,") != std::string::npos);
    const auto calendar = register_calendar(ask, time_of("10:00"));
    CHECK(calendar.find("DTSTART;VALUE=DATE:20270525\r\n") != std::string::npos);
    CHECK(calendar.find("Quill") == std::string::npos);
    CHECK(calendar.find("HM-4471") == std::string::npos);
}

TEST_CASE("no history leaves a balloon in place without next action, date and owner (1000 random, seeded)",
          "[register][property]") {
    std::mt19937 chance{20261125};
    const std::vector<std::string> steps{
        R"("do":"call","entry":"A","outcome":"not-reached")",
        R"("do":"call","entry":"A","outcome":"reached")",
        R"("do":"call","entry":"A","outcome":"refused","next":"written to")",
        R"("do":"call","entry":"A","outcome":"relative-reached","owner":"wren")",
        R"("do":"flag","entry":"A","flag":"leak-suspected")",
        R"("do":"flag","entry":"A","flag":"not-reached")",
        R"("do":"close-entry","entry":"A","outcome":"declined","known_from":"x")",
        R"("do":"close-entry","entry":"A","outcome":"transferred","known_from":"x")",
        R"("do":"close-entry","entry":"A","outcome":"passed","known_from":"x")",
        R"("do":"close-entry","entry":"A","outcome":"removed","known_from":"x","proof":"document")",
        R"("do":"lost-to-follow-up","entry":"A","second":"ilse","pins":{"pia":"123456","ilse":"123456"})"};
    const auto placed = bed_placed();
    int closed = 0;
    for (int history = 0; history < 1000; ++history) {
        auto bed = placed;
        auto day = date("2026-12-01");
        bool proved = false;
        for (int step = 0; step < 8; ++step) {
            day = add_days(day, static_cast<int>(chance() % 60));
            const auto& what = steps[chance() % steps.size()];
            const bool done = result_of(on_day(bed, date_text(day), what)) == "recorded";
            proved = proved || (done && what.find("document") != std::string::npos);
            const auto found = entry_on(bed.state(), bed.desk, bed.policy(), bed.zone(), day);
            REQUIRE(found);
            REQUIRE(found->open() == !proved);
            if (found->open()) {
                REQUIRE_FALSE(found->next->say.empty());
                REQUIRE(found->next->date.ok());
                REQUIRE(bed.desk.person(found->next->owner) != nullptr);
            }
        }
        closed += proved ? 1 : 0;
    }
    CHECK(closed > 100);  // both ends were reached
    CHECK(closed < 900);
}
