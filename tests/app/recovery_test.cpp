// The hand-over, Recovery with its score and symptoms, and the bays.
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;

std::unique_ptr<KioskBed> at(const std::string& clock, const std::string& person, Page page,
                             bool long_words = false, std::vector<std::string> scripts = {"case-a"}) {
    auto bed = std::make_unique<KioskBed>(KioskBed::Start{
        .until = "2026-11-25T" + clock + "+00:00", .scripts = std::move(scripts), .stretched = long_words});
    bed->kiosk->open(person, "A", page);
    bed->settle();
    (void)bed->new_kinds();
    return bed;
}

void upright(KioskBed& bed, bool long_words = false) {
    bed.glass = std::make_unique<touch::Headless>(*bed.kiosk, long_words ? stretched() : english(),
                                                  touch::Size{800, 1280});
    bed.settle();
}

}  // namespace

TEST_CASE("the hand-over is offered by name in the room", "[handover]") {
    const auto bed = at("09:50:00", "noor", Page::recovery);
    bed->picture("handover-offer");
    CHECK_FALSE(bed->glass->has("offer"));
    bed->tap("to/wren");
    bed->tap("offer");
    CHECK(bed->new_kinds() == std::vector<std::string>{"offer-handover"});
    CHECK(bed->state().offered->is.to == "wren");
    CHECK(bed->glass->has("person/wren"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("it is accepted with day and month from the patient's mouth, the birth date covered",
          "[handover]") {
    const auto bed = at("09:52:00", "noor", Page::recovery);
    // The script's own acceptance is at that moment; go back to before it.
    const auto offered = at("09:51:30", "noor", Page::recovery);
    CHECK(bed->state().accepted.has_value());
    CHECK_FALSE(offered->glass->shows("14 Mar 1986"));
    offered->tap("accept-who");
    CHECK(offered->kiosk->person() == "wren");
    offered->keys("pad", "1503");
    offered->tap("accept");
    CHECK_FALSE(offered->state().accepted.has_value());
    CHECK(offered->new_kinds() == std::vector<std::string>{"attempt"});
    offered->keys("pad", "1403");
    offered->picture("handover");
    offered->tap("accept");
    CHECK(offered->state().accepted->is == AcceptHandover{{14, 3}, std::nullopt});
    CHECK(offered->glass->shows("14 Mar 1986 · 40 y · HM-4471"));
    CHECK(offered->glass->faults() == Faults{});
}

TEST_CASE("who cannot answer is known by the wristband or by two staff", "[handover]") {
    const auto bed = at("09:51:30", "wren", Page::recovery);
    bed->tap("by/wristband");
    bed->keys("pad", "1403");
    bed->tap("accept");
    CHECK(bed->state().accepted->is.identity_by == IdentityBy::wristband);
}

TEST_CASE("not yet leaves the timers with the room", "[handover]") {
    const auto bed = at("09:51:30", "wren", Page::recovery);
    bed->tap("go-on");
    CHECK(bed->kiosk->page() == Page::release);
    CHECK(bed->new_kinds().empty());
}

TEST_CASE("the hand-over stands on an upright tablet", "[handover][layout]") {
    for (const bool long_words : {false, true}) {
        const auto bed = at("09:51:30", "wren", Page::recovery, long_words);
        upright(*bed, long_words);
        bed->keys("pad", "1403");
        bed->picture(long_words ? "handover-portrait-long" : "handover-portrait");
        CHECK(bed->glass->faults() == Faults{});
        const auto offer = at("09:50:00", "noor", Page::recovery, long_words);
        offer->tap("to/wren");
        CHECK(offer->glass->faults() == Faults{});
        upright(*offer, long_words);
        CHECK(offer->glass->faults() == Faults{});
    }
}

TEST_CASE("Recovery shows each figure with its minute, the score and what lacks until fit", "[recovery]") {
    const auto bed = at("10:27:27", "wren", Page::recovery);
    bed->picture("recovery");
    CHECK(bed->glass->text_of("spo2/last") == "96");
    CHECK(bed->glass->text_of("score/total") == "9");
    CHECK(bed->glass->text_of("fit/1/value") == "10:25");
    CHECK(bed->glass->text_of("fit/2/value") == "44 min");
    CHECK(bed->glass->text_of("prompt/title") == "Next vital signs at 10:40");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("old figures are framed, older ones are a dash with their minute", "[recovery]") {
    const auto bed = at("10:27:00", "wren", Page::recovery);
    bed->pass(std::chrono::minutes{20});
    CHECK(bed->glass->text_of("spo2/last") == "96");
    bed->picture("recovery-old");
    bed->pass(std::chrono::minutes{12});
    CHECK(bed->glass->text_of("spo2/last") == "–");
    CHECK(bed->glass->shows("10:25, typed"));
}

TEST_CASE("nothing is proposed from an old set, and nothing can be saved until all five are answered",
          "[recovery][score]") {
    const auto bed = at("10:39:00", "wren", Page::recovery);
    CHECK(bed->glass->has("to-vitals"));
    bed->kiosk->open("wren", "A", Page::recovery);
    bed->tap("padss");
    CHECK_FALSE(bed->glass->has("save-score"));
    CHECK_FALSE(bed->glass->shows("proposed"));
    bed->tap_all({"part/vital-signs/2", "part/walking/1", "part/nausea/2", "part/pain/2"});
    CHECK_FALSE(bed->glass->has("save-score"));
    bed->tap("part/bleeding/2");
    bed->tap("save-score");
    CHECK(total_of(bed->state().scores.back().is) == 9);
    CHECK(bed->glass->has("to-discharge"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a fresh set with oxygen proposes pressure and saturation, as proposed until saved",
          "[recovery][score]") {
    const auto bed = at("10:39:00", "wren", Page::recovery);
    bed->pass(std::chrono::minutes{1});
    bed->tap("to-vitals");
    bed->keys("pad", "8412678");
    bed->tap_all({"spo2/97", "rr/16", "oxygen"});
    bed->keys("pad", "0");
    bed->tap("save-set");
    bed->tap("to-score");
    CHECK(bed->glass->shows("proposed"));
    CHECK_FALSE(bed->glass->has("save-score"));
    bed->tap_all({"part/activity/2", "part/respiration/2", "part/consciousness/2"});
    bed->picture("recovery-score");
    CHECK(bed->glass->shows("Save 6 + 4"));
    bed->tap_all({"nausea/more", "nausea/more", "pain/more"});
    (void)bed->new_kinds();
    bed->tap("save-score");
    CHECK(bed->new_kinds() == std::vector<std::string>{"score", "symptom", "symptom"});
    CHECK(total_of(bed->state().scores.back().is) == 10);
    CHECK(last_rating(bed->state(), SymptomKind::nausea) == 1);
    CHECK(last_rating(bed->state(), SymptomKind::pain) == 0);
    CHECK(fit_since(bed->state(), bed->room->policy()).has_value());
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a rating is one tap, a drink is an amount and whether it was kept", "[recovery][symptoms]") {
    const auto bed = at("10:56:00", "wren", Page::recovery);
    bed->tap("nausea");
    CHECK(bed->kiosk->sheet() == Sheet::symptoms);
    bed->tap("nausea/2");
    CHECK(last_rating(bed->state(), SymptomKind::nausea) == 2);
    CHECK_FALSE(bed->glass->has("kept/yes"));
    bed->tap_all({"drink/100", "kept/yes", "vomited"});
    bed->picture("symptoms");
    CHECK(bed->state().drinks.back().is == Drink{Millilitres::of_tenths(1000), true});
    CHECK(bed->state().symptoms.back().is.kind == SymptomKind::vomiting);
    bed->tap("back-to-recovery");
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("Recovery and its sheets keep their layout with words 1.4 times as long", "[recovery][layout]") {
    const auto bed = at("10:56:00", "wren", Page::recovery, true);
    bed->picture("recovery-long");
    bed->tap("padss");
    bed->picture("score-long");
    bed->tap("back");
    bed->tap("drink");
    bed->tap("drink/50");
    bed->picture("symptoms-long");
    CHECK(bed->glass->faults() == Faults{});
    const auto fresh = at("10:40:30", "wren", Page::recovery, true);
    fresh->tap("to-score");
    fresh->picture("aldrete-long");
    CHECK(fresh->glass->faults() == Faults{});
}

TEST_CASE("the bays stand by who is due next, and a tap opens the case", "[bays]") {
    const auto bed = at("10:56:00", "wren", Page::bays, false, {"case-a", "case-c"});
    bed->picture("bay");
    CHECK(bed->glass->has("bay/A"));
    CHECK(bed->glass->faults() == Faults{});
    bed->tap("bay/A");
    CHECK(bed->kiosk->page() == Page::recovery);
    bed->tap("bays");
    CHECK(bed->kiosk->page() == Page::bays);
    upright(*bed);
    bed->picture("bay-portrait");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an empty recovery says so", "[bays][layout]") {
    const auto bed = at("08:50:00", "wren", Page::bays);
    CHECK(bed->glass->text_of("bay/empty-6") == "empty");
    CHECK(bed->glass->faults() == Faults{});
    const auto full = at("10:56:00", "wren", Page::bays, true, {"case-a", "case-c"});
    full->picture("bay-long");
    CHECK(full->glass->faults() == Faults{});
}
