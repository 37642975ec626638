// Case A in one run from the sign-in to the seal, every step by a tap that a hand can reach: sign-in, chips,
// rail and list included. Its entries equal those of its script in normal form, and the taps are counted by
// seat and printed beside the budget of 10-decisions G6.
#include <fmt/format.h>

#include <iostream>

#include "core/case/fill_view.h"
#include "tests/app/play.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;
using std::chrono::seconds;

namespace {

const std::string day = "2026-11-25";
const std::string morning = "08:38:00";

void arrive(Play& play) {
    play.sign_in("wren", "540872");
    play.tap({"case/A"});
    play.until("08:40:00");
    play.tap({"next-identity", "id/name/yes", "id/born/yes", "consent/yes", "next-allergies", "allergy/latex",
              "reaction/rash", "next-body"});
    play.bed.keys("pad", "96.4");
    play.tap({"height"});
    play.bed.keys("pad", "167");
    play.tap({"basis/measured", "enter-body", "back", "part/fasting"});
    play.intake("meal-unknown", 1, "2015");
    play.tap({"add-intake"});
    play.intake("clear", 0, "0705");
    play.until("08:46:00");
    play.tap({"back", "unchanged/contraindications", "unchanged/medicines", "unchanged/airway",
              "unchanged/history", "unchanged/consent", "unchanged/escort", "part/medicines",
              "check/anticoagulant-or-nsaid/no", "back", "part/pregnancy", "check/pregnancy-or-feeding/no"});
    play.until("08:50:00");
    play.tap({"check/pregnancy-test/yes", "test-note"});
    play.type("negative, 08:48");
    play.until("08:55:00");
    play.set("8013082", 98, 15, -1, -1);
    play.until("08:58:00");
    play.tap({"back", "open/escort", "escort-known", "enter-escort"});
    play.sign_off();
}

void asleep(Play& play) {
    play.until("09:20:00");
    play.sign_in("tomas", "625083");
    play.tap({"case/A"});
    REQUIRE(play.bed.kiosk->page() == Page::enter_room);
    play.bed.keys("pad", "1403");
    play.until("09:24:00");
    play.tap({"open-in-room"});
    play.pause({"ilse", "tomas", "noor", "wren"}, 1, 7);
    play.until("09:24:50");
    play.monitor_clock("092502");
    play.tap({"go-on"});
    play.until("09:27:45");
    play.go("noor", Page::sedation);
    play.set("7812880", 98, 15, 5, 0);
    play.until("09:28:15");
    play.tap({"start-sedation"});
    play.set("", -1, -1, -1, 2);
    play.dose("propofol", "40");
    play.until("09:29:30");
    play.dose("propofol", "20");
    play.until("09:30:40");
    const auto before_event = play.bed.taps["noor"];
    play.tap({"airway-event"});
    CHECK(play.bed.taps["noor"] - before_event == 1);  // an airway event is started in one tap
    CHECK(play.state().airway_events.size() == 1);
    play.tap({"back"});
    play.set("", -1, -1, -1, 4);
    play.until("09:31:20");
    play.tap({"airway-event-end", "back"});
    play.until("09:31:40");
    play.go("tomas", Page::look);
    play.tap({"scope-in"});
    play.until("09:32:00");
    play.go("noor", Page::sedation);
    play.tap({"prompt", "lowest/91", "action/chin-lift", "action/oxygen-up", "save-airway"});
    play.until("09:32:45");
    const auto before_set = play.bed.taps["noor"];
    play.set("8011670", 94, 13, 3, -1);
    CHECK(play.bed.taps["noor"] - before_set == 11);  // pulse, pressure, saturation, rate, depth and Save
    play.set("", -1, -1, -1, 4);
}

void look_and_place(Play& play) {
    play.until("09:34:00");
    play.go("tomas", Page::look);
    play.tap({"finding/hiatal-hernia", "size/more", "enter-finding", "go/yes"});
    play.until("09:34:35");
    play.go("tomas", Page::place);
    play.tap({"volume"});
    play.plan("500", "600", "500", "700");
    play.until("09:34:40");
    play.go("tomas", Page::look);
    play.tap({"to-pause"});
    play.until("09:34:50");
    play.bed.glass->pedal(touch::Pedal::physician);
    play.bed.settle();
    play.until("09:35:00");
    play.go("noor", Page::sedation);
    const auto before_dose = play.bed.taps["noor"];
    play.tap({"dose-again"});
    CHECK(play.bed.taps["noor"] - before_dose == 1);  // a dose is repeated in one tap
    play.until("09:35:05");
    play.go("tomas", Page::look);
    play.tap({"to-pause"});
    play.pause({"ilse", "tomas", "noor"}, 1, 4);
    play.tap({"go-on"});
    play.bed.scan("(01)02001234026413(17)280531(10)DW-2641(21)0007731");
    play.until("09:35:40");
    play.tap({"row"});
    play.bed.scan("(01)02009999000013(17)270930(10)SL-3307");
    play.bed.keys("pad", "12");
    play.tap({"next-box"});
    play.bed.keys("pad", "50");
    play.tap({"enter", "dye"});
    play.bed.keys("pad", "5");
    play.tap({"dye-in-1", "enter"});
    play.until("09:36:20");
    play.tap({"next-passed"});
    play.until("09:37:20");
    play.tap({"position/yes"});
    play.until("09:37:45");
    play.go("noor", Page::sedation);
    play.set("7411872", 97, 14, 3, 4);
    play.until("09:37:50");
    play.go("tomas", Page::place);
    play.tap({"next-ready", "to-fill"});
}

void fill(Play& play) {
    play.until("09:38:04");
    play.push(5);
    const auto before_check = play.bed.taps["tomas"];
    play.tap({"count-check"});
    play.until("09:39:54");
    play.tap({"agreed"});
    CHECK(play.bed.taps["tomas"] - before_check == 2);  // opened, and one tap when equal
    play.until("09:39:50");
    play.push(5);
    play.until("09:41:44");
    play.tap({"count-check", "agreed"});
    play.until("09:41:50");
    play.tap({"filling-done", "left/more", "left/more", "left/more", "matter-agrees"});
    CHECK(running_volume(play.state().device()) == Millilitres::of_tenths(5000));
}

void size_and_release(Play& play) {
    play.until("09:42:10");
    play.tap({"distress/no", "gap/yes", "passes/yes", "in-body/yes", "wedged/no", "blanching/no"});
    play.until("09:42:45");
    play.tap({"person/noor"});
    play.set("7612274", 97, 14, 3, 4);
    play.until("09:43:10");
    play.tap({"vitals", "dose-again"});
    if (play.bed.kiosk->sheet() != Sheet::none) {
        play.tap({"back"});
    }
    play.until("09:43:25");
    play.bed.keys("pad", "500");
    play.tap({"confirm"});
    play.until("09:44:20");
    play.tap({"person/tomas", "to-release", "release/off/yes"});
    play.until("09:45:20");
    play.tap({"release/dry/yes", "release/complete/yes", "release/position/yes", "release/bleeding/no"});
    play.until("09:46:30");
    play.tap({"scope-out", "end-sedation"});
    play.until("09:47:45");
    play.tap({"person/noor"});
    play.set("7211670", 98, 14, 4, 2);
    play.until("09:48:30");
    play.tap({"person/tomas", "pause"});
    play.until("09:48:50");
    play.tap({"still/yes"});
    play.pause({"ilse", "tomas", "noor"}, 1, 4);
    play.tap({"leave-room", "go-on"});
    play.until("09:51:00");
    play.tap({"person/noor", "to/wren", "offer"});
    play.until("09:52:00");
    play.tap({"person/wren"});
    play.bed.keys("pad", "1403");
    play.tap({"accept"});
}

void recover(Play& play) {
    const std::vector<std::string> first{"part/activity/1", "part/respiration/1", "part/consciousness/1"};
    const std::vector<std::string> second{"part/activity/2", "part/respiration/2", "part/consciousness/1"};
    const std::vector<std::string> well{"part/activity/2", "part/respiration/2", "part/consciousness/2"};
    play.until("09:55:00");
    play.recovery_round("7211470", 95, 13, 2, first, 0, 2);
    play.until("10:10:00");
    play.recovery_round("7612074", 97, 14, 1, second, 2, 2);
    play.until("10:25:00");
    play.recovery_round("8012478", 96, 15, 0, second, 3, 3);
    play.until("10:40:00");
    play.recovery_round("8412678", 97, 16, 0, well, 5, 4);
    play.until("10:42:00");
    play.give("ondansetron", "4");
    play.until("10:55:00");
    play.quiet_round("7812276", 97, 15, 3, 3);
    play.until("11:00:00");
    play.tap({"drink", "drink/100", "kept/yes", "back-to-recovery"});
    play.until("11:10:00");
    play.quiet_round("7612076", 98, 15, 2, 2);
    play.until("11:25:00");
    play.quiet_round("7612276", 98, 15, 2, 2);
    play.tap({"padss", "part/walking/1", "part/bleeding/2", "save-score"});
}

void go_home(Play& play) {
    play.tap({"to-discharge"});
    play.until("11:32:00");
    play.tap({"home/cannula", "home/sheet", "given/print", "home/card", "given/print", "home/prescriptions",
              "home/advice", "home/escort", "escort/yes", "home/goes", "goes/home"});
    play.until("11:40:00");
    play.tap({"leave"});
    play.until("11:48:00");
    play.tap({"rail", "another-case"});
    play.sign_here("540872", "sign");
    play.sign_off();
    play.until("11:52:00");
    play.sign_in("noor", "917354");
    play.sign_here("917354", "sign");
    play.sign_off();
    play.until("11:57:30");
    play.sign_in("ilse", "381946");
    play.sign_here("381946", "sign-and-seal");
}

struct Seat {
    const char* name;
    int counted, budget;
    int today;  ///< as counted when this was written: nothing may creep above it
};

/// The taps by seat beside the budget, as they are: the budget was drawn up with four digits of a PIN and two
/// tablets; here six digits are typed three times by two people each and one glass is handed round by chips.
void print_and_hold(Play& play, int at_arrival) {
    auto& taps = play.bed.taps;
    const Seat seats[] = {{"arrival nurse", at_arrival, 41, 77},
                          {"assistant", taps["tomas"], 44, 131},
                          {"sedation provider", taps["noor"], 100, 134},
                          {"physician", taps["ilse"], 8, 18},
                          {"recovery nurse", taps["wren"] - at_arrival, 122, 207}};
    int together = 0;
    for (const auto& seat : seats) {
        together += seat.counted;
        std::cout << fmt::format("taps of case A: {} {} (budget {})\n", seat.name, seat.counted, seat.budget);
        CHECK(seat.counted <= seat.today);
    }
    std::cout << fmt::format("taps of case A: together {} (budget 315), and {} letters of words\n", together,
                             play.bed.letters["wren"]);
}

}  // namespace

TEST_CASE("case A in one run from sign-in to seal says what its script says, taps counted",
          "[case-a][taps]") {
    Play play{"A", day, morning, {"case-a"}};
    play.bed.kiosk->open("", "", Page::sign_in);
    play.bed.settle();
    arrive(play);
    const auto at_arrival = play.bed.taps["wren"];
    asleep(play);
    const auto gloves = play.bed.taps["ilse"];
    look_and_place(play);
    fill(play);
    size_and_release(play);
    CHECK(play.bed.taps["ilse"] == gloves);  // no tap of the physician between scope-in and scope-out
    CHECK(gloves == 0);
    recover(play);
    go_home(play);
    REQUIRE(play.state().sealed.has_value());
    CHECK(play.faults() == Normal{});

    const KioskBed scripted{{.until = "2026-11-25T12:00:00+00:00", .scripts = {"case-a"}}};
    const auto from = *parse_instant(day + "T" + morning + "+00:00");
    auto by_taps = one_answer_of_the_test(normal_form(play.state(), from));
    CHECK(without(by_taps, "release-look") == 1);  // the script leaves it unsaid
    CHECK(differences(by_taps, normal_form(scripted.state("A"), from)) == Normal{});

    print_and_hold(play, at_arrival);
}
