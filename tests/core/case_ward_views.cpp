// What Release, Recovery and Discharge show, worked out from the case.
#include "core/case/discharge_view.h"
#include "core/case/release_view.h"
#include "tests/catch.h"
#include "tests/core/bed.h"

using namespace brimline;
using namespace brimline::test;
using namespace std::chrono_literals;

namespace {

Bed bed_in_recovery() {
    auto bed = bed_ready_to_fill();
    bed.at("09:40", R"("by":"noor","do":"dose","drug":"propofol","amount":40,"unit":"mg")");
    bed.at("09:55", R"("by":"tomas","do":"scope-out")");
    bed.at("10:00", R"("by":"noor","do":"offer-handover","to":"wren")");
    bed.at("10:02", R"("by":"wren","do":"accept-handover","birth_day_month":"14 03")");
    return bed;
}
void set(Bed& bed, const char* time) {
    bed.at(time, R"("by":"wren","do":"vitals","hr":80,"systolic":124,"diastolic":80,"spo2":97,"rr":14)");
}
void aldrete(Bed& bed, const char* time, const char* consciousness = "2") {
    bed.at(time, std::string{R"("by":"wren","do":"score","scale":"aldrete","activity":2,"respiration":2,)"} +
                     R"("circulation":2,"oxygen":2,"consciousness":)" + consciousness);
}

}  // namespace

TEST_CASE("a valve that drips counts as missing until it is dry, and its watch runs from the last look",
          "[release-view]") {
    auto bed = bed_ready_to_fill();
    CHECK(release_missing(bed.state()).size() == 5);
    bed.at("09:45:00", R"("by":"tomas","do":"valve-not-dry","action":"watched")");
    CHECK(release_missing(bed.state()).at(1) == ReleaseFact::dry);
    CHECK(valve_watch(bed.state(), bed.policy())->since == time_of("09:45:00"));
    bed.at("09:45:40", R"("by":"tomas","do":"valve-dry","seconds":30)");
    CHECK_FALSE(valve_watch(bed.state(), bed.policy()).has_value());
    CHECK(release_missing(bed.state()).size() == 4);
}

TEST_CASE("the steps out of the room stand in order", "[release-view]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:44", R"("by":"tomas","do":"scope-in")");
    CHECK(release_step(bed.state()) == ReleaseStep::scope_out);
    bed.at("09:46", R"("by":"tomas","do":"scope-out")");
    bed.at("09:47", R"("by":"noor","do":"end-sedation")");
    CHECK(release_step(bed.state()) == ReleaseStep::pause);
    bed.at("09:48", R"("by":"tomas","do":"leave-room")");
    CHECK_FALSE(release_step(bed.state()).has_value());
}

TEST_CASE("four digits are a day and month, or none", "[recovery-view]") {
    CHECK(typed_day_month("1403") == DayMonth{14, 3});
    CHECK(typed_day_month("2902") == DayMonth{29, 2});
    CHECK_FALSE(typed_day_month("3002").has_value());
    CHECK_FALSE(typed_day_month("140").has_value());
    CHECK_FALSE(typed_day_month("0000").has_value());
}

TEST_CASE(
    "parts are proposed only from a set of the last minutes that has oxygen beside it (10-decisions F14)",
    "[recovery-view]") {
    auto bed = bed_in_recovery();
    set(bed, "10:10:00");
    CHECK_FALSE(proposed_parts(bed.state(), bed.policy(), time_of("10:10:10")).from.has_value());
    bed.at("10:10:00", R"("by":"wren","do":"oxygen","l_min":0)");
    const auto fresh = proposed_parts(bed.state(), bed.policy(), time_of("10:12:00"));
    CHECK(fresh.from == time_of("10:10:00"));
    CHECK(fresh.oxygen == 2);
    CHECK_FALSE(proposed_parts(bed.state(), bed.policy(), time_of("10:12:01")).from.has_value());
}

TEST_CASE("with oxygen running the saturation part is never full", "[recovery-view]") {
    auto bed = bed_in_recovery();
    set(bed, "10:10:00");
    bed.at("10:10:00", R"("by":"wren","do":"oxygen","l_min":2)");
    CHECK(proposed_parts(bed.state(), bed.policy(), time_of("10:10:30")).oxygen == 1);
}

TEST_CASE("the lines of fit say what is there of each, and agree with fit itself", "[recovery-view]") {
    auto bed = bed_in_recovery();
    aldrete(bed, "10:15");
    auto lines = fit_lines(bed.state(), bed.policy(), time_of("10:16"));
    CHECK(lines.at(0).at == std::vector{time_of("10:15")});
    CHECK_FALSE(lines.at(0).met);
    CHECK(lines.at(1).met);
    aldrete(bed, "10:30");
    lines = fit_lines(bed.state(), bed.policy(), time_of("10:31"));
    CHECK(lines.at(0).met);
    CHECK(fit_since(bed.state(), bed.policy()).has_value());
    aldrete(bed, "10:45", "0");
    lines = fit_lines(bed.state(), bed.policy(), time_of("10:46"));
    CHECK_FALSE(lines.at(0).met);
    CHECK(lines.at(0).at.empty());
}

TEST_CASE("what saving a score would come to is known before it is saved", "[recovery-view]") {
    auto bed = bed_in_recovery();
    aldrete(bed, "10:15");
    Score second;
    second.scale = Scale::aldrete;
    second.activity = second.respiration = second.circulation = second.consciousness = second.oxygen = 2;
    CHECK(fit_with(bed.state(), bed.policy(), second, time_of("10:30")) == time_of("10:30"));
    CHECK_FALSE(fit_since(bed.state(), bed.policy()).has_value());
}

TEST_CASE("the last cell of Discharge is where the patient goes, and no driving ends on a full hour",
          "[discharge-view]") {
    auto bed = bed_in_recovery();
    const auto lines = home_lines(bed.state(), bed.policy(), time_of("11:00"));
    CHECK(lines.back().check == HomeCheck::goes);
    const auto sheet = home_sheet(bed.state(), bed.policy(), bed.zone(), time_of("11:39"));
    CHECK(sheet.no_driving == time_of("12:00") + 24h);
}
