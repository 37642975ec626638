// Holds: each code with its class, its cause and what ends it.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

using Codes = std::vector<std::string>;

void scan(Bed& bed, const char* time, const char* raw) {
    bed.at(time, std::string{R"("by":"tomas","do":"device","raw":")"} + raw + "\"");
}

}  // namespace

TEST_CASE("a hold says what is wrong and since when, and its code has what ends it (3-case principle 3)",
          "[holds]") {
    auto bed = bed_with_case();
    bed.at("09:33", R"("by":"tomas","said_by":"ilse","do":"finding","kind":"ulcer")");
    const auto hold = shown(bed, "09:33")["holds"][0];
    CHECK(hold["code"] == "look-stopping-finding");
    CHECK(hold["class"] == "absolute");
    CHECK(hold["since"] == "2026-11-25T09:33:00+00:00");
    CHECK(hold["say"] == "Seen: ulcer.");
    CHECK_FALSE(hold.contains("ended"));
    for (const auto& code : all_codes()) {
        CHECK_FALSE(code.say.empty());
    }
}

TEST_CASE("each contraindication holds by its class in the policy (10-decisions G3)", "[holds]") {
    for (const auto& check : demo_policy().lists.screen) {
        if (check.hold_class == "review") {
            continue;
        }
        auto bed = bed_with_case();
        const std::string bad = check.good == "no" ? "yes" : "no";
        bed.at("08:40", R"("by":"wren","do":"answer","check":")" + check.id + R"(","value":")" + bad + "\"");
        REQUIRE(bed.standing() == Codes{"screen-" + check.id});
        REQUIRE(class_of(bed, "screen-" + check.id).has_value());
        CHECK(name_of(*class_of(bed, "screen-" + check.id)) == check.hold_class);
        bed.at("08:41",
               R"("by":"wren","do":"answer","check":")" + check.id + R"(","value":")" + check.good + "\"");
        CHECK(bed.standing().empty());
    }
}

TEST_CASE("a medicine in its window is a relative hold, one before it none (10-decisions G3)", "[holds]") {
    auto bed = bed_with_case();
    bed.at("08:40",
           R"("by":"wren","do":"medicine","group":"nsaid","name":"ibuprofen","last_dose":"2026-11-10")");
    CHECK(bed.standing().empty());
    bed.at("08:41",
           R"("by":"wren","do":"medicine","group":"antiplatelet","name":"aspirin","last_dose":"2026-11-24")");
    CHECK(class_of(bed, "medicine-window") == HoldClass::relative);
    CHECK(bed.state().standing("medicine-window")->say.find("aspirin") != std::string::npos);
}

TEST_CASE("a medicine of the window without a day is held (10-decisions G3)", "[holds]") {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"medicine","group":"anticoagulant","name":"a tablet")");
    CHECK(bed.standing() == Codes{"medicine-window"});
}

TEST_CASE("the answer about blood thinners raises its code only beside no medicine hold (10-decisions G3)",
          "[holds]") {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"answer","check":"anticoagulant-or-nsaid","value":"yes")");
    CHECK(class_of(bed, "screen-anticoagulant-or-nsaid") == HoldClass::relative);
    bed.at("08:41",
           R"("by":"wren","do":"medicine","group":"nsaid","name":"ibuprofen","last_dose":"2026-11-24")");
    CHECK(bed.standing() == Codes{"medicine-window"});
}

TEST_CASE("airway, BMI, age and a slowed stomach are cards to be seen, never holds (10-decisions G3)",
          "[holds]") {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"measure","weight_kg":190,"weight_basis":"measured","height_cm":160,)"
                    R"("sure":true)");
    bed.at("08:41",
           R"("by":"noor","do":"airway","asa":4,"mallampati":4,"earlier_trouble":true,"own_cpap":true)");
    bed.at("08:42", R"("by":"wren","do":"medicine","group":"glp1","name":"pen")");
    bed.at("08:43", R"("by":"pia","do":"patient","born":"1940-03-14","reason":"as on the card")");
    CHECK(bed.standing().empty());
    for (const char* card : {"review-bmi", "review-airway", "review-glp1", "review-age"}) {
        REQUIRE(item(bed, card) != nullptr);
        CHECK(item(bed, card)->owner == "ilse");
        CHECK(has(bed.prompt_codes("08:44"), card));
        bed.at("08:45", std::string{R"("by":"wren","said_by":"ilse","do":"seen","item":")"} + card + "\"");
        CHECK(item(bed, card) == nullptr);
    }
}

TEST_CASE("a stopping finding is absolute, by kind, grade and size (10-decisions G3)", "[holds]") {
    const auto stops = [](const std::string& finding) {
        auto bed = bed_with_case();
        bed.at("09:33", R"("by":"tomas","said_by":"ilse","do":"finding",)" + finding);
        return bed.standing() == Codes{"look-stopping-finding"};
    };
    CHECK(stops(R"("kind":"ulcer")"));
    CHECK(stops(R"("kind":"retained-food")"));
    CHECK(stops(R"("kind":"oesophagitis","grade":"C")"));
    CHECK_FALSE(stops(R"("kind":"oesophagitis","grade":"A")"));
    CHECK(stops(R"("kind":"hiatal-hernia","size_cm":5.5)"));
    CHECK_FALSE(stops(R"("kind":"hiatal-hernia","size_cm":5)"));
    CHECK_FALSE(stops(R"("kind":"erosions")"));
}

TEST_CASE("another stopping finding after an override holds anew (3-case principle 1)", "[holds]") {
    auto bed = bed_with_case();
    bed.at("09:33", R"("by":"tomas","said_by":"ilse","do":"finding","kind":"ulcer")");
    bed.at("09:34", R"("by":"ilse","do":"override","hold":"look-stopping-finding","reason":"benefit",)"
                    R"("words":"healed scar","pin":"123456")");
    bed.at("09:35", R"("by":"tomas","said_by":"ilse","do":"finding","kind":"erosions")");
    CHECK(bed.standing().empty());
    bed.at("09:36", R"("by":"tomas","said_by":"ilse","do":"finding","kind":"mass")");
    CHECK(bed.standing() == Codes{"look-stopping-finding"});
}

TEST_CASE("an expired device is recorded with an absolute hold (10-decisions A15, G3)", "[holds]") {
    auto bed = bed_with_case();
    bed.at("09:30", R"("by":"tomas","said_by":"ilse","do":"go")");
    scan(bed, "09:31", "(01)02001234026413(17)261124(10)DW-2641(21)1");
    REQUIRE(bed.state().device().label.has_value());
    CHECK(class_of(bed, "label-expired") == HoldClass::absolute);
}

TEST_CASE("a device on its last day is not expired (10-decisions A15)", "[holds]") {
    auto bed = bed_with_case();
    bed.at("09:30", R"("by":"tomas","said_by":"ilse","do":"go")");
    scan(bed, "09:31", "(01)02001234026413(17)261125(10)DW-2641(21)1");
    CHECK(bed.standing().empty());
}

TEST_CASE("a lot on the clinic's list, or recalled since, is an absolute hold (10-decisions G3)", "[holds]") {
    auto listed = bed_with_case();
    scan(listed, "09:31", "(01)02001234026413(17)280531(10)DW-2399(21)1");
    CHECK(class_of(listed, "label-recall") == HoldClass::absolute);
    auto later = bed_with_case();
    later.at("09:00", R"("by":"pia","do":"recall","lot":"DW-2641","note":"letter of the maker")");
    scan(later, "09:31", "(01)02001234026413(17)280531(10)DW-2641(21)1");
    CHECK(class_of(later, "label-recall") == HoldClass::absolute);
}

TEST_CASE("only resistance and a lost position hold, until it is seen again (10-decisions A18)", "[holds]") {
    for (const char* reason : {"resistance", "position-lost"}) {
        auto bed = bed_ready_to_fill();
        tap(bed, 1, 38);
        bed.at("09:39:10", std::string{R"("by":"tomas","do":"stop-filling","reason":")"} + reason + "\"");
        CHECK(class_of(bed, reason) == HoldClass::absolute);
        bed.at("09:40", R"("by":"tomas","said_by":"ilse","do":"position-seen")");
        CHECK(bed.standing().empty());
    }
    for (const char* reason : {"retching", "other"}) {
        auto bed = bed_ready_to_fill();
        bed.at("09:39:10", std::string{R"("by":"tomas","do":"stop-filling","reason":")"} + reason + "\"");
        CHECK(bed.standing().empty());
    }
}

TEST_CASE("a second resistance after an override holds anew (3-case principle 1)", "[holds]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:10", R"("by":"tomas","do":"stop-filling","reason":"resistance")");
    bed.at("09:38:30",
           R"("by":"tomas","said_by":"ilse","do":"override","hold":"resistance","reason":"benefit",)"
           R"("words":"kinked line, free now")");
    CHECK(bed.standing().empty());
    bed.at("09:38:40", R"("by":"tomas","do":"go-on-filling","pushed_meanwhile":"none")");
    tap(bed, 1, 39);
    CHECK(bed.standing().empty());
    bed.at("09:39:20", R"("by":"tomas","do":"stop-filling","reason":"resistance")");
    CHECK(bed.standing() == Codes{"resistance"});
}

TEST_CASE("a check of a pause answered no holds until it is answered yes (3-case, Stages)", "[holds]") {
    auto bed = bed_with_case();
    bed.at("09:20", R"("by":"noor","do":"pause","which":"before-sedation","present":["noor"],)"
                    R"("answers":{"rescue-ready":"no"})");
    CHECK(class_of(bed, "pause-rescue-ready") == HoldClass::relative);
    bed.at("09:21", R"("by":"noor","do":"pause","which":"before-sedation","present":["noor"],)"
                    R"("answers":{"rescue-ready":"yes"})");
    CHECK(bed.standing().empty());
}

TEST_CASE("dye beside G6PD deficiency is an absolute hold (before.md, dye)", "[holds]") {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"medicine","group":"g6pd-deficiency","name":"known")");
    CHECK(bed.standing().empty());
    bed.at("09:36", R"("by":"tomas","do":"dye","agent":"methylene blue","ml":2,"in_first_syringe":true)");
    CHECK(class_of(bed, "dye-g6pd") == HoldClass::absolute);
    bed.at("09:37", R"("by":"tomas","do":"dye","none":true)");
    CHECK(bed.standing().empty());
}

TEST_CASE("dye beside a serotonergic drug is a card for the physician (3-case, Pre-visit)", "[holds]") {
    auto bed = bed_with_case();
    bed.at("08:40", R"("by":"wren","do":"medicine","group":"serotonergic","name":"sertraline")");
    CHECK(item(bed, "review-dye") == nullptr);
    bed.at("09:36", R"("by":"tomas","do":"dye","agent":"methylene blue","ml":2,"in_first_syringe":true)");
    CHECK(item(bed, "review-dye") != nullptr);
}

TEST_CASE("a wedged balloon is a hold until sizing is said again (3-case, Size)", "[holds]") {
    auto bed = bed_ready_to_fill();
    const std::string head = R"("by":"noor","said_by":"ilse","do":"sizing","position":"body","gap":true,)"
                             R"("passes":true,"no_blanching":true,"not_wedged":)";
    bed.at("09:50", head + "false");
    CHECK(class_of(bed, "sizing-not-met") == HoldClass::relative);
    bed.at("09:51", head + "true");
    CHECK(bed.standing().empty());
}

TEST_CASE("a valve that drips holds until it is dry (8-practice 32)", "[holds]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:50", R"("by":"tomas","do":"valve-not-dry","action":"watch")");
    CHECK(class_of(bed, "valve-not-dry") == HoldClass::relative);
    bed.at("09:51", R"("by":"tomas","do":"valve-dry","seconds":30)");
    CHECK(bed.standing().empty());
}

TEST_CASE("an incomplete catheter is a hold until it is complete (3-case, Release)", "[holds]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:50", R"("by":"tomas","do":"catheter-complete","complete":false)");
    CHECK(class_of(bed, "catheter-incomplete") == HoldClass::relative);
    bed.at("09:55", R"("by":"tomas","do":"catheter-complete","complete":true)");
    CHECK(bed.standing().empty());
}
