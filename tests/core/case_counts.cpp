// Counts that meet or part: the count check, the pedal, the matter, the blind read-back, and what ends a
// hold.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

const char* const by_two =
    R"("by":"noor","do":"pause","which":"before-device","present":["ilse","tomas"],"answers":{})";

void press(Bed& bed, const char* time) { bed.at(time, R"("by":"ilse","do":"second-count","how":"pedal")"); }
Outcome read_back(Bed& bed, const char* time, const std::string& fields) {
    return bed.at(time, R"("do":"read-back",)" + fields);
}

}  // namespace

TEST_CASE("own, pedal and said agree only when all that exist are equal (10-decisions B8)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 2, 38);
    bed.at("09:40:10", R"("by":"tomas","said_by":"ilse","do":"count-check","count":2)");
    CHECK(bed.state().device().checks.back().is.agreed);
    press(bed, "09:40:20");
    bed.at("09:40:30", R"("by":"tomas","said_by":"ilse","do":"count-check","count":2)");
    const auto& check = bed.state().device().checks.back().is;
    CHECK(check.own == 2);
    CHECK(check.pedal == 1);
    CHECK(check.said == 2);
    CHECK_FALSE(check.agreed);
    const auto list = shown(bed, "09:41")["counts"];
    REQUIRE(list.size() == 2);
    CHECK_FALSE(list[0].contains("pedal"));
    CHECK(list[1]["second"] == 1);
    CHECK(list[1]["agreed"] == false);
}

TEST_CASE("pedal presses are nowhere in show before a count check (10-decisions B8)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 2, 38);
    const auto before = shown(bed, "09:40");
    press(bed, "09:38:05");
    press(bed, "09:39:05");
    press(bed, "09:39:45");
    CHECK(shown(bed, "09:40") == before);
}

TEST_CASE("presses outside the fill are listed and never counted (10-decisions F18)", "[counts]") {
    auto bed = bed_with_case();
    press(bed, "09:00");
    CHECK(bed.state().presses_outside.size() == 1);
    CHECK(bed.state().device().presses.empty());
    auto filled = bed_ready_to_fill();
    tap(filled, 2, 38);
    filled.at("09:50", R"("by":"tomas","do":"device-off")");
    press(filled, "09:51");
    CHECK(filled.state().presses_outside.size() == 1);
}

TEST_CASE("counts that differ hold until a further count agrees (3-case principle 3)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 3, 38);
    bed.at("09:41", R"("by":"tomas","said_by":"ilse","do":"count-check","count":4)");
    REQUIRE(bed.state().standing("count-differs") != nullptr);
    CHECK(class_of(bed, "count-differs") == HoldClass::count);
    tap(bed, 1, 42);
    CHECK(bed.state().standing("count-differs") != nullptr);  // a tap chooses no winner
    bed.at("09:43", R"("by":"tomas","said_by":"ilse","do":"count-check","count":4)");
    CHECK(bed.state().standing("count-differs") == nullptr);
}

TEST_CASE("a correction that does not bring the counts together ends nothing (3-case principle 3)",
          "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 3, 38);
    bed.at("09:41", R"("by":"tomas","said_by":"ilse","do":"count-check","count":5)");
    bed.at("09:42",
           R"("by":"tomas","do":"correct","ml":50,"happened":"2026-11-25T09:39:30Z","reason":"not tapped")");
    CHECK(bed.state().standing("count-differs") != nullptr);
    bed.at("09:43",
           R"("by":"tomas","do":"correct","ml":50,"happened":"2026-11-25T09:39:45Z","reason":"not tapped")");
    CHECK(bed.state().standing("count-differs") == nullptr);
    CHECK(syringes_counted(bed.state().device()) == 5);
}

TEST_CASE("a row compares numbers of syringes, a part counts once (10-decisions A11)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"row","laid_out":8)");
    tap(bed, 3, 38);
    bed.at("09:42", R"("by":"tomas","do":"part-syringe","ml":20)");
    bed.at("09:43", R"("by":"tomas","do":"matter","full_left":4)");
    CHECK(bed.standing().empty());
    auto reading = shown(bed, "09:43")["matter"];
    CHECK(reading["used"] == 4);
    CHECK(reading["counted"] == 4);
    bed.at("09:44", R"("by":"tomas","do":"matter","full_left":3)");
    REQUIRE(bed.state().standing("matter-differs") != nullptr);
    CHECK(class_of(bed, "matter-differs") == HoldClass::count);
    bed.at("09:45", R"("by":"tomas","do":"correct","ml":50,"happened":"2026-11-25T09:41:30Z",)"
                    R"("reason":"not tapped","evidence":"matter")");
    CHECK(bed.state().standing("matter-differs") == nullptr);  // re-judged at once
    CHECK(bed.state().count_corrections.back().is.evidence == Evidence::matter);
}

TEST_CASE("a correction of the count re-judges the last matter check at once (10-decisions H1)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"row","laid_out":8)");
    tap(bed, 3, 38);
    bed.at("09:43", R"("by":"tomas","do":"matter","full_left":5)");
    CHECK(bed.standing().empty());
    bed.at("09:45", R"("by":"tomas","do":"correct","ml":50,"reason":"not tapped")");
    CHECK(bed.standing() == std::vector<std::string>{"matter-differs"});
}

TEST_CASE("syringes laid out later count as laid out (10-decisions D)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"row","laid_out":2)");
    bed.at("09:37:58", R"("by":"tomas","do":"saline-added","full":4)");
    tap(bed, 3, 38);
    bed.at("09:43", R"("by":"tomas","do":"matter","full_left":3)");
    CHECK(bed.standing().empty());
}

TEST_CASE("a closed tap compares grams lost with what is in and was drawn back (10-decisions A11)",
          "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"closed-tap","scale_g":1100)");
    tap(bed, 4, 38);
    bed.at("09:43", R"("by":"tomas","do":"draw-back","ml":50)");
    bed.at("09:44", R"("by":"tomas","do":"matter","scale_g":899.1)");  // 200.9 g = 199.98 mL
    CHECK(bed.standing().empty());
    const auto reading = shown(bed, "09:44")["matter"];
    CHECK(reading["matter_ml"] == 200);
    CHECK(reading["counted_ml"] == 200);
    CHECK(volume(bed) == 150_mL);
}

TEST_CASE("half a syringe off the scale is a count hold, less is not (3-case, Fill)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"closed-tap","scale_g":1100)");
    tap(bed, 4, 38);
    bed.at("09:44", R"("by":"tomas","do":"matter","scale_g":924)");  // 175.19 mL, 24.8 less
    CHECK(bed.standing().empty());
    bed.at("09:45", R"("by":"tomas","do":"matter","scale_g":924.3)");  // 174.9 mL, 25.1 less
    CHECK(bed.standing() == std::vector<std::string>{"matter-differs"});
}

TEST_CASE("all dye belongs to the scale's side, inside the first syringe or on top (10-decisions A11)",
          "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"closed-tap","scale_g":1100)");
    bed.at("09:37:56",
           R"("by":"tomas","do":"dye","agent":"methylene blue","ml":10,"in_first_syringe":false)");
    tap(bed, 2, 38);
    CHECK(volume(bed) == 110_mL);                                      // dye on top counts
    bed.at("09:44", R"("by":"tomas","do":"matter","scale_g":999.5)");  // 100.0 mL and 10 of dye
    const auto reading = shown(bed, "09:44")["matter"];
    CHECK(reading["matter_ml"] == 110);
    CHECK(reading["counted_ml"] == 110);
    CHECK(bed.standing().empty());
}

TEST_CASE("dye inside the first syringe adds nothing to the running volume (3-case, Place)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:56", R"("by":"tomas","do":"dye","agent":"methylene blue","ml":10,"in_first_syringe":true)");
    tap(bed, 2, 38);
    CHECK(volume(bed) == 100_mL);
}

TEST_CASE("a pair has no third witness and no hold (3-case, Fill)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"pair")");
    tap(bed, 2, 38);
    CHECK(result_of(bed.at("09:43", R"("by":"tomas","do":"matter")")) == "recorded");
    CHECK(bed.standing().empty());
    const auto reading = shown(bed, "09:43")["matter"];
    CHECK(reading["method"] == "pair");
    CHECK_FALSE(reading.contains("agrees"));
}

TEST_CASE("the matter is given as the saline was drawn (10-decisions A11)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"row","laid_out":8)");
    CHECK(result_of(bed.at("09:43", R"("by":"tomas","do":"matter","scale_g":900)")) == "out-of-range");
}

TEST_CASE("no order of matter, read-back and catheter is refused (10-decisions F3)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"row","laid_out":12)");
    tap(bed, 10, 38);
    CHECK(result_of(read_back(bed, "09:49", R"("by":"noor","said_by":"ilse","ml":500)")) == "recorded");
    CHECK(bed.state().device().read_backs.back().is.agreed);
    CHECK(result_of(bed.at("09:50", R"("by":"tomas","do":"device-off")")) == "recorded");
    CHECK(result_of(bed.at("09:51", R"("by":"tomas","do":"matter","full_left":2)")) == "recorded");
    CHECK(bed.standing().empty());
}

TEST_CASE("the assistant never enters the read-back by hand (10-decisions A12)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 10, 38);
    CHECK(result_of(read_back(bed, "09:49", R"("by":"tomas","said_by":"ilse","ml":500)")) == "role-may-not");
    CHECK(bed.state().device().read_backs.empty());
}

TEST_CASE("who tapped the syringes is the assistant, whatever else that person is (10-decisions A12)",
          "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55",
           R"("by":"pia","do":"add-person","id":"both","name":"Ada Both","roles":["nurse","assistant"],)"
           R"("pin":"123456")");
    bed.at("09:38", R"("by":"both","do":"syringe-in")");
    CHECK(result_of(read_back(bed, "09:49", R"("by":"both","said_by":"ilse","ml":50)")) == "role-may-not");
    CHECK(result_of(read_back(bed, "09:50", R"("by":"noor","said_by":"ilse","ml":50)")) == "recorded");
}

TEST_CASE("while the scope is in another person enters what the physician says (10-decisions A12)",
          "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 10, 38);
    CHECK(result_of(read_back(bed, "09:49", R"("by":"ilse","ml":500)")) == "same-person");
    CHECK(result_of(read_back(bed, "09:49", R"("by":"ilse","said_by":"ilse","ml":500)")) == "same-person");
    bed.at("09:50", R"("by":"tomas","do":"scope-out")");
    CHECK(result_of(read_back(bed, "09:51", R"("by":"ilse","ml":500)")) == "recorded");
    CHECK(gate_read_back(bed.state()) == GateState::met);
}

TEST_CASE("the pedal reads back only where pause two lists two people (10-decisions A12)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 2, 38);
    press(bed, "09:38:05");
    press(bed, "09:39:05");
    const char* by_pedal = R"("by":"tomas","said_by":"ilse","from":"pedal")";
    CHECK(result_of(read_back(bed, "09:49", by_pedal)) == "role-may-not");
    bed.at("09:50", by_two);
    CHECK(result_of(read_back(bed, "09:51", by_pedal)) == "recorded");
    CHECK(bed.state().device().read_backs.back().is.ml == 100_mL);  // presses x nominal
    CHECK(gate_read_back(bed.state()) == GateState::met);
}

TEST_CASE("the pedal does not read back where pause two lists three (10-decisions A12)", "[counts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55", by_two);
    bed.at("09:37:56", R"("by":"noor","do":"pause","which":"before-device","present":["noor"],"answers":{})");
    CHECK(result_of(read_back(bed, "09:51", R"("by":"tomas","said_by":"ilse","from":"pedal")")) ==
          "role-may-not");
}

TEST_CASE("a read-back that differs is a count hold until it agrees (3-case, Release)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 9, 38);
    CHECK(result_of(read_back(bed, "09:49", R"("by":"noor","said_by":"ilse","ml":500)")) == "recorded");
    REQUIRE(bed.state().standing("count-differs") != nullptr);
    CHECK(gate_read_back(bed.state()) == GateState::open);
    CHECK(shown(bed, "09:49")["read_back"]["agreed"] == false);
    read_back(bed, "09:50", R"("by":"noor","said_by":"ilse","ml":450)");
    CHECK(bed.standing().empty());
    const auto last = shown(bed, "09:50")["read_back"];
    CHECK(last["ml"] == 450);
    CHECK(last["by"] == "noor");
    CHECK(last["said_by"] == "ilse");
}

TEST_CASE("a read-back never agrees while a question is open (10-decisions A9)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 10, 38);
    bed.at("09:47:03", R"("by":"tomas","do":"syringe-in")");
    read_back(bed, "09:49", R"("by":"noor","said_by":"ilse","ml":500)");
    CHECK_FALSE(bed.state().device().read_backs.back().is.agreed);
    CHECK(gate_read_back(bed.state()) == GateState::open);
}

TEST_CASE("a count corrected below an agreed read-back is a count hold (3-case principle 7)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 9, 38);
    bed.at("09:47", R"("by":"tomas","do":"part-syringe","ml":50)");
    const auto part = bed.last_seq();
    read_back(bed, "09:49", R"("by":"noor","said_by":"ilse","ml":500)");
    CHECK(gate_read_back(bed.state()) == GateState::met);
    bed.at("09:52", R"("by":"tomas","do":"correct","entry":)" + std::to_string(part) +
                        R"(,"ml":30,"reason":"only part full")");
    CHECK(volume(bed) == 480_mL);
    CHECK(gate_read_back(bed.state()) == GateState::open);
    CHECK(bed.state().standing("count-differs") != nullptr);
    read_back(bed, "09:53", R"("by":"noor","said_by":"ilse","ml":480)");
    CHECK(bed.standing().empty());
    CHECK(gate_read_back(bed.state()) == GateState::met);
}

TEST_CASE("more out than in is a count hold, never a hidden negative (3-case principle 1)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 1, 38);
    bed.at("09:38:03", R"("by":"tomas","do":"syringe-in")");
    CHECK(result_of(bed.at("09:39", R"("by":"tomas","do":"draw-back","ml":100)")) == "recorded");
    bed.at("09:40", R"("by":"tomas","do":"double-tap-was","question":"q1","answer":"same")");
    CHECK(volume(bed) == -(50_mL));
    CHECK(bed.state().standing("count-differs") != nullptr);
    bed.at("09:41", R"("by":"tomas","do":"correct","ml":50,"reason":"was tapped twice after all")");
    CHECK(bed.standing().empty());
}

TEST_CASE("no more comes out than can be in (10-decisions B3)", "[counts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 1, 38);
    CHECK(result_of(bed.at("09:39", R"("by":"tomas","do":"draw-back","ml":50.1)")) == "nothing-to-draw");
    CHECK(result_of(bed.at("09:39", R"("by":"tomas","do":"draw-back","ml":0)")) == "out-of-range");
    CHECK(result_of(bed.at("09:40", R"("by":"tomas","do":"draw-back","ml":50)")) == "recorded");
    CHECK(volume(bed) == 0_mL);
}

TEST_CASE("the scale's tolerance is the policy's, in the share of the syringe in use (fill.bag-tolerance-ml)",
          "[counts]") {
    const auto differs = [](int tolerance_ml, const char* left) {
        auto policy = demo_policy();
        policy.fill.bag_tolerance = Millilitres::of_tenths(tolerance_ml * 10);
        auto bed = bed_ready_to_fill(policy);
        bed.at("09:37:55", R"("by":"tomas","do":"saline","method":"closed-tap","scale_g":1100)");
        tap(bed, 4, 38);
        bed.at("09:44", std::string{R"("by":"tomas","do":"matter","scale_g":)"} + left);
        return has(bed.standing(), "matter-differs");
    };
    CHECK_FALSE(differs(25, "914.2"));  // 184.95 mL against 200, 15.05 less
    CHECK(differs(15, "914.2"));
    CHECK_FALSE(differs(40, "924.3"));  // 25.1 less
    CHECK(differs(25, "924.3"));
}
