// The four gates: what was skipped is recorded, holds, and stays visible for ever.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

const char* const scan =
    R"("by":"tomas","do":"device","raw":"(01)02001234026413(17)280531(10)DW-2641(21)0007731")";

bool high_prompt(const Bed& bed, const std::string& code, const std::string& time) {
    const auto list = prompts(bed.state(), time_of(time), bed.policy());
    return std::any_of(list.begin(), list.end(), [&](const Prompt& prompt) {
        return prompt.code == code && prompt.priority == rules::Priority::high;
    });
}

}  // namespace

TEST_CASE("nothing holds at booking for consent and identity (10-decisions H7)", "[gates]") {
    const auto bed = bed_with_case();
    CHECK(bed.standing().empty());
    CHECK(gate_identity(bed.state()) == GateState::open);
    CHECK(gate_go(bed.state()) == GateState::open);
    CHECK(gate_position(bed.state()) == GateState::open);
    CHECK(gate_read_back(bed.state()) == GateState::open);
}

TEST_CASE("identity and consent before sedation meet their gate (3-case principle 2)", "[gates]") {
    const auto bed = bed_ready_to_fill();
    CHECK(gate_identity(bed.state()) == GateState::met);
    CHECK(gate_go(bed.state()) == GateState::met);
    CHECK(gate_position(bed.state()) == GateState::met);
    CHECK(bed.standing().empty());
}

TEST_CASE("sedation before identity and consent is recorded and crosses the gate (3-case principle 2)",
          "[gates]") {
    auto bed = bed_with_case();
    const auto start = bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    CHECK(result_of(start) == "recorded");
    REQUIRE(bed.state().sedation_start.has_value());
    CHECK(class_of(bed, "gate-identity") == HoldClass::crossing);
    CHECK(class_of(bed, "consent-missing") == HoldClass::stop);
    CHECK(class_of(bed, "identity-missing") == HoldClass::stop);
    CHECK(high_prompt(bed, "gate-identity", "09:28"));
    bed.at("09:40", R"("by":"wren","do":"identity","identifiers":["name","born"])");
    CHECK(bed.state().standing("gate-identity") != nullptr);  // consent still lacks
    bed.at("09:41", R"("by":"wren","do":"consent","signed":true)");
    CHECK(bed.standing().empty());
    CHECK(latest(bed, "gate-identity")->ended_how == HoldEnd::resolved);
    CHECK(gate_identity(bed.state()) == GateState::crossed);
    CHECK(shown(bed, "09:42")["gates"]["identity"] == "crossed");
}

TEST_CASE("one identifier is not identity (3-case, Arrival)", "[gates]") {
    auto bed = bed_with_case();
    bed.at("08:44", R"("by":"wren","do":"identity","identifiers":["name"])");
    CHECK(class_of(bed, "identity-missing") == HoldClass::stop);
    bed.at("08:45", R"("by":"wren","do":"identity","identifiers":["name","born"])");
    CHECK(bed.standing().empty());
}

TEST_CASE("a refused consent stops at once and cannot be overridden (3-case principle 3)", "[gates]") {
    auto bed = bed_with_case();
    bed.at("08:45", R"("by":"wren","do":"consent","signed":false)");
    REQUIRE(class_of(bed, "consent-missing") == HoldClass::stop);
    const auto tried = bed.at("08:50", R"("by":"ilse","do":"override","hold":"consent-missing",)"
                                       R"("reason":"benefit","words":"w","pin":"123456")");
    CHECK(result_of(tried) == "hold-has-no-override");
    CHECK(has_attempt(bed, "override", "hold-has-no-override"));
    CHECK(bed.state().standing("consent-missing") != nullptr);
    bed.at("08:55", R"("by":"wren","do":"consent","form":"spoken-with-witness")");
    CHECK(bed.standing().empty());
}

TEST_CASE("consent that is not possible stays a stop hold for a placement (10-decisions F8)", "[gates]") {
    auto bed = bed_with_case();
    bed.at("08:45", R"("by":"wren","do":"consent","form":"not-possible","reason":"asleep")");
    CHECK(class_of(bed, "consent-missing") == HoldClass::stop);
}

TEST_CASE("for a removal consent not possible may be overridden, then the gate is met (10-decisions F8, H4)",
          "[gates]") {
    auto bed = bed_with_case();
    bed.at("08:00",
           R"("case":"R","by":"wren","do":"start-now","kind":"removal","patient":{"family_name":"unknown"})");
    bed.at("08:01", R"("case":"R","by":"wren","do":"identity","identifiers":["name","address"])");
    bed.at("08:02", R"("case":"R","by":"wren","do":"consent","form":"not-possible","reason":"unconscious")");
    REQUIRE(class_of(bed, "consent-missing", "R") == HoldClass::absolute);
    CHECK(gate_identity(bed.state("R")) == GateState::open);
    bed.at("08:03", R"("case":"R","by":"ilse","do":"override","hold":"consent-missing","reason":"benefit",)"
                    R"("words":"obstruction","pin":"123456")");
    CHECK(bed.standing("R").empty());
    CHECK(gate_identity(bed.state("R")) == GateState::met);
}

TEST_CASE("a device opened before go is recorded and raises gate-go (10-decisions A15)", "[gates]") {
    auto bed = bed_with_case();
    CHECK(result_of(bed.at("09:30", scan)) == "recorded");
    REQUIRE(bed.state().device().label.has_value());
    CHECK(class_of(bed, "gate-go") == HoldClass::crossing);
    CHECK(high_prompt(bed, "gate-go", "09:30"));
    bed.at("09:34", R"("by":"tomas","said_by":"ilse","do":"go")");
    CHECK(bed.state().standing("gate-go") == nullptr);
    CHECK(gate_go(bed.state()) == GateState::crossed);
}

TEST_CASE("a balloon passed before go crosses the same gate (3-case principle 2)", "[gates]") {
    auto bed = bed_with_case();
    bed.at("09:30", R"("by":"tomas","do":"balloon-passed")");
    CHECK(bed.state().standing("gate-go") != nullptr);
}

TEST_CASE("no-go takes back the go: a device opened after it crosses the gate (3-case principle 2)",
          "[gates]") {
    auto bed = bed_with_case();
    bed.at("09:30", R"("by":"tomas","said_by":"ilse","do":"go")");
    bed.at("09:32", R"("by":"tomas","said_by":"ilse","do":"no-go","reason":"ulcer")");
    CHECK(outcome_of(bed.state()) == CaseOutcome::deferred);
    bed.at("09:33", scan);
    CHECK(bed.state().standing("gate-go") != nullptr);
    bed.at("09:36", R"("by":"tomas","said_by":"ilse","do":"go")");
    CHECK(bed.state().standing("gate-go") == nullptr);
    CHECK_FALSE(outcome_of(bed.state()).has_value());  // said again later, so no longer deferred
}

TEST_CASE("a crossing is never overridden away (10-decisions A3)", "[gates]") {
    auto bed = bed_with_case();
    bed.at("09:30", scan);
    const auto tried = bed.at("09:31", R"("by":"ilse","do":"override","hold":"gate-go","reason":"benefit",)"
                                       R"("words":"w","pin":"123456")");
    CHECK(result_of(tried) == "hold-has-no-override");
    CHECK(bed.state().standing("gate-go") != nullptr);
}

TEST_CASE("the catheter off before the volume was agreed crosses gate read-back (3-case principle 2)",
          "[gates]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 10, 38);
    CHECK(result_of(bed.at("09:49", R"("by":"tomas","do":"device-off")")) == "recorded");
    CHECK(class_of(bed, "gate-read-back") == HoldClass::crossing);
    CHECK(high_prompt(bed, "gate-read-back", "09:49"));
    bed.at("09:50", R"("by":"noor","said_by":"ilse","do":"read-back","ml":500)");
    CHECK(bed.state().standing("gate-read-back") == nullptr);
    CHECK(gate_read_back(bed.state()) == GateState::crossed);
}

TEST_CASE("an agreed volume meets gate read-back, one more syringe opens it again (3-case principle 2)",
          "[gates]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 10, 38);
    bed.at("09:49", R"("by":"noor","said_by":"ilse","do":"read-back","ml":500)");
    CHECK(gate_read_back(bed.state()) == GateState::met);
    bed.at("09:50", R"("by":"tomas","do":"syringe-in")");
    CHECK(gate_read_back(bed.state()) == GateState::open);
    bed.at("09:51", R"("by":"tomas","do":"device-off")");
    CHECK(gate_read_back(bed.state()) == GateState::crossed);
}

TEST_CASE("a standing hold is not raised twice (10-decisions A3)", "[gates]") {
    auto bed = bed_with_case();
    tap(bed, 3, 38);
    CHECK(times_raised(bed, "gate-position") == 1);
}

TEST_CASE("entering the room is not part of gate identity (10-decisions A14)", "[gates]") {
    auto bed = bed_with_case();
    bed.at("08:50", R"("by":"noor","do":"enter-room","room":"Room 1","birth_day_month":"14 03")");
    CHECK(bed.standing().empty());
    CHECK(gate_identity(bed.state()) == GateState::open);
}

TEST_CASE("a mismatch at the door is recorded and shuts what leads on (10-decisions A2, A14)", "[gates]") {
    auto bed = bed_with_case();
    const auto entered =
        bed.at("08:50", R"("by":"noor","do":"enter-room","room":"Room 1","birth_day_month":"15 03")");
    CHECK(result_of(entered) == "recorded");
    REQUIRE(bed.state().entered.size() == 1);
    CHECK_FALSE(bed.state().entered.back().is.match);
    CHECK(class_of(bed, "identity-mismatch") == HoldClass::stop);
    for (const char* leads :
         {R"("by":"noor","do":"start-sedation")", R"("by":"tomas","said_by":"ilse","do":"go")", scan,
          R"("by":"tomas","said_by":"ilse","do":"plan","band_low_ml":500,"band_high_ml":600,"aim_ml":500)",
          R"("by":"noor","do":"pause","which":"before-sedation","present":["noor"],"answers":{})"}) {
        CHECK(result_of(bed.at("08:51", leads)) == "case-shut");
    }
    CHECK_FALSE(bed.state().sedation_start.has_value());
    bed.at("08:52", R"("by":"noor","do":"enter-room","room":"Room 1","birth_day_month":"14 03")");
    CHECK(bed.standing().empty());
    CHECK(bed.state().entered.size() == 2);  // the failed match stays in the record
    CHECK(result_of(bed.at("08:53", R"("by":"noor","do":"start-sedation")")) == "recorded");
}

TEST_CASE("rescue is recorded while a case is shut (10-decisions F7)", "[gates]") {
    auto bed = bed_with_case();
    bed.at("08:50", R"("by":"noor","do":"enter-room","room":"Room 1","birth_day_month":"15 03")");
    for (
        const char* rescue :
        {R"("by":"noor","do":"vitals","hr":70,"systolic":120,"diastolic":80,"spo2":98,"rr":14)",
         R"("by":"noor","do":"dose","drug":"midazolam","amount":2,"unit":"mg")",
         R"("by":"wren","do":"airway-event")", R"("by":"wren","do":"emergency")",
         R"("by":"wren","do":"allergies","none_known":true)",
         R"("by":"pia","do":"flag","entry":"A","flag":"intolerance")",
         R"("by":"noor","do":"hand-over-role","role":"sedation-provider","to":"noor")",
         R"("by":"ilse","do":"abandon","reason":"wish","inside":{"device":false,"ml":0,"catheter":false})"}) {
        CHECK(result_of(bed.at("08:55", rescue)) == "recorded");
    }
}

TEST_CASE("rescue is recorded while nobody is signed in, and who it was stays open (10-decisions F7)",
          "[gates]") {
    auto bed = bed_with_case();
    for (const char* rescue :
         {R"("by":"unknown","do":"airway-event")", R"("by":"unknown","do":"emergency")",
          R"("by":"unknown","do":"vitals","hr":70,"systolic":120,"diastolic":80,"spo2":98,"rr":14)",
          R"("by":"unknown","do":"oxygen","l_min":4)", R"("by":"unknown","do":"depth","moaas":3)",
          R"("by":"unknown","do":"dose","drug":"midazolam","amount":2,"unit":"mg")",
          R"("by":"unknown","do":"allergies","none_known":true)"}) {
        CHECK(result_of(bed.at("08:55", rescue)) == "recorded");
    }
    const auto open = [&] { return has(bed.open_items(), "who-it-was"); };
    CHECK(open());
    CHECK(nameless(bed.state()).size() == 7);
    CHECK(code_of(bed.at("08:56", R"("by":"unknown","do":"scope-in")")) == "nobody-signed-in");
    CHECK(code_of(bed.at("08:56", R"("by":"unknown","do":"start-sedation")")) == "nobody-signed-in");
    CHECK(code_of(bed.at("08:57", R"("by":"wren","do":"who-it-was","person":"nobody")")) == "no-such-person");
    CHECK(code_of(bed.at("08:57", R"("by":"wren","do":"who-it-was","person":"not-known")")) ==
          "out-of-range");
    CHECK(open());
    CHECK(result_of(bed.at("08:58", R"("by":"wren","do":"who-it-was","person":"noor")")) == "recorded");
    CHECK_FALSE(open());
    CHECK(code_of(bed.at("08:59", R"("by":"wren","do":"who-it-was","person":"noor")")) == "no-such-entry");
    bed.at("09:00", R"("by":"unknown","do":"oxygen","l_min":2)");
    CHECK(nameless(bed.state()).size() == 1);
    CHECK(open());
    bed.at("09:01", R"("by":"wren","do":"who-it-was","person":"not-known","words":"three were there")");
    CHECK_FALSE(open());
}

TEST_CASE("a case starts now while nobody is signed in (10-decisions F7)", "[gates]") {
    auto bed = bed_with_case();
    const std::string start =
        R"("do":"start-now","kind":"removal","patient":{"family_name":"unknown"},"weight_kg":80)";
    CHECK(result_of(bed.at("19:06", R"("case":"N","by":"unknown",)" + start)) == "recorded");
    bed.at("19:07", R"("case":"N","by":"noor","do":"oxygen","l_min":4)");
    CHECK(has(bed.open_items("N"), "who-it-was"));
    CHECK(
        code_of(bed.at(
            "19:08",
            R"("case":"M","by":"unknown","do":"book","kind":"placement",)"
            R"("patient":{"number":"HM-9","family_name":"X","given_name":"Y","born":"1980-01-01","sex_at_birth":"f"},)"
            R"("planned":"2026-11-25T20:00:00Z","room":"Room 1")")) == "nobody-signed-in");
    CHECK(code_of(bed.say(R"({"at":"2026-11-25T20:01:00Z","by":"pia","do":"add-person","id":"unknown",)"
                          R"("name":"U","roles":["nurse"],"pin":"123456"})")) == "out-of-range");
}

TEST_CASE("a wrong digit during sedation never stops a fact from being recorded (10-decisions A14)",
          "[gates]") {
    auto bed = bed_with_case();
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    bed.at("09:29", R"("by":"noor","do":"enter-room","room":"Room 1","birth_day_month":"15 03")");
    CHECK(bed.state().standing("identity-mismatch") != nullptr);
    CHECK(result_of(bed.at("09:30", R"("by":"tomas","said_by":"ilse","do":"go")")) == "recorded");
    CHECK(result_of(bed.at("09:31", scan)) == "recorded");
}

TEST_CASE("an unknown patient's birth day is \"unknown\" (10-decisions A14)", "[gates]") {
    auto bed = bed_with_case();
    bed.at(
        "08:00",
        R"("case":"N","by":"wren","do":"start-now","kind":"placement","patient":{"family_name":"unknown"})");
    bed.at("08:01",
           R"("case":"N","by":"noor","do":"enter-room","room":"Room 1","birth_day_month":"unknown")");
    CHECK(bed.state("N").entered.back().is.match);
    bed.at("08:02", R"("case":"N","by":"noor","do":"enter-room","room":"Room 1","birth_day_month":"14 03")");
    CHECK_FALSE(bed.state("N").entered.back().is.match);
}
