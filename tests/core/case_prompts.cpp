// Prompts and `show`: what is reminded of, how loudly, and which keys stand in the state as JSON.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

/// Priority of the prompt of this code, "absent" without one.
std::string loud(const Bed& bed, const std::string& code, const std::string& time) {
    for (const auto& prompt : prompts(bed.state(), time_of(time), bed.policy())) {
        if (prompt.code == code) {
            return std::string{rules::name_of(prompt.priority)};
        }
    }
    return "absent";
}

}  // namespace

TEST_CASE("a due set prompts quietly, then as overdue, once each (10-decisions H6)", "[prompts]") {
    auto bed = bed_with_case();
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    CHECK(loud(bed, "vitals-due", "09:32:29") == "absent");
    CHECK(loud(bed, "vitals-due", "09:32:30") == "low");
    CHECK(loud(bed, "vitals-due", "09:33:00") == "medium");
    CHECK(loud(bed, "vitals-overdue", "09:38:00") == "high");
    CHECK(loud(bed, "vitals-due", "09:38:00") == "absent");
}

TEST_CASE("a count check is due after five syringes and announced after four (3-case, Fill)", "[prompts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 3, 38);
    CHECK(loud(bed, "count-check-due", "09:41") == "absent");
    tap(bed, 1, 41);
    CHECK(loud(bed, "count-check-due", "09:42") == "low");
    tap(bed, 1, 42);
    CHECK(loud(bed, "count-check-due", "09:43") == "medium");
    bed.at("09:44", R"("by":"tomas","said_by":"ilse","do":"count-check","count":5)");
    CHECK(loud(bed, "count-check-due", "09:45") == "absent");
}

TEST_CASE("one syringe before the ceiling prompts in medium, above it in high (10-decisions F5)",
          "[prompts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 12, 38);
    CHECK(loud(bed, "ceiling-near", "09:50") == "absent");
    tap(bed, 1, 50);
    CHECK(loud(bed, "ceiling-near", "09:51") == "medium");
    tap(bed, 2, 51);
    CHECK(loud(bed, "ceiling-passed", "09:53") == "high");
    CHECK(loud(bed, "ceiling-near", "09:53") == "absent");
}

TEST_CASE("during an airway event or emergency only counts that differ are reminded of (10-decisions F7)",
          "[prompts]") {
    for (const char* line : {R"("by":"wren","do":"airway-event")", R"("by":"wren","do":"emergency")"}) {
        auto bed = bed_ready_to_fill();
        tap(bed, 2, 38);
        bed.at("09:40:10", R"("by":"tomas","do":"stop-filling","reason":"resistance")");
        bed.at("09:40:20", R"("by":"tomas","said_by":"ilse","do":"count-check","count":3)");
        CHECK(has(bed.prompt_codes("09:50"), "vitals-overdue"));
        bed.at("09:41", line);
        CHECK(bed.prompt_codes("09:50") == std::vector<std::string>{"counts-differ"});
    }
}

TEST_CASE("once the airway is secured sedation scales no longer prompt (3-case, Sedation)", "[prompts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", R"("by":"noor","do":"depth","moaas":0)");
    CHECK(loud(bed, "alert-value", "09:38") != "absent");
    bed.at("09:39", R"("by":"noor","do":"airway-secured","tube":"7.0")");
    CHECK(loud(bed, "alert-value", "09:39") == "absent");
}

TEST_CASE("nothing prompts after the seal, and a value that is not known is absent (9-script)", "[prompts]") {
    auto bed = bed_with_case();
    const auto early = shown(bed, "08:00");
    for (const char* key :
         {"case", "kind", "stage", "patient", "now", "gates", "holds", "provisos", "open_items", "prompts",
          "fill", "counts", "sedation", "recovery", "dates", "signed"}) {
        INFO(key);
        CHECK(early.contains(key));
    }
    for (const char* key : {"outcome", "read_back", "sealed", "weight", "allergies", "matter"}) {
        INFO(key);
        CHECK_FALSE(early.contains(key));
    }
    CHECK_FALSE(early["sedation"].contains("lowest_spo2"));
    CHECK_FALSE(early["sedation"].contains("next_vitals_due"));
    CHECK_FALSE(early["fill"].contains("pace_ml_min"));
    CHECK_FALSE(early["fill"].contains("possible_ml"));
    CHECK(early["fill"]["running_ml"] == 0);
    CHECK(early["stage"] == "arrival");
}

TEST_CASE("the fill shows state, next, aim and its two figures while a question stands (10-decisions F5)",
          "[prompts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 9, 38);
    bed.at("09:46:03", R"("by":"tomas","do":"syringe-in")");
    const auto fill = shown(bed, "09:47")["fill"];
    CHECK(fill["running_ml"] == 450);
    CHECK(fill["possible_ml"] == 500);
    CHECK(fill["state"] == "below-band");
    CHECK(fill["next_ml"] == 550);  // judged on the larger
    CHECK(fill["next_state"] == "in-band");
    CHECK(fill["to_aim"] == 0);
    CHECK(fill["questions"] == Json::array({"q1"}));
}

TEST_CASE("an unexplained volume outside the band is open for the physician (3-case, Fill)", "[prompts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 13, 38);
    bed.at("09:55", R"("by":"tomas","do":"device-off")");
    REQUIRE(item(bed, "explain-above-band") != nullptr);
    CHECK(item(bed, "explain-above-band")->owner == "ilse");
    bed.at("09:56", R"("by":"noor","said_by":"ilse","do":"explain","what":"above-band","reason":"benefit")");
    CHECK(item(bed, "explain-above-band") == nullptr);
}

TEST_CASE("the ceiling hold ends when the physician says it is left (10-decisions A3)", "[prompts]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 15, 38);
    const auto by_nurse =
        bed.at("09:55", R"("by":"wren","said_by":"noor","do":"explain","what":"left-above-ceiling",)"
                        R"("reason":"left-as-it-is")");
    CHECK(result_of(by_nurse) == "role-may-not");
    CHECK(bed.state().standing("ceiling-passed") != nullptr);
    bed.at("09:56", R"("by":"wren","said_by":"ilse","do":"explain","what":"left-above-ceiling",)"
                    R"("reason":"left-as-it-is")");
    CHECK(latest(bed, "ceiling-passed")->ended_how == HoldEnd::explained);
    bed.at("09:57", R"("by":"tomas","do":"syringe-in")");
    CHECK(bed.state().standing("ceiling-passed") != nullptr);  // more went in than was explained
}

TEST_CASE("a role that may not is refused, nobody knows a stranger (3-case principle 1)", "[roles]") {
    auto bed = bed_ready_to_fill();
    CHECK(result_of(bed.at("09:38", R"("by":"wren","do":"syringe-in")")) == "role-may-not");
    CHECK(
        result_of(bed.at("09:38", R"("by":"tomas","do":"dose","drug":"propofol","amount":40,"unit":"mg")")) ==
        "role-may-not");
    CHECK(result_of(bed.at("09:38", R"("by":"wren","do":"second-count")")) == "role-may-not");
    CHECK(result_of(bed.at("09:38", R"("by":"ghost","do":"scope-in")")) == "no-such-person");
    CHECK(result_of(bed.at("09:38", R"("by":"tomas","said_by":"ghost","do":"go")")) == "no-such-person");
    CHECK(result_of(bed.at("09:38", R"("by":"tomas","said_by":"noor","do":"go")")) == "role-may-not");
    CHECK(volume(bed) == 0_mL);
}

TEST_CASE("the physician's word lacks its speaker when another enters it alone (10-decisions B6)",
          "[roles]") {
    const auto bed = bed_ready_to_fill();
    const auto lacks = [&](const char* by) {
        Command command;
        command.by = by;
        command.says = Go{};
        return lacks_said_by(command, bed.desk);
    };
    CHECK(lacks("tomas"));
    CHECK_FALSE(lacks("ilse"));
}

TEST_CASE("a role is handed over by who holds it and accepted by who was named (3-case, Sedation)",
          "[roles]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:37:55",
           R"("by":"pia","do":"add-person","id":"abe","name":"Abe Nolan","roles":["sedation-provider"],)"
           R"("pin":"123456")");
    CHECK(result_of(bed.at("09:38",
                           R"("by":"wren","do":"hand-over-role","role":"sedation-provider","to":"abe")")) ==
          "role-may-not");
    CHECK(result_of(bed.at("09:38",
                           R"("by":"noor","do":"hand-over-role","role":"sedation-provider","to":"abe")")) ==
          "recorded");
    CHECK(bed.state().role_holder.empty());
    CHECK(result_of(bed.at("09:39", R"("by":"wren","do":"accept-role","role":"sedation-provider")")) ==
          "role-may-not");
    bed.at("09:40", R"("by":"abe","do":"accept-role","role":"sedation-provider")");
    CHECK(bed.state().role_holder.at("sedation-provider") == "abe");
}

TEST_CASE("an unusual value is asked about once and recorded with sure (3-case principle 1)", "[questions]") {
    auto bed = bed_with_case();
    const auto asked = [&](const std::string& line) {
        const auto outcome = bed.at("08:47", line);
        CHECK(outcome.events.empty());
        return result_of(outcome);
    };
    const std::string heavy =
        R"("by":"wren","do":"measure","weight_kg":340,"weight_basis":"stated","height_cm":167)";
    const std::string flow = R"("by":"noor","do":"oxygen","l_min":15)";
    const std::string dose = R"("by":"noor","do":"dose","drug":"fentanyl","amount":0.2,"unit":"ug")";
    const std::string pulse =
        R"("by":"noor","do":"vitals","hr":181,"systolic":120,"diastolic":80,"spo2":97,"rr":14)";
    for (const auto& line : {heavy, flow, dose, pulse}) {
        INFO(line);
        CHECK(asked(line) == "asked implausible");
        CHECK(result_of(bed.at("08:48", line + R"(,"sure":true)")) == "recorded");
    }
    CHECK(bed.at("08:49", dose).asked->say.find("mcg") != std::string::npos);
}

TEST_CASE("a pulse of 176 gets no question (10-decisions G8)", "[questions]") {
    auto bed = bed_with_case();
    CHECK(result_of(bed.at(
              "08:47",
              R"("by":"noor","do":"vitals","hr":176,"systolic":120,"diastolic":80,"spo2":97,"rr":14)")) ==
          "recorded");
}

TEST_CASE("typing slips that cannot be are refused, sure or not (3-case, Arrival)", "[questions]") {
    auto bed = bed_with_case();
    CHECK(
        result_of(bed.at(
            "08:47", R"("by":"wren","do":"measure","weight_kg":9640,"weight_basis":"stated","height_cm":167,)"
                     R"("sure":true)")) == "out-of-range");
    const auto metres = bed.at(
        "08:47", R"("by":"wren","do":"measure","weight_kg":96,"weight_basis":"stated","height_cm":1.67)");
    CHECK(result_of(metres) == "out-of-range");
    CHECK(metres.refusal->say.find("167") != std::string::npos);
    CHECK(result_of(bed.at("08:47", R"("by":"pia","do":"patient","born":"2090-01-01","reason":"r")")) ==
          "out-of-range");
}

TEST_CASE("a tap while stopped counts and is listed (10-decisions A18)", "[questions]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 1, 38);
    bed.at("09:38:30", R"("by":"tomas","do":"stop-filling","reason":"retching")");
    tap(bed, 1, 39);
    CHECK(volume(bed) == 100_mL);
    CHECK(bed.state().device().deliveries.back().while_stopped);
}

TEST_CASE("going on asks what was pushed meanwhile: none, one, more by number or volume (10-decisions A18)",
          "[questions]") {
    const auto after = [](const std::string& pushed) {
        auto bed = bed_ready_to_fill();
        tap(bed, 1, 38);
        bed.at("09:38:30", R"("by":"tomas","do":"stop-filling","reason":"other")");
        bed.at("09:40", R"("by":"tomas","do":"go-on-filling","pushed_meanwhile":)" + pushed);
        return std::pair{volume(bed), syringes_counted(bed.state().device())};
    };
    CHECK(after(R"("none")") == std::pair{50_mL, 1});
    CHECK(after(R"("one")") == std::pair{100_mL, 2});
    CHECK(after(R"("more","syringes":3)") == std::pair{200_mL, 4});
    CHECK(after(R"("more","ml":70)") == std::pair{120_mL, 3});  // a full one and a part
}

TEST_CASE("the lowest SpO2 of an ended airway event is medium until the next set (10-decisions G7)",
          "[prompts]") {
    auto bed = bed_with_case();
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    bed.at("09:30", R"("by":"noor","do":"airway-event")");
    const auto entry = std::to_string(bed.last_seq());
    bed.at("09:31", R"("by":"noor","do":"airway-event-end","event":)" + entry);
    CHECK(loud(bed, "alert-value", "09:31") == "absent");
    bed.at("09:31:30", R"("by":"noor","do":"airway-event-end","lowest_spo2":85,"event":)" + entry);
    CHECK(loud(bed, "alert-value", "09:32") == "medium");
    bed.at("09:32:30",
           R"("by":"noor","do":"vitals","hr":70,"systolic":120,"diastolic":80,"spo2":97,"rr":14)");
    CHECK(loud(bed, "alert-value", "09:33") == "absent");
}

TEST_CASE("in recovery a score is due with every set until the patient is fit (10-decisions H6)",
          "[prompts]") {
    auto bed = bed_ready_to_fill();
    bed.at("10:00", R"("by":"noor","do":"offer-handover","to":"wren")");
    bed.at("10:02", R"("by":"wren","do":"accept-handover","birth_day_month":"14 03")");
    CHECK(loud(bed, "score-due", "10:04:59") == "absent");
    CHECK(loud(bed, "score-due", "10:05") == "low");
    const std::string score = R"("by":"wren","do":"score","scale":"aldrete","activity":2,"respiration":2,)"
                              R"("circulation":2,"consciousness":2,"oxygen":2)";
    bed.at("10:05", score);
    CHECK(loud(bed, "score-due", "10:19:59") == "absent");
    CHECK(loud(bed, "score-due", "10:20") == "low");
    bed.at("10:20", score);
    CHECK(loud(bed, "score-due", "10:50") == "absent");  // fit
}

TEST_CASE("an open item of an earlier day is due in a case that is still open (10-decisions H6)",
          "[prompts]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:40", R"("by":"tomas","do":"sample","kind":"biopsy","site":"antrum","pieces":2,"owner":"ilse",)"
                    R"("due":"2026-11-27")");
    CHECK_FALSE(has(bed.prompt_codes("10:00"), "item-due"));
    const auto later = prompts(bed.state(), *parse_instant("2026-11-28T09:00:00Z"), bed.policy());
    CHECK(std::any_of(later.begin(), later.end(), [](const auto& p) { return p.code == "item-due"; }));
}
