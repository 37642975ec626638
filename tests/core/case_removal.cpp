// A removal: canister arithmetic, holds, reasons, the outcome of weight. Figures are those of 8-practice,
// section 5, cases D and E, and of after.md 6 and 7 where a test names them; the rest is invented.
#include "core/desk/register.h"
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

/// A case R of a balloon that was placed elsewhere, with the scope in; `told` is what is known of it.
Bed bed_at_look(const std::string& told =
                    R"("placed":"2026-05-26","ml":600,"dye":true,"source":"card","weight_kg":124.6)") {
    auto bed = bed_with_case();
    bed.at("12:00", R"("by":"pia","case":"R","do":"book","kind":"removal","patient":{"number":"HM-3987",)"
                    R"("family_name":"One","given_name":"H","born":"1974-01-09","sex_at_birth":"m"},)"
                    R"("planned":"2026-11-25T13:30:00Z","room":"Room 1")");
    bed.at("12:10", R"("by":"wren","case":"R","do":"placed-elsewhere",)" + told);
    bed.at("12:20", R"("by":"wren","case":"R","do":"identity","identifiers":["name","born"])");
    bed.at("12:21", R"("by":"wren","case":"R","do":"consent","signed":true)");
    bed.at(
        "12:22",
        R"("by":"wren","case":"R","do":"measure","weight_kg":107.9,"weight_basis":"measured","height_cm":183)");
    bed.at("13:36", R"("by":"noor","case":"R","do":"start-sedation")");
    bed.at("13:40", R"("by":"tomas","case":"R","do":"scope-in")");
    return bed;
}

Outcome say(Bed& bed, const std::string& clock, const std::string& fields) {
    return bed.at(clock, R"("by":"tomas","said_by":"ilse","case":"R",)" + fields);
}

std::string recovered(const Bed& bed) {
    const auto shown = test::shown(bed, "15:00", "R")["removal"];
    return shown.contains("recovered_ml") ? shown["recovered_ml"].dump() : "unknown";
}

/// Juice, puncture, and the end reading of case D.
void aspirate(Bed& bed) {
    say(bed, "13:43:40", R"("do":"canister","ml":20,"moment":"start")");
    say(bed, "13:43:50", R"("do":"puncture")");
    say(bed, "13:47:40", R"("do":"canister","ml":490,"moment":"end")");
}

}  // namespace

TEST_CASE("what came out is read from the canister, juice before the puncture is not counted (8-practice 51)",
          "[removal]") {
    auto bed = bed_at_look();
    say(bed, "13:42", R"("do":"canister","ml":0,"moment":"start")");
    CHECK(recovered(bed) == "unknown");
    aspirate(bed);
    CHECK(recovered(bed) == "470");
    const auto shown = test::shown(bed, "15:00", "R")["removal"];
    CHECK(shown["difference_ml"] == -130);
    CHECK(shown["difference_percent"].dump() == "-21.7");
    CHECK(shown["filled_from"] == "reported");
    CHECK(shown["state"] == "less than put in");
}

TEST_CASE("a canister changed after the puncture adds up, and syringes beside it (10-decisions D, canister)",
          "[removal]") {
    auto bed = bed_at_look();
    say(bed, "13:41",
        R"("do":"canister","ml":250,"moment":"change","new_ml":10)");  // juice, before the puncture
    say(bed, "13:42", R"("do":"puncture")");
    say(bed, "13:44", R"("do":"canister","ml":410,"moment":"change","new_ml":5)");
    say(bed, "13:46", R"("do":"aspirated","ml":15)");
    say(bed, "13:47", R"("do":"canister","ml":105,"moment":"end")");
    CHECK(recovered(bed) == "515");  // 410 - 10, 105 - 5, 15
}

TEST_CASE("a reading that falls is refused and changes nothing; it is a change that was not entered",
          "[removal]") {
    auto bed = bed_at_look();
    aspirate(bed);
    const auto outcome = say(bed, "13:48", R"("do":"canister","ml":60,"moment":"end")");
    REQUIRE(outcome.refusal);
    CHECK(outcome.refusal->code == "out-of-range");
    CHECK(outcome.refusal->say.find("490") != std::string::npos);
    CHECK(recovered(bed) == "470");
    CHECK(result_of(say(bed, "13:48", R"("do":"canister","ml":-1,"moment":"end")")) == "out-of-range");
    CHECK(result_of(say(bed, "13:48", R"("do":"canister","ml":9000,"moment":"end")")) == "out-of-range");
    CHECK(result_of(say(bed, "13:48", R"("do":"aspirated","ml":0)")) == "out-of-range");
}

TEST_CASE(
    "food holds until it is said that there is none, or the physician decides (after.md 6, removal-food)",
    "[removal]") {
    auto bed = bed_at_look();
    say(bed, "13:41", R"("do":"balloon-seen","state":"soft","food":true)");
    CHECK(class_of(bed, "food-in-stomach", "R") == HoldClass::absolute);
    say(bed, "13:45", R"("do":"balloon-seen","state":"soft","food":false)");
    CHECK(bed.standing("R").empty());
    CHECK(latest(bed, "food-in-stomach", "R")->ended_how == HoldEnd::resolved);
    CHECK(result_of(say(bed, "13:46", R"("do":"balloon-seen","state":"squashed","food":false)")) ==
          "not-on-list");
}

TEST_CASE("a difference beyond policy wants a reason, an early removal too, before the seal (8-practice 50)",
          "[removal]") {
    auto bed = bed_at_look(R"("placed":"2026-09-01","ml":500,"source":"letter")");
    say(bed, "13:43:40", R"("do":"canister","ml":0,"moment":"start")");
    say(bed, "13:43:50", R"("do":"puncture")");
    say(bed, "13:47", R"("do":"canister","ml":449.9,"moment":"end")");  // 10 % of 500 would be 450
    say(bed, "13:48", R"("do":"seen-empty")");
    say(bed, "13:51", R"("do":"out","complete":true,"kept":false)");
    CHECK(has(bed.open_items("R"), "explain-recovered-differs"));
    CHECK(has(bed.open_items("R"), "explain-early-removal"));
    say(bed, "13:52", R"("do":"explain","what":"recovered-differs","reason":"tear beside the valve")");
    say(bed, "13:53", R"("do":"explain","what":"early-removal","reason":"moving abroad")");
    CHECK_FALSE(has(bed.open_items("R"), "explain-recovered-differs"));
    CHECK_FALSE(has(bed.open_items("R"), "explain-early-removal"));
    const auto& why =
        bed.state("R").device().explained.back().is;  // not on the list: other, with these words
    CHECK(why.reason == "other");
    CHECK(why.words == "moving abroad");
}

TEST_CASE("a balloon that is not complete holds; one that was kept is reported to its maker", "[removal]") {
    auto bed = bed_at_look();
    aspirate(bed);
    say(bed, "13:49", R"("do":"grasp")");
    CHECK(has(bed.open_items("R"), "seen-empty"));  // taken before it was seen empty
    say(bed, "13:51", R"("do":"out","complete":false,"kept":true)");
    CHECK(class_of(bed, "balloon-incomplete", "R") == HoldClass::absolute);
    CHECK(has(bed.open_items("R"), "explant-report"));
    say(bed, "13:55", R"("do":"out","complete":true,"kept":true)");
    CHECK(bed.state("R").standing("balloon-incomplete") == nullptr);
    say(bed, "13:56", R"("do":"second-look","finding":"a red spot")");
    CHECK(bed.state("R").second_looks.back().is.finding == "other");
    CHECK(bed.state("R").second_looks.back().is.words == "a red spot");
}

TEST_CASE(
    "dye in and cloudy out is for the physician to look at; dye in and blue out is as it should be (after.md "
    "6)",
    "[removal]") {
    auto bed = bed_at_look();
    say(bed, "13:47", R"("do":"fluid","colour":"pale-blue")");
    CHECK_FALSE(has(bed.open_items("R"), "review-fluid"));
    say(bed, "13:47:30", R"("do":"fluid","colour":"cloudy")");
    CHECK(has(bed.open_items("R"), "review-fluid"));
    CHECK(result_of(say(bed, "13:48", R"("do":"fluid","colour":"green")")) == "not-on-list");
}

TEST_CASE("the loss of weight is worked out from exact values (after.md 7; case D)", "[removal]") {
    auto bed = bed_at_look();
    const auto weight = test::shown(bed, "15:00", "R")["outcome_weight"];
    CHECK(weight["tbwl_percent"].dump() == "13.4");
    CHECK(weight["ewl_percent"].dump() == "40.9");
    CHECK(weight["bmi_change"].dump() == "-5.0");
    auto unknown = bed_at_look(R"("placed":"2026-05-26","source":"word")");
    CHECK_FALSE(test::shown(unknown, "15:00", "R").contains("outcome_weight"));
    CHECK_FALSE(test::shown(unknown, "15:00", "R")["removal"].contains("filled_ml"));
}

TEST_CASE("the stages of a removal follow what was entered", "[removal]") {
    auto bed = bed_at_look();
    const auto stage = [&] { return test::shown(bed, "15:00", "R")["stage"].get<std::string>(); };
    CHECK(stage() == "look");
    say(bed, "13:41", R"("do":"balloon-seen","state":"soft","food":false)");
    CHECK(stage() == "puncture");
    aspirate(bed);
    CHECK(stage() == "aspirate");
    say(bed, "13:48", R"("do":"seen-empty")");
    CHECK(stage() == "out");
    bed.at("14:01", R"("by":"tomas","case":"R","do":"leave-room")");
    CHECK(stage() == "recovery");
    CHECK(test::shown(bed, "15:00", "R")["gates"].size() == 1);  // 10-decisions E: identity only
}

TEST_CASE("what belongs to a removal is refused in a placement", "[removal]") {
    auto bed = bed_with_case();
    CHECK(result_of(bed.at("09:40", R"("by":"tomas","do":"puncture")")) == "not-a-removal");
    CHECK(bed.state().puncture == std::nullopt);
}
