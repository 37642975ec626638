// Sign-in: a person and six digits; a wrong PIN clears the dots and says how many tries are left.
#include <set>

#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

const std::string morning = "2026-11-25T08:38:00+00:00";
using Faults = std::vector<std::string>;

}  // namespace

TEST_CASE("the sixth digit signs the person in and brings the list", "[sign-in]") {
    KioskBed bed{{.until = morning}};
    bed.tap("person/tomas");
    bed.keys("pad", "62508");
    bed.picture("sign-in");
    CHECK(bed.kiosk->page() == Page::sign_in);
    CHECK(bed.glass->shows("1 digit to go"));
    bed.keys("pad", "3");
    CHECK(bed.kiosk->page() == Page::day_list);
    CHECK(bed.kiosk->person() == "tomas");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("a wrong PIN clears the dots and says how many tries are left", "[sign-in]") {
    KioskBed bed{{.until = morning}};
    bed.tap("person/tomas");
    bed.keys("pad", "111111");
    bed.picture("sign-in-wrong");
    CHECK(bed.kiosk->page() == Page::sign_in);
    CHECK(bed.kiosk->person().empty());
    CHECK(bed.glass->text_of("pin/title") == "PIN not right, 2 tries left");
    CHECK(bed.glass->shows("6 digits to go"));
    bed.keys("pad", "111111");
    CHECK(bed.glass->text_of("pin/title") == "PIN not right, 1 try left");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("three wrong PINs lock that person for a minute, and the right one then opens nothing",
          "[sign-in]") {
    KioskBed bed{{.until = morning}};
    bed.tap("person/tomas");
    bed.keys("pad", "111111111111111111");
    CHECK(bed.glass->text_of("pin/title") == "Locked until 08:39:00");
    bed.keys("pad", "625083");
    CHECK(bed.kiosk->page() == Page::sign_in);
    bed.tap("person/noor");
    bed.keys("pad", "917354");
    CHECK(bed.kiosk->person() == "noor");
}

TEST_CASE("the lock ends by itself after its minute", "[sign-in]") {
    KioskBed bed{{.until = morning}};
    bed.tap("person/tomas");
    bed.keys("pad", "111111111111111111");
    bed.pass(std::chrono::seconds{61});
    bed.keys("pad", "625083");
    CHECK(bed.kiosk->person() == "tomas");
}

TEST_CASE("a PIN of more digits is typed whole and signed in by the corner", "[sign-in]") {
    KioskBed bed{
        {.until = morning,
         .lines = {
             R"({"by":"pia","do":"add-person","id":"lene","name":"Lene Foss","roles":["nurse"],"pin":"20481632"})"}}};
    while (!bed.glass->has("person/lene")) {
        bed.tap("someone-else");
    }
    bed.tap("person/lene");
    bed.tap("longer-pin");
    bed.keys("pad", "20481632");
    CHECK(bed.kiosk->page() == Page::sign_in);
    bed.tap("sign-in");
    CHECK(bed.kiosk->person() == "lene");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("choosing another person throws the typed digits away", "[sign-in]") {
    KioskBed bed{{.until = morning}};
    bed.tap("person/tomas");
    bed.keys("pad", "62508");
    bed.tap("person/noor");
    bed.keys("pad", "3");
    CHECK(bed.kiosk->page() == Page::sign_in);
    CHECK(bed.glass->shows("5 digits to go"));
}

TEST_CASE("more people than places are reached by turning over, and all of them come", "[sign-in]") {
    KioskBed bed{{.until = morning}};
    std::set<std::string> seen;
    for (int part = 0; part < 2; ++part) {
        for (const auto& target : bed.glass->registry().targets()) {
            if (target.name.starts_with("person/")) {
                seen.insert(target.name);
            }
        }
        bed.tap("someone-else");
    }
    CHECK(seen.size() == bed.room->desk().people.size());
}

TEST_CASE("the whole caution stands on the sign-in", "[sign-in]") {
    KioskBed bed{{.until = morning}};
    for (const char* part :
         {"records and reminds", "does not decide, dose or diagnose", "not a certified medical device",
          "own leaflet, local protocol and licensed clinicians", "not an alarm system",
          "does not replace a monitor"}) {
        INFO(part);
        CHECK(bed.glass->all_text().find(part) != std::string::npos);
    }
}

TEST_CASE("an empty store says how to begin and offers no keypad", "[sign-in]") {
    KioskBed bed{{.until = morning, .nobody = true}};
    bed.picture("sign-in-nobody");
    CHECK(bed.glass->all_text().find("brimline people add") != std::string::npos);
    CHECK_FALSE(bed.glass->has("pad/1"));
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("sign-in keeps its layout with words 1.4 times as long", "[sign-in][layout]") {
    KioskBed bed{{.until = morning, .stretched = true}};
    bed.tap("person/tomas");
    bed.keys("pad", "111111");
    bed.picture("sign-in-long");
    bed.tap("longer-pin");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("a banner says that the clock was set for a demo, practice that it is practice", "[sign-in]") {
    KioskBed bed{{.until = morning, .setting = {.practice = true, .set_clock = true}}};
    CHECK(bed.glass->shows("Clock set for a demo"));
    CHECK(bed.glass->shows("Practice"));
    CHECK(bed.glass->faults() == Faults{});
}
