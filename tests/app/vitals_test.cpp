// A set of vital signs: what each tap becomes, in which order it is entered, and that Back changes nothing.
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;
using Kinds = std::vector<std::string>;

/// The sheet of case A over a page.
std::unique_ptr<KioskBed> on_vitals(const std::string& until, Page page, bool long_words = false) {
    auto bed = std::make_unique<KioskBed>(
        KioskBed::Start{.until = until, .scripts = {"case-a"}, .stretched = long_words});
    bed->kiosk->open("noor", "A", page);
    bed->settle();
    bed->tap("vitals");
    (void)bed->new_kinds();
    return bed;
}

const std::string before_fill = "2026-11-25T09:37:00+00:00";
const std::string over_fill = "2026-11-25T09:40:40+00:00";  // seven syringes are in

}  // namespace

TEST_CASE("a full set takes eleven taps and is entered as vitals, depth, oxygen", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    CHECK(bed->kiosk->sheet() == Sheet::vitals);
    int taps = 0;
    const auto tap = [&](const std::string& name) {
        bed->tap(name);
        ++taps;
    };
    for (const char* key : {"pad/7", "pad/4", "pad/1", "pad/1", "pad/8", "pad/7", "pad/2"}) {
        tap(key);
    }
    tap("spo2/97");
    tap("rr/14");
    tap("depth/3");
    bed->picture("vitals-entry-place");
    tap("save-set");
    CHECK(taps == 11);
    CHECK(bed->new_kinds() == Kinds{"vitals", "depth"});
    const auto& set = bed->state().vitals.back().is;
    CHECK(set.hr == 74);
    CHECK(set.systolic == 118);
    CHECK(set.diastolic == 72);
    CHECK(set.spo2 == 97);
    CHECK(set.rr == 14);
    CHECK(bed->state().depths.back().is.moaas == 3);
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("oxygen typed on the pad is entered last", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    bed->tap_all({"spo2/97", "depth/3", "oxygen", "pad/4", "save-set"});
    CHECK(bed->new_kinds() == Kinds{"vitals", "depth", "oxygen"});
    CHECK(bed->state().oxygen.back().is.l_min == Decimal::of(4));
}

TEST_CASE("a pulse of 100 or more takes three digits before the next box", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    bed->keys("pad", "1041529");
    bed->keys("pad", "2");
    CHECK(bed->glass->text_of("vitals/hr/value") == "104");
    CHECK(bed->glass->text_of("vitals/systolic/value") == "152");
    CHECK(bed->glass->text_of("vitals/diastolic/value") == "92");
    CHECK(bed->glass->shows("MAP 112"));
}

TEST_CASE("a pulse below 30 ends by a pause and does not eat the next box", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    bed->keys("pad", "28");
    bed->pass(std::chrono::milliseconds{2100});
    bed->keys("pad", "96");
    CHECK(bed->glass->text_of("vitals/hr/value") == "28");
    CHECK(bed->glass->text_of("vitals/systolic/value") == "96");
}

TEST_CASE("no box is filled beforehand, and nothing typed is nothing to save", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    for (const char* box : {"vitals/hr/value", "vitals/systolic/value", "vitals/diastolic/value"}) {
        CHECK(bed->glass->text_of(box).empty());
    }
    CHECK_FALSE(bed->glass->has("save-set"));
}

TEST_CASE("Back changes nothing, and what was typed is gone", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    bed->keys("pad", "74");
    bed->tap("back");
    CHECK(bed->new_kinds().empty());
    CHECK(bed->kiosk->sheet() == Sheet::none);
    bed->tap("vitals");
    CHECK(bed->glass->text_of("vitals/hr/value").empty());
}

TEST_CASE("an implausible value is asked about once in its box and entered when it is confirmed",
          "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    bed->keys("pad", "190");
    bed->tap("save-set");
    CHECK(bed->new_kinds().empty());
    CHECK(bed->kiosk->sheet() == Sheet::vitals);
    bed->picture("vitals-asked");
    CHECK(bed->glass->text_of("vitals/hr/label") == "HR?");
    CHECK_FALSE(bed->glass->text_of("vitals/asked").empty());
    bed->tap("save-sure");
    CHECK(bed->new_kinds().front() == "vitals");
    CHECK(bed->state().vitals.back().is.hr == 190);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("an implausible value holds depth and oxygen back until it is confirmed or changed", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    bed->keys("pad", "190");
    bed->tap("depth/3");
    bed->tap("save-set");
    CHECK(bed->new_kinds().empty());
    bed->tap("vitals/hr");
    bed->keys("pad", "90");
    bed->tap("save-set");
    CHECK(bed->new_kinds() == Kinds{"vitals", "depth"});
}

TEST_CASE("not taken is a tap and its reason", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    bed->tap_all({"not-taken", "not-taken-airway"});
    CHECK(bed->state().vitals.back().is.not_taken == "airway");
    CHECK(bed->kiosk->sheet() == Sheet::none);
}

TEST_CASE("over the fill the corner stays Syringe in and counts", "[vitals][fill]") {
    const auto bed = on_vitals(over_fill, Page::fill);
    bed->picture("vitals-entry");
    const auto* corner = bed->glass->registry().find("syringe-in");
    REQUIRE(corner != nullptr);
    CHECK(corner->kind == touch::Kind::action);
    const auto before = bed->state().device().deliveries.size();
    bed->pass(std::chrono::seconds{10});
    bed->tap("syringe-in");
    CHECK(bed->state().device().deliveries.size() == before + 1);
    CHECK(bed->kiosk->sheet() == Sheet::vitals);
    bed->tap("spo2/94");
    bed->tap("save-set");
    CHECK(bed->state().vitals.back().is.spo2 == 94);
    CHECK(bed->kiosk->page() == Page::fill);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the page says that nothing here alarms", "[vitals]") {
    const auto bed = on_vitals(before_fill, Page::place);
    CHECK(bed->glass->shows("Typed by hand. No alarm."));
}

TEST_CASE("vital signs keep their layout with words 1.4 times as long", "[vitals][layout]") {
    const auto bed = on_vitals(before_fill, Page::place, true);
    bed->keys("pad", "190");
    bed->keys("pad", "11872");
    bed->tap_all({"spo2/97", "rr/14", "rr/other", "save-set"});
    bed->picture("vitals-long");
    CHECK(bed->glass->faults() == Faults{});
    const auto fill = on_vitals(over_fill, Page::fill, true);
    fill->keys("pad", "74");
    CHECK(fill->glass->faults_now() == Faults{});
}
