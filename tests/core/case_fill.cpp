// The fill by the decisions that concern it: counted, asked, corrected, never refused.
#include "tests/catch.h"
#include "tests/core/bed.h"

using namespace brimline;
using namespace brimline::test;

TEST_CASE("a tap at 8.0 s counts and one below is a question (10-decisions A9)", "[fill]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:00", R"("by":"tomas","do":"syringe-in")");
    const auto early =
        bed.say(R"({"at":"2026-11-25T09:38:07.999Z","case":"A","by":"tomas","do":"syringe-in"})");
    REQUIRE(early.asked.has_value());
    CHECK(early.asked->question == "double-tap");
    CHECK(running_volume(bed.state().device()) == 50_mL);
    CHECK(possible_volume(bed.state().device()) == 100_mL);
    const auto after_question =
        bed.say(R"({"at":"2026-11-25T09:38:15.998Z","case":"A","by":"tomas","do":"syringe-in"})");
    CHECK(after_question.asked.has_value());
    const auto in_time =
        bed.say(R"({"at":"2026-11-25T09:38:23.998Z","case":"A","by":"tomas","do":"syringe-in"})");
    CHECK_FALSE(in_time.asked.has_value());
    CHECK(running_volume(bed.state().device()) == 100_mL);
}

TEST_CASE("a burst of ten taps is one syringe and nine questions (10-decisions G1)", "[fill]") {
    auto bed = bed_ready_to_fill();
    for (int i = 0; i < 10; ++i) {
        bed.say(R"({"at":"2026-11-25T09:38:00.)" + std::to_string(i) +
                R"(00Z","case":"A","by":"tomas","do":"syringe-in"})");
    }
    CHECK(syringes_counted(bed.state().device()) == 1);
    CHECK(open_questions(bed.state().device()).size() == 9);
    CHECK(possible_volume(bed.state().device()) == 500_mL);
}

TEST_CASE("a count check is not taken while a question stands (10-decisions A9)", "[fill]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:00", R"("by":"tomas","do":"syringe-in")");
    bed.at("09:38:01", R"("by":"tomas","do":"syringe-in")");
    const auto check = bed.at("09:38:30", R"("by":"tomas","said_by":"ilse","do":"count-check","count":2)");
    REQUIRE(check.asked.has_value());
    CHECK(check.asked->id == "q1");
    CHECK(check.events.empty());
    bed.at("09:38:40", R"("by":"tomas","do":"double-tap-was","question":"q1","answer":"second")");
    const auto again = bed.at("09:38:50", R"("by":"tomas","said_by":"ilse","do":"count-check","count":2)");
    CHECK(again.events.size() == 1);
    CHECK(bed.state().device().checks.back().is.agreed);
}

TEST_CASE("pace leaves the first delivery out of the volume (10-decisions A10)", "[fill]") {
    auto bed = bed_ready_to_fill();
    for (const char* t : {"09:38:23", "09:38:44", "09:39:05", "09:39:26", "09:39:47", "09:40:09", "09:40:30",
                          "09:40:51", "09:41:12"}) {
        bed.at(t, R"("by":"tomas","do":"syringe-in")");
    }
    CHECK(running_volume(bed.state().device()) == 450_mL);
    CHECK(pace_ml_min(bed.state().device()) == 142);  // 400 mL in 169 s
}

TEST_CASE("a syringe above the ceiling counts and raises a hold that a draw-back ends (10-decisions A3)",
          "[fill]") {
    auto bed = bed_ready_to_fill();
    for (int i = 0; i < 14; ++i) {
        bed.at("09:" + std::to_string(38 + i) + ":00", R"("by":"tomas","do":"syringe-in")");
    }
    CHECK(running_volume(bed.state().device()) == 700_mL);
    CHECK(bed.state().standing("ceiling-passed") == nullptr);
    bed.at("09:53:00", R"("by":"tomas","do":"syringe-in")");
    CHECK(running_volume(bed.state().device()) == 750_mL);
    REQUIRE(bed.state().standing("ceiling-passed") != nullptr);
    CHECK(bed.state().standing("ceiling-passed")->hold_class == HoldClass::ceiling);
    bed.at("09:54:00", R"("by":"tomas","do":"draw-back","ml":50)");
    CHECK(bed.state().standing("ceiling-passed") == nullptr);
    CHECK(running_volume(bed.state().device()) == 700_mL);
}

TEST_CASE("in doubt the larger number rules: a question can pass the ceiling (10-decisions F5)", "[fill]") {
    auto bed = bed_ready_to_fill();
    for (int i = 0; i < 14; ++i) {
        bed.at("09:" + std::to_string(38 + i) + ":00", R"("by":"tomas","do":"syringe-in")");
    }
    const auto asked = bed.at("09:51:03", R"("by":"tomas","do":"syringe-in")");
    REQUIRE(asked.asked.has_value());
    CHECK(bed.state().standing("ceiling-passed") != nullptr);
    bed.at("09:51:10", R"("by":"tomas","do":"double-tap-was","question":"q1","answer":"same")");
    CHECK(bed.state().standing("ceiling-passed") == nullptr);
}

TEST_CASE("filling before the position was seen is recorded, the gate stays crossed (3-case principle 2)",
          "[fill]") {
    auto bed = bed_with_case();
    bed.at("09:38:00", R"("by":"tomas","do":"syringe-in")");
    CHECK(running_volume(bed.state().device()) == 50_mL);
    CHECK(bed.state().standing("gate-position") != nullptr);
    bed.at("09:39:00", R"("by":"tomas","said_by":"ilse","do":"position-seen")");
    CHECK(bed.state().standing("gate-position") == nullptr);
    CHECK(gate_position(bed.state()) == GateState::crossed);
}

TEST_CASE("an untapped syringe is corrected at its place and ends the hold of the counts (case B)",
          "[fill]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:00", R"("by":"tomas","do":"syringe-in")");
    bed.at("09:38:02", R"("by":"ilse","do":"second-count","how":"pedal")");
    bed.at("09:38:23", R"("by":"ilse","do":"second-count","how":"pedal")");
    bed.at("09:38:44", R"("by":"tomas","do":"syringe-in")");
    bed.at("09:38:46", R"("by":"ilse","do":"second-count","how":"pedal")");
    const auto check = bed.at("09:39:00", R"("by":"tomas","said_by":"ilse","do":"count-check","count":2)");
    const auto& counts = bed.state().device().checks.back().is;
    CHECK_FALSE(counts.agreed);
    CHECK(counts.pedal == 3);
    REQUIRE(counts.parted_at.has_value());
    CHECK(*counts.parted_at == time_of("09:38:23"));
    REQUIRE(bed.state().standing("count-differs") != nullptr);
    bed.at("09:39:30", R"("by":"tomas","do":"correct","ml":50,"happened":"2026-11-25T09:38:22Z",)"
                       R"("reason":"not tapped","with":"ilse","evidence":"pedal")");
    CHECK(running_volume(bed.state().device()) == 150_mL);
    CHECK(bed.state().standing("count-differs") == nullptr);
}
