// Case C, a no-go, played by taps from Arrival to the seal: its entries equal those of its script in normal
// form, no balloon stands in the register, and what is open has its owner and its day.
#include "tests/app/play.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;

namespace {

const std::string day = "2026-11-25";
const std::string morning = "09:05:00";

void arrive(Play& play) {
    play.until("09:10:00");
    play.as("wren", Page::arrival);
    play.tap({"next-identity", "id/name/yes", "id/born/yes", "consent/yes", "next-allergies", "none-known",
              "next-body"});
    play.bed.keys("pad", "88.9");
    play.tap({"height"});
    play.bed.keys("pad", "162");
    play.tap({"basis/measured", "enter-body", "back", "part/fasting"});
    play.until("09:14:00");
    play.intake("meal-unknown", 1, "2100");
    play.tap({"add-intake"});
    play.intake("clear", 0, "0730");
    play.until("09:16:00");
    play.tap({"back", "unchanged/contraindications", "unchanged/medicines", "unchanged/airway",
              "unchanged/history", "unchanged/consent", "unchanged/escort", "part/medicines",
              "check/anticoagulant-or-nsaid/no", "back", "part/pregnancy", "check/pregnancy-or-feeding/no"});
    play.until("09:22:00");
    play.tap({"check/pregnancy-test/yes", "test-note"});
    play.type("negative, 09:20");
    play.tap({"back"});
    play.until("09:26:00");
    play.set("8212276", 99, 15, -1, -1);
    play.until("09:30:00");
    play.tap({"open/escort", "escort-known", "enter-escort"});
    play.until("10:02:00");
    play.move("pia", -55, "goes before Brandt, whose fast is met at 11:10");
}

void look(Play& play) {
    play.until("10:14:00");
    play.as("tomas", Page::enter_room);
    play.bed.keys("pad", "0209");
    play.until("10:17:00");
    play.tap({"open-in-room"});
    play.pause({"ilse", "tomas", "noor", "wren"}, 1, 7);
    play.until("10:18:00");
    play.monitor_clock("101757");
    play.until("10:20:00");
    play.as("noor", Page::sedation);
    play.set("8412478", 99, 16, 5, 2);
    play.until("10:22:00");
    play.tap({"start-sedation"});
    play.dose("propofol", "50");
    play.dose("propofol", "30");
    play.until("10:25:00");
    play.set("7811268", 97, 13, 3, 2);
    play.as("tomas", Page::look);
    play.tap({"scope-in"});
    play.until("10:26:10");
    play.tap({"finding/ulcer"});
    play.bed.keys("pad", "0.8");
    play.tap({"finding-words"});
    play.type("clean base, antrum");
    play.tap({"enter-finding"});
    play.as("noor", Page::sedation);
    play.dose("propofol", "20");
    play.until("10:27:40");
    play.as("tomas", Page::look);
    play.tap({"add-sample", "sample/biopsy", "site/antrum", "pieces/more", "pieces/more", "pieces/more",
              "pieces/more", "weeks/2", "owner", "enter-sample"});
    play.tap({"go/no", "reason/ulcer", "weeks/8"});
    play.owner("Pia");
    play.tap({"pack-back"});
    play.type("DW-2645");
    play.bed.picture("no-go");
    play.tap({"enter-no-go"});
}

void out(Play& play) {
    play.until("10:30:00");
    play.as("noor", Page::sedation);
    play.set("7611470", 98, 14, 3, 2);
    play.until("10:31:00");
    play.as("tomas", Page::look);
    play.tap({"scope-out"});
    play.as("noor", Page::sedation);
    play.tap({"end-sedation"});
    play.until("10:33:00");
    play.as("tomas", Page::pause_leaving);
    play.pause({"ilse", "tomas", "noor"}, 1, 1);
    play.tap({"does-not-apply", "does-not-apply", "said-4"});
    play.until("10:35:00");
    play.as("noor", Page::sedation);
    play.set("7411672", 98, 15, 4, 2);
    play.until("10:36:00");
    play.as("tomas", Page::pause_leaving);
    play.tap({"leave-room"});
    play.until("10:37:30");
    play.as("noor", Page::recovery);
    play.tap({"to/wren", "offer"});
    play.until("10:39:00");
    play.as("wren", Page::recovery);
    play.bed.keys("pad", "0209");
    play.tap({"accept"});
}

void recover(Play& play) {
    const std::vector<std::string> first{"part/activity/1", "part/respiration/2", "part/consciousness/1"};
    const std::vector<std::string> second{"part/activity/2", "part/respiration/2", "part/consciousness/1"};
    const std::vector<std::string> well{"part/activity/2", "part/respiration/2", "part/consciousness/2"};
    play.until("10:42:00");
    play.recovery_round("7211470", 97, 14, 0, first, 0, 0);
    play.until("10:57:00");
    play.recovery_round("7411874", 98, 15, 0, second, 0, 0);
    play.until("11:12:00");
    play.recovery_round("7612076", 99, 15, 0, well, 0, 0);
    play.until("11:15:00");
    play.tap({"drink", "drink/100", "kept/yes", "back-to-recovery"});
    play.until("11:27:00");
    play.recovery_round("7412074", 99, 15, 0, well, 0, 0);
    play.until("11:45:00");
    play.tap({"padss", "part/vital-signs/2", "part/walking/2", "part/nausea/2", "part/pain/2",
              "part/bleeding/2", "save-score"});
}

void go_home(Play& play) {
    play.as("wren", Page::discharge);
    play.until("11:50:00");
    play.tap({"home/cannula", "home/advice", "home/escort", "escort/yes", "home/goes", "goes/home"});
    play.until("11:55:00");
    play.tap({"go-on"});  // the sheet is not given: nothing was placed
    play.until("11:59:00");
    play.sign("wren", "540872", "sign");
    play.sign("noor", "917354", "sign");
    play.until("12:05:30");
    play.sign("ilse", "381946", "sign-and-seal");
}

}  // namespace

TEST_CASE("case C by taps from Arrival to the seal says what its script says", "[case-c]") {
    Play play{"C", day, morning, {"case-c"}};
    arrive(play);
    look(play);
    out(play);
    recover(play);
    go_home(play);
    REQUIRE(play.state().sealed.has_value());
    CHECK(play.faults() == Normal{});
    CHECK_FALSE(play.state().device().label.has_value());

    const KioskBed scripted{{.until = "2026-11-25T15:00:00+00:00", .scripts = {"case-c"}}};
    const auto from = *parse_instant(day + "T" + morning + "+00:00");
    CHECK(differences(one_answer_of_the_test(normal_form(play.state(), from)),
                      normal_form(scripted.state("C"), from)) == Normal{});
}
