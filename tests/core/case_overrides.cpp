// Overrides and provisos: who may, with which PIN, what ends the hold and what stays open.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

/// An absolute hold (ulcer) and a relative one (aspirin yesterday).
Bed bed_with_holds() {
    auto bed = bed_with_case();
    bed.at("08:40",
           R"("by":"wren","do":"medicine","group":"antiplatelet","name":"aspirin","last_dose":"2026-11-24")");
    bed.at("08:41", R"("by":"wren","do":"answer","check":"varices","value":"yes")");
    return bed;
}
Outcome override_of(Bed& bed, const char* time, const std::string& hold, const std::string& rest) {
    return bed.at(time, R"("do":"override","hold":")" + hold + R"(","reason":"benefit",)" + rest);
}

}  // namespace

TEST_CASE("a physician's override with the own PIN ends a relative hold, words may follow (10-decisions G3)",
          "[overrides]") {
    auto bed = bed_with_holds();
    CHECK(result_of(override_of(bed, "08:50", "medicine-window", R"("by":"ilse","pin":"123456")")) ==
          "recorded");
    CHECK(latest(bed, "medicine-window")->ended_how == HoldEnd::overridden);
    REQUIRE(item(bed, "words-medicine-window") != nullptr);
    CHECK(item(bed, "words-medicine-window")->owner == "ilse");
    override_of(bed, "08:55", "medicine-window", R"("by":"ilse","words":"stent, asked","pin":"123456")");
    CHECK(item(bed, "words-medicine-window") == nullptr);
    CHECK(times_raised(bed, "medicine-window") == 1);
}

TEST_CASE("an absolute override without words is recorded and ends nothing (10-decisions H4)",
          "[overrides]") {
    auto bed = bed_with_holds();
    CHECK(result_of(override_of(bed, "08:50", "screen-varices", R"("by":"ilse","pin":"123456")")) ==
          "recorded");
    REQUIRE(bed.state().standing("screen-varices") != nullptr);
    CHECK(bed.state().standing("screen-varices")->overrides.size() == 1);
    CHECK(item(bed, "words-screen-varices") != nullptr);
    override_of(bed, "08:55", "screen-varices", R"("by":"ilse","words":"","pin":"123456")");
    CHECK(bed.state().standing("screen-varices") != nullptr);
    override_of(bed, "08:56", "screen-varices", R"("by":"ilse","words":"grade 1, old","pin":"123456")");
    CHECK(bed.state().standing("screen-varices") == nullptr);
    CHECK(item(bed, "words-screen-varices") == nullptr);
}

TEST_CASE("a wrong or missing PIN refuses an override and leaves an attempt (10-decisions A2)",
          "[overrides]") {
    auto bed = bed_with_holds();
    CHECK(result_of(override_of(bed, "08:50", "medicine-window", R"("by":"ilse","pin":"000000")")) ==
          "pin-wrong");
    CHECK(has_attempt(bed, "override", "pin-wrong"));
    CHECK(bed.state().attempts.back().stamp.by == "ilse");
    CHECK(result_of(override_of(bed, "08:51", "medicine-window", R"("by":"ilse")")) == "pin-wrong");
    CHECK(bed.state().attempts.size() == 2);
    CHECK(bed.state().standing("medicine-window") != nullptr);
}

TEST_CASE("nobody but a physician overrides while the scope is out (10-decisions A4)", "[overrides]") {
    auto bed = bed_with_holds();
    CHECK(result_of(override_of(bed, "08:50", "medicine-window", R"("by":"wren","pin":"123456")")) ==
          "role-may-not");
    CHECK(result_of(override_of(bed, "08:51", "medicine-window",
                                R"("by":"wren","said_by":"ilse","pin":"123456")")) == "role-may-not");
    CHECK(has_attempt(bed, "override", "role-may-not"));
    CHECK(bed.state().standing("medicine-window") != nullptr);
}

TEST_CASE("while the scope is in another enters it as said, without PIN, to countersign (10-decisions A4)",
          "[overrides]") {
    auto bed = bed_with_holds();
    bed.at("09:31", R"("by":"tomas","do":"scope-in")");
    CHECK(result_of(override_of(bed, "09:32", "medicine-window", R"("by":"tomas","said_by":"noor")")) ==
          "role-may-not");
    CHECK(result_of(override_of(bed, "09:33", "medicine-window",
                                R"("by":"tomas","said_by":"ilse","words":"w")")) == "recorded");
    CHECK(latest(bed, "medicine-window")->overrides.back().is.to_countersign);
    REQUIRE(item(bed, "countersign-medicine-window") != nullptr);
    CHECK(item(bed, "countersign-medicine-window")->owner == "ilse");
    bed.at("10:30", R"("by":"ilse","do":"sign","part":"physician","pin":"123456")");
    CHECK(item(bed, "countersign-medicine-window") == nullptr);
}

TEST_CASE("after scope-out the physician's own PIN is needed again (10-decisions A4)", "[overrides]") {
    auto bed = bed_with_holds();
    bed.at("09:31", R"("by":"tomas","do":"scope-in")");
    bed.at("09:40", R"("by":"tomas","do":"scope-out")");
    CHECK(result_of(override_of(bed, "09:41", "medicine-window", R"("by":"tomas","said_by":"ilse")")) ==
          "role-may-not");
}

TEST_CASE("a count, a ceiling and a stop hold have no override (3-case principle 3)", "[overrides]") {
    auto bed = bed_ready_to_fill();
    tap(bed, 15, 38);
    bed.at("09:55", R"("by":"tomas","said_by":"ilse","do":"count-check","count":14)");
    bed.at("09:56", R"("by":"wren","do":"consent","signed":false)");
    for (const char* hold : {"ceiling-passed", "count-differs", "consent-missing"}) {
        REQUIRE(bed.state().standing(hold) != nullptr);
        CHECK(result_of(override_of(bed, "09:57", hold, R"("by":"ilse","words":"w","pin":"123456")")) ==
              "hold-has-no-override");
        CHECK(bed.state().standing(hold) != nullptr);
    }
    CHECK(bed.state().attempts.size() == 3);
}

TEST_CASE("a hold that does not stand is not overridden (3-case principle 1)", "[overrides]") {
    auto bed = bed_with_case();
    CHECK(result_of(override_of(bed, "08:50", "resistance", R"("by":"ilse","pin":"123456")")) ==
          "no-such-hold");
}

TEST_CASE("a reason that is not listed is taken as other with these words (10-decisions C)", "[overrides]") {
    auto bed = bed_with_holds();
    bed.at("08:50",
           R"("by":"ilse","do":"override","hold":"medicine-window","reason":"needs it","pin":"123456")");
    CHECK(latest(bed, "medicine-window")->overrides.back().is.reason == "other");
    CHECK(latest(bed, "medicine-window")->overrides.back().is.words == "needs it");
    CHECK(shown(bed, "08:51")["holds"][0]["override"]["by"] == "ilse");
}

TEST_CASE("a proviso comes back as an open item at its stage (3-case principle 3)", "[overrides]") {
    auto bed = bed_with_holds();
    const auto done = override_of(bed, "08:50", "medicine-window",
                                  R"("by":"ilse","words":"w","pin":"123456",)"
                                  R"("proviso":{"stage":"look","condition":"only if no erosions"})");
    CHECK(done.proviso_ids == std::vector<std::string>{"p1"});
    CHECK(item(bed, "proviso-p1") == nullptr);
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    REQUIRE(item(bed, "proviso-p1") != nullptr);
    CHECK(item(bed, "proviso-p1")->say == "only if no erosions");
    CHECK(item(bed, "proviso-p1")->owner == "ilse");
    CHECK(has(bed.prompt_codes("09:28"), "proviso-p1"));
    const auto said = shown(bed, "09:29")["provisos"][0];
    CHECK(said["stage"] == "look");
    CHECK_FALSE(said.contains("answer"));
}

TEST_CASE("a proviso answered yes is closed and the hold stays ended (10-decisions G16)", "[overrides]") {
    auto bed = bed_with_holds();
    override_of(bed, "08:50", "medicine-window",
                R"("by":"ilse","words":"w","pin":"123456",)"
                R"("proviso":{"stage":"look","condition":"no erosions"})");
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    bed.at("09:33", R"("by":"tomas","said_by":"ilse","do":"answer-proviso","proviso":"p1","value":"yes")");
    CHECK(item(bed, "proviso-p1") == nullptr);
    CHECK(bed.state().standing("medicine-window") == nullptr);
    CHECK(shown(bed, "09:34")["provisos"][0]["answer"] == "yes");
}

TEST_CASE("a proviso answered no makes the hold stand again (10-decisions G16)", "[overrides]") {
    auto bed = bed_with_holds();
    override_of(bed, "08:50", "medicine-window",
                R"("by":"ilse","words":"w","pin":"123456",)"
                R"("proviso":{"stage":"look","condition":"no erosions"})");
    bed.at("09:28", R"("by":"noor","do":"start-sedation")");
    bed.at("09:33", R"("by":"tomas","said_by":"ilse","do":"answer-proviso","proviso":"p1","value":"no")");
    CHECK(item(bed, "proviso-p1") == nullptr);
    REQUIRE(bed.state().standing("medicine-window") != nullptr);
    CHECK(times_raised(bed, "medicine-window") == 2);
    override_of(bed, "09:35", "medicine-window", R"("by":"ilse","words":"still","pin":"123456")");
    CHECK(bed.state().standing("medicine-window") == nullptr);
    bed.at("09:36", R"("by":"noor","do":"depth","moaas":3)");
    CHECK(bed.state().standing("medicine-window") == nullptr);
}

TEST_CASE("a proviso that nobody made and a stage that is none are refused (10-decisions B3)",
          "[overrides]") {
    auto bed = bed_with_holds();
    CHECK(result_of(bed.at("08:50", R"("by":"ilse","do":"answer-proviso","proviso":"p1","value":"yes")")) ==
          "no-such-entry");
    CHECK(result_of(override_of(bed, "08:51", "medicine-window",
                                R"("by":"ilse","words":"w","pin":"123456",)"
                                R"("proviso":{"stage":"loook","condition":"c"})")) == "not-on-list");
}
