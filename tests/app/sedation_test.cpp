// Sedation: the value pad as a page, doses and their one question, infusions, the trend, airway events and
// emergencies, over Fill too.
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

std::unique_ptr<KioskBed> on(Page page, const std::string& by, const std::string& until,
                             bool long_words = false, std::vector<std::string> lines = {}) {
    auto bed = std::make_unique<KioskBed>(KioskBed::Start{
        .until = until, .scripts = {"case-a"}, .lines = std::move(lines), .stretched = long_words});
    bed->kiosk->open(by, "A", page);
    bed->settle();
    (void)bed->new_kinds();
    return bed;
}

/// Case A on the page of Sedation, entered by the sedation provider.
std::unique_ptr<KioskBed> on_sedation(const std::string& until, bool long_words = false,
                                      std::vector<std::string> lines = {}) {
    return on(Page::sedation, "noor", until, long_words, std::move(lines));
}

bool in_corner(const KioskBed& bed, std::string_view name) {
    const auto* target = bed.glass->registry().find(name);
    return target != nullptr && target->kind == touch::Kind::action;
}

const std::string before_start = "2026-11-25T09:28:00+00:00";
const std::string after_start = "2026-11-25T09:30:00+00:00";  // two doses are given
const std::string scope_is_in = "2026-11-25T09:32:40+00:00";
const std::string over_fill = "2026-11-25T09:40:40+00:00";  // seven syringes are in

}  // namespace

TEST_CASE("sedation starts in the corner when gate 1 is met", "[sedation][gate]") {
    const auto bed = on_sedation(before_start);
    REQUIRE(in_corner(*bed, "start-sedation"));
    bed->tap("start-sedation");
    CHECK(bed->new_kinds().front() == "start-sedation");
    CHECK(bed->state().standing("gate-identity") == nullptr);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a set saved on the page is entered, and the boxes are empty again", "[sedation]") {
    const auto bed = on_sedation(scope_is_in);
    bed->keys("pad", "8011670");
    bed->tap_all({"spo2/94", "rr/13", "depth/3", "oxygen", "pad/4"});
    bed->picture("sedation");
    CHECK(bed->glass->shows("MAP 85"));
    bed->tap("save-set");
    CHECK(bed->new_kinds() == Kinds{"vitals", "depth", "oxygen"});
    CHECK(bed->state().vitals.back().is.systolic == 116);
    CHECK(bed->kiosk->page() == Page::sedation);
    CHECK(bed->glass->text_of("vitals/hr/value").empty());
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("gate 1 asks once before sedation, and going back records nothing", "[sedation][gate]") {
    const auto bed = on_sedation("2026-11-25T08:30:00+00:00");
    bed->tap("start-sedation");
    bed->picture("gate-identity");
    CHECK(bed->kiosk->sheet() == Sheet::gate_identity);
    CHECK(in_corner(*bed, "go-back"));
    CHECK_FALSE(in_corner(*bed, "cross-gate"));
    bed->tap("identity/no");
    CHECK(bed->glass->is_checked("identity/no"));
    bed->tap("go-back");
    CHECK(bed->new_kinds().empty());
    CHECK_FALSE(bed->state().sedation_start);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("crossing gate 1 records the start and raises the hold", "[sedation][gate]") {
    const auto bed = on_sedation("2026-11-25T08:30:00+00:00");
    bed->tap_all({"start-sedation", "cross-gate"});
    CHECK(bed->state().sedation_start.has_value());
    CHECK(bed->state().standing("gate-identity") != nullptr);
    CHECK(bed->kiosk->sheet() == Sheet::none);
}

TEST_CASE("the last dose once more is one tap, and no second tap makes a second dose", "[sedation][dose]") {
    const auto bed = on_sedation(after_start);
    CHECK(bed->glass->text_of("dose-again/note") == "20 mg");
    bed->tap("dose-again");
    CHECK(bed->new_kinds() == Kinds{"dose"});
    CHECK_FALSE(bed->glass->has("dose-again"));
    CHECK(bed->glass->shows("09:30:00 recorded"));
    bed->pass(std::chrono::seconds{3});
    REQUIRE(bed->glass->has("dose-again"));
    CHECK(bed->state().doses.back().is.amount == Decimal::of(20));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("another dose takes drug, amount and when; the unit is that of the ampoule", "[sedation][dose]") {
    const auto bed = on_sedation(after_start);
    bed->tap("other-dose");
    CHECK_FALSE(bed->glass->has("record-dose"));
    bed->tap("drug/fentanyl");
    CHECK_FALSE(bed->glass->has("record-dose"));
    bed->keys("pad", "50");
    bed->tap("back/2");
    bed->picture("dose");
    CHECK(bed->glass->text_of("dose/box/unit") == "mcg");
    CHECK(bed->glass->text_of("dose/box/label").find("0.05 mg") == 0);
    CHECK(bed->glass->shows("allergies, all: latex"));
    bed->tap("record-dose");
    CHECK(bed->new_kinds() == Kinds{"dose"});
    const auto& dose = bed->state().doses;
    const auto fentanyl =
        std::find_if(dose.begin(), dose.end(), [](const auto& d) { return d.is.drug == "fentanyl"; });
    REQUIRE(fentanyl != dose.end());
    CHECK(fentanyl->is.unit == DoseUnit::ug);
    CHECK(fentanyl->stamp.at - fentanyl->stamp.happened == std::chrono::minutes{2});
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an unusual amount is asked about once, answered in column B while the corner goes back",
          "[sedation][dose]") {
    const auto bed = on_sedation(after_start);
    bed->tap_all({"other-dose", "drug/fentanyl"});
    CHECK_FALSE(bed->glass->shows("25 to 100"));  // the usual span is not shown before it was left
    bed->keys("pad", "500");
    bed->tap("record-dose");
    bed->picture("dose-unusual");
    CHECK(bed->new_kinds().empty());
    CHECK(bed->glass->text_of("dose/asked-why").find("25 to 100 mcg") != std::string::npos);
    CHECK(in_corner(*bed, "type-again"));
    CHECK_FALSE(in_corner(*bed, "dose-sure"));
    bed->tap("type-again");
    CHECK(bed->new_kinds().empty());
    bed->keys("pad", "500");
    bed->tap_all({"record-dose", "dose-sure"});
    CHECK(bed->new_kinds() == Kinds{"dose"});
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a drug that the formulary does not have is given by name and unit", "[sedation][dose]") {
    const auto bed = on_sedation(after_start);
    bed->tap_all({"other-dose", "more-drugs", "more-drugs", "drug-free"});
    bed->glass->type("cetirizine");
    bed->tap("letters-done");
    bed->keys("pad", "10");
    CHECK_FALSE(bed->glass->has("record-dose"));
    bed->tap("unit/mg");
    bed->tap("record-dose");
    const auto& dose = bed->state().doses.back().is;
    CHECK(dose.drug == "cetirizine");
    CHECK(dose.free == true);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a reversal drug is never offered again by itself", "[sedation][dose]") {
    const auto bed = on_sedation(after_start);
    bed->tap_all({"other-dose", "drug/naloxone"});
    bed->keys("pad", "100");
    bed->tap("record-dose");
    bed->pass(std::chrono::seconds{3});
    CHECK(bed->glass->text_of("dose-again/title") == "Propofol");
}

TEST_CASE("an infusion starts with its rate and is stopped by a tap", "[sedation][dose]") {
    const auto bed = on_sedation(after_start);
    bed->tap_all({"trend", "infusion", "drug/propofol", "rate/mg-h"});
    bed->keys("pad", "200");
    bed->picture("infusion");
    bed->tap("start-infusion");
    CHECK(bed->new_kinds() == Kinds{"infusion-start"});
    bed->tap_all({"trend", "infusion", "stop/propofol"});
    CHECK(bed->new_kinds() == Kinds{"infusion-stop"});
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("over Fill a dose is recorded from the foot of column A and the corner still counts",
          "[sedation][dose][fill]") {
    const auto bed = on(Page::fill, "noor", over_fill);
    bed->tap_all({"vitals", "other-dose", "drug/propofol"});
    bed->keys("pad", "30");
    bed->picture("dose-over-fill");
    REQUIRE(in_corner(*bed, "syringe-in"));
    const auto before = bed->state().device().deliveries.size();
    bed->pass(std::chrono::seconds{10});
    bed->tap("syringe-in");
    CHECK(bed->state().device().deliveries.size() == before + 1);
    bed->tap("record-dose");
    CHECK(bed->state().doses.back().is.amount == Decimal::of(30));
    CHECK(bed->kiosk->page() == Page::fill);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the trend shows each last figure with its minute and the lowest of the case",
          "[sedation][trend]") {
    const auto bed = on_sedation("2026-11-25T09:43:15+00:00");
    bed->tap("trend");
    bed->picture("sedation-trend");
    CHECK(bed->glass->text_of("spo2/last") == "97");
    CHECK(bed->glass->text_of("hr/last") == "76");
    CHECK(bed->glass->text_of("bp/last") == "122/74");
    CHECK(bed->glass->text_of("spo2/at") == "09:42, typed");
    CHECK(bed->glass->text_of("moment/lowest-value") == "91 %");
    CHECK(bed->glass->text_of("given/total") == "100 mg · 1.04 mg/kg, measured");
    CHECK(bed->glass->shows("Typed by hand. No alarm."));
    CHECK(bed->glass->shows("Next set 09:47"));
    bed->tap("next-set");
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->new_kinds().empty());
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a figure older than two intervals is a dash with its minute", "[sedation][trend]") {
    const auto bed = on_sedation("2026-11-25T09:43:15+00:00");
    bed->pass(std::chrono::minutes{8});
    bed->tap("trend");
    CHECK(bed->glass->text_of("spo2/last") == "97");
    bed->pass(std::chrono::minutes{3});
    CHECK(bed->glass->text_of("spo2/last") == "–");
    CHECK(bed->glass->text_of("spo2/at") == "09:42, typed");
}

TEST_CASE("a typed value is changed with a reason and both stay", "[sedation][trend]") {
    const auto bed = on_sedation("2026-11-25T09:43:15+00:00");
    bed->tap_all({"trend", "change-value", "more-entries", "more-entries"});
    bed->tap("more-entries");
    while (bed->glass->has("more-entries") && !bed->glass->has("entry/1")) {
        bed->tap("more-entries");
    }
    bed->tap("entry/1");  // the dose of 09:43:10
    CHECK_FALSE(bed->glass->has("change"));
    bed->keys("pad", "25");
    bed->tap("reason/mistyped");
    bed->picture("change-value");
    bed->tap("change");
    CHECK(bed->state().doses.back().is.amount == Decimal::of(25));
    const auto& kept = bed->last_of("corrected");
    CHECK(std::get<Corrected>(kept.event).before == R"({"amount":20})");
    CHECK(bed->kiosk->sheet() == Sheet::trend);
    CHECK(bed->glass->shows("105 mg · 1.09 mg/kg, measured"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an entry that never happened is withdrawn", "[sedation][trend]") {
    const auto bed = on_sedation("2026-11-25T09:43:15+00:00");
    const auto before = bed->state().doses.size();
    bed->tap_all({"trend", "change-value", "entry/1", "never-happened", "reason/misheard", "change-never"});
    CHECK(bed->state().doses.size() == before - 1);
}

TEST_CASE("the role is offered and accepted by the person named", "[sedation]") {
    const auto bed = on_sedation(after_start, false,
                                 {R"({"by":"pia","do":"add-person","id":"vero","name":"Dr Vero Lind",)"
                                  R"("roles":["sedation-provider"],"pin":"112233"})"});
    bed->tap_all({"trend", "hand-role", "to/vero"});
    CHECK(bed->new_kinds() == Kinds{"hand-over-role"});
    CHECK_FALSE(bed->glass->has("accept-role"));
    bed->kiosk->open("vero", "A", Page::sedation);
    bed->settle();
    bed->tap_all({"trend", "hand-role", "accept-role"});
    CHECK(bed->state().role_holder.at("sedation-provider") == "vero");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an airway event is two taps; what happened follows unmarked", "[sedation][airway]") {
    const auto bed = on_sedation(after_start);
    bed->tap("airway-event");
    CHECK(bed->new_kinds() == Kinds{"airway-event"});
    CHECK(bed->kiosk->sheet() == Sheet::airway);
    bed->pass(std::chrono::seconds{40});
    bed->tap("airway-event-end");
    CHECK(bed->new_kinds() == Kinds{"airway-event-end"});
    bed->tap_all(
        {"lowest/91", "action/chin-lift", "action/oxygen-up", "oxygen/more", "oxygen/more", "oxygen/more"});
    bed->picture("airway-event");
    bed->tap("save-airway");
    CHECK(bed->new_kinds() == Kinds{"airway-event-end", "oxygen"});
    const auto& event = bed->state().airway_events.back();
    CHECK(event.lowest_spo2 == 91);
    CHECK(event.actions == std::vector<std::string>{"chin-lift", "oxygen-up"});
    CHECK(*event.end - event.start.happened == std::chrono::seconds{40});
    CHECK(bed->state().oxygen.back().is.l_min == Decimal::of(4));
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an airway event started by mistake is withdrawn, one that goes on is open again",
          "[sedation][airway]") {
    const auto bed = on_sedation(after_start);
    bed->tap_all({"airway-event", "airway-event-end", "it-goes-on"});
    REQUIRE(bed->state().airway_events.size() == 1);
    CHECK_FALSE(bed->state().airway_events.back().end);
    bed->tap("prompt");
    CHECK(bed->kiosk->sheet() == Sheet::airway);
    bed->tap("by-mistake");
    CHECK(bed->state().airway_events.empty());
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("times of an airway event are set back and both stay", "[sedation][airway]") {
    const auto bed = on_sedation(after_start);
    bed->tap("airway-event");
    bed->tap_all({"change-times", "start/30", "times-done"});
    const auto& event = bed->state().airway_events.back();
    CHECK(event.start.at - event.start.happened == std::chrono::seconds{30});
    bed->tap("airway-secured");
    bed->keys("pad", "7.5");
    bed->tap("pad-enter");
    CHECK(bed->state().secured->is.tube.text == "7.5");
    bed->tap("help-called");
    CHECK(bed->state().help_called.size() == 1);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("over Fill the airway sheet leaves the corner to Syringe in", "[sedation][airway][fill]") {
    const auto bed = on(Page::fill, "noor", over_fill);
    bed->tap_all({"airway-event", "lowest/92"});
    bed->picture("airway-event-over-fill");
    CHECK(in_corner(*bed, "syringe-in"));
    bed->tap("it-has-ended");
    CHECK(bed->state().airway_events.back().end.has_value());
    CHECK(bed->state().airway_events.back().lowest_spo2 == 92);
    CHECK(bed->kiosk->page() == Page::fill);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an emergency starts in one tap, silences what is due, and ends with its kind",
          "[sedation][emergency]") {
    const auto bed = on(Page::fill, "noor", over_fill);
    bed->tap_all({"airway-event", "by-mistake"});
    (void)bed->new_kinds();
    bed->tap_all({"airway-event", "emergency"});
    CHECK(bed->kiosk->sheet() == Sheet::emergency);
    bed->pass(std::chrono::seconds{40});
    bed->tap("syringe-in");
    bed->picture("emergency");
    CHECK(bed->glass->text_of("running/note").find("1 syringe after it") != std::string::npos);
    bed->tap("back");
    bed->tap("emergency");  // the strip leads back
    CHECK(bed->kiosk->sheet() == Sheet::emergency);
    bed->tap("name-the-kind");
    CHECK(bed->state().emergencies.back().end == std::nullopt);
    bed->tap_all({"kind/bleeding", "measures"});
    bed->glass->type("clip");
    bed->tap_all({"letters-done", "it-has-ended"});
    const auto& end = bed->state().emergencies.back().end;
    REQUIRE(end);
    CHECK(end->is.kind == "bleeding");
    CHECK(end->is.action == "clip");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an emergency that was the airway after all becomes an airway event from its start",
          "[sedation][emergency]") {
    const auto bed = on_sedation(after_start);
    bed->tap_all({"airway-event", "by-mistake", "airway-event", "emergency"});
    const auto began = bed->state().emergencies.back().start.happened;
    bed->pass(std::chrono::seconds{20});
    bed->tap("airway-after-all");
    CHECK(bed->state().emergencies.empty());
    CHECK(bed->state().airway_events.back().start.happened == began);
    CHECK(bed->kiosk->sheet() == Sheet::airway);
}

TEST_CASE("a due set is answered on the prompt in one tap", "[sedation]") {
    const auto bed = on(Page::place, "noor", "2026-11-25T09:37:30+00:00");
    bed->tap("prompt/not-taken");
    CHECK(bed->state().vitals.back().is.not_taken == "airway");
}

TEST_CASE("the sheets of Sedation keep their layout with words 1.4 times as long", "[sedation][layout]") {
    const auto bed = on_sedation("2026-11-25T09:43:15+00:00", true);
    bed->tap_all({"not-taken", "taken-after-all", "trend"});
    bed->picture("sedation-trend-long");
    bed->tap_all({"change-value", "entry/1", "reason/misread"});
    bed->picture("change-value-long");
    bed->tap_all({"back", "hand-role", "go-back"});
    bed->tap_all({"trend", "infusion", "drug/propofol", "rate/ml-h", "back", "other-dose", "drug/fentanyl"});
    bed->keys("pad", "500");
    bed->picture("dose-long");
    bed->tap("record-dose");
    bed->picture("dose-unusual-long");
    bed->tap_all({"type-again", "back"});
    bed->tap_all({"airway-event", "airway-event-end", "lowest/91", "change-times", "times-done"});
    bed->picture("airway-event-long");
    bed->tap_all({"airway-secured", "pad-back", "lowest/lower", "pad-back", "emergency"});
    bed->picture("emergency-long");
    CHECK(bed->glass->faults() == Faults{});
    const auto gate = on_sedation("2026-11-25T08:30:00+00:00", true);
    gate->tap("start-sedation");
    gate->picture("gate-identity-long");
    CHECK(gate->glass->faults() == Faults{});
    const auto fill = on(Page::fill, "noor", over_fill, true);
    fill->tap_all(
        {"vitals", "other-dose", "drug/propofol", "back", "airway-event", "lowest/92", "emergency"});
    CHECK(fill->glass->faults() == Faults{});
}
