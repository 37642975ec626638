// Discharge: the checks, the patient's sheet, papers given, the escort, and where the patient goes.
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;

std::unique_ptr<KioskBed> on_discharge(const std::string& clock, bool long_words = false,
                                       const std::string& script = "case-a", const std::string& name = "A",
                                       std::shared_ptr<screens::Printing> printer = {}) {
    auto bed = std::make_unique<KioskBed>(KioskBed::Start{.until = "2026-11-25T" + clock + "+00:00",
                                                          .scripts = {script},
                                                          .stretched = long_words,
                                                          .setting = {.printing = std::move(printer)}});
    bed->kiosk->open("wren", name, Page::discharge);
    bed->settle();
    (void)bed->new_kinds(name);
    return bed;
}

}  // namespace

TEST_CASE("the sheet says the day's dates with their weekdays", "[discharge]") {
    const auto bed = on_discharge("11:39:00");
    bed->picture("discharge");
    CHECK(bed->glass->text_of("sheet/clear/value") == "Wed 25 to Fri 27 Nov");
    CHECK(bed->glass->text_of("sheet/full/value") == "Sat 28 Nov to Fri 11 Dec");
    CHECK(bed->glass->text_of("sheet/soft/value") == "Sat 12 to Fri 18 Dec");
    CHECK(bed->glass->text_of("sheet/usual/value") == "from Sat 19 Dec");
    CHECK(bed->glass->text_of("sheet/driving/value") == "Thu 26 Nov 2026 12:00");
    CHECK(bed->glass->text_of("sheet/calls/value") == "Thu 26 Nov, Wed 2 Dec");
    CHECK(bed->glass->text_of("sheet/book-by/value") == "Tue 30 Mar 2027");
    CHECK(bed->glass->text_of("sheet/due/value") == "Tue 25 May 2027");
    CHECK(bed->glass->text_of("same-day/phone") == bed->room->policy().clinic.phone);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("each check is one tap or leads to what it needs, and the corner takes the patient home",
          "[discharge]") {
    const auto bed = on_discharge("11:31:00");
    CHECK(bed->glass->has("next-cannula"));
    bed->tap("next-cannula");
    CHECK(bed->state().answers.at("cannula").is.value == Answered::yes);
    bed->tap("home/prescriptions");
    bed->tap_all({"home/sheet", "given/print", "home/card", "given/print", "home/advice"});
    CHECK(bed->state().leaflet->is == Leaflet{Given::print, "en"});
    CHECK(bed->state().card->is.how == Given::print);
    bed->tap("home/escort");
    CHECK(bed->glass->shows("Is Jon Quill here?"));
    bed->tap("escort/yes");
    CHECK(bed->state().escort->is.present == true);
    bed->tap("next-goes");
    bed->tap("goes/home");
    bed->picture("discharge-leave");
    (void)bed->new_kinds();
    bed->tap("leave");
    CHECK(bed->new_kinds().front() == "discharged");
    CHECK(bed->state().discharged->is.disposition == Disposition::home);
    CHECK(bed->state().discharged->is.with == "Jon Quill");
    CHECK(bed->state().discharged->is.unmet.empty());
    CHECK(bed->glass->faults() == Faults{});
}

namespace {

/// A printer that remembers what it was asked for and answers what a test wants.
class PretendedPrinter final : public screens::Printing {
public:
    void print(bool card, const CaseState& state, const Desk&, const Policy&, const Zone&, Instant) override {
        asked.push_back(state.name + (card ? " card" : " sheet"));
        answer.card = card;
    }
    [[nodiscard]] screens::PrintOutcome outcome() const override { return answer; }
    std::vector<std::string> asked;
    screens::PrintOutcome answer;
};

}  // namespace

TEST_CASE("Print it now prints and enters nothing, and says what became of it", "[discharge]") {
    const auto printer = std::make_shared<PretendedPrinter>();
    const auto bed = on_discharge("11:31:00", false, "case-a", "A", printer);
    bed->tap("home/sheet");
    CHECK(bed->glass->shows("a PDF is kept"));
    printer->answer.state = screens::PrintState::kept;
    bed->tap("given/print-now");
    CHECK(printer->asked == std::vector<std::string>{"A sheet"});
    CHECK(bed->glass->shows("not printed, PDF kept"));
    CHECK_FALSE(bed->state().leaflet.has_value());
    CHECK(bed->glass->faults() == Faults{});
    bed->tap("given/pdf");
    CHECK(bed->state().leaflet->is == Leaflet{Given::pdf, "en"});
    bed->tap("home/card");
    CHECK(bed->glass->shows("a PDF is kept"));
    bed->tap("given/print-now");
    CHECK(printer->asked.back() == "A card");
}

TEST_CASE("leaving with checks unmet is recorded with their list", "[discharge]") {
    const auto bed = on_discharge("11:31:00");
    bed->tap("go-on");
    CHECK(bed->kiosk->sheet() == Sheet::goes);
    bed->tap("goes/against-2");
    bed->tap("go-on");
    const auto& gone = bed->state().discharged->is;
    CHECK(gone.disposition == Disposition::against_advice);
    CHECK(gone.words == "told, not signed");
    CHECK_FALSE(gone.unmet.empty());
}

TEST_CASE("without a balloon the sheet has no diet and no card is asked for", "[discharge]") {
    const auto bed = on_discharge("11:50:00", false, "case-c", "C");
    bed->picture("discharge-deferred");
    CHECK_FALSE(bed->glass->has("home/card"));
    CHECK_FALSE(bed->glass->shows("Clear liquids"));
    CHECK_FALSE(bed->glass->shows("Must be out by"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the urine line stands on the sheet only where dye was used", "[discharge]") {
    const auto bed = on_discharge("11:39:00");
    CHECK(bed->glass->text_of("same-day/list").find("blue or green urine") != std::string::npos);
    const auto deferred = on_discharge("11:50:00", false, "case-c", "C");
    CHECK(deferred->glass->text_of("same-day/list").find("urine") == std::string::npos);
}

TEST_CASE("Discharge and its sheets keep their layout with words 1.4 times as long", "[discharge][layout]") {
    const auto bed = on_discharge("11:31:00", true);
    bed->picture("discharge-long");
    bed->tap_all({"home/sheet", "back", "home/escort", "back", "home/goes"});
    bed->picture("goes-long");
    bed->tap("goes/ward");
    CHECK(bed->glass->faults() == Faults{});
}
