// Whose case it is, after the fact: entries that belong to another patient, and identity after the seal.
// Sources: 8-practice row 4; 10-decisions D (patient, belongs-to), F12, F20.
#include "core/record/text.h"
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

/// Case A under way for the wrong patient, and case B booked for the right one.
Bed bed_mixed_up() {
    auto bed = bed_ready_to_fill();
    tap(bed, 3, 38);
    bed.at("08:00", R"("by":"pia","case":"B","do":"book","kind":"placement","patient":{"number":"HM-4502",)"
                    R"("family_name":"Brandt","given_name":"Osei","born":"1980-06-30","sex_at_birth":"m"},)"
                    R"("planned":"2026-11-25T10:30:00Z","room":"Room 1")");
    return bed;
}

}  // namespace

TEST_CASE(
    "entries move as a block: they count there and no longer here, both cases name each other (8-practice 4)",
    "[identity]") {
    auto bed = bed_mixed_up();
    CHECK(result_of(
              bed.at("09:50", R"("by":"wren","do":"belongs-to","to":"B","reason":"wrong patient opened")")) ==
          "recorded");
    CHECK(running_volume(bed.state("B").device()) == Millilitres::of_tenths(1500));
    CHECK(running_volume(bed.state("A").device()) == Millilitres{});
    CHECK(bed.state("B").sedation_start.has_value());
    CHECK_FALSE(bed.state("A").sedation_start.has_value());
    CHECK(bed.state("A").belongs_to.back().is.to == "B");
    CHECK(bed.state("B").received.back().is.from == "A");
    CHECK(bed.state("A").patient.number == "HM-4471");
    CHECK(bed.state("B").patient.number == "HM-4502");
    const auto text = record_text(bed.state("A"), bed.desk, bed.policy(), bed.zone(), "");
    CHECK(text.find("!! Identity            ENTRIES MOVED TO case B (HM-4502): wrong patient opened") !=
          std::string::npos);
    const auto there = record_text(bed.state("B"), bed.desk, bed.policy(), bed.zone(), "");
    CHECK(there.find("!! Identity            Entries made in case A belong to this patient") !=
          std::string::npos);
}

TEST_CASE("what moved is judged anew there: holds of that patient stand, decisions do not move",
          "[identity]") {
    auto bed = bed_mixed_up();
    bed.at("09:46", R"("by":"wren","do":"answer","check":"earlier-surgery","value":"yes")");
    const auto* hold = bed.state("A").standing("screen-earlier-surgery");
    REQUIRE(hold != nullptr);
    bed.at("09:47", R"("by":"ilse","do":"override","hold":"screen-earlier-surgery","reason":"benefit",)"
                    R"("words":"known, small","pin":"123456")");
    CHECK(bed.state("A").standing("screen-earlier-surgery") == nullptr);
    bed.at("09:50", R"("by":"wren","do":"belongs-to","to":"B","reason":"wrong patient opened")");
    CHECK(bed.state("B").standing("screen-earlier-surgery") != nullptr);
    CHECK(bed.state("A").standing("screen-earlier-surgery") == nullptr);
}

TEST_CASE("a block that moved goes on there: corrections reach its entries, the fold gives the same state",
          "[identity]") {
    auto bed = bed_mixed_up();
    const auto third = bed.state("A").history.back().first.stamp.seq;
    bed.at("09:50", R"("by":"wren","do":"belongs-to","to":"B","reason":"wrong patient opened")");
    CHECK(result_of(bed.at("09:51", R"("by":"tomas","case":"B","do":"correct","entry":)" +
                                        std::to_string(third) +
                                        R"(,"withdrawn":true,"reason":"not pushed")")) == "recorded");
    CHECK(running_volume(bed.state("B").device()) == Millilitres::of_tenths(1000));
}

TEST_CASE("belongs-to refuses a case that is not there, itself, and a sealed target", "[identity]") {
    auto bed = bed_mixed_up();
    CHECK(result_of(bed.at("09:50", R"("by":"wren","do":"belongs-to","to":"X","reason":"r")")) ==
          "no-such-case");
    CHECK(result_of(bed.at("09:50", R"("by":"wren","do":"belongs-to","to":"A","reason":"r")")) ==
          "out-of-range");
    CHECK(running_volume(bed.state("A").device()) == Millilitres::of_tenths(1500));
}

TEST_CASE("a lot in the place of a hospital number is refused (10-decisions F20)", "[identity]") {
    auto bed = bed_mixed_up();
    const auto book =
        bed.at("10:00", R"("by":"pia","case":"C","do":"book","kind":"placement","patient":{"number":)"
                        R"("DW-2641","family_name":"X","given_name":"Y","born":"1980-06-30",)"
                        R"("sex_at_birth":"m"},"planned":"2026-11-25T12:00:00Z","room":"Room 1")");
    REQUIRE(book.refusal);
    CHECK(book.refusal->say == "\"DW-2641\" is a lot, not a hospital number.");
    CHECK(result_of(bed.at("10:01", R"("by":"wren","do":"patient","number":"DW-2641","reason":"r")")) ==
          "out-of-range");
}

TEST_CASE("after the seal a patient is changed by two people, a PIN each (10-decisions F12)", "[identity]") {
    auto bed = bed_with_case();
    for (const char* line : {R"("by":"wren","do":"discharge","disposition":"home","with":"escort")",
                             R"("by":"wren","do":"sign","part":"nursing","pin":"123456")",
                             R"("by":"noor","do":"sign","part":"sedation","pin":"123456")",
                             R"("by":"ilse","do":"sign","part":"physician","pin":"123456")",
                             R"("by":"ilse","do":"seal","pin":"123456")"}) {
        REQUIRE(result_of(bed.at("12:00", line)) == "recorded");
    }
    const std::string change = R"("by":"wren","do":"patient","number":"HM-4472","reason":"slip at booking")";
    CHECK(result_of(bed.at("12:10", change)) == "two-people-needed");
    CHECK(result_of(bed.at("12:10", change + R"(,"second":"pia","pins":{"wren":"123456"})")) == "pin-wrong");
    CHECK(result_of(bed.at("12:10", change + R"(,"second":"wren","pins":{"wren":"123456"})")) ==
          "same-person");
    CHECK(bed.state().patient.number == "HM-4471");
    CHECK(result_of(bed.at("12:10", change + R"(,"second":"pia","pins":{"wren":"123456","pia":"123456"})")) ==
          "recorded");
    CHECK(bed.state().patient.number == "HM-4472");
    const auto added = addenda_text(bed.state(), bed.desk, bed.zone());
    CHECK(added.find("number HM-4472; slip at booking; agreed by Pia Holm, each with a PIN") !=
          std::string::npos);
    const auto payload = fields_json(bed.state().history.back().first.event).dump();
    CHECK(payload.find("123456") == std::string::npos);
}
