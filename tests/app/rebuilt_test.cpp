// Sealed records written anew from their events (issue: records that outlive the program, verify).
#include "app/loop/rebuilt.h"

#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;

namespace {

tl::expected<Reading, RoomFault> closed_and_read(KioskBed& bed) {
    bed.glass.reset();
    bed.kiosk.reset();
    bed.room.reset();
    return read_store(bed.folder.path());
}

}  // namespace

TEST_CASE("a sealed record reads the same when it is written anew from its events", "[rebuilt]") {
    KioskBed bed{{.until = "2026-11-26T00:00:00+00:00", .scripts = {"case-a", "case-b", "case-c"}}};
    const auto reading = closed_and_read(bed);
    REQUIRE(reading);
    REQUIRE(reading->sealed.size() == 3);
    CHECK(rebuild_records(reading->rows, reading->kiosk.id, reading->sealed) == Rebuilt{3, {}});
}

TEST_CASE("one figure changed in a sealed text, or one event, and the record is named", "[rebuilt]") {
    KioskBed bed{{.until = "2026-11-26T00:00:00+00:00", .scripts = {"case-a"}}};
    auto reading = closed_and_read(bed);
    REQUIRE(reading);
    REQUIRE(reading->sealed.size() == 1);
    const Rebuilt named{0, {reading->sealed[0].number}};
    auto sealed = reading->sealed;
    const auto figure = sealed[0].body.find("500 mL");
    REQUIRE(figure != std::string::npos);
    sealed[0].body[figure] = '6';
    CHECK(rebuild_records(reading->rows, reading->kiosk.id, sealed) == named);
    auto rows = reading->rows;
    const auto weight =
        std::find_if(rows.begin(), rows.end(), [](const auto& row) { return row.kind == "measure"; });
    REQUIRE(weight != rows.end());
    const auto digit = weight->payload.find("96.4");
    REQUIRE(digit != std::string::npos);
    weight->payload[digit] = '8';
    CHECK(rebuild_records(rows, reading->kiosk.id, reading->sealed) == named);
}
