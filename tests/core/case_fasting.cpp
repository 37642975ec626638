// Fasting as a hold: when it is judged, how time and a moved plan end it, what freezes it.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

/// Case A at 09:30 with clear fluid at 07:40: met at 09:40.
Bed bed_too_soon() {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"intake","kind":"clear","last":"2026-11-25T07:40:00Z")");
    return bed;
}

}  // namespace

TEST_CASE("fasting is judged at the planned time while that lies ahead (10-decisions A1)", "[fasting]") {
    auto bed = bed_too_soon();
    REQUIRE(bed.standing() == std::vector<std::string>{"fasting-clear-fluid"});
    const auto* hold = bed.state().standing("fasting-clear-fluid");
    CHECK(hold->hold_class == HoldClass::absolute);
    CHECK(hold->until == time_of("09:40"));
    CHECK(hold->since == time_of("08:40"));
    CHECK(hold->say.find("09:40") != std::string::npos);
}

TEST_CASE("a fast that is met at the planned time raises nothing (10-decisions A1)", "[fasting]") {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"intake","kind":"clear","last":"2026-11-25T07:30:00Z")");
    CHECK(bed.standing().empty());
}

TEST_CASE("fasting is judged at now once the plan has passed (10-decisions A1)", "[fasting]") {
    auto bed = bed_with_case();
    bed.at("09:45", R"("by":"wren","do":"intake","kind":"clear","last":"2026-11-25T07:40:00Z")");
    CHECK(bed.standing().empty());  // 2 h 5 min before now, although only 1 h 50 min before the plan
}

TEST_CASE("moving the plan re-judges the fast at once (10-decisions A1)", "[fasting]") {
    auto bed = bed_too_soon();
    bed.at("08:50", R"("by":"pia","do":"move","planned":"2026-11-25T10:00:00Z","reason":"swap")");
    CHECK(bed.standing().empty());
    REQUIRE(latest(bed, "fasting-clear-fluid") != nullptr);
    CHECK(latest(bed, "fasting-clear-fluid")->ended_how == HoldEnd::plan_moved);
    CHECK(shown(bed, "08:55")["holds"][0]["ended_how"] == "plan moved");
    bed.at("08:55", R"("by":"pia","do":"move","planned":"2026-11-25T09:35:00Z","reason":"swap back")");
    CHECK(bed.standing() == std::vector<std::string>{"fasting-clear-fluid"});
}

TEST_CASE("a hold that time ends ends at the minute of its cause (10-decisions A20)", "[fasting]") {
    auto bed = bed_too_soon();
    bed.at("09:52", R"("by":"wren","do":"allergies","none_known":true)");
    const auto* hold = latest(bed, "fasting-clear-fluid");
    REQUIRE(hold->ended.has_value());
    CHECK(*hold->ended == time_of("09:40"));
    CHECK(hold->ended_how == HoldEnd::time);
    const auto& history = bed.state().history;
    const auto ended = std::find_if(history.begin(), history.end(), [](const Kept& kept) {
        return std::holds_alternative<HoldEnded>(kept.now.event);
    });
    REQUIRE(ended != history.end());
    CHECK(ended->now.stamp.by == "kiosk");
    CHECK(std::holds_alternative<Allergies>((ended + 1)->now.event));  // written before the command
}

TEST_CASE("time ends a fasting hold to the second (10-decisions A20)", "[fasting]") {
    auto bed = bed_too_soon();
    CHECK(ended_by_time(bed.state(), time_of("09:39:59")).empty());
    CHECK(ended_by_time(bed.state(), time_of("09:40")).size() == 1);
}

TEST_CASE("sedation freezes the fast: time no longer ends its hold (10-decisions A1)", "[fasting]") {
    auto bed = bed_too_soon();
    bed.at("09:31", R"("by":"noor","do":"start-sedation")");
    bed.pass_to("10:30");
    REQUIRE(bed.state().standing("fasting-clear-fluid") != nullptr);
    bed.at("10:31", R"("by":"noor","do":"depth","moaas":4)");
    CHECK(bed.state().standing("fasting-clear-fluid") != nullptr);
}

TEST_CASE("each kind of intake has its own wait and code (10-decisions C)", "[fasting]") {
    const auto raised = [](const char* kind, const char* last) {
        auto bed = bed_with_case();
        bed.at("08:40", std::string{R"("by":"wren","do":"intake","kind":")"} + kind +
                            R"(","last":"2026-11-25T)" + last + R"(:00Z")");
        return bed.standing();
    };
    CHECK(raised("milk", "03:31") == std::vector<std::string>{"fasting-milk"});
    CHECK(raised("milk", "03:30").empty());
    CHECK(raised("full-liquid", "03:31") == std::vector<std::string>{"fasting-milk"});
    CHECK(raised("light-meal", "03:31") == std::vector<std::string>{"fasting-light-meal"});
    CHECK(raised("light-meal", "03:30").empty());
    CHECK(raised("fatty-meal", "01:31") == std::vector<std::string>{"fasting-fatty-meal"});
    CHECK(raised("fatty-meal", "01:30").empty());
    CHECK(raised("meal-unknown", "01:31") == std::vector<std::string>{"fasting-fatty-meal"});
}

TEST_CASE("on a drug that slows the stomach solids have the longer wait (10-decisions C)", "[fasting]") {
    auto bed = bed_with_case();
    bed.at("08:40",
           R"("by":"wren","do":"medicine","group":"glp1","name":"weekly pen","last_dose":"2026-11-20")");
    bed.at("08:41", R"("by":"wren","do":"intake","kind":"light-meal","last":"2026-11-24T20:00:00Z")");
    CHECK(bed.standing() == std::vector<std::string>{"fasting-glp1"});
    CHECK(item(bed, "review-glp1") != nullptr);
}

TEST_CASE("a drug named late re-runs the fast (8-practice 19)", "[fasting]") {
    auto bed = bed_with_case();
    bed.at("08:41", R"("by":"wren","do":"intake","kind":"light-meal","last":"2026-11-24T20:00:00Z")");
    CHECK(bed.standing().empty());
    bed.at("09:10", R"("by":"wren","do":"medicine","group":"glp1","name":"weekly pen")");
    CHECK(bed.standing() == std::vector<std::string>{"fasting-glp1"});
}

TEST_CASE("not known and vomiting are answers that hold without an end of their own (8-practice 18)",
          "[fasting]") {
    for (const char* last : {"not-known", "vomiting"}) {
        auto bed = bed_with_case();
        bed.at("08:40",
               std::string{R"("by":"wren","do":"intake","kind":"meal-unknown","last":")"} + last + "\"");
        REQUIRE(bed.standing() == std::vector<std::string>{"fasting-not-known"});
        CHECK_FALSE(bed.state().standing("fasting-not-known")->until.has_value());
        bed.at("08:45", R"("by":"wren","do":"intake","kind":"meal-unknown","last":"2026-11-24T18:00:00Z")");
        CHECK(bed.standing().empty());
        CHECK(latest(bed, "fasting-not-known")->ended_how == HoldEnd::resolved);
    }
}

TEST_CASE("the last fast to be met rules when two kinds share a code (10-decisions A1)", "[fasting]") {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"intake","kind":"milk","last":"2026-11-25T05:00:00Z")");
    bed.at("08:41", R"("by":"wren","do":"intake","kind":"full-liquid","last":"2026-11-25T05:30:00Z")");
    CHECK(bed.state().standing("fasting-milk")->until == time_of("11:30"));
    bed.pass_to("11:00");
    CHECK(bed.state().standing("fasting-milk") != nullptr);  // the later of the two ends at 11:30
    bed.at("11:31", R"("by":"wren","do":"allergies","none_known":true)");
    CHECK(bed.standing().empty());
}

TEST_CASE("something eaten after an override raises the hold again (3-case principle 1)", "[fasting]") {
    auto bed = bed_too_soon();
    bed.at("08:50", R"("by":"ilse","do":"override","hold":"fasting-clear-fluid","reason":"benefit",)"
                    R"("words":"a sip","pin":"123456")");
    CHECK(bed.standing().empty());
    bed.at("08:55", R"("by":"wren","do":"allergies","none_known":true)");
    CHECK(bed.standing().empty());
    bed.at("09:00", R"("by":"wren","do":"intake","kind":"clear","last":"2026-11-25T08:59:00Z")");
    CHECK(bed.standing() == std::vector<std::string>{"fasting-clear-fluid"});
}

TEST_CASE("an intake in the future cannot be, one long ago is asked about once (3-case, Arrival)",
          "[fasting]") {
    auto bed = bed_with_case();
    const auto future =
        bed.at("08:40", R"("by":"wren","do":"intake","kind":"clear","last":"2026-11-25T08:41:00Z")");
    CHECK(result_of(future) == "out-of-range");
    const auto old =
        bed.at("08:40", R"("by":"wren","do":"intake","kind":"clear","last":"2026-11-20T08:00:00Z")");
    CHECK(result_of(old) == "asked implausible");
    CHECK(old.asked->field == "last");
    CHECK(bed.state().intakes.empty());
    const auto sure = bed.at(
        "08:41", R"("by":"wren","do":"intake","kind":"clear","last":"2026-11-20T08:00:00Z","sure":true)");
    CHECK(result_of(sure) == "recorded");
}
