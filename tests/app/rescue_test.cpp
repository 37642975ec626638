// Rescue from the sign-in without a PIN (10-decisions F7): vital signs, airway event and a case that starts
// now; who it was is asked of whoever signs in.
#include "tests/app/fill_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;

std::unique_ptr<KioskBed> signed_off(const std::string& clock,
                                     std::vector<std::string> scripts = {"case-a"}) {
    auto bed = std::make_unique<KioskBed>(
        KioskBed::Start{.until = "2026-11-25T" + clock + "+00:00", .scripts = std::move(scripts)});
    bed->settle();
    (void)bed->new_kinds("A");
    return bed;
}

bool open_item(const CaseState& state, const std::string& code) { return state.has_open(code); }

}  // namespace

TEST_CASE("an airway event is recorded from the sign-in in one tap, and who it was is asked (F7)",
          "[rescue]") {
    const auto bed = signed_off("09:36:00");
    REQUIRE(bed->kiosk->page() == Page::sign_in);
    CHECK_FALSE(bed->glass->shows("QUILL"));  // nothing of a patient at the sign-in
    bed->picture("sign-in-rescue");
    bed->tap("rescue/airway");
    CHECK(bed->new_kinds().front() == "airway-event");
    CHECK(bed->last_of("airway-event").stamp.by == nobody_signed_in);
    CHECK(bed->kiosk->sheet() == Sheet::airway);
    CHECK(bed->glass->shows("No name"));
    CHECK(open_item(bed->state(), "who-it-was"));
    CHECK(bed->glass->faults() == Faults{});
    bed->picture("airway-nobody");

    // Signing in with the case in hand asks whose the entries were.
    bed->kiosk->open("", "A", Page::sign_in);
    bed->settle();
    bed->tap("person/noor");
    bed->keys("pad", "917354");
    CHECK(bed->kiosk->sheet() == Sheet::who_it_was);
    bed->picture("who-it-was");
    CHECK(bed->glass->faults() == Faults{});
    bed->tap("who/noor");
    CHECK_FALSE(open_item(bed->state(), "who-it-was"));
    CHECK(bed->kiosk->person() == "noor");
}

TEST_CASE("a second tap on the airway button of the sign-in leads to the event that runs (F7)", "[rescue]") {
    const auto bed = signed_off("09:36:00");
    bed->tap("rescue/airway");
    bed->kiosk->open("", "A", Page::sign_in);
    bed->settle();
    (void)bed->new_kinds();
    bed->tap("rescue/airway");
    CHECK(bed->kiosk->sheet() == Sheet::airway);
    CHECK(bed->new_kinds().empty());  // no second event, and the first is not ended
}

TEST_CASE("vital signs open without a PIN, and leaving their sheet leads back to the sign-in (F7)",
          "[rescue]") {
    const auto bed = signed_off("09:36:00");
    bed->tap("rescue/vitals");
    CHECK(bed->kiosk->sheet() == Sheet::vitals);
    CHECK_FALSE(bed->glass->has("chip/noor"));  // no way round the PIN
    bed->picture("vitals-nobody");
    bed->tap("back");
    CHECK(bed->kiosk->page() == Page::sign_in);
    CHECK_FALSE(bed->glass->shows("QUILL"));
}

TEST_CASE("where several may be in need it is asked who, wrong PINs or not (F7)", "[rescue]") {
    const auto bed = signed_off("08:50:00", {"case-a", "case-b"});
    bed->tap("person/noor");
    for (int i = 0; i < 3; ++i) {
        bed->keys("pad", "999999");
    }
    CHECK(bed->glass->text_of("pin/title").find("Locked") == 0);
    bed->tap("rescue/vitals");
    CHECK(bed->glass->has("rescue/case/A"));
    CHECK(bed->glass->has("rescue/case/B"));
    bed->picture("whose-vitals");
    CHECK(bed->glass->faults() == Faults{});
    bed->tap("rescue/case/B");
    CHECK(bed->kiosk->sheet() == Sheet::vitals);
}

TEST_CASE("a case starts now from the sign-in in three taps, without a PIN (F7)", "[rescue]") {
    const auto bed = signed_off("08:30:00");
    bed->tap("start-now");
    bed->tap_all({"kind/removal", "who/unknown", "weight/70", "open-sedation"});
    const auto& name = bed->room->desk().case_order.back();
    CHECK(bed->state(name).started_now);
    CHECK(bed->last_of("booked", name).stamp.by == nobody_signed_in);
    CHECK(bed->kiosk->sheet() == Sheet::vitals);
    CHECK(bed->glass->faults() == Faults{});
}
