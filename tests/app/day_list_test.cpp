// The day's list: who is on it, in which order, and which page a tap opens.
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

using Faults = std::vector<std::string>;

/// Signed in on the list at that moment.
std::unique_ptr<KioskBed> on_list(const std::string& until, std::vector<std::string> scripts,
                                  bool long_words = false) {
    auto bed = std::make_unique<KioskBed>(
        KioskBed::Start{.until = until, .scripts = std::move(scripts), .stretched = long_words});
    bed->kiosk->open("pia", "", Page::day_list);
    bed->settle();
    return bed;
}

}  // namespace

TEST_CASE("people stand on the list by name with room, planned time and what comes next", "[day-list]") {
    const auto bed = on_list("2026-11-25T07:40:00+00:00", {"case-a", "case-b", "case-c"});
    bed->picture("day-list");
    CHECK(bed->glass->text_of("case/A/title") == "Quill, Marta");
    CHECK(bed->glass->text_of("case/A/time") == "09:30");
    CHECK(bed->glass->text_of("case/A/note") == "Placement · Room 1");
    CHECK(bed->glass->text_of("case/A/state") == "Next: arrival");
    const auto y = [&](const char* name) { return bed->glass->registry().find(name)->rect.y; };
    CHECK(y("case/A") < y("case/B"));
    CHECK(y("case/B") < y("case/C"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an empty list says that nobody is here and offers nothing to open", "[day-list]") {
    const auto bed = on_list("2026-11-25T07:40:00+00:00", {});
    CHECK(bed->glass->text_of("list/empty") == "Nobody here");
    for (const auto& target : bed->glass->registry().targets()) {
        CHECK(target.kind != touch::Kind::action);
        CHECK(target.kind != touch::Kind::row);
    }
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a tap opens the case on the page of its stage", "[day-list]") {
    struct Expected {
        const char* until;
        Page page;
    };
    for (const auto& [until, page] : {Expected{"2026-11-25T08:41:00+00:00", Page::arrival},
                                      Expected{"2026-11-25T08:50:00+00:00", Page::enter_room},
                                      Expected{"2026-11-25T09:25:00+00:00", Page::sedation},
                                      Expected{"2026-11-25T09:36:30+00:00", Page::place},
                                      Expected{"2026-11-25T09:39:30+00:00", Page::fill},
                                      Expected{"2026-11-25T09:42:30+00:00", Page::size},
                                      Expected{"2026-11-25T09:43:30+00:00", Page::release},
                                      Expected{"2026-11-25T10:30:00+00:00", Page::recovery},
                                      Expected{"2026-11-25T11:30:00+00:00", Page::discharge}}) {
        INFO(until);
        const auto bed = on_list(until, {"case-a"});
        bed->tap("case/A");
        CHECK(bed->kiosk->page() == page);
    }
}

TEST_CASE("the corner opens the next case", "[day-list]") {
    const auto bed = on_list("2026-11-25T08:50:00+00:00", {"case-a", "case-b"});
    CHECK(bed->glass->shows("Open 09:30, Quill"));
    bed->tap("open/A");
    CHECK(bed->kiosk->page() == Page::enter_room);
}

TEST_CASE("a case that nobody finished yesterday stays on top of today's", "[day-list]") {
    KioskBed bed{
        {.until = "2026-11-26T07:40:00+00:00",
         .scripts = {},
         .lines = {
             R"({"by":"pia","case":"old","do":"book","kind":"placement","patient":{"number":"HM-4600",)"
             R"("family_name":"Brandt","given_name":"Osei","born":"1980-06-30","sex_at_birth":"m"},)"
             R"("planned":"2026-11-25T10:30:00+00:00","room":"Room 1"})",
             R"({"by":"pia","case":"new","do":"book","kind":"placement","patient":{"number":"HM-4601",)"
             R"("family_name":"Quill","given_name":"Marta","born":"1986-03-14","sex_at_birth":"f"},)"
             R"("planned":"2026-11-26T08:00:00+00:00","room":"Room 1"})"}}};
    bed.kiosk->open("pia", "", Page::day_list);
    bed.settle();
    const auto y = [&](const char* name) { return bed.glass->registry().find(name)->rect.y; };
    CHECK(y("case/old") < y("case/new"));
    CHECK(bed.glass->text_of("case/old/state") == "Open since 25 Nov 2026");
}

TEST_CASE("a balloon past its date is named in the list's second column and at its foot", "[day-list]") {
    const auto bed = on_list("2027-06-01T07:40:00+00:00", {"case-a"});
    bed->picture("day-list-overdue");
    CHECK(bed->glass->text_of("due/A/line-1").find("overdue") != std::string::npos);
    CHECK(bed->glass->text_of("prompt/title").find("Quill, Marta") == 0);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("signing off goes back to the sign-in and forgets who it was", "[day-list]") {
    const auto bed = on_list("2026-11-25T07:40:00+00:00", {"case-a"});
    bed->tap("desk/8");
    CHECK(bed->kiosk->page() == Page::sign_in);
    CHECK(bed->kiosk->person().empty());
}

TEST_CASE("the list keeps its layout with words 1.4 times as long", "[day-list][layout]") {
    CHECK(on_list("2026-11-25T07:40:00+00:00", {"case-a", "case-b", "case-c"}, true)->glass->faults() ==
          Faults{});
    CHECK(on_list("2027-06-01T07:40:00+00:00", {"case-a"}, true)->glass->faults() == Faults{});
}
