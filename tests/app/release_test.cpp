// Release: five facts under view, the way out of the room, a valve that drips, a device that does not stay
// in.
#include "core/case/release_view.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;

const std::string read_back_said = "2026-11-25T09:43:30+00:00";

std::unique_ptr<KioskBed> on_release(const std::string& until = read_back_said, bool long_words = false) {
    auto bed = std::make_unique<KioskBed>(
        KioskBed::Start{.until = until, .scripts = {"case-a"}, .stretched = long_words});
    bed->kiosk->open("tomas", "A", Page::release);
    bed->settle();
    (void)bed->new_kinds();
    return bed;
}

}  // namespace

TEST_CASE("the agreed read-back leads to Release", "[release]") {
    const auto bed = on_release();
    bed->kiosk->open("noor", "A", Page::size);
    bed->settle();
    bed->tap("to-release");
    CHECK(bed->kiosk->page() == Page::release);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the catheter coming off is a Yes in column A and never in the corner", "[release]") {
    const auto bed = on_release();
    bed->picture("release-first");
    CHECK(bed->glass->has("next-off"));
    bed->tap("next-off");
    CHECK(bed->new_kinds().empty());
    bed->tap("release/off/yes");
    CHECK(bed->new_kinds() == std::vector<std::string>{"device-off"});
    CHECK(bed->glass->has("next-dry"));
}

TEST_CASE("the five facts are entered where they are said, the last two as the physician's word",
          "[release]") {
    const auto bed = on_release();
    bed->tap_all({"release/off/yes", "release/dry/yes", "release/complete/yes", "release/position/yes"});
    bed->picture("release");
    CHECK(bed->new_kinds() == std::vector<std::string>{"device-off", "valve-dry", "catheter-complete"});
    CHECK_FALSE(bed->glass->has("scope-out"));  // while bleeding is unanswered
    bed->tap("release/bleeding/no");
    CHECK(bed->new_kinds() == std::vector<std::string>{"release-look"});
    CHECK(bed->state().release_look->is == ReleaseLook{true, false});
    CHECK(bed->state().release_look->stamp.said_by == "ilse");
    CHECK(bed->state().valve_dry.back().is.seconds == bed->room->policy().fill.valve_dry.count());
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("after the facts the corner leads out of the room", "[release]") {
    const auto bed = on_release();
    bed->tap_all({"release/off/yes", "release/dry/yes", "release/complete/yes", "release/position/yes",
                  "release/bleeding/no", "scope-out", "end-sedation"});
    CHECK(bed->state().sedation_end->by == "noor");  // of those present only the provider may end it
    const auto step = release_step(bed->state());
    CHECK(step == ReleaseStep::pause);
}

TEST_CASE("a No after the catheter was off withdraws the entry, and both stay", "[release]") {
    const auto bed = on_release();
    bed->tap("release/off/yes");
    bed->tap("release/off/no");
    CHECK_FALSE(bed->state().device().off.has_value());
    CHECK(bed->kinds().back() != "device-off");
    CHECK(bed->glass->is_checked("release/off/no"));
}

TEST_CASE("gate 4 asks before the catheter comes off unread, and crossing is a high hold",
          "[release][gate]") {
    const auto bed = on_release("2026-11-25T09:42:20+00:00");
    bed->tap("release/off/yes");
    CHECK(bed->new_kinds().empty());
    CHECK(bed->kiosk->sheet() == Sheet::gate_release);
    bed->picture("release-gate");
    bed->tap("go-back");
    CHECK(bed->new_kinds().empty());
    bed->tap("release/off/yes");
    bed->tap("cross-gate");
    CHECK(bed->new_kinds().front() == "device-off");
    CHECK(bed->state().standing("gate-read-back") != nullptr);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a valve that drips is watched, looked at again, and dry only after its time", "[release][valve]") {
    const auto bed = on_release();
    bed->tap_all({"release/off/yes", "release/dry/no"});
    CHECK(bed->kiosk->sheet() == Sheet::valve);
    CHECK(bed->state().standing("valve-not-dry") != nullptr);
    bed->pass(seconds{20});
    bed->picture("valve-not-dry");
    CHECK(bed->glass->text_of("valve/seconds") == "20");
    bed->tap_all({"did/touched", "still-drips"});
    CHECK(bed->state().valve_not_dry.size() == 2);
    CHECK(bed->state().valve_not_dry.back().is.action == "valve touched once");
    bed->tap("dry-now");
    CHECK_FALSE(bed->glass->has("stayed-dry"));
    bed->pass(seconds{31});
    bed->tap("stayed-dry");
    CHECK(bed->state().standing("valve-not-dry") == nullptr);
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a device that does not stay in is counted out and the next one starts at Place", "[release]") {
    const auto bed = on_release();
    bed->tap("another-device");
    CHECK_FALSE(bed->glass->has("record-not-left-in"));
    bed->tap("reason/leak");
    bed->keys("pad", "500");
    bed->picture("device-not-left-in");
    bed->tap("record-not-left-in");
    CHECK(bed->kiosk->page() == Page::place);
    REQUIRE(bed->state().device().not_left_in.has_value());
    CHECK(bed->state().device().not_left_in->is == DeviceNotLeftIn{"leak", Millilitres::of_tenths(5000), {}});
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the balloon card says what the policy's dates say", "[release]") {
    const auto bed = on_release();
    CHECK(bed->glass->text_of("card/due/value") == "25 May 2027");
    CHECK(bed->glass->text_of("card/book-by/value") == "30 Mar 2027");
    CHECK(bed->glass->text_of("card/volume/value") == "500 mL, dye 5 mL");
    CHECK(bed->glass->text_of("card/lot/value") == "DW-2641, 0007731");
}

TEST_CASE("Release keeps its layout with words 1.4 times as long", "[release][layout]") {
    const auto bed = on_release(read_back_said, true);
    bed->tap_all({"release/off/yes", "release/dry/no", "dry-now"});
    bed->pass(seconds{31});
    bed->picture("valve-long");
    bed->tap_all({"take-it-out", "reason/other", "pad/5"});
    bed->picture("not-left-in-long");
    bed->tap("back");
    bed->picture("release-long");
    CHECK(bed->glass->faults() == Faults{});
    const auto gate = on_release("2026-11-25T09:42:20+00:00", true);
    gate->tap("release/off/yes");
    CHECK(gate->glass->faults() == Faults{});
}
