// Look: findings, the list read through, samples, go and no-go as the physician's word, and the corner.
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

/// Case A on Look, entered by the assistant.
std::unique_ptr<KioskBed> on_look(const std::string& until, bool long_words = false) {
    auto bed = std::make_unique<KioskBed>(
        KioskBed::Start{.until = until, .scripts = {"case-a"}, .stretched = long_words});
    bed->kiosk->open("tomas", "A", Page::look);
    bed->settle();
    (void)bed->new_kinds();
    return bed;
}

bool in_corner(const KioskBed& bed, std::string_view name) {
    const auto* target = bed.glass->registry().find(name);
    return target != nullptr && target->kind == touch::Kind::action;
}

const std::string before_scope = "2026-11-25T09:31:30+00:00";
const std::string scope_in = "2026-11-25T09:33:00+00:00";  // nothing of Look is entered

}  // namespace

TEST_CASE("the scope goes in from the corner", "[look]") {
    const auto bed = on_look(before_scope);
    REQUIRE(in_corner(*bed, "scope-in"));
    bed->tap("scope-in");
    CHECK(bed->new_kinds() == Kinds{"scope-in"});
    CHECK(in_corner(*bed, "next-go"));
}

TEST_CASE("a hernia is entered with its size as the physician's word", "[look]") {
    const auto bed = on_look(scope_in);
    bed->tap_all({"finding/hiatal-hernia", "size/more"});
    CHECK(bed->new_kinds().empty());
    bed->tap("enter-finding");
    bed->picture("look");
    CHECK(bed->new_kinds().front() == "finding");
    const auto& finding = bed->state().findings.back();
    CHECK(finding.is.kind == "hiatal-hernia");
    CHECK(finding.is.size_cm == Decimal::of(1));
    CHECK(finding.stamp.by == "tomas");
    CHECK(finding.stamp.said_by == "ilse");
    CHECK(bed->glass->text_of("finding/hiatal-hernia/note") == "1 cm · limit 5 cm");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("none of these is said after the list, and go is in column B", "[look][gate]") {
    const auto bed = on_look(scope_in);
    bed->tap("not-seen");
    CHECK(bed->new_kinds() == Kinds{"no-findings"});
    CHECK(bed->glass->text_of("finding/ulcer/note") == "not seen");
    CHECK(in_corner(*bed, "next-go"));
    CHECK_FALSE(in_corner(*bed, "go/yes"));
    bed->tap("next-go");
    CHECK(bed->new_kinds().empty());
    bed->tap("go/yes");
    CHECK(bed->new_kinds().front() == "go");
    CHECK(bed->state().go->said_by == "ilse");
    CHECK(in_corner(*bed, "to-pause"));
    bed->tap("to-pause");
    CHECK(bed->kiosk->page() == Page::pause_device);
    bed->tap_all({"said-1", "said-2", "said-3", "said-4"});
    bed->tap("go-on");
    CHECK(bed->kiosk->page() == Page::place);
    bed->tap_all({"rail", "stage/3"});
    CHECK(in_corner(*bed, "to-place"));  // held once, it is not asked again
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a stopping finding holds, and Go leads to the override that the physician says", "[look]") {
    const auto bed = on_look(scope_in);
    bed->tap("finding/ulcer");
    bed->keys("pad", "0.8");
    bed->tap("enter-finding");
    CHECK(bed->state().standing("look-stopping-finding") != nullptr);
    bed->tap("go/yes");
    CHECK(bed->kiosk->sheet() == Sheet::override_hold);
    CHECK_FALSE(bed->state().go);
    CHECK_FALSE(bed->glass->has("pad/1"));  // no PIN while the scope is in
    CHECK_FALSE(bed->glass->has("override"));
    bed->tap_all({"reason/benefit", "override-words"});
    bed->glass->type("Small, clean base");
    bed->tap("letters-done");
    bed->picture("override-said");
    bed->tap("override");
    const auto& hold = bed->state().holds.back();
    CHECK(hold.ended_how == HoldEnd::overridden);
    CHECK(hold.overrides.back().is.to_countersign);
    CHECK(hold.overrides.back().stamp.said_by == "ilse");
    bed->tap("go/yes");
    CHECK(bed->state().go.has_value());
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("keeping the hold changes nothing", "[look]") {
    const auto bed = on_look(scope_in);
    bed->tap_all({"finding/varices", "enter-finding", "go/yes"});
    (void)bed->new_kinds();
    bed->tap_all({"reason/other", "keep-hold"});
    CHECK(bed->new_kinds().empty());
    CHECK(bed->state().standing("look-stopping-finding") != nullptr);
}

TEST_CASE("a finding is changed or taken back, and the hold goes with it", "[look]") {
    const auto bed = on_look(scope_in);
    bed->tap_all({"finding/oesophagitis", "grade/C", "enter-finding"});
    CHECK(bed->state().standing("look-stopping-finding") != nullptr);
    bed->tap_all({"finding/oesophagitis", "grade/A", "enter-finding"});
    CHECK(bed->state().findings.size() == 1);
    CHECK(bed->state().findings.back().is.grade == "A");
    CHECK(bed->state().standing("look-stopping-finding") == nullptr);
    bed->tap_all({"finding/oesophagitis", "not-seen-after-all"});
    CHECK(bed->state().findings.empty());
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("no-go asks for its reason; the corner is then Scope out", "[look][no-go]") {
    const auto bed = on_look(scope_in);
    bed->tap("go/no");
    CHECK_FALSE(bed->glass->has("enter-no-go"));
    bed->tap_all({"reason/ulcer", "weeks/8"});
    CHECK_FALSE(bed->glass->has("enter-no-go"));  // a date wants an owner
    bed->tap("owner");
    bed->tap("pack-back");
    bed->glass->type("DW-2645");
    bed->tap("letters-done");
    bed->picture("no-go");
    bed->tap("enter-no-go");
    CHECK(bed->new_kinds().front() == "no-go");
    const auto& no_go = bed->state().no_go->is;
    CHECK(no_go.reason == "ulcer");
    CHECK(no_go.look_again->not_before == *parse_date("2027-01-20"));
    CHECK(no_go.returned->lot == "DW-2645");
    CHECK(bed->state().no_go->stamp.said_by == "ilse");
    bed->picture("look-stopping");
    REQUIRE(in_corner(*bed, "scope-out"));
    bed->tap("scope-out");
    CHECK(bed->state().scope_out.has_value());
    bed->tap("to-sedation");
    CHECK(bed->kiosk->page() == Page::sedation);
    CHECK(in_corner(*bed, "end-sedation"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a sample wants kind, site, number, date and owner", "[look][sample]") {
    const auto bed = on_look(scope_in);
    bed->tap("add-sample");
    for (const char* name : {"sample/biopsy", "site/antrum", "pieces/more", "weeks/2"}) {
        CHECK_FALSE(bed->glass->has("enter-sample"));
        bed->tap(name);
    }
    bed->tap_all({"pieces/more", "pieces/more", "pieces/more", "owner"});
    bed->picture("sample");
    bed->tap("enter-sample");
    const auto& sample = bed->state().samples.back().is;
    CHECK(sample.kind == "biopsy");
    CHECK(sample.site == "antrum");
    CHECK(sample.pieces == 4);
    CHECK(sample.due == *parse_date("2026-12-09"));
    CHECK(sample.owner == "ilse");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("Back from each part of Look changes nothing", "[look]") {
    const auto bed = on_look(scope_in);
    bed->tap_all(
        {"finding/mass", "back", "add-sample", "sample/photo", "back", "go/no", "reason/food", "back"});
    CHECK(bed->new_kinds().empty());
    CHECK(bed->glass->has("go/yes"));
}

TEST_CASE("Look keeps its layout with words 1.4 times as long", "[look][layout]") {
    const auto bed = on_look(scope_in, true);
    bed->picture("look-long");
    bed->tap_all({"finding/ulcer", "finding-words"});
    bed->glass->type("Clean base");
    bed->tap_all({"letters-done", "enter-finding", "go/yes"});
    bed->picture("override-long");
    bed->tap_all({"proviso/place"});
    bed->glass->type("Stop if it bleeds");
    bed->tap_all({"letters-done", "keep-hold", "add-sample"});
    bed->picture("sample-long");
    bed->tap_all({"back", "go/no", "reason/ulcer", "weeks/8", "owner"});
    bed->picture("no-go-long");
    bed->tap("enter-no-go");
    bed->picture("look-stopping-long");
    bed->tap("finding/hiatal-hernia");
    CHECK(bed->glass->faults() == Faults{});
}
