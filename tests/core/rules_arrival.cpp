// Arrival: fasting, GLP-1, body measures, airway, screen. Worked examples of before.md 1 to 5 and after.md 6.
#include "core/rules/airway.h"
#include "core/rules/body.h"
#include "core/rules/fasting.h"
#include "core/rules/glp1.h"
#include "core/rules/screen.h"
#include "tests/catch.h"
#include "tests/core/policy_files.h"
#include "tests/core/zones.h"

namespace brimline::rules {
namespace {

using test::at;
using test::berlin;
using test::day;
using test::house_policy;
using test::london;
using test::wall;

Decimal dec(std::string_view text) { return Decimal::parse(text).value(); }
Kilograms kg(std::string_view text) { return Kilograms::of_tenths(dec(text).whole(10).value()); }
Centimetres cm(std::string_view text) { return Centimetres::of_tenths(dec(text).whole(10).value()); }

TEST_CASE("the worked fasts of before.md 1 come out", "[rules][fasting]") {
    struct Row {
        Intake kind;
        const char* last;
        const char* judged;
        const Zone& zone;
        std::int64_t elapsed;
        bool met;
        const char* earliest;
    };
    const std::vector<Row> table{{Intake::clear_fluid, "2026-11-25 08:10", "2026-11-25 09:30", london(), 80,
                                  false, "2026-11-25T10:10:00Z"},
                                 {Intake::clear_fluid, "2026-11-25 07:30", "2026-11-25 09:30", london(), 120,
                                  true, "2026-11-25T09:30:00Z"},
                                 {Intake::clear_fluid, "2026-11-25 07:31", "2026-11-25 09:30", london(), 119,
                                  false, "2026-11-25T09:31:00Z"},
                                 {Intake::fatty_meal, "2026-11-24 20:15", "2026-11-25 09:30", london(), 795,
                                  true, "2026-11-25T04:15:00Z"},
                                 {Intake::fatty_meal, "2026-10-24 22:00", "2026-10-25 05:00", london(), 480,
                                  true, "2026-10-25T05:00:00Z"},
                                 {Intake::fatty_meal, "2026-03-28 22:00", "2026-03-29 06:30", london(), 450,
                                  false, "2026-03-29T06:00:00Z"},
                                 {Intake::clear_fluid, "2026-10-25 02:15", "2026-10-25 04:10", berlin(), 115,
                                  false, "2026-10-25T03:15:00Z"}};
    for (const auto& row : table) {
        INFO(row.last << " to " << row.judged);
        const auto last = intake_moment(wall(row.last), row.zone);
        const auto judged = intake_moment(wall(row.judged), row.zone);
        REQUIRE(last.has_value());
        const Fast fast = judge_fast(*last, *judged, fasting_required(row.kind, house_policy().fasting));
        CHECK(fast == Fast{row.elapsed, row.met, at(row.earliest)});
    }
}

TEST_CASE("a time that a clock change eats or doubles is refused or asked", "[rules][fasting]") {
    const auto gone = intake_moment(wall("2026-03-29 01:30"), london());
    REQUIRE_FALSE(gone.has_value());
    CHECK(gone.error().code == "no-such-local-time");
    CHECK(occurs_twice(wall("2026-10-25 02:15"), berlin()));
    CHECK_FALSE(occurs_twice(wall("2026-10-25 03:15"), berlin()));
    CHECK(intake_moment(wall("2026-10-25 02:15"), berlin(), true) == at("2026-10-25T00:15:00Z"));
    CHECK(intake_moment(wall("2026-10-25 02:15"), berlin()) == at("2026-10-25T01:15:00Z"));
}

TEST_CASE("each kind has its own wait and an unknown meal counts as fatty", "[rules][fasting]") {
    const FastingPolicy& p = house_policy().fasting;
    const std::vector<std::pair<Intake, int>> table{
        {Intake::clear_fluid, 120}, {Intake::breast_milk, 240}, {Intake::infant_formula, 360},
        {Intake::milk, 360},        {Intake::full_liquid, 360}, {Intake::light_meal, 360},
        {Intake::fatty_meal, 480},  {Intake::meal_unknown, 480}};
    for (const auto& [kind, wait] : table) {
        CHECK(fasting_required(kind, p) == minutes{wait});
    }
    CHECK(drink_with_milk(15, p) == Intake::milk);
    CHECK(drink_with_milk(0, p) == Intake::clear_fluid);
    auto lax = p;
    lax.milk_in_tea_percent = 20;
    CHECK(drink_with_milk(20, lax) == Intake::clear_fluid);
    CHECK(drink_with_milk(21, lax) == Intake::milk);
    CHECK_FALSE(gum_delays(true));
    CHECK(gum_delays(false));
}

TEST_CASE("intakes later than now are refused and very old ones asked once", "[rules][fasting]") {
    const FastingPolicy& p = house_policy().fasting;
    const auto now = at("2026-11-25T09:00:00Z");
    CHECK(intake_asked(at("2026-11-25T09:00:01Z"), now, p).error().code == "in-the-future");
    CHECK(intake_asked(now, now, p) == false);
    CHECK(intake_asked(at("2026-11-22T09:00:00Z"), now, p) == false);  // 72 h
    CHECK(intake_asked(at("2026-11-22T08:59:00Z"), now, p) == true);
}

TEST_CASE("all rules are met at the latest of the earliest, unless one was not answered",
          "[rules][fasting]") {
    const auto judged = at("2026-11-25T09:30:00Z");
    const FastingItem water{at("2026-11-25T08:10:00Z"), minutes{120}};
    const FastingItem solids{at("2026-11-24T20:15:00Z"), minutes{480}};
    const FastingItem none{std::nullopt, minutes{360}, true};
    const FastingItem open{std::nullopt, minutes{360}};
    const auto both = combine_fasts(std::vector{water, solids, none}, judged);
    CHECK(both.met == std::vector<bool>{false, true, true});
    CHECK_FALSE(both.all_met);
    CHECK(both.all_from == at("2026-11-25T10:10:00Z"));
    CHECK(both.missing.empty());
    const auto missing = combine_fasts(std::vector{solids, open}, judged);
    CHECK_FALSE(missing.all_met);
    CHECK(missing.missing == std::vector<std::size_t>{1});
    CHECK_FALSE(missing.all_from.has_value());
    CHECK(combine_fasts(std::vector{none}, judged).all_met);
    CHECK(fasting_reference(judged, at("2026-11-25T09:41:00Z")) ==
          at("2026-11-25T09:41:00Z"));  // before.md 16.1
    CHECK(fasting_reference(judged, at("2026-11-25T08:00:00Z")) == judged);
}

TEST_CASE("the liquid day and the hold of GLP-1 drugs", "[rules][glp1]") {
    const FastingPolicy& p = house_policy().fasting;
    // before.md 2
    CHECK(fasting_required_on_glp1(Intake::fatty_meal, {}, p) == minutes{1440});
    CHECK(fasting_required_on_glp1(Intake::clear_fluid, {}, p) == minutes{120});
    const auto last = at("2026-11-24T11:00:00Z");
    CHECK(judge_fast(last, at("2026-11-25T10:30:00Z"), minutes{1440}) ==
          Fast{1410, false, at("2026-11-25T11:00:00Z")});
    CHECK(judge_fast(last, at("2026-11-25T11:00:00Z"), minutes{1440}).met);
    auto risk_only = p;
    risk_only.glp1_apply = "elevated-risk";
    CHECK(fasting_required_on_glp1(Intake::light_meal, {}, risk_only) == minutes{360});
    CHECK(fasting_required_on_glp1(Intake::light_meal, {.weekly = true}, risk_only) == minutes{1440});
    CHECK(with_liquid_day(minutes{480}, minutes{1440}, false) == minutes{480});
    CHECK(glp1_hold(day("2026-11-18"), day("2026-11-25"), 7) == Glp1Hold{7, true});
    CHECK(glp1_hold(day("2026-11-19"), day("2026-11-25"), 7) == Glp1Hold{6, false});
    CHECK(glp1_hold(day("2026-11-25"), day("2026-11-25"), 1) == Glp1Hold{0, false});
    CHECK(glp1_hold(day("2026-11-25"), day("2026-11-25"), 0).met);
}

TEST_CASE("a removal waits for the latest of three, and for what is not known", "[rules][fasting]") {
    const FastingPolicy& p = house_policy().fasting;
    // after.md 6
    CHECK(removal_ready(at("2027-05-21T19:00:00Z"), at("2027-05-24T07:00:00Z"), at("2027-05-24T20:00:00Z"),
                        p) == at("2027-05-25T08:00:00Z"));
    CHECK(removal_ready(at("2027-05-22T13:00:00Z"), at("2027-05-24T07:00:00Z"), at("2027-05-24T20:00:00Z"),
                        p) == at("2027-05-25T13:00:00Z"));
    CHECK_FALSE(
        removal_ready(at("2027-05-21T19:00:00Z"), std::nullopt, at("2027-05-24T20:00:00Z"), p).has_value());
}

TEST_CASE("BMI is classed on the exact value and shown without contradiction", "[rules][body]") {
    struct Row {
        const char* weight;
        const char* height;
        const char* shown;
        const char* cls;
    };
    // before.md 3
    const std::vector<Row> table{
        {"68", "165", "24.98", "normal"},       {"70", "175", "22.9", "normal"},
        {"96.4", "167", "34.6", "obesity-1"},   {"97.2", "180", "30.0", "obesity-1"},
        {"97.1", "180", "29.97", "overweight"}, {"113.4", "180", "35.0", "obesity-2"},
        {"113.3", "180", "34.97", "obesity-1"}, {"129.6", "180", "40.0", "obesity-3"},
        {"129.5", "180", "39.97", "obesity-2"}, {"118.2", "178", "37.3", "obesity-2"},
        {"88.9", "162", "33.9", "obesity-1"},   {"71.3", "165", "26.2", "overweight"},
        {"50", "175", "16.3", "underweight"},   {"56.6", "175", "18.48", "underweight"}};
    for (const auto& row : table) {
        INFO(row.weight << " kg, " << row.height << " cm");
        const Fraction value = bmi(kg(row.weight), cm(row.height));
        CHECK(bmi_text(value) == row.shown);
        CHECK(name_of(bmi_class(value)) == row.cls);
    }
    CHECK(bmi_text(Fraction{2'499'999, 100'000}) == "24.99");  // two decimals would say 25.00 as well: cut
    const std::array above{Decimal::of(40)};
    CHECK(bmi_text(Fraction{4003, 100}) == "40.0");
    CHECK(bmi_text(Fraction{4003, 100}, above) == "40.03");
    CHECK(bmi(kg("129.6"), cm("180")) == Fraction{Decimal::of(40)});
}

TEST_CASE("ideal and excess weight, units and ages", "[rules][body]") {
    const BodyPolicy& p = house_policy().body;
    // before.md 3
    CHECK(ideal_weight(cm("167"), p.ideal_bmi) == Fraction{dec("69.7225")});
    CHECK(ideal_weight(cm("167"), p.ideal_bmi).text(1) == "69.7");
    CHECK(excess_weight(kg("96.4"), cm("167"), p.ideal_bmi) == Fraction{dec("26.6775")});
    CHECK(excess_weight(kg("96.4"), cm("167"), p.ideal_bmi).text(1) == "26.7");
    CHECK(excess_weight(kg("60"), cm("167"), p.ideal_bmi).text(1) == "0.0");
    CHECK(ideal_weight(cm("178"), p.ideal_bmi).text(1) == "79.2");  // 8-practice.md 5 B
    CHECK(ideal_weight(cm("170"), dec("24.9")).text(3) == "71.961");
    CHECK(kg_from_lb(Decimal::of(150)).text(1) == "68.0");
    CHECK(kg_from_lb(dec("212.5")).text(1) == "96.4");
    CHECK(lb_from_kg(dec("96.4")).text(1) == "212.5");
    CHECK(cm_from_inches({}, Decimal::of(65)) == Fraction{dec("165.1")});
    CHECK(cm_from_inches(Decimal::of(5), Decimal::of(5)) == Fraction{dec("165.1")});
    CHECK(kpa_from_mmhg(Decimal::of(45)).text(1) == "6.0");  // before.md 7
    CHECK(age_checked(day("1986-03-14"), day("2026-11-25")) == 40);
    CHECK(age_checked(day("2090-01-01"), day("2026-11-25")).error().code == "born-in-future");
    CHECK(age_checked(day("1906-11-25"), day("2026-11-25")) == 120);
    CHECK(age_checked(day("1906-11-24"), day("2026-11-25")).error().code == "born-too-long-ago");
}

TEST_CASE("what is typed is accepted, asked or refused", "[rules][body]") {
    const BodyPolicy& p = house_policy().body;
    CHECK(judge_typed(Decimal::of(9640), p.weight_kg) == Typed::refuse);  // before.md 3
    CHECK(judge_typed(dec("96.4"), p.weight_kg) == Typed::accept);
    CHECK(judge_typed(dec("45"), p.weight_kg) == Typed::accept);
    CHECK(judge_typed(dec("44.9"), p.weight_kg) == Typed::ask);
    CHECK(judge_typed(dec("350"), p.weight_kg) == Typed::ask);
    CHECK(judge_typed(dec("350.1"), p.weight_kg) == Typed::refuse);
    CHECK(judge_typed(dec("1.67"), p.height_cm) == Typed::refuse);
    CHECK(height_suggested(dec("1.67"), p.height_cm) == Decimal::of(167));
    CHECK(height_suggested(dec("1.20"), p.height_cm) == Decimal::of(120));
    CHECK_FALSE(height_suggested(dec("1.19"), p.height_cm).has_value());
    CHECK_FALSE(height_suggested(dec("167"), p.height_cm).has_value());
    CHECK_FALSE(height_suggested(dec("2.31"), p.height_cm).has_value());
    CHECK(name_of(Typed::ask) == "ask");
}

TEST_CASE("BMI and age outside the policy are shown to the physician, the limits themselves are not",
          "[rules][body]") {
    const BodyPolicy& p = house_policy().body;
    CHECK_FALSE(bmi_reviewed(Fraction{Decimal::of(30)}, p));
    CHECK_FALSE(bmi_reviewed(Fraction{Decimal::of(40)}, p));
    CHECK(bmi_reviewed(Fraction{29'999, 1000}, p));
    CHECK(bmi_reviewed(Fraction{40'001, 1000}, p));
    CHECK(age_reviewed(17, p));
    CHECK_FALSE(age_reviewed(18, p));
    CHECK_FALSE(age_reviewed(65, p));
    CHECK(age_reviewed(66, p));
}

TEST_CASE("the worked sleep apnoea scores of before.md 4 come out", "[rules][airway]") {
    // order: snores tired observed pressure bmi age neck male
    const auto answers = [](const std::string& bits) {
        const auto bit = [&](std::size_t i) {
            return bits[i] == '?' ? std::nullopt : std::optional<bool>{bits[i] == '1'};
        };
        return StopBang{bit(0), bit(1), bit(2), bit(3), bit(4), bit(5), bit(6), bit(7)};
    };
    struct Row {
        const char* bits;
        StopBangScore score;
        StopBangScore one_step;
    };
    using R = ApnoeaRisk;
    const std::vector<Row> table{{"11010000", {3, 3, R::intermediate}, {3, 3, R::intermediate}},
                                 {"11000010", {3, 3, R::high}, {3, 3, R::intermediate}},
                                 {"00000111", {3, 3, R::intermediate}, {3, 3, R::intermediate}},
                                 {"11100100", {4, 4, R::intermediate}, {4, 4, R::intermediate}},
                                 {"11110100", {5, 5, R::high}, {5, 5, R::high}},
                                 {"10000001", {2, 2, R::low}, {2, 2, R::low}},
                                 {"00000000", {0, 0, R::low}, {0, 0, R::low}},
                                 {"11?10000", {3, 4, R::incomplete}, {3, 4, R::incomplete}},
                                 {"????????", {0, 8, R::incomplete}, {0, 8, R::incomplete}}};
    for (const auto& row : table) {
        INFO(row.bits);
        CHECK(stop_bang(answers(row.bits), true) == row.score);
        CHECK(stop_bang(answers(row.bits), false) == row.one_step);
    }
    CHECK_FALSE(stop_bang_bmi(Fraction{3497, 100}));
    CHECK_FALSE(stop_bang_bmi(Fraction{Decimal::of(35)}));
    CHECK(stop_bang_bmi(Fraction{3501, 100}));
    CHECK_FALSE(stop_bang_age(50));
    CHECK(stop_bang_age(51));
    CHECK_FALSE(stop_bang_neck(Decimal::of(40), house_policy().airway));
    CHECK(stop_bang_neck(dec("40.1"), house_policy().airway));
}

TEST_CASE("ASA against BMI, Mallampati and the airway's review", "[rules][airway]") {
    const AirwayPolicy& p = house_policy().airway;
    CHECK(asa_expected(Fraction{2999, 100}) == 1);
    CHECK(asa_expected(Fraction{Decimal::of(30)}) == 2);
    CHECK(asa_expected(Fraction{3999, 100}) == 2);
    CHECK(asa_expected(Fraction{Decimal::of(40)}) == 3);
    CHECK(asa_asked(1, Fraction{Decimal::of(30)}));
    CHECK_FALSE(asa_asked(2, Fraction{Decimal::of(30)}));
    CHECK(asa_holds(4, p));
    CHECK_FALSE(asa_holds(3, p));
    CHECK(airway_reviewed(3, 1, ApnoeaRisk::low, false, p));
    CHECK(airway_reviewed(2, 3, ApnoeaRisk::low, false, p));
    CHECK(airway_reviewed(2, 2, ApnoeaRisk::high, false, p));
    CHECK(airway_reviewed(2, 2, ApnoeaRisk::intermediate, true, p));
    CHECK_FALSE(airway_reviewed(2, 2, ApnoeaRisk::intermediate, false, p));
    CHECK_FALSE(airway_reviewed(std::nullopt, std::nullopt, ApnoeaRisk::incomplete, false, p));
    CHECK(mallampati({.pillars = true, .fauces = true, .whole_uvula = true, .soft_palate = true}) == 1);
    CHECK(mallampati({.fauces = true, .whole_uvula = true, .soft_palate = true}) == 2);
    CHECK(mallampati({.base_of_uvula = true, .soft_palate = true}) == 3);
    CHECK(mallampati({}) == 4);
}

TEST_CASE("the screen holds, reviews, or is incomplete, and no answer is never no", "[rules][screen]") {
    std::vector<ScreenItem> items(14, ScreenItem{true, false});
    CHECK(judge_screen(items) == ScreenOutcome{false, false, 0});
    items[8].bad = std::nullopt;  // before.md 5: bleeding disorder unanswered
    CHECK(judge_screen(items) == ScreenOutcome{false, false, 1});
    CHECK_FALSE(judge_screen(items).complete());
    items[12] = {false, true};
    CHECK(judge_screen(items) == ScreenOutcome{false, true, 1});
    items[0].bad = true;
    CHECK(judge_screen(items) == ScreenOutcome{true, false, 1});
}

TEST_CASE("a medicine is cleared at exactly its window", "[rules][screen]") {
    const int window = house_policy().medicine.window_days;
    // before.md 5
    CHECK(medicine_window(day("2026-11-22"), day("2026-11-25"), window) == MedicineWindow{3, true});
    CHECK(medicine_window(day("2026-11-18"), day("2026-11-25"), window) == MedicineWindow{7, false});
    CHECK(medicine_window(day("2026-11-19"), day("2026-11-25"), window) == MedicineWindow{6, true});
}

TEST_CASE("a pregnancy test is fresh and negative, or does not apply", "[rules][screen]") {
    using T = PregnancyTest;
    const int most = house_policy().medicine.pregnancy_test_h;
    CHECK(judge_pregnancy(true, T::negative, 24, most) == PregnancyOutcome{true, false, false});
    CHECK(judge_pregnancy(true, T::negative, 25, most) == PregnancyOutcome{false, false, false});
    CHECK(judge_pregnancy(true, T::positive, 1, most) == PregnancyOutcome{false, true, false});
    CHECK(judge_pregnancy(true, T::declined, 0, most) == PregnancyOutcome{false, false, true});
    CHECK(judge_pregnancy(true, T::not_answered, 0, most) == PregnancyOutcome{false, false, false});
    CHECK(judge_pregnancy(false, T::not_answered, 0, most).satisfied);
    CHECK(judge_pregnancy(true, T::not_applicable, 0, most).satisfied);
}

}  // namespace
}  // namespace brimline::rules
