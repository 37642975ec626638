// The monitor's clock: the shorter way round the day, and the page that notes it.
#include "core/case/monitor_clock_view.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

TEST_CASE("the difference of two clocks goes the shorter way round the day", "[monitor]") {
    const Zone utc;
    const auto at = [](const char* text) { return *parse_instant(text); };
    const auto shown = [](int h, int m, int s) { return *TimeOfDay::of(h, m, s); };
    CHECK(monitor_offset_s(shown(9, 25, 2), at("2026-11-25T09:24:50+00:00"), utc) == 12);
    CHECK(monitor_offset_s(shown(9, 24, 47), at("2026-11-25T09:24:50.9+00:00"), utc) == -3);
    CHECK(monitor_offset_s(shown(0, 0, 5), at("2026-11-25T23:59:50+00:00"), utc) == 15);
    CHECK(monitor_offset_s(shown(23, 59, 50), at("2026-11-25T00:00:05+00:00"), utc) == -15);
    CHECK(monitor_offset_s(shown(12, 0, 0), at("2026-11-25T00:00:00+00:00"), utc) == 43'200);
    CHECK_FALSE(TimeOfDay::of(24, 0, 0));
    CHECK_FALSE(TimeOfDay::of(9, 60, 0));
}

TEST_CASE("the monitor's clock is noted from pause one, and no such time is refused", "[monitor]") {
    KioskBed bed{{.until = "2026-11-25T09:24:49+00:00", .scripts = {"case-a"}}};
    bed.kiosk->open("tomas", "A", Page::pause_sedation);
    bed.settle();
    if (!bed.glass->has("said-1")) {
        bed.tap("present/tomas");
    }
    for (int i = 1; i <= 7; ++i) {
        bed.tap("said-" + std::to_string(i));
    }
    REQUIRE(bed.glass->has("monitor-clock"));
    bed.tap("monitor-clock");
    CHECK(bed.kiosk->sheet() == Sheet::monitor_clock);
    bed.keys("pad", "247000");
    CHECK_FALSE(bed.glass->has("it-shows-it"));
    for (int i = 0; i < 6; ++i) {
        bed.tap("pad/erase");
    }
    bed.keys("pad", "092449");
    bed.picture("monitor-clock");
    bed.clock.pass(std::chrono::seconds{3});
    bed.tap("it-shows-it");
    CHECK(bed.state().monitor_clock->is.offset_s == -3);
    CHECK(bed.kiosk->sheet() == Sheet::none);
    CHECK(bed.glass->faults() == std::vector<std::string>{});
}
