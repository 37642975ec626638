// The day's list and the balloons that are due out.
#include <fmt/format.h>

#include "core/desk/today.h"
#include "tests/catch.h"
#include "tests/core/bed.h"

using namespace brimline;
using namespace brimline::test;

namespace {

/// Books a case for that moment; the bed has the demo's people.
void book(Bed& bed, const std::string& name, const std::string& planned) {
    bed.at("08:00:00",
           fmt::format(R"("by":"pia","case":"{}","do":"book","kind":"placement","patient":{{"number":"HM-9{}",
        "family_name":"Brandt","given_name":"Osei","born":"1980-06-30","sex_at_birth":"m"}},)"
                       R"("planned":"{}","room":"Room 1")",
                       name, bed.desk.case_order.size(), planned));
}

std::vector<std::string> names(const std::vector<Listed>& list) {
    std::vector<std::string> names;
    for (const auto& listed : list) {
        names.push_back(listed.state->name);
    }
    return names;
}

}  // namespace

TEST_CASE("what nobody finished yesterday stands before today, and tomorrow is not on the list",
          "[desk][today]") {
    auto bed = bed_with_case();
    book(bed, "late", "2026-11-25T13:00:00+00:00");
    book(bed, "old", "2026-11-24T09:00:00+00:00");
    book(bed, "older", "2026-11-23T09:00:00+00:00");
    book(bed, "next", "2026-11-26T09:00:00+00:00");
    const auto list = list_of_day(bed.desk, bed.zone(), time_of("08:30:00"));
    CHECK(names(list) == std::vector<std::string>{"older", "old", "A", "late"});
    CHECK(list[0].overdue);
    CHECK_FALSE(list[2].overdue);
}

TEST_CASE("a cancelled case is not on the list", "[desk][today]") {
    auto bed = bed_with_case();
    bed.at("08:05:00", R"("by":"pia","case":"A","do":"cancel","reason":"wish")");
    CHECK(list_of_day(bed.desk, bed.zone(), time_of("08:30:00")).empty());
}

TEST_CASE("a balloon is due out from the policy's days before its date, the longest overdue first",
          "[desk][today]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:00", R"("by":"tomas","case":"A","do":"syringe-in")");
    bed.at("09:45:00", R"("by":"tomas","case":"A","do":"device-off")");
    const auto due = dates_of(bed.state(), bed.policy(), bed.zone()).due;
    REQUIRE(due.has_value());
    const auto on = [&](int days) {
        return due_out(bed.desk, bed.policy(), bed.zone(), bed.zone().start_of(add_days(*due, days)));
    };
    const int soon = bed.policy().dwell.soon_days;
    CHECK(on(-soon - 1).empty());
    REQUIRE(on(-soon).size() == 1);
    CHECK(on(-soon).front().days_left == soon);
    REQUIRE(on(7).size() == 1);
    CHECK(on(7).front().days_left == -7);
}
