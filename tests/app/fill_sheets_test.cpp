// The sheets over Fill: each leaves the corner to Syringe in, and each way out is recorded as what it is.
#include "tests/app/fill_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Sheet;
using std::chrono::milliseconds;
using std::chrono::seconds;
using Faults = std::vector<std::string>;

namespace {

const std::vector<std::string> sheet_keys{"part-syringe", "draw-back", "correct-a-tap", "count-check",
                                          "problem"};

/// Ten taps, eleven presses, the eleventh at 09:40:34 between two taps; the check says 11.
void counts_differ(KioskBed& bed) {
    fill_with_pedal(bed, 6);
    bed.pass(seconds{10});
    bed.glass->pedal(touch::Pedal::physician);
    bed.settle();
    bed.pass(seconds{20});
    fill_with_pedal(bed, 4);
    bed.tap("count-check");
    bed.tap("record-difference");
}

}  // namespace

TEST_CASE("the corner is Syringe in, with its number, on every sheet over Fill", "[fill][sheets]") {
    for (const bool long_words : {false, true}) {
        auto start = ready_to_fill();
        start.stretched = long_words;
        KioskBed bed{start};
        open_fill(bed);
        fill(bed, 6);
        for (const auto& key : sheet_keys) {
            bed.tap(key);
            INFO(key);
            const auto* corner = bed.glass->registry().find("syringe-in");
            REQUIRE(corner != nullptr);
            CHECK(corner->group == "corner");
            CHECK(corner->rect.bottom() == 788);
            CHECK(bed.glass->all_text().find('7') != std::string::npos);
            bed.picture((long_words ? "long-" : "") + key);
            bed.tap("back");
        }
        bed.glass->tap("rail");
        bed.settle();
        bed.picture(long_words ? "long-stages" : "stage-sheet");
        CHECK(bed.glass->registry().find("syringe-in")->group == "corner");
        bed.tap("back-to-page");
        CHECK(bed.kiosk->sheet() == Sheet::none);
        bed.tap_all({"problem", "retching"});
        CHECK(bed.glass->registry().find("syringe-in")->group == "corner");
        bed.tap_all({"pushed-none", "go-on-filling"});
        bed.tap("filling-done");
        bed.tap("left/more");
        bed.picture(long_words ? "long-matter" : "matter");
        bed.tap("matter-differs");
        CHECK(bed.glass->registry().find("syringe-in")->group == "corner");
        bed.picture(long_words ? "long-counts-differ" : "matter-differs");
        CHECK(bed.glass->faults() == Faults{});
    }
}

TEST_CASE("a part syringe starts with the remainder to target and is an entry of its own", "[fill][sheets]") {
    KioskBed bed{ready_to_fill({R"({"by":"tomas","said_by":"ilse","case":"A","do":"plan",)"
                                R"("band_low_ml":500,"band_high_ml":600,"aim_ml":530,"ceiling_ml":700})"})};
    open_fill(bed);
    fill(bed, 10);
    bed.tap("part-syringe");
    bed.picture("part-syringe-30");
    CHECK(bed.glass->shows("Part, 30 mL"));
    CHECK(bed.glass->text_of("part/makes/where") == "in band, on target");
    bed.tap("record-part");
    CHECK(bed.kiosk->sheet() == Sheet::none);
    CHECK(running_volume(bed.state().device()) == 530_mL);
    CHECK(bed.glass->text_of("fill/syringes") == "10 × 50 mL + 30 mL");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("an implausible part is asked about once and recorded when confirmed", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 1);
    bed.tap("part-syringe");
    bed.keys("pad", "99");
    bed.tap("record-part");
    CHECK(bed.kiosk->sheet() == Sheet::part_syringe);
    CHECK(running_volume(bed.state().device()) == 50_mL);
    CHECK(bed.glass->shows("Yes, part, 99 mL"));
    bed.tap("record-part");
    CHECK(running_volume(bed.state().device()) == 149_mL);
    CHECK(bed.kiosk->sheet() == Sheet::none);
}

TEST_CASE("what is drawn back is counted down, and more than is in cannot be recorded", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 2);
    bed.tap("draw-back");
    bed.keys("pad", "120");
    CHECK_FALSE(bed.glass->has("record-draw-back"));
    CHECK(bed.glass->shows("Only 100 mL are in"));
    bed.tap_all({"pad/erase"});
    bed.tap("record-draw-back");
    CHECK(running_volume(bed.state().device()) == 88_mL);
    CHECK(bed.glass->text_of("fill/syringes") == "2 × 50 mL − 12 mL");
}

TEST_CASE("one tap on a reason stops the filling, and going on asks what was pushed, none preset",
          "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 6);
    bed.pass(seconds{38});
    bed.tap("problem");
    bed.picture("fill-problem");
    bed.tap("retching");
    CHECK(bed.state().device().stops.size() == 1);
    bed.pass(seconds{72});
    bed.picture("fill-resume");
    CHECK(bed.glass->shows("Pushed since 09:40?"));
    for (const auto* way : {"pushed-none", "pushed-one", "pushed-more"}) {
        CHECK_FALSE(bed.glass->is_checked(way));
    }
    bed.tap("go-on-filling");
    CHECK_FALSE(bed.state().device().stops.back().until.has_value());
    bed.tap("syringe-in");
    CHECK(bed.state().device().deliveries.back().while_stopped);
    bed.tap_all({"pushed-one", "go-on-filling"});
    CHECK(bed.state().device().stops.back().until.has_value());
    CHECK(running_volume(bed.state().device()) == 400_mL);
    CHECK(bed.glass->text_of("running-volume") == "400");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("after resistance the filling holds until the position is seen again, said by the physician",
          "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 3);
    bed.tap_all({"problem", "resistance"});
    CHECK(bed.state().standing("resistance") != nullptr);
    bed.pass(seconds{5});
    bed.tap("position-seen-again");
    CHECK(bed.state().standing("resistance") == nullptr);
    CHECK(bed.last_of("position-seen").stamp.said_by == "ilse");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("after a restart the question of what was pushed stands before Fill", "[fill][sheets]") {
    KioskBed bed{{.until = "2026-11-25T09:40:45+00:00", .scripts = {"case-a"}}};
    bed.pass(seconds{48});
    open_fill(bed);
    bed.picture("fill-restart");
    CHECK(bed.glass->shows("Pushed since 09:40?"));
    CHECK(bed.glass->text_of("sheet/note") == "7 in, off for 15 s");
    bed.tap_all({"pushed-more"});
    bed.keys("pad", "30");
    bed.tap("go-on-filling");
    CHECK(running_volume(bed.state().device()) == 380_mL);
    CHECK(bed.glass->has("filling-done"));
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("without a pedal the number is typed before the taps are uncovered", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 5);
    bed.tap("count-check");
    bed.picture("count-check-typed");
    CHECK_FALSE(bed.glass->has("agreed"));
    CHECK(bed.glass->all_text().find("250") == std::string::npos);
    bed.keys("pad", "5");
    bed.tap("record-count");
    CHECK(bed.state().device().checks.back().is.agreed);
    CHECK(bed.kiosk->sheet() == Sheet::none);
}

TEST_CASE("a correction from counts that differ ends the hold and shows 550", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    counts_differ(bed);
    CHECK(bed.kiosk->sheet() == Sheet::counts_differ);
    CHECK(bed.state().standing("count-differs") != nullptr);
    CHECK(bed.glass->text_of("differ/taps") == "10");
    CHECK(bed.glass->text_of("differ/other") == "11");
    bed.picture("counts-differ");
    bed.tap("not-tapped");
    CHECK(bed.glass->is_checked("one-not-tapped"));
    bed.picture("correct-a-tap");
    bed.tap("record-correction");  // what it relies on is still missing
    CHECK(bed.state().count_corrections.empty());
    bed.tap_all({"evidence/pedal", "record-correction"});
    CHECK(bed.state().standing("count-differs") == nullptr);
    const auto& correction = bed.state().count_corrections.back();
    CHECK(correction.is.ml == 50_mL);
    CHECK(correction.is.with == "ilse");
    CHECK(correction.is.evidence == Evidence::pedal);
    CHECK(correction.stamp.happened < correction.stamp.at);
    CHECK(bed.glass->text_of("running-volume") == "550");
    CHECK(bed.glass->text_of("fill/syringes") == "11 × 50 mL");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("after counts differed, Count again closes the sheet, records nothing and leaves the hold",
          "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    counts_differ(bed);
    const auto before = bed.kinds().size();
    bed.tap("count-again");
    CHECK(bed.kiosk->sheet() == Sheet::none);
    CHECK(bed.kinds().size() == before);
    CHECK(bed.state().standing("count-differs") != nullptr);
    CHECK(bed.glass->text_of("prompt/title") == "The counts differ");
    bed.tap("prompt");
    CHECK(bed.kiosk->sheet() == Sheet::counts_differ);
}

TEST_CASE("a bag on the scale is compared in mL, and a gap of half a syringe is a hold", "[fill][sheets]") {
    KioskBed bed{
        ready_to_fill({R"({"by":"tomas","case":"A","do":"saline","method":"closed-tap","scale_g":1068})"})};
    open_fill(bed);
    fill(bed, 10);
    bed.tap("filling-done");
    bed.keys("pad", "570");
    bed.picture("matter-bag");
    CHECK(bed.glass->has("matter-agrees"));
    bed.tap_all({"pad/erase", "pad/erase", "pad/erase"});
    bed.keys("pad", "520");
    bed.tap("matter-differs");
    CHECK(bed.state().standing("matter-differs") != nullptr);
    bed.picture("counts-differ-bag");
    CHECK(bed.glass->shows("1068 g − 520 g = 548 g"));
    CHECK(bed.glass->shows("545.5 mL"));
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("saline drawn as a pair has no third witness, which is said and recorded", "[fill][sheets]") {
    KioskBed bed{ready_to_fill({R"({"by":"tomas","case":"A","do":"saline","method":"pair"})"})};
    open_fill(bed);
    fill(bed, 10);
    bed.tap("filling-done");
    bed.picture("matter-pair");
    CHECK(bed.glass->faults() == Faults{});
    bed.glass->tap("no-third-witness");
    CHECK(bed.room->wait_until_saved(seconds{5}));
    CHECK(bed.state().device().matters.size() == 1);
    CHECK(bed.kiosk->page() == screens::Page::size);
}

TEST_CASE("a syringe that was not tapped is set back with a chip", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 7);
    bed.tap_all({"correct-a-tap", "one-not-tapped", "set-back/1", "evidence/memory"});
    bed.picture("correct-set-back");
    bed.tap("record-correction");
    const auto& stamp = bed.state().count_corrections.back().stamp;
    CHECK(stamp.at - stamp.happened == std::chrono::minutes{1});
    CHECK(running_volume(bed.state().device()) == 400_mL);
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("an entry of another volume is put right by the difference", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 3);
    bed.tap_all({"correct-a-tap", "other-volume"});
    bed.keys("pad", "45");
    bed.tap_all({"volume-typed", "entry/2", "evidence/memory", "record-correction"});
    CHECK(running_volume(bed.state().device()) == 145_mL);
    CHECK(syringes_counted(bed.state().device()) == 3);
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("the airway button starts an event and ends the same one, never both by one double tap",
          "[fill][frame]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    bed.tap("airway-event");
    CHECK(bed.state().airway_events.size() == 2);  // the first is the script's own
    bed.glass->hasty_tap("airway-event-end");
    bed.settle();
    CHECK_FALSE(bed.state().airway_events.back().end.has_value());
    bed.pass(seconds{40});
    bed.tap("airway-event-end");
    CHECK(bed.state().airway_events.back().end.has_value());
    CHECK(bed.glass->has("airway-event"));
}

TEST_CASE("a chip changes who enters, in one tap", "[fill][frame]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    bed.tap("person/noor");
    CHECK(bed.kiosk->person() == "noor");
    bed.pass(seconds{10});
    bed.tap("syringe-in");
    CHECK(bed.last_of("syringe-in").stamp.by == "tomas");  // who may count is the assistant present
}

TEST_CASE("a pedal press too many is taken out with two names, and the hold ends at 500", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    counts_differ(bed);
    bed.tap_all({"press-too-many", "evidence/memory", "record-correction"});
    CHECK(bed.state().standing("count-differs") == nullptr);
    CHECK(bed.state().device().presses.size() == 10);
    CHECK(running_volume(bed.state().device()) == 500_mL);
}

TEST_CASE("a tap without a syringe is compensated at its place in time", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 4);
    bed.tap_all({"correct-a-tap", "no-syringe", "entry/3", "evidence/memory", "with", "record-correction"});
    CHECK(running_volume(bed.state().device()) == 150_mL);
    const auto& correction = bed.state().count_corrections.back();
    CHECK(correction.stamp.happened == bed.state().device().deliveries[2].stamp.happened);
    CHECK(correction.is.with == "noor");
    CHECK(bed.glass->text_of("fill/syringes") == "3 × 50 mL");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("in Fill a second tap 100 ms after the corner changed does nothing", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill_with_pedal(bed, 10);
    bed.tap("filling-done");
    bed.glass->tap_at({1064, 740});  // the corner was Syringe in a moment ago
    bed.settle();
    CHECK(bed.kiosk->sheet() == Sheet::matter);
    CHECK(syringes_counted(bed.state().device()) == 10);
}

TEST_CASE("the row is judged by numbers of syringes before Size", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill_with_pedal(bed, 10);
    bed.tap("filling-done");
    SECTION("it agrees and leads to Size") {
        bed.tap_all({"left/more", "left/more", "left/more"});
        bed.picture("matter-check");
        CHECK(bed.glass->shows("Row agrees: 12 laid out − 2 left = 10"));
        CHECK(bed.glass->faults() == Faults{});
        bed.glass->tap("matter-agrees");
        CHECK(bed.kiosk->page() == screens::Page::size);
        CHECK(bed.room->wait_until_saved(seconds{5}));
        CHECK(bed.state().device().matters.size() == 1);
    }
    SECTION("it differs and is a hold") {
        bed.tap_all({"left/more", "left/more"});
        CHECK(bed.glass->has("matter-differs"));
        bed.tap("matter-differs");
        CHECK(bed.state().standing("matter-differs") != nullptr);
        CHECK(bed.kiosk->sheet() == Sheet::counts_differ);
        bed.picture("matter-differs");
        CHECK(bed.glass->faults() == Faults{});
    }
}

TEST_CASE("near and above the ceiling the corner says so and still counts", "[fill][sheets]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 14);
    CHECK(bed.glass->text_of("syringe-in/warning") == "makes 750 mL, above ceiling");
    CHECK(bed.glass->text_of("prompt/title") == "The next syringe passes the ceiling");
    bed.picture("fill-near-ceiling");
    fill(bed, 1);
    CHECK(running_volume(bed.state().device()) == 750_mL);
    CHECK(bed.state().standing("ceiling-passed") != nullptr);
    CHECK(bed.glass->text_of("prompt/title") == "Stop. 750 mL is in");
    CHECK(bed.glass->has("syringe-in"));
    CHECK_FALSE(bed.glass->has("filling-done"));
    bed.picture("fill-above-ceiling");
    SECTION("drawn back") {
        bed.tap("draw-back");
        bed.tap("record-draw-back");
        CHECK(running_volume(bed.state().device()) == 700_mL);
        CHECK(bed.state().standing("ceiling-passed") == nullptr);
    }
    SECTION("left as it is, with the physician's reason") {
        bed.tap("left-as-it-is");
        bed.picture("fill-reasons");
        bed.tap("reason/benefit");
        CHECK(bed.state().standing("ceiling-passed") == nullptr);
        CHECK(bed.last_of("explain").stamp.said_by == "ilse");
        CHECK(bed.glass->has("filling-done"));
    }
    CHECK(bed.glass->faults() == Faults{});
}
