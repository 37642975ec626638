// Place: taps give the right events, scans that fail lead to the typed label, gate 3 asks once.
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

/// Case A on Place at that moment, entered by the assistant.
std::unique_ptr<KioskBed> on_place(const std::string& until, bool long_words = false) {
    auto bed = std::make_unique<KioskBed>(
        KioskBed::Start{.until = until, .scripts = {"case-a"}, .stretched = long_words});
    bed->kiosk->open("tomas", "A", Page::place);
    bed->settle();
    (void)bed->new_kinds();
    return bed;
}

const std::string after_go = "2026-11-25T09:34:20+00:00";         // go is said, nothing of Place is entered
const std::string before_position = "2026-11-25T09:37:00+00:00";  // all but position and ready
const std::string whole_label = "(01)02001234026413(17)280531(10)DW-2641(21)0007731";

/// True when the target is the action in the corner.
bool in_corner(const KioskBed& bed, std::string_view name) {
    const auto* target = bed.glass->registry().find(name);
    return target != nullptr && target->kind == touch::Kind::action;
}

void type_label(KioskBed& bed, const std::string& number) {
    bed.tap("typed/number");
    bed.keys("pad", number);
    bed.tap("typed/expiry");
    bed.keys("pad", "280531");
    bed.tap("typed/lot");
    bed.glass->type("DW-2644");
    bed.tap("letters-done");
    bed.tap("typed/serial");
    bed.glass->type("0007902");
    bed.tap("letters-done");
    bed.tap("typed/read-aloud");
}

}  // namespace

TEST_CASE("a scan enters the label with its parts", "[place]") {
    const auto bed = on_place(after_go);
    bed->scan(whole_label);
    CHECK(bed->new_kinds().front() == "device-opened");
    const auto& stamp = bed->last_of("device-opened").stamp;
    CHECK(stamp.how == How::scan);
    CHECK(stamp.by == "tomas");
    CHECK(bed->glass->text_of("lot/value") == "DW-2641");
    CHECK(bed->glass->text_of("serial/value") == "0007731");
    CHECK(bed->glass->text_of("expires/value") == "31 May 2028");
    CHECK(bed->glass->text_of("range/value") == "420 to 700 mL");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("junk from the scanner is an attempt, opens nothing and offers to type", "[place]") {
    const auto bed = on_place(after_go);
    bed->scan("]d2~~(01)0200123");
    CHECK(bed->new_kinds() == Kinds{"attempt"});
    CHECK_FALSE(bed->state().device().label);
    bed->picture("place-junk");
    CHECK(bed->glass->text_of("label/line-1") == "1 failed scan: tap to type");
    bed->tap("label");
    CHECK(bed->kiosk->sheet() == Sheet::label_typed);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a typed label needs a second person whose last four are the same", "[place][label]") {
    const auto bed = on_place(after_go);
    bed->tap("label");
    type_label(*bed, "02001234026413");
    CHECK_FALSE(bed->glass->has("use-label"));
    bed->tap("reader");
    bed->keys("pad", "7903");
    CHECK_FALSE(bed->glass->has("use-label"));
    bed->tap("pad/erase");
    bed->keys("pad", "2");
    bed->picture("label-typed");
    bed->tap("use-label");
    const auto kinds = bed->new_kinds();
    CHECK(std::count(kinds.begin(), kinds.end(), "device-opened") == 1);
    const auto& label = bed->state().device().label->is;
    CHECK(label.how == LabelHow::typed);
    CHECK(label.serial == "0007902");
    CHECK(label.lot == "DW-2644");
    CHECK(label.verified_by.has_value());
    CHECK(label.verified_by != "tomas");
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a typed number with a wrong check digit is never offered for use", "[place][label]") {
    const auto bed = on_place(after_go);
    bed->tap("label");
    type_label(*bed, "02001234026414");
    bed->tap("reader");
    bed->keys("pad", "7902");
    CHECK(bed->glass->text_of("typed/number/beside") == "check digit wrong");
    CHECK_FALSE(bed->glass->has("use-label"));
    CHECK_FALSE(bed->state().device().label);
}

TEST_CASE("the one who types is not offered as the one who reads", "[place][label]") {
    const auto bed = on_place(after_go);
    bed->tap("label");
    bed->tap("typed/read-aloud");
    for (int i = 0; i < 6; ++i) {
        bed->tap("reader");
        CHECK(bed->glass->text_of("reader/title").find("Reyle") == std::string::npos);
    }
}

TEST_CASE("an unreadable label is entered as such and stays an open item", "[place][label]") {
    const auto bed = on_place(after_go);
    bed->tap("label");
    bed->tap("unreadable");
    CHECK(bed->state().device().label->is.how == LabelHow::unreadable);
    CHECK(bed->state().has_open("label-unreadable"));
}

TEST_CASE("a scan that works after all closes the typed label", "[place][label]") {
    const auto bed = on_place(after_go);
    bed->tap("label");
    bed->keys("pad", "0200");
    bed->scan(whole_label);
    CHECK(bed->kiosk->sheet() == Sheet::none);
    CHECK(bed->state().device().label->is.serial == "0007731");
}

TEST_CASE("band and aim are typed and entered as the physician's word", "[place]") {
    const auto bed = on_place(after_go);
    bed->scan(whole_label);
    bed->tap("volume");
    bed->keys("pad", "500");
    bed->tap("next-box");
    bed->keys("pad", "600");
    bed->tap("next-box");
    bed->keys("pad", "550");
    bed->picture("place-volume");
    bed->tap("enter");
    const auto& plan = *bed->state().plan;
    CHECK(plan.is.band_low == Millilitres::of_tenths(5000));
    CHECK(plan.is.band_high == Millilitres::of_tenths(6000));
    CHECK(plan.is.aim == Millilitres::of_tenths(5500));
    CHECK(plan.stamp.by == "tomas");
    CHECK(plan.stamp.said_by == "ilse");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a device without a profile asks for the ceiling with the band", "[place]") {
    const auto bed = on_place(after_go);
    bed->tap("volume");
    CHECK(bed->glass->has("box/ceiling"));
    for (const char* number : {"400", "600", "500"}) {
        bed->keys("pad", number);
        if (bed->glass->has("next-box")) {
            bed->tap("next-box");
        }
    }
    CHECK(bed->glass->has("enter"));  // the label is to come, and its leaflet may give the ceiling
    bed->tap("box/ceiling");
    bed->keys("pad", "650");
    bed->tap("enter");
    CHECK(bed->state().plan->is.ceiling == Millilitres::of_tenths(6500));
}

TEST_CASE("a row is entered with its number and the mark it is filled to", "[place]") {
    const auto bed = on_place(after_go);
    bed->tap("row");
    bed->keys("pad", "12");
    bed->tap("next-box");
    CHECK_FALSE(bed->glass->has("enter"));
    bed->keys("pad", "50");
    bed->tap("enter");
    const auto& saline = bed->state().device().saline->is;
    CHECK(saline.method == SalineMethod::row);
    CHECK(saline.laid_out == 12);
    CHECK(saline.filled_to == Millilitres::of_tenths(500));
    CHECK(bed->glass->is_checked("row"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("pair and closed tap are entered with their numbers, the later one counts", "[place]") {
    const auto bed = on_place(after_go);
    bed->tap("pair");
    bed->keys("pad", "50");
    bed->tap("enter");
    CHECK(bed->state().device().saline->is.method == SalineMethod::pair);
    bed->tap("closed-tap");
    bed->keys("pad", "1068.5");
    bed->tap("next-box");
    bed->keys("pad", "50");
    bed->tap("enter");
    const auto& saline = bed->state().device().saline->is;
    CHECK(saline.method == SalineMethod::closed_tap);
    CHECK(saline.scale_g == Decimal::parse("1068.5"));
}

TEST_CASE("dye says where it goes, or that there is none", "[place]") {
    const auto bed = on_place(after_go);
    bed->tap("dye");
    bed->keys("pad", "5");
    CHECK_FALSE(bed->glass->has("enter"));
    bed->tap("dye-in-1");
    bed->tap("enter");
    CHECK(bed->state().device().dye->is.ml == Millilitres::of_tenths(50));
    CHECK(bed->state().device().dye->is.in_first_syringe == true);
    bed->tap("dye");
    bed->tap("no-dye");
    CHECK(bed->state().device().dye->is.none == true);
}

TEST_CASE("going back from a pad changes nothing", "[place]") {
    const auto bed = on_place(after_go);
    bed->tap("row");
    bed->keys("pad", "12");
    bed->tap("pad-back");
    CHECK(bed->new_kinds().empty());
    CHECK_FALSE(bed->state().device().saline);
}

TEST_CASE("position is a No and Yes in column B as the physician's word, never in the corner",
          "[place][gate]") {
    const auto bed = on_place(before_position);
    bed->picture("place");
    REQUIRE(bed->glass->has("position/yes"));
    CHECK_FALSE(in_corner(*bed, "position/yes"));
    CHECK(in_corner(*bed, "next-position"));
    bed->tap("next-position");
    CHECK(bed->new_kinds().empty());
    bed->tap("position/no");
    CHECK(bed->new_kinds().empty());
    CHECK_FALSE(bed->state().device().position_seen);
    CHECK(bed->glass->is_checked("position/no"));
    bed->tap("position/yes");
    CHECK(bed->new_kinds().front() == "position-seen");
    CHECK(bed->state().device().position_seen->said_by == "ilse");
    CHECK(bed->state().device().position_seen->by == "tomas");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the corner leads through what is missing and then to the fill", "[place]") {
    const auto bed = on_place(after_go);
    CHECK(bed->glass->has("next-label"));
    bed->scan(whole_label);
    CHECK(bed->glass->has("next-volume"));
    const auto later = on_place("2026-11-25T09:36:00+00:00");
    CHECK(later->glass->has("next-passed"));
    later->tap("next-passed");
    CHECK(later->state().device().passed);
    CHECK(later->glass->has("next-position"));
    later->tap("position/yes");
    later->tap("next-ready");
    CHECK(later->state().device().ready);
    later->tap("to-fill");
    CHECK(later->kiosk->page() == Page::fill);
}

TEST_CASE("gate 3 asks before the fill, and going back records nothing", "[place][gate]") {
    const auto bed = on_place(before_position);
    bed->tap("go-on");
    bed->picture("gate-position");
    CHECK(bed->kiosk->page() == Page::place);
    CHECK(bed->kiosk->sheet() == Sheet::gate_position);
    CHECK(in_corner(*bed, "go-back"));
    CHECK_FALSE(in_corner(*bed, "cross-gate"));
    CHECK(bed->glass->faults() == Faults{});
    bed->tap("go-back");
    CHECK(bed->new_kinds().empty());
    CHECK(bed->kiosk->sheet() == Sheet::none);
}

TEST_CASE("a Yes at the gate is the position seen, and the fill then opens without a question",
          "[place][gate]") {
    const auto bed = on_place(before_position);
    bed->tap("go-on");
    bed->tap("position/yes");
    CHECK(bed->state().device().position_seen);
    bed->tap("go-on");
    CHECK(bed->kiosk->page() == Page::fill);
}

TEST_CASE("crossing the gate records the syringe that is in, raises the hold and asks no second time",
          "[place][gate]") {
    const auto bed = on_place(before_position);
    bed->tap("go-on");
    bed->tap("cross-gate");
    CHECK(bed->kiosk->page() == Page::fill);
    CHECK(bed->state().device().deliveries.size() == 1);
    CHECK(bed->state().standing("gate-position") != nullptr);
    bed->kiosk->open("tomas", "A", Page::place);
    bed->settle();
    bed->tap("go-on");
    CHECK(bed->kiosk->page() == Page::fill);
}

TEST_CASE("a double tap where a Yes was just answered does not reach what comes next", "[place][gate]") {
    const auto bed = on_place("2026-11-25T09:36:00+00:00");
    bed->glass->tap("next-passed");
    bed->glass->hasty_tap(bed->glass->has("next-position") ? "next-position" : "next-passed");
    bed->settle();
    CHECK(bed->new_kinds() == Kinds{"balloon-passed"});
}

TEST_CASE("a person who may not enter a fact is told why, and nothing is entered", "[place]") {
    const auto bed = on_place(after_go);
    bed->kiosk->open("noor", "A", Page::place);
    bed->settle();
    bed->tap("row");
    bed->keys("pad", "12");
    bed->tap("next-box");
    bed->keys("pad", "50");
    bed->tap("enter");
    CHECK(bed->new_kinds().empty());
    CHECK_FALSE(bed->glass->text_of("prompt/title").empty());
    CHECK_FALSE(bed->state().device().saline);
}

TEST_CASE("Place keeps its layout with words 1.4 times as long", "[place][layout]") {
    const auto bed = on_place(before_position, true);
    bed->picture("place-long");
    bed->tap("position/no");
    bed->tap("row");
    bed->tap("pad-back");
    bed->tap("dye");
    bed->tap("pad-back");
    bed->tap("volume");
    bed->tap("pad-back");
    bed->tap("go-on");
    CHECK(bed->glass->faults() == Faults{});
    const auto first = on_place(after_go, true);
    first->scan("junk~junk");
    first->tap("volume");
    first->tap("pad-back");
    first->tap("closed-tap");
    first->tap("pad-back");
    first->tap("label");
    first->picture("label-typed-long");
    first->tap("typed/lot");
    first->picture("label-letters-long");
    first->tap("letters-done");
    first->tap("typed/read-aloud");
    first->tap("reader");
    CHECK(first->glass->faults() == Faults{});
}
