// Practice and badges: a case of practice that was a real one, names that practice may not use, whose badge a
// scanner read. Sources: 10-decisions F9; 8-practice row 54; 4-screens (person chips).
#include "core/record/text.h"
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

/// The facts of a case as practice hands them over.
std::string entries_of(const CaseState& state) {
    std::vector<Recorded> entries;
    for (const auto& kept : state.history) {
        entries.push_back(kept.first);
    }
    return entries_text(entries);
}

Command was_real(const std::string& time, const std::string& name, const std::string& entries) {
    Command command;
    command.by = "wren";
    command.at = time_of(time);
    command.case_name = name;
    command.says = WasReal{CaseKind::placement, "P-0001", entries};
    return command;
}

/// Practice as it went: sedation, an airway event, six syringes of which one was no syringe.
Bed practised() {
    auto bed = bed_ready_to_fill();
    tap(bed, 6, 38);
    bed.at("09:44", R"("by":"noor","do":"airway-event")");
    const auto event = std::to_string(bed.last_seq());
    bed.at("09:45", R"("by":"noor","do":"airway-event-end","event":)" + event +
                        R"(,"lowest_spo2":86,"action":"chin-lift")");
    bed.at("09:46", R"("by":"tomas","do":"correct","ml":-50,"reason":"the tap was no syringe","with":"ilse",)"
                    R"("evidence":"matter")");
    return bed;
}

/// The real kiosk, busy with a case of its own, so that numbers differ.
Bed real_one() {
    auto bed = bed_with_case();
    bed.at("09:10", R"("by":"wren","do":"allergies","none_known":true)");
    return bed;
}

}  // namespace

TEST_CASE(
    "practice that was real becomes a case: volume, sedation, airway event and correction are there (F9)",
    "[practice]") {
    const auto practice = practised();
    auto real = real_one();
    const auto outcome = real.say(was_real("09:50", "P1", entries_of(practice.state())));
    REQUIRE(result_of(outcome) == "recorded");
    const auto& was = practice.state();
    const auto& now = real.state("P1");
    CHECK(running_volume(now.device()) == running_volume(was.device()));
    CHECK(running_volume(now.device()) == Millilitres::of_tenths(2500));
    CHECK(now.sedation_start->happened == was.sedation_start->happened);
    REQUIRE(now.airway_events.size() == was.airway_events.size());
    CHECK(now.airway_events.back().end.has_value());
    CHECK(now.corrections.size() == was.corrections.size());
    CHECK(now.started_now);
    CHECK_FALSE(now.patient.number.has_value());
    CHECK(now.practised == "P-0001");
}

TEST_CASE("each entry of it keeps who and when, is marked, and page one says so (F9)", "[practice]") {
    const auto practice = practised();
    auto real = real_one();
    real.say(was_real("09:50", "P1", entries_of(practice.state())));
    const auto& state = real.state("P1");
    REQUIRE_FALSE(state.device().deliveries.empty());
    const auto& first = state.device().deliveries.front().stamp;
    CHECK(first.practice);
    CHECK(first.by == "tomas");
    CHECK(first.happened == time_of("09:38"));
    CHECK(first.at == time_of("09:50"));
    const auto text = record_text(state, real.desk, real.policy(), real.zone(), "");
    CHECK(text.find("!! Entered in practice") != std::string::npos);
    CHECK(text.find("entered in practice;") != std::string::npos);
    real.at("09:51", R"("by":"tomas","case":"P1","do":"syringe-in")");
    CHECK_FALSE(state.device().deliveries.back().stamp.practice);
    CHECK(running_volume(state.device()) == Millilitres::of_tenths(3000));
}

TEST_CASE("whose it was is an open item, and the entries can be given to the patient on the list (F9, F12)",
          "[practice]") {
    const auto practice = practised();
    auto real = real_one();
    real.say(was_real("09:50", "P1", entries_of(practice.state())));
    CHECK(has(real.open_items("P1"), "identity"));
    const auto moved =
        real.at("09:52", R"("by":"wren","case":"P1","do":"belongs-to","to":"A","reason":"it was her")");
    REQUIRE(result_of(moved) == "recorded");
    CHECK(running_volume(real.state("A").device()) == Millilitres::of_tenths(2500));
    CHECK(real.state("A").device().deliveries.front().stamp.practice);
}

TEST_CASE("it is copied once, and only from entries that can be read and hold a fact", "[practice]") {
    const auto practice = practised();
    auto real = real_one();
    CHECK(code_of(real.say(was_real("09:49", "P1", "[{]"))) == "out-of-range");
    CHECK(code_of(real.say(was_real("09:49", "P1", "[]"))) == "out-of-range");
    CHECK(code_of(real.say(was_real("09:49", "A", entries_of(practice.state())))) == "case-exists");
    CHECK(real.desk.find_case("P1") == nullptr);
    CHECK(result_of(real.say(was_real("09:50", "P1", entries_of(practice.state())))) == "recorded");
    CHECK(code_of(real.say(was_real("09:50", "P2", entries_of(practice.state())))) == "case-exists");
}

TEST_CASE("a badge is one person's, never a device label, and is of no use once they left", "[practice]") {
    auto bed = bed_with_case();
    const auto give = [&](const std::string& who, const std::string& badge) {
        return bed.at("08:00", R"("by":"pia","do":"badge","id":")" + who + R"(","badge":")" + badge + "\"");
    };
    CHECK(result_of(give("tomas", "0042117")) == "recorded");
    REQUIRE(bed.desk.with_badge("0042117") != nullptr);
    CHECK(bed.desk.with_badge("0042117")->id == "tomas");
    CHECK(code_of(give("noor", "0042117")) == "badge-in-use");
    CHECK(code_of(give("noor", "]d2010")) == "badge-in-use");
    CHECK(code_of(give("nobody", "0042118")) == "no-such-person");
    CHECK(code_of(bed.at("08:00", R"("by":"tomas","do":"badge","id":"tomas","badge":"1")")) ==
          "role-may-not");
    CHECK(bed.desk.with_badge("") == nullptr);
    bed.at("08:01", R"("by":"pia","do":"person-left","id":"tomas")");
    CHECK(bed.desk.with_badge("0042117") == nullptr);
}

TEST_CASE("who left owns no next action of the register", "[practice][register]") {
    auto bed = bed_with_case();
    bed.at("08:00", R"("by":"pia","do":"add-person","id":"abe","name":"Abe Nolan","roles":["coordinator"],)"
                    R"("pin":"123456")");
    CHECK(bed.desk.first_with(Role::coordinator) == "abe");
    bed.at("08:01", R"("by":"pia","do":"person-left","id":"abe")");
    CHECK(bed.desk.first_with(Role::coordinator) == "pia");
}
