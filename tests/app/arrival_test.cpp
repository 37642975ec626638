// Arrival: blocks confirmed one by one, sections with their entries, holds with their ways out, override.
#include <algorithm>

#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;
using Kinds = std::vector<std::string>;

std::unique_ptr<KioskBed> on_arrival(const std::string& name, const std::string& until,
                                     const std::string& by = "wren", bool long_words = false) {
    const auto script = name == "A" ? "case-a" : "case-b";
    auto bed = std::make_unique<KioskBed>(
        KioskBed::Start{.until = until, .scripts = {script}, .stretched = long_words});
    bed->kiosk->open(by, name, Page::arrival);
    bed->settle();
    (void)bed->new_kinds(name);
    return bed;
}

bool in_corner(const KioskBed& bed, std::string_view name) {
    const auto* target = bed.glass->registry().find(name);
    return target != nullptr && target->kind == touch::Kind::action;
}

const std::string morning = "2026-11-25T08:38:00+00:00";  // case A: the pre-visit is there, nothing of today
const std::string two_holds = "2026-11-25T09:50:30+00:00";  // case B: clear fluid too recent, ibuprofen

}  // namespace

TEST_CASE("each block of the pre-visit is confirmed by its own tap", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    bed->picture("arrival-unchanged");
    CHECK(bed->glass->shows("Pre-visit of 18 Nov 2026, 7 days ago"));
    bed->tap("unchanged/contraindications");
    CHECK(bed->new_kinds() == Kinds{"unchanged"});
    CHECK(bed->state().unchanged.back().is.since == *parse_date("2026-11-18"));
    CHECK(bed->glass->is_checked("unchanged/contraindications"));
    bed->tap("unchanged/contraindications");
    CHECK(bed->new_kinds().empty());
    CHECK_FALSE(bed->glass->is_checked("unchanged/airway"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an old pre-visit is not offered as unchanged", "[arrival]") {
    const auto bed = on_arrival("A", "2026-12-28T08:38:00+00:00");
    CHECK_FALSE(bed->glass->has("unchanged/airway"));
    CHECK(bed->glass->has("part/airway"));
}

TEST_CASE("identity is entered when two are the same; the language has no default", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    REQUIRE(in_corner(*bed, "next-identity"));
    bed->tap("next-identity");
    bed->tap("id/name/yes");
    CHECK(bed->new_kinds().empty());
    bed->tap("id/born/yes");
    CHECK(bed->new_kinds() == Kinds{"identity"});
    CHECK(bed->state().identity->is.identifiers == std::vector{Identifier::name, Identifier::born});
    CHECK_FALSE(bed->glass->is_checked("language/own"));
    bed->tap("language/own");
    CHECK(bed->glass->is_checked("language/own"));
    CHECK(bed->state().patient.language == "en");
    bed->tap("consent/yes");
    CHECK(bed->state().consent->is.is_signed == true);
    bed->picture("arrival-identity");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a name that differs enters nothing and leads to the record or to another patient", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    bed->tap_all({"next-identity", "id/name/no"});
    CHECK(bed->new_kinds().empty());
    bed->tap("correct-name");
    CHECK(bed->glass->text_of("letters/text") == "Quill, Marta");
    bed->tap("letter/erase");
    bed->glass->type("e");
    bed->tap("letters-done");
    CHECK(bed->state().patient.given_name == "Marte");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("consent has its other ways, and none of them is a signature", "[arrival][consent]") {
    const auto bed = on_arrival("A", morning);
    bed->tap_all({"next-identity", "consent/no"});
    CHECK(bed->new_kinds().empty());
    bed->tap("consent/witness");
    bed->glass->type("Jon Quill");
    bed->tap("letters-done");
    CHECK(bed->state().consent->is.form == ConsentForm::spoken_with_witness);
    CHECK(bed->state().consent->is.reason == "Jon Quill");
    CHECK(bed->state().consent_settled());
    bed->tap_all({"consent/yes", "consent/no", "consent/not-given"});
    CHECK(bed->state().standing("consent-missing") != nullptr);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("allergies: one with its reaction, or none known in one tap", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    bed->tap_all({"part/allergies", "allergy/latex", "reaction/rash"});
    CHECK(bed->state().allergies->is.list == std::vector<Allergy>{{"latex", "rash"}});
    bed->picture("arrival-allergies");
    bed->tap("allergy/drug");
    bed->glass->type("penicillin");
    bed->tap_all({"letters-done", "reaction/unknown"});
    CHECK(bed->state().allergies->is.list->size() == 2);
    bed->tap("none-known");
    CHECK(bed->state().allergies->is.none_known == true);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("body size is typed; a height in metres is told beside its box", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    bed->tap("part/body");
    bed->keys("pad", "96.4");
    bed->tap("height");
    bed->keys("pad", "1.7");
    CHECK(bed->glass->text_of("height/label") == "in cm: 170");
    bed->tap("height");
    for (int i = 0; i < 3; ++i) {
        bed->tap("pad/erase");
    }
    bed->keys("pad", "167");
    CHECK_FALSE(bed->glass->has("enter-body"));
    bed->tap_all({"basis/measured", "enter-body"});
    CHECK(bed->state().measure->is.height_cm == Decimal::of(167));
    CHECK(bed->state().measure->is.weight_kg == *Decimal::parse("96.4"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a drink is entered with its kind and minute, a strange one is asked about once",
          "[arrival][fasting]") {
    const auto bed = on_arrival("A", morning);
    bed->tap_all({"part/fasting", "intake/meal-unknown", "days-ago/1"});
    bed->keys("pad", "2015");
    bed->picture("arrival-intake");
    bed->tap("enter-intake");
    CHECK(bed->new_kinds() == Kinds{"intake"});
    CHECK(bed->state().intakes.back().is.last.at == *parse_instant("2026-11-24T20:15:00+00:00"));
    bed->tap_all({"add-intake", "intake/clear"});
    bed->keys("pad", "2505");
    CHECK_FALSE(bed->glass->has("enter-intake"));
    for (int i = 0; i < 4; ++i) {
        bed->tap("pad/erase");
    }
    bed->keys("pad", "0705");
    bed->tap("enter-intake");
    CHECK(bed->state().intakes.size() == 2);
    CHECK(bed->glass->shows("Every rule is met at 09:05"));
    CHECK(bed->glass->text_of("fast/clear/last") == "07:05");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("two holds stand with their own ways out; the plan may move", "[arrival][hold]") {
    const auto bed = on_arrival("B", two_holds);
    bed->tap("show-tiles");
    bed->picture("arrival");
    CHECK(bed->glass->has("plan/fasting-clear-fluid"));
    CHECK(bed->glass->has("override/medicine-window"));
    bed->tap("plan/fasting-clear-fluid");
    CHECK(bed->state("B").standing("fasting-clear-fluid") == nullptr);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a physician overrides with a reason, a proviso and the PIN", "[arrival][override]") {
    const auto bed = on_arrival("B", two_holds);
    bed->tap_all({"show-tiles", "override/medicine-window"});
    CHECK(bed->kiosk->sheet() == Sheet::override_hold);
    CHECK_FALSE(bed->glass->has("pad/1"));
    bed->tap("ask-physician");
    CHECK(bed->kiosk->person() == "ilse");
    bed->tap_all({"reason/single-dose", "proviso/look"});
    bed->glass->type("stop if erosions at Look");
    bed->tap("letters-done");
    bed->keys("pad", "381946");
    bed->picture("override");
    bed->tap("override");
    const auto* hold = bed->state("B").standing("medicine-window");
    CHECK(hold == nullptr);
    REQUIRE(bed->state("B").provisos.size() == 1);
    CHECK(bed->state("B").provisos.front().said.stage == "look");
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a wrong PIN overrides nothing and is told", "[arrival][override]") {
    const auto bed = on_arrival("B", two_holds, "ilse");
    bed->tap_all({"show-tiles", "override/medicine-window", "reason/single-dose"});
    CHECK_FALSE(bed->glass->has("override"));
    bed->keys("pad", "111111");
    bed->tap("override");
    CHECK(bed->state("B").standing("medicine-window") != nullptr);
    CHECK(bed->kiosk->sheet() == Sheet::override_hold);
    CHECK_FALSE(bed->glass->text_of("prompt/title").empty());
    CHECK_FALSE(bed->glass->has("override"));  // the digits are gone
    bed->tap("keep-hold");
    CHECK(bed->kiosk->sheet() == Sheet::none);
}

TEST_CASE("a check is answered where it stands, a bad answer holds, the other answer ends it",
          "[arrival][screen]") {
    const auto bed = on_arrival("A", morning);
    bed->tap("open/contraindications");
    while (!bed->glass->has("check/varices/yes")) {
        bed->tap("more-questions");
    }
    bed->tap("check/varices/yes");
    CHECK(bed->state().standing("screen-varices") != nullptr);
    bed->picture("arrival-fasting-and-screen");
    while (!bed->glass->has("check/varices/no")) {
        bed->tap("more-questions");
    }
    bed->tap("check/varices/no");
    CHECK(bed->state().standing("screen-varices") == nullptr);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("medicines: the question is asked anew, and one is entered with its day", "[arrival][medicines]") {
    const auto bed = on_arrival("A", morning);
    bed->tap_all({"part/medicines", "check/anticoagulant-or-nsaid/no", "group/nsaid", "medicine-name"});
    bed->glass->type("ibuprofen");
    bed->tap_all({"letters-done", "dose-days/3", "enter-medicine"});
    const auto& medicine = bed->state().medicines.back().is;
    CHECK(medicine.group == MedicineGroup::nsaid);
    CHECK(medicine.last_dose == *parse_date("2026-11-22"));
    CHECK(bed->state().standing("medicine-window") != nullptr);
    bed->picture("arrival-medicines");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("pregnancy and its test are asked every time", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    bed->tap_all(
        {"part/pregnancy", "check/pregnancy-or-feeding/no", "check/pregnancy-test/yes", "test-note"});
    bed->glass->type("negative");
    bed->tap("letters-done");
    CHECK(bed->state().answers.at("pregnancy-test").is.note == "negative");
    bed->tap("test-does-not-apply");
    CHECK(bed->state().answers.at("pregnancy-test").is.value == Answered::not_applicable);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("airway and escort are entered as a whole", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    bed->tap_all({"open/airway", "asa/2", "mallampati/2", "snores/yes", "tired/yes", "observed/no",
                  "pressure/yes", "trouble/no"});
    CHECK_FALSE(bed->glass->has("enter-airway"));
    bed->tap("cpap/no");
    bed->keys("pad", "38");
    bed->picture("arrival-airway");
    bed->tap("enter-airway");
    const auto& airway = bed->state().airway->is;
    CHECK(airway.asa == 2);
    CHECK(airway.stop_bang->neck_cm == Decimal::of(38));
    bed->tap_all({"open/escort", "escort-known", "enter-escort"});
    CHECK(bed->state().escort->is.name == "Jon Quill");
    CHECK(bed->state().escort->stamp.by == "wren");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the corner goes on with open items, and to the room", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    bed->tap("go-on");
    CHECK(bed->kiosk->page() == Page::enter_room);
    CHECK(bed->new_kinds().empty());
}

TEST_CASE("a case is deferred with its reason", "[arrival]") {
    const auto bed = on_arrival("A", morning);
    bed->tap_all({"show-tiles", "defer", "defer-reason"});
    bed->glass->type("unwell");
    bed->tap_all({"letters-done", "enter-defer"});
    CHECK(bed->state().cancelled->is.reason == "unwell");
    CHECK(bed->kiosk->page() == Page::day_list);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("Arrival keeps its layout with words 1.4 times as long", "[arrival][layout]") {
    const auto bed = on_arrival("A", morning, "wren", true);
    bed->picture("arrival-unchanged-long");
    bed->tap_all({"show-tiles", "show-blocks", "part/identity", "id/name/no", "differs/back", "consent/no"});
    bed->picture("arrival-identity-long");
    bed->tap_all({"consent/back", "beside/allergies", "allergy/latex", "reaction/back", "back"});
    bed->tap_all({"part/body", "height"});
    bed->keys("pad", "1.7");
    bed->tap_all({"back", "part/fasting", "intake/clear"});
    bed->picture("arrival-intake-long");
    bed->tap_all({"back", "open/contraindications"});
    bed->picture("arrival-fasting-long");
    bed->tap_all({"back", "part/medicines", "group/nsaid"});
    bed->picture("arrival-medicines-long");
    bed->tap_all({"back", "part/pregnancy", "back", "open/airway"});
    bed->picture("arrival-airway-long");
    bed->tap_all({"back", "open/escort", "back", "show-tiles", "defer"});
    CHECK(bed->glass->faults() == Faults{});
    const auto held = on_arrival("B", two_holds, "wren", true);
    held->tap("show-tiles");
    held->picture("arrival-long");
    held->tap("override/medicine-window");
    held->tap("ask-physician");
    held->picture("override-pin-long");
    CHECK(held->glass->faults() == Faults{});
}
