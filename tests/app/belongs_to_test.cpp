// A birthday that does not match: what was entered may belong to another patient of the day, and moves there.
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

/// Case A at the door with somebody else's birthday typed.
std::unique_ptr<KioskBed> shut(bool long_words = false) {
    auto bed = std::make_unique<KioskBed>(KioskBed::Start{
        .until = "2026-11-25T09:18:00+00:00", .scripts = {"case-a", "case-b"}, .stretched = long_words});
    bed->kiosk->open("wren", "A", Page::enter_room);
    bed->settle();
    bed->keys("pad", "3006");
    bed->tap("open-in-room");
    return bed;
}

}  // namespace

TEST_CASE("entries that belong to another are moved from the page that does not open", "[door]") {
    const auto bed = shut();
    REQUIRE(bed->state().standing("identity-mismatch") != nullptr);
    bed->tap("belongs-to");
    CHECK(bed->kiosk->sheet() == Sheet::belongs_to);
    CHECK_FALSE(bed->glass->has("belongs/A"));
    CHECK_FALSE(bed->glass->has("move-entries"));
    bed->tap_all({"belongs/B", "why/wrong-case"});
    bed->picture("belongs-to");
    const auto vitals = bed->state().vitals.size();
    const auto there = bed->state("B").vitals.size();
    REQUIRE(vitals > 0);
    bed->tap("move-entries");
    CHECK(bed->kiosk->page() == Page::day_list);
    CHECK(bed->state("B").vitals.size() == there + vitals);
    CHECK(bed->last_of("belongs-to").stamp.by == "wren");
    CHECK(bed->glass->faults() == std::vector<std::string>{});
}

TEST_CASE("an assistant is told who may move entries, and nothing moves", "[door]") {
    const auto bed = shut();
    bed->kiosk->open("tomas", "A", Page::enter_room);
    bed->settle();
    bed->tap_all({"belongs-to", "belongs/B", "why/same-name", "move-entries"});
    CHECK(bed->kiosk->sheet() == Sheet::belongs_to);
    CHECK(bed->glass->text_of("prompt/title").find("may") != std::string::npos);
    CHECK(bed->state().vitals.size() == 1);
}

TEST_CASE("the sheet of moved entries keeps its layout with words 1.4 times as long", "[door][layout]") {
    const auto bed = shut(true);
    bed->tap_all({"belongs-to", "belongs/B", "why/wrong-person"});
    CHECK(bed->glass->faults() == std::vector<std::string>{});
}
