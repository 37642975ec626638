// Monitoring and recovery: due times, totals, the lowest SpO2, fit, discharge checks, signing and the seal.
#include <fmt/format.h>

#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

const char* const a_set =
    R"("by":"noor","do":"vitals","hr":70,"systolic":120,"diastolic":80,"spo2":97,"rr":14)";

Bed bed_in_recovery() {
    auto bed = bed_ready_to_fill();
    bed.at("09:40", R"("by":"noor","do":"dose","drug":"propofol","amount":40,"unit":"mg")");
    bed.at("09:55", R"("by":"tomas","do":"scope-out")");
    bed.at("10:00", R"("by":"noor","do":"offer-handover","to":"wren")");
    bed.at("10:02", R"("by":"wren","do":"accept-handover","birth_day_month":"14 03")");
    return bed;
}
void aldrete(Bed& bed, const char* time, int consciousness = 2) {
    bed.at(time, R"("by":"wren","do":"score","scale":"aldrete","activity":2,"respiration":2,"circulation":2,)"
                 R"("oxygen":2,"consciousness":)" +
                     std::to_string(consciousness));
}
std::optional<Instant> due(const Bed& bed) { return next_vitals_due(bed.state(), bed.policy()); }

}  // namespace

TEST_CASE("the first set is due one interval after the start, sets before do not count (10-decisions G2)",
          "[recovery]") {
    auto bed = bed_with_case();
    bed.at("09:25", a_set);
    CHECK_FALSE(due(bed).has_value());
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    CHECK(due(bed) == time_of("09:33"));
    bed.at("09:31", a_set);
    CHECK(due(bed) == time_of("09:36"));
}

TEST_CASE("not taken answers the due set (10-decisions A19)", "[recovery]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:45", R"("by":"noor","do":"vitals","not_taken":"airway")");
    CHECK(due(bed) == time_of("09:50"));
}

TEST_CASE("the next set after an emergency is its end and the interval (10-decisions H5)", "[recovery]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:40", R"("by":"noor","do":"emergency")");
    bed.at("09:47", R"("by":"noor","do":"emergency-end","kind":"bleeding")");
    CHECK(due(bed) == time_of("09:52"));
}

TEST_CASE("in recovery the first set comes soon, then every 15, every 30 once fit (10-decisions G2)",
          "[recovery]") {
    auto bed = bed_in_recovery();
    CHECK(due(bed) == time_of("10:05"));
    bed.at("10:05", R"("by":"wren","do":"vitals","hr":70,"systolic":120,"diastolic":80,"spo2":97,"rr":14)");
    CHECK(due(bed) == time_of("10:20"));
    aldrete(bed, "10:10");
    aldrete(bed, "10:20");
    CHECK(due(bed) == time_of("10:35"));
}

TEST_CASE("fit appears with two scores and disappears with one that does not qualify (10-decisions A13)",
          "[recovery]") {
    auto bed = bed_in_recovery();
    aldrete(bed, "10:05");
    CHECK_FALSE(fit_since(bed.state(), bed.policy()).has_value());
    aldrete(bed, "10:15");
    CHECK(fit_since(bed.state(), bed.policy()) == time_of("10:15"));
    CHECK(shown(bed, "10:16")["recovery"].contains("fit_since"));
    CHECK_FALSE(shown(bed, "10:14")["recovery"].contains("fit_since"));
    aldrete(bed, "10:25", 0);
    CHECK_FALSE(fit_since(bed.state(), bed.policy()).has_value());
}

TEST_CASE("fit ends by a sedative, an airway event, an emergency and an alert value (10-decisions F14)",
          "[recovery]") {
    const auto ends = [](const std::vector<const char*>& lines) {
        auto bed = bed_in_recovery();
        aldrete(bed, "10:05");
        aldrete(bed, "10:15");
        for (const char* line : lines) {
            bed.at("10:20", line);
        }
        return !fit_since(bed.state(), bed.policy()).has_value();
    };
    CHECK_FALSE(ends({a_set}));
    CHECK(ends({R"("by":"wren","do":"dose","drug":"midazolam","amount":1,"unit":"mg")"}));
    CHECK(ends({R"("by":"wren","do":"dose","drug":"flumazenil","amount":0.2,"unit":"mg")"}));
    CHECK(ends({R"("by":"wren","do":"airway-event")"}));
    CHECK(ends({R"("by":"wren","do":"emergency")"}));
    CHECK(ends({R"("by":"wren","do":"vitals","hr":70,"systolic":120,"diastolic":80,"spo2":88,"rr":14)"}));
}

TEST_CASE("two units of one drug add up in the unit of the first entry (10-decisions A19)", "[recovery]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", R"("by":"noor","do":"dose","drug":"midazolam","amount":2,"unit":"mg")");
    bed.at("09:39", R"("by":"noor","do":"dose","drug":"midazolam","amount":500,"unit":"ug")");
    const auto total = shown(bed, "09:40")["sedation"]["doses"][0];
    CHECK(total["total"] == 2.5);
    CHECK(total["unit"] == "mg");
    CHECK(total["per_kg_unit"] == "mg/kg");
}

TEST_CASE("a running infusion counts in totals up to now (10-decisions H7)", "[recovery]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:40", R"("by":"noor","do":"infusion-start","drug":"propofol","rate":120,"unit":"mg/h")");
    CHECK(dose_totals(bed.state(), time_of("09:50")).front().total == Decimal::of(20));
    bed.at("10:00", R"("by":"noor","do":"infusion-stop","drug":"propofol")");
    CHECK(dose_totals(bed.state(), time_of("11:00")).front().total == Decimal::of(40));
    CHECK(result_of(bed.at("10:01", R"("by":"noor","do":"infusion-stop","drug":"propofol")")) ==
          "no-such-entry");
}

TEST_CASE("the lowest SpO2 counts from sedation start, airway events included (10-decisions A19, G17)",
          "[recovery]") {
    auto bed = bed_with_case();
    bed.at("09:20", R"("by":"noor","do":"vitals","hr":70,"systolic":120,"diastolic":80,"spo2":85,"rr":14)");
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    CHECK_FALSE(lowest_spo2(bed.state()).has_value());
    bed.at("09:31", a_set);
    bed.at("09:33", R"("by":"noor","do":"airway-event")");
    const auto seq = std::to_string(bed.last_seq());
    bed.at("09:35", R"("by":"noor","do":"airway-event-end","event":)" + seq);
    bed.at("09:36",
           R"("by":"noor","do":"airway-event-end","lowest_spo2":86,"action":["chin-lift"],"event":)" + seq);
    CHECK(lowest_spo2(bed.state())->value == 86);
    CHECK(lowest_spo2(bed.state())->at == time_of("09:33"));
    CHECK(bed.state().airway_events.back().end == time_of("09:35"));  // filled later, ended then
}

TEST_CASE("a mismatch at the hand-over is an attempt and nothing is accepted (10-decisions A14)",
          "[recovery]") {
    auto bed = bed_ready_to_fill();
    CHECK(result_of(bed.at("10:02", R"("by":"wren","do":"accept-handover","birth_day_month":"15 03")")) ==
          "identity-mismatch");
    CHECK(has_attempt(bed, "accept-handover", "identity-mismatch"));
    CHECK_FALSE(bed.state().accepted.has_value());
}

TEST_CASE("a deferred case asks for no card and no prescriptions (10-decisions G14)", "[recovery]") {
    auto bed = bed_in_recovery();
    const auto deferred = unmet_checks(bed.state(), bed.policy(), time_of("11:00"));
    CHECK_FALSE(has(deferred, "card"));
    CHECK_FALSE(has(deferred, "prescriptions"));
    CHECK(has(deferred, "drink"));
    bed.at("10:10", R"("by":"noor","do":"device-off")");
    CHECK(has(unmet_checks(bed.state(), bed.policy(), time_of("11:00")), "card"));
}

TEST_CASE("one home score is enough in the demo, two by default (10-decisions A8)", "[recovery]") {
    const char* score =
        R"("by":"wren","do":"score","scale":"padss","vital_signs":2,"walking":2,"nausea":2,"pain":1,)"
        R"("bleeding":2)";
    auto once = bed_in_recovery();
    once.at("11:00", score);
    CHECK_FALSE(has(unmet_checks(once.state(), once.policy(), time_of("11:01")), "score"));
    auto policy = demo_policy();
    policy.discharge.padss_consecutive = 2;
    CHECK(has(unmet_checks(once.state(), policy, time_of("11:01")), "score"));
    once.at("11:30", score);
    CHECK_FALSE(has(unmet_checks(once.state(), policy, time_of("11:31")), "score"));
}

TEST_CASE("the seal needs all three parts signed, a wrong PIN is an attempt (10-decisions A2, A5)",
          "[recovery]") {
    auto policy = demo_policy();
    policy.rules.seal_open_items = {"*"};
    auto bed = bed_with_case(policy);
    const auto sign = [&](const char* by, const char* part, const char* pin) {
        return result_of(
            bed.at("12:00", fmt::format(R"("by":"{}","do":"sign","part":"{}","pin":"{}")", by, part, pin)));
    };
    const auto seal = [&] { return result_of(bed.at("12:01", R"("by":"ilse","do":"seal","pin":"123456")")); };
    CHECK(sign("noor", "sedation", "000000") == "pin-wrong");
    CHECK(has_attempt(bed, "sign", "pin-wrong"));
    CHECK(sign("noor", "physician", "123456") == "role-may-not");
    CHECK(has_attempt(bed, "sign", "role-may-not"));
    CHECK(sign("noor", "sedation", "123456") == "recorded");
    CHECK(sign("wren", "nursing", "123456") == "recorded");
    CHECK(seal() == "part-unsigned");
    CHECK(sign("ilse", "physician", "123456") == "recorded");
    CHECK(seal() == "recorded");
    CHECK(shown(bed, "12:02")["sealed"]["number"] == "R-2026-0001");
    CHECK_FALSE(shown(bed, "12:02").contains("stage"));
    CHECK(result_of(bed.at("12:03", a_set)) == "case-sealed");
    CHECK(result_of(bed.at("12:04", R"("by":"wren","do":"addendum","text":"called")")) == "recorded");
}

TEST_CASE("vomited blood ends fit, vomiting without it does not (10-decisions F14)", "[recovery]") {
    for (const bool blood : {false, true}) {
        auto bed = bed_in_recovery();
        aldrete(bed, "10:10");
        aldrete(bed, "10:20");
        REQUIRE(fit_since(bed.state(), bed.policy()).has_value());
        bed.at("10:25", std::string{R"("by":"wren","do":"symptom","kind":"vomiting","ml":20,"blood":)"} +
                            (blood ? "true" : "false"));
        CHECK(fit_since(bed.state(), bed.policy()).has_value() == !blood);
    }
}

TEST_CASE("a set that falls due in an airway event is answered by it (10-decisions F7)", "[recovery]") {
    auto bed = bed_with_case();
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    bed.at("09:32", R"("by":"noor","do":"airway-event")");
    const auto entry = std::to_string(bed.last_seq());
    CHECK(due(bed) == time_of("09:33"));
    bed.at("09:34", R"("by":"noor","do":"airway-event-end","event":)" + entry);
    CHECK(due(bed) == time_of("09:39"));
    auto before = bed_with_case();  // over before the set was due: nothing is answered
    before.at("09:28", R"("by":"noor","do":"start-sedation")");
    before.at("09:30", R"("by":"noor","do":"airway-event")");
    before.at("09:31", R"("by":"noor","do":"airway-event-end","event":)" + std::to_string(before.last_seq()));
    CHECK(due(before) == time_of("09:33"));
}
