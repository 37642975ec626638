// The wall clock is moved under a running kiosk: it is noted, nothing is refused or lost for it, what is
// measured goes by the tick, and the store stays sound. 7-journal, Time; 10-decisions H.
#include "core/store/verify.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;

namespace {

constexpr std::chrono::hours hour{1};
constexpr std::chrono::hours year{24 * 365};

Reply say_pain(KioskBed& bed) {
    Command command;
    command.by = "wren";
    command.case_name = "A";
    Symptom pain;
    pain.kind = SymptomKind::pain;
    pain.value = 2;
    command.says = pain;
    auto reply = bed.room->say(std::move(command));
    bed.settle();
    return reply;
}

/// Kind and by_ms of what the kiosk noted of its clock, read from the store once it is closed.
std::vector<std::int64_t> jumps(KioskBed& bed) {
    bed.glass.reset();
    bed.kiosk.reset();
    bed.room.reset();
    std::vector<std::int64_t> all;
    const auto reading = read_store(bed.folder.path());
    REQUIRE(reading.has_value());
    for (const auto& row : reading->rows) {
        if (const auto recorded = recorded_of(row); recorded) {
            if (const auto* jump = std::get_if<ClockJump>(&recorded->event)) {
                all.push_back(jump->by_ms);
            }
        }
    }
    const auto report = store::verify(bed.folder.path());
    REQUIRE(report.has_value());
    CHECK(report->findings.empty());
    return all;
}

}  // namespace

TEST_CASE("a clock that jumps is noted once, and entries go on", "[clock]") {
    const auto by = GENERATE(Duration{-hour}, Duration{2 * hour}, Duration{-10 * year}, Duration{10 * year});
    KioskBed bed{{.until = "2026-11-25T10:26:00+00:00", .scripts = {"case-a"}}};
    REQUIRE(say_pain(bed).result == Reply::Result::recorded);
    bed.clock.pass(std::chrono::seconds{30});
    bed.clock.jump(by);
    CHECK(say_pain(bed).result == Reply::Result::recorded);
    bed.glass->frame();
    CHECK(bed.glass->faults() == std::vector<std::string>{});
    bed.clock.pass(std::chrono::seconds{30});
    CHECK(say_pain(bed).result == Reply::Result::recorded);
    const auto noted = jumps(bed);
    // A clock behind the last entry is noted at each entry until it has caught up with it.
    REQUIRE(noted.size() == (by < Duration{0} ? 2U : 1U));
    CHECK(noted.front() == by.count() / 1000);
}

TEST_CASE("a clock that was set back and a tablet that was started anew lose nothing", "[clock]") {
    KioskBed bed{{.until = "2026-11-25T10:26:00+00:00", .scripts = {"case-a"}}};
    REQUIRE(say_pain(bed).result == Reply::Result::recorded);
    bed.clock.start_again();
    bed.clock.jump(-hour);
    CHECK(say_pain(bed).result == Reply::Result::recorded);
    const auto noted = jumps(bed);
    REQUIRE(noted.size() == 1);
    CHECK(noted.front() == -3'600'000);
}

TEST_CASE("time that passes asleep, and a drift below the clinic's limit, are no jump", "[clock]") {
    KioskBed bed{{.until = "2026-11-25T10:26:00+00:00", .scripts = {"case-a"}}};
    REQUIRE(say_pain(bed).result == Reply::Result::recorded);
    bed.clock.pass(8 * hour);
    bed.clock.jump(std::chrono::milliseconds{1500});
    CHECK(say_pain(bed).result == Reply::Result::recorded);
    CHECK(jumps(bed).empty());
}
