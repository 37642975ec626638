// Fill by taps: what counts, what is asked, and what stands on the glass while it is not yet sure.
#include "tests/app/fill_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using std::chrono::milliseconds;
using std::chrono::seconds;
using Faults = std::vector<std::string>;

TEST_CASE("case A filled by taps at the day's own spacing holds 500 mL, in band, and the counts agree",
          "[fill]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill_with_pedal(bed, 5);
    bed.tap("count-check");
    CHECK(bed.glass->text_of("count/taps") == "5");
    CHECK(bed.glass->text_of("count/pedal") == "5");
    bed.tap("agreed");
    CHECK(bed.kiosk->sheet() == screens::Sheet::none);
    fill_with_pedal(bed, 4);
    CHECK(bed.glass->text_of("running-volume") == "450");
    CHECK(bed.glass->text_of("fill/syringes") == "9 × 50 mL");
    CHECK(bed.glass->text_of("fill/next") == "Next makes 500 mL");
    CHECK(bed.glass->text_of("fill/next/where") == "in band");
    CHECK(bed.glass->text_of("fill/to-target-syringes") == "1");
    CHECK(bed.glass->text_of("syringe-in/note") == "number 10");
    CHECK(bed.glass->text_of("prompt/title") == "Count check after the next syringe");
    bed.picture("fill");
    fill_with_pedal(bed, 1);
    bed.tap("count-check");
    bed.picture("count-check");
    CHECK(bed.glass->text_of("count/verdict") == "Equal at 10 syringes");
    bed.tap("agreed");
    const auto& block = bed.state().device();
    CHECK(running_volume(block) == 500_mL);
    CHECK(block.checks.back().is.agreed);
    CHECK(block.checks.back().stamp.said_by == "ilse");
    CHECK(band_state(500_mL, bed.state(), bed.room->policy()) == FillBand::in_band);
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("a burst of ten taps is one syringe and nine questions, none lost", "[fill]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    for (int i = 0; i < 10; ++i) {
        bed.tap("syringe-in");
        bed.clock.pass(milliseconds{900});
    }
    const auto& block = bed.state().device();
    CHECK(syringes_counted(block) == 1);
    CHECK(open_questions(block).size() == 9);
    CHECK(bed.glass->text_of("fill/span") == "50 to");
    CHECK(bed.glass->text_of("running-volume") == "500");
    CHECK(bed.glass->text_of("fill/waiting") == "9 taps waiting");
    CHECK(bed.glass->text_of("fill/next") == "Next makes 550 mL, in band");
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("a second tap is asked about beside the count, and the answer settles it", "[fill]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 9);
    bed.clock.pass(milliseconds{4'600});
    bed.tap("syringe-in");
    bed.picture("fill-double-tap");
    CHECK(bed.glass->text_of("fill/span") == "450 to");
    CHECK(bed.glass->text_of("running-volume") == "500");
    CHECK(bed.glass->text_of("prompt/title") == "One tap is waiting for an answer");
    CHECK(bed.glass->shows("09:41:11, then again 4.6 s later"));
    CHECK(bed.glass->shows("Second syringe,\nor the same one twice?"));
    SECTION("second") {
        bed.tap("second-syringe");
        CHECK(running_volume(bed.state().device()) == 500_mL);
        CHECK(bed.glass->text_of("running-volume") == "500");
    }
    SECTION("same") {
        bed.tap("same-one-twice");
        CHECK(running_volume(bed.state().device()) == 450_mL);
        CHECK(bed.glass->text_of("running-volume") == "450");
    }
    SECTION("a count check waits for the answer") {
        bed.tap("count-check");
        CHECK_FALSE(bed.glass->has("agreed"));
        bed.tap("second-syringe");
        CHECK(bed.glass->has("pad/1"));  // no pedal was pressed: the number is typed first
    }
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("Syringe in counts on press, before the finger lifts", "[fill]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    bed.pass(seconds{2});
    bed.glass->press("syringe-in");
    bed.settle();
    CHECK(syringes_counted(bed.state().device()) == 1);
    bed.glass->release();
    bed.settle();
    CHECK(syringes_counted(bed.state().device()) == 1);
}

TEST_CASE("the left pedal counts on every sheet", "[fill]") {
    KioskBed bed{ready_to_fill()};
    open_fill(bed);
    fill(bed, 2);
    for (const auto* sheet : {"part-syringe", "draw-back", "correct-a-tap", "count-check", "problem"}) {
        bed.tap(sheet);
        const int before = syringes_counted(bed.state().device());
        bed.pass(seconds{21});
        bed.glass->pedal(touch::Pedal::assistant);
        bed.settle();
        CHECK(syringes_counted(bed.state().device()) == before + 1);
        bed.tap("back");
    }
}

TEST_CASE("without a ceiling no ceiling is drawn", "[fill]") {
    KioskBed bed{ready_to_fill({}, "2026-11-25T09:34:20+00:00")};
    open_fill(bed);
    CHECK(bed.glass->shows("No ceiling is known: no plan is said and the device is not in the policy."));
    CHECK(bed.glass->faults() == Faults{});
}

TEST_CASE("Fill stands on an upright tablet with the same figures and corner", "[fill]") {
    for (const bool long_words : {false, true}) {
        auto start = ready_to_fill();
        start.stretched = long_words;
        KioskBed bed{start};
        open_fill(bed);
        fill(bed, 9);
        bed.glass = std::make_unique<touch::Headless>(*bed.kiosk, long_words ? stretched() : english(),
                                                      touch::Size{800, 1280});
        bed.settle();
        bed.picture(long_words ? "long-portrait" : "fill-portrait");
        CHECK(bed.glass->text_of("running-volume") == "450");
        CHECK(bed.glass->registry().find("syringe-in")->rect == touch::Rect{392, 992, 392, 280});
        CHECK(bed.glass->faults() == Faults{});
    }
}
