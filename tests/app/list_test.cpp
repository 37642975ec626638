// Changing the day's list, starting now, the kiosk's own page with its palette, and the far view.
#include "tests/app/fill_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;

std::unique_ptr<KioskBed> at(const std::string& clock, const std::string& person, Page page,
                             bool long_words = false, const std::string& name = "A") {
    auto bed = std::make_unique<KioskBed>(KioskBed::Start{
        .until = "2026-11-25T" + clock + "+00:00", .scripts = {"case-a"}, .stretched = long_words});
    bed->kiosk->open(person, name, page);
    bed->settle();
    (void)bed->new_kinds("A");
    return bed;
}

}  // namespace

TEST_CASE("a case is moved with a reason, and its fasting is judged anew by the core", "[list]") {
    const auto bed = at("08:30:00", "pia", Page::day_list);
    bed->picture("day-list");
    bed->tap("move-or-swap");
    CHECK_FALSE(bed->glass->has("move"));
    bed->tap_all({"case/A", "shift/30"});
    CHECK_FALSE(bed->glass->has("move"));
    bed->tap("why/list.swap");
    bed->picture("change-list");
    bed->tap("move");
    CHECK(bed->new_kinds().front() == "move");
    CHECK(bed->state().planned == parse_instant("2026-11-25T10:00:00+00:00"));
    CHECK(bed->kiosk->page() == Page::day_list);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a case is cancelled only with a reason, and leaves the list", "[list]") {
    const auto bed = at("08:30:00", "pia", Page::day_list);
    bed->tap_all({"move-or-swap", "case/A"});
    CHECK_FALSE(bed->glass->has("cancel-case"));
    bed->tap_all({"why/list.ill", "cancel-case"});
    REQUIRE(bed->state().cancelled.has_value());
    CHECK(bed->state().cancelled->is.reason == "ill");
    CHECK_FALSE(bed->glass->has("case/A"));
}

TEST_CASE("a case is added with number, names, birth date, sex, time and room", "[list][book]") {
    const auto bed = at("08:30:00", "pia", Page::day_list);
    bed->tap_all({"add-case", "field/number"});
    bed->glass->type("HM-4600");
    bed->tap_all({"letters-done", "field/family"});
    bed->glass->type("Moreau");
    bed->tap_all({"letters-done", "field/given"});
    bed->glass->type("Anne");
    bed->tap_all({"letters-done", "field/born"});
    bed->glass->type("01021980");
    bed->tap_all({"letters-done", "sex/f", "kind/placement"});
    bed->keys("pad", "1445");
    CHECK_FALSE(bed->glass->has("book"));
    bed->tap("room/Room 1");
    bed->picture("book");
    bed->tap("book");
    const auto& name = bed->room->desk().case_order.back();
    const auto& booked = bed->state(name);
    CHECK(booked.patient.family_name == "Moreau");
    CHECK(booked.patient.number == "HM-4600");
    CHECK(booked.planned == parse_instant("2026-11-25T14:45:00+00:00"));
    CHECK(bed->glass->shows("Moreau, Anne"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("start now takes what, who and weight, and opens Sedation with its clock running", "[start-now]") {
    const auto bed = at("08:30:00", "noor", Page::day_list);
    bed->tap("start-now");
    CHECK_FALSE(bed->glass->has("open-sedation"));
    bed->tap_all({"kind/removal", "who/unknown", "weight/70"});
    bed->picture("start-now");
    bed->tap("open-sedation");
    bed->settle();
    const auto& name = bed->room->desk().case_order.back();
    const auto& started = bed->state(name);
    CHECK(started.started_now);
    CHECK(started.patient.family_name == "unknown");
    CHECK(started.weight_known->is.weight_kg == Decimal::of(70));
    CHECK(bed->kiosk->page() == Page::sedation);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a name is typed for a start without a list entry", "[start-now]") {
    const auto bed = at("08:30:00", "noor", Page::start_now);
    bed->tap_all({"kind/placement", "who/name"});
    bed->glass->type("Lenz");
    bed->tap_all({"letters-done", "weight/90", "open-sedation"});
    CHECK(bed->state(bed->room->desk().case_order.back()).patient.family_name == "Lenz");
}

TEST_CASE("the kiosk's page says what is whole, and the palette it sets is the one that is drawn",
          "[kiosk]") {
    const auto bed = at("10:30:00", "wren", Page::kiosk);
    bed->picture("self-test");
    CHECK(bed->glass->text_of("check/store/says") == "takes every entry");
    bed->tap("palette/dark");
    CHECK(bed->glass->is_checked("palette/dark"));
    bed->kiosk->open("wren", "A", Page::recovery);
    bed->settle();
    CHECK(bed->glass->glass().dressed().theme == touch::Theme::dark);
    bed->picture("recovery-dark");
    bed->kiosk->open("wren", "A", Page::kiosk);
    bed->settle();
    bed->tap("palette/light");
    bed->kiosk->open("tomas", "A", Page::place);
    bed->settle();
    CHECK(bed->glass->glass().dressed().theme == touch::Theme::light);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the far view shows the volume, a tap goes back uncounted and says so, the pedal counts",
          "[far-view]") {
    KioskBed store{ready_to_fill()};
    auto* bed = &store;
    open_fill(*bed);
    fill(*bed, 9);
    bed->tap("rail");
    bed->tap("to-far-view");
    bed->picture("far-view");
    CHECK(bed->glass->text_of("far/volume") == "450");
    const int before = syringes_counted(bed->state().device());
    bed->pass(seconds{25});
    bed->glass->pedal(touch::Pedal::assistant);
    bed->settle();
    CHECK(syringes_counted(bed->state().device()) == before + 1);
    CHECK(bed->kiosk->sheet() == Sheet::far_view);
    bed->tap("far-view");
    CHECK(syringes_counted(bed->state().device()) == before + 1);
    CHECK(bed->kiosk->sheet() == Sheet::none);
    bed->picture("fill-after-far");
    CHECK(bed->glass->shows("Not counted, tap again"));
    bed->pass(seconds{6});
    CHECK_FALSE(bed->glass->shows("Not counted, tap again"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("practice stands on every page of the desk and the bay", "[practice]") {
    for (const auto page : {Page::bays, Page::records, Page::open_items, Page::kiosk, Page::start_now}) {
        KioskBed bed{
            {.until = "2026-11-25T08:30:00+00:00", .setting = {.practice = true, .set_clock = false}}};
        bed.kiosk->open("wren", "", page);
        bed.settle();
        CHECK(bed.glass->shows("Practice"));
        CHECK(bed.glass->faults() == Faults{});
    }
}

TEST_CASE("the list's pages and the far view keep their layout with words 1.4 times as long",
          "[list][book][start-now][kiosk][far-view][layout]") {
    const auto list = at("08:30:00", "pia", Page::day_list, true);
    list->tap_all({"move-or-swap", "case/A", "shift/5", "why/list.late"});
    list->picture("change-list-long");
    CHECK(list->glass->faults() == Faults{});
    const auto book = at("08:30:00", "pia", Page::book, true);
    book->picture("book-long");
    CHECK(book->glass->faults() == Faults{});
    const auto start = at("08:30:00", "noor", Page::start_now, true);
    start->tap_all({"kind/removal", "who/unknown", "weight/70"});
    start->picture("start-now-long");
    CHECK(start->glass->faults() == Faults{});
    const auto kiosk = at("08:30:00", "pia", Page::kiosk, true);
    kiosk->picture("kiosk-long");
    CHECK(kiosk->glass->faults() == Faults{});
    const auto far = at("09:41:20", "tomas", Page::fill, true);
    far->tap("rail");
    far->tap("to-far-view");
    far->picture("far-long");
    CHECK(far->glass->faults() == Faults{});
}
