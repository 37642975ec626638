// Case D, a removal, played by taps from Arrival to the seal: its entries equal those of its script in normal
// form, and what came out is judged as the day says (8-practice rows 50 and 51).
#include "tests/app/play.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

const std::string day = "2026-11-25";
const std::string noon = "12:15:00";

void arrive(Play& play) {
    play.until("12:20:00");
    play.as("wren", Page::arrival);
    play.tap({"next-identity", "id/name/yes", "id/born/yes", "consent/yes", "next-allergies", "none-known",
              "next-body"});
    play.bed.keys("pad", "107.9");
    play.tap({"height"});
    play.bed.keys("pad", "183");
    play.tap({"basis/measured", "enter-body", "back", "part/fasting"});
    play.intake("meal-unknown", 3, "1230");
    play.tap({"add-intake"});
    play.intake("full-liquid", 1, "1200");
    play.tap({"add-intake"});
    play.intake("clear", 1, "2330");
    play.tap({"back"});
    play.airway(2, 2, true, "43");
    play.tap({"part/escort", "escort-name"});
    play.type("Liv Åsgård");
    play.tap({"escort-phone"});
    play.type("01632 960 388");
    play.tap({"enter-escort", "part/balloon", "flag/leak-suspected"});
    play.bed.picture("removal-arrival-balloon");
    play.until("12:52:00");
    play.as("ilse", Page::arrival);
    play.tap({"prompt", "seen/review-leak-suspected"});
}

void look(Play& play) {
    play.until("13:26:00");
    play.as("tomas", Page::enter_room);
    play.bed.keys("pad", "0901");
    play.until("13:31:00");
    play.tap({"open-in-room"});
    play.pause({"ilse", "tomas", "noor", "wren"}, 1, 6);
    play.tap({"does-not-apply"});
    play.until("13:33:00");
    play.as("noor", Page::sedation);
    play.set("7213884", 97, 14, 5, 0);
    play.until("13:36:00");
    play.tap({"start-sedation"});
    play.set("", -1, -1, -1, 2);
    play.dose("midazolam", "1");
    play.dose("propofol", "50");
    play.until("13:38:00");
    play.set("7012476", 97, 12, 3, 2);
    play.dose("propofol", "30");
    play.until("13:40:00");
    play.as("tomas", Page::look);
    play.bed.picture("removal-look-before");
    play.tap({"scope-in", "balloon/soft", "food/no"});
    play.until("13:42:00");
    play.tap({"canister", "pad/0", "save-reading"});
    play.bed.picture("removal-look");
    play.until("13:43:00");
    play.as("noor", Page::look);
    play.set("7412678", 96, 13, 3, 2);
    play.tap({"person/tomas", "to-pause", "present/wren", "said-1"});
    play.as("noor", Page::puncture);
    play.dose("propofol", "20");
}

void aspirate(Play& play) {
    play.until("13:43:40");
    play.as("tomas", Page::puncture);
    play.tap({"canister"});
    play.bed.keys("pad", "20");
    play.tap({"save-reading"});
    play.bed.picture("removal-puncture");
    play.until("13:43:50");
    play.tap({"punctured"});
    CHECK(play.bed.kiosk->page() == Page::aspirate);
    play.until("13:47:40");
    play.bed.keys("pad", "490");
    play.bed.picture("removal-aspirate-typed");
    play.tap({"save-reading", "colour/pale-blue"});
    play.bed.picture("removal-aspirate");
    play.tap({"empty/yes"});
    play.until("13:48:00");
    play.as("noor", Page::aspirate);
    play.set("7612878", 97, 13, 3, 2);
    play.dose("hyoscine-butylbromide", "20");
    play.dose("propofol", "20");
}

void take_out(Play& play) {
    play.until("13:49:40");
    play.as("tomas", Page::aspirate);
    play.tap({"to-out", "grasped", "why/other"});
    play.type("tear 2 mm beside the valve");
    play.until("13:51:20");
    play.tap({"complete/yes", "kept/yes"});
    play.bed.picture("removal-difference");
    play.until("13:53:00");
    play.as("noor", Page::out);
    play.set("9213080", 96, 14, 3, 2);
    play.as("tomas", Page::out);
    play.tap({"to-second-look", "second/scratch", "second-words"});
    play.type("superficial");
    play.bed.picture("removal-second-look");
    play.tap({"enter-second-look"});
    play.until("13:55:00");
    play.tap({"scope-out", "end-sedation"});
    play.until("13:57:00");
    play.tap({"pause"});
    play.pause({"ilse", "tomas", "noor"}, 1, 2);
    play.tap({"said-4"});
    play.until("13:58:00");
    play.as("noor", Page::out);
    play.set("8412878", 97, 14, 4, 2);
    play.until("14:01:00");
    play.as("tomas", Page::out);
    play.tap({"leave-room"});
}

void recover(Play& play) {
    play.until("14:03:00");
    play.tap({"to-handover", "person/noor", "to/wren", "offer"});
    play.until("14:05:00");
    play.tap({"person/wren"});
    play.bed.keys("pad", "0901");
    play.tap({"accept"});
    play.until("14:08:00");
    play.recovery_round("7812676", 95, 13, 2,
                        {"part/activity/1", "part/respiration/2", "part/consciousness/1"}, 0, 1);
    play.until("14:23:00");
    play.recovery_round("7613080", 96, 14, 0,
                        {"part/activity/2", "part/respiration/2", "part/consciousness/1"}, 0, 1);
    play.until("14:38:00");
    play.recovery_round("7213482", 97, 14, 0,
                        {"part/activity/2", "part/respiration/2", "part/consciousness/2"}, 0, 1);
    play.until("14:45:00");
    play.tap({"drink", "drink/100", "kept/yes", "back-to-recovery"});
    play.until("14:53:00");
    play.recovery_round("7213682", 97, 14, 0,
                        {"part/activity/2", "part/respiration/2", "part/consciousness/2"}, 0, 1);
    play.until("15:10:00");
    play.tap({"padss", "part/vital-signs/2", "part/walking/2", "part/nausea/2", "part/pain/2",
              "part/bleeding/2", "save-score"});
}

void go_home(Play& play) {
    play.as("wren", Page::discharge);
    play.tap({"home/cannula", "home/prescriptions", "home/sheet", "given/print", "home/advice", "home/escort",
              "escort/yes", "home/goes", "goes/home"});
    play.until("15:30:00");
    play.bed.picture("removal-discharge");
    play.tap({"leave"});
    play.until("15:33:00");
    play.sign("wren", "540872", "sign");
    play.sign("noor", "917354", "sign");
    play.sign("ilse", "381946", "sign-and-seal");
}

}  // namespace

TEST_CASE("case D by taps from Arrival to the seal says what its script says", "[case-d][removal]") {
    Play play{"D", day, noon, {"case-d-placed", "case-d"}};
    arrive(play);
    look(play);
    aspirate(play);
    take_out(play);
    recover(play);
    go_home(play);
    REQUIRE(play.state().sealed.has_value());
    CHECK(play.bed.glass->faults() == std::vector<std::string>{});

    const KioskBed scripted{{.until = "2026-11-25T16:00:00+00:00", .scripts = {"case-d-placed", "case-d"}}};
    const auto from = *parse_instant(day + "T" + noon + "+00:00");
    CHECK(differences(normal_form(play.state(), from), normal_form(scripted.state("D"), from)) == Normal{});
    CHECK(differences(normal_form(play.bed.state("D0"), from), normal_form(scripted.state("D0"), from)) ==
          Normal{});
}
