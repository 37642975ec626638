// The room: vital signs, depth, doses, pauses, look, dye. Worked examples of before.md 6 to 11.
#include "core/rules/depth.h"
#include "core/rules/dose.h"
#include "core/rules/dye.h"
#include "core/rules/look.h"
#include "core/rules/pause.h"
#include "core/rules/vitals.h"
#include "tests/catch.h"
#include "tests/core/policy_files.h"
#include "tests/core/zones.h"

namespace brimline::rules {
namespace {

using test::at;
using test::day;
using test::house_policy;

Decimal dec(std::string_view text) { return Decimal::parse(text).value(); }

TEST_CASE("mean pressure of the worked examples, and none where the order is wrong", "[rules][vitals]") {
    // before.md 7
    const std::vector<std::array<int, 3>> table{{83, 50, 61},  {120, 80, 93},  {118, 72, 87}, {111, 67, 82},
                                                {128, 80, 96}, {146, 88, 107}, {88, 54, 65},  {98, 62, 74}};
    for (const auto& [systolic, diastolic, map] : table) {
        INFO(systolic << "/" << diastolic);
        CHECK(mean_pressure(systolic, diastolic)->text(0) == std::to_string(map));
    }
    CHECK(mean_pressure(80, 80).error().code == "map-order");
    CHECK(mean_pressure(70, 80).error().code == "map-order");
}

TEST_CASE("a mean pressure below the limit alerts and is not shown as the limit", "[rules][vitals]") {
    const auto below = *mean_pressure(88, 53);  // 64.67
    CHECK(map_alerts(below, 65));
    CHECK(map_text(below, 65) == "64.7");
    const auto exactly = *mean_pressure(95, 50);
    CHECK_FALSE(map_alerts(exactly, 65));
    CHECK(map_text(exactly, 65) == "65");
    CHECK(map_text(*mean_pressure(88, 54), 65) == "65");  // 65.33
}

TEST_CASE("single bands prompt as published, and their ends are exact", "[rules][vitals]") {
    struct Row {
        Sign sign;
        int value, band;
    };
    // before.md 7
    const std::vector<Row> table{{Sign::rr, 8, 3},         {Sign::rr, 9, 1},         {Sign::rr, 11, 1},
                                 {Sign::rr, 12, 0},        {Sign::rr, 20, 0},        {Sign::rr, 21, 2},
                                 {Sign::rr, 24, 2},        {Sign::rr, 25, 3},        {Sign::rr, 7, 3},
                                 {Sign::spo2, 91, 3},      {Sign::spo2, 92, 2},      {Sign::spo2, 93, 2},
                                 {Sign::spo2, 94, 1},      {Sign::spo2, 95, 1},      {Sign::spo2, 96, 0},
                                 {Sign::spo2, 88, 3},      {Sign::systolic, 90, 3},  {Sign::systolic, 91, 2},
                                 {Sign::systolic, 100, 2}, {Sign::systolic, 101, 1}, {Sign::systolic, 110, 1},
                                 {Sign::systolic, 111, 0}, {Sign::systolic, 219, 0}, {Sign::systolic, 220, 3},
                                 {Sign::hr, 40, 3},        {Sign::hr, 41, 1},        {Sign::hr, 50, 1},
                                 {Sign::hr, 51, 0},        {Sign::hr, 90, 0},        {Sign::hr, 91, 1},
                                 {Sign::hr, 110, 1},       {Sign::hr, 111, 2},       {Sign::hr, 120, 2},
                                 {Sign::hr, 130, 2},       {Sign::hr, 131, 3},       {Sign::hr, 0, 3}};
    for (const auto& row : table) {
        INFO(row.value);
        CHECK(alert_band(row.sign, row.value) == row.band);
    }
    CHECK(band_prompt(3, 2) == Priority::high);
    CHECK(band_prompt(2, 2) == Priority::medium);
    CHECK(band_prompt(1, 2) == Priority::none);
    CHECK(band_prompt(1, 1) == Priority::medium);
    CHECK(band_prompt(2, 3) == Priority::none);
    CHECK(band_prompt(0, 1) == Priority::none);
}

TEST_CASE("exactly a quarter away from baseline is not yet a change", "[rules][vitals]") {
    CHECK_FALSE(baseline_changed(120, 90, 25));  // before.md 7
    CHECK(baseline_changed(120, 89, 25));
    CHECK(baseline_changed(120, 151, 25));
    CHECK_FALSE(baseline_changed(120, 150, 25));
}

TEST_CASE("end-tidal CO2 prompts high or far from baseline, and is missed when expected", "[rules][vitals]") {
    VitalsPolicy p = house_policy().vitals;
    CHECK(etco2_alerts(50, std::nullopt, p));
    CHECK_FALSE(etco2_alerts(49, std::nullopt, p));
    CHECK(etco2_alerts(30, 40, p));
    CHECK_FALSE(etco2_alerts(31, 40, p));
    CHECK(etco2_missed(1, false, false, p));
    CHECK(etco2_missed(5, true, false, p));
    CHECK_FALSE(etco2_missed(2, false, false, p));
    CHECK_FALSE(etco2_missed(1, true, true, p));
    p.etco2_expected = "moderate";
    CHECK(etco2_missed(4, false, false, p));
    CHECK_FALSE(etco2_missed(5, false, false, p));
    p.etco2_expected = "never";
    CHECK_FALSE(etco2_missed(0, true, false, p));
}

TEST_CASE("the next set comes due from the last set or the start, and prompts by the second",
          "[rules][vitals]") {
    const auto start = at("2026-11-25T09:30:00Z");
    const VitalsPolicy& p = house_policy().vitals;
    const auto due = vitals_due(start, std::nullopt, p.interval);
    CHECK(due == at("2026-11-25T09:35:00Z"));
    const auto state = [&](const char* now) {
        return name_of(vitals_state(due, at(now), p.interval, p.lead));
    };
    // before.md 7
    CHECK(state("2026-11-25T09:34:29Z") == "none");
    CHECK(state("2026-11-25T09:34:30Z") == "soon");
    CHECK(state("2026-11-25T09:34:59Z") == "soon");
    CHECK(state("2026-11-25T09:35:00Z") == "overdue");
    CHECK(state("2026-11-25T09:39:59Z") == "overdue");
    CHECK(state("2026-11-25T09:40:00Z") == "overdue-high");
    CHECK(vitals_due(start, at("2026-11-25T09:33:00Z"), p.interval) == at("2026-11-25T09:38:00Z"));
    CHECK(vitals_due(start, at("2026-11-25T09:29:00Z"), p.interval) == due);  // before the start: not counted
    CHECK(priority_of(DueState::soon) == Priority::low);
    CHECK(priority_of(DueState::overdue_high) == Priority::high);
}

TEST_CASE("depth, its words and its prompt", "[rules][depth]") {
    const std::vector<std::string_view> names{
        "general-anaesthesia", "deep", "moderate", "moderate", "moderate", "minimal"};
    for (int step = 0; step <= 5; ++step) {
        CHECK(name_of(*depth_of(step)) == names[static_cast<std::size_t>(step)]);
        CHECK(moaas_worded(moaas_words(step)) == step);
    }
    CHECK(depth_of(6).error().code == "out-of-range");
    CHECK(depth_of(-1).error().code == "out-of-range");
    CHECK_FALSE(moaas_worded("asleep").has_value());
    CHECK(depth_prompt(0, 1) == Priority::high);
    CHECK(depth_prompt(1, 1) == Priority::medium);
    CHECK(depth_prompt(2, 1) == Priority::none);
    CHECK(depth_prompt(2, 2) == Priority::medium);
    CHECK(depth_prompt(1, 0) == Priority::none);
}

TEST_CASE("airway events are classed by depth and time, ends exact", "[rules][depth]") {
    using namespace std::chrono_literals;
    // before.md 8
    CHECK(desaturation(89, 20s) == Desaturation::minor);
    CHECK(desaturation(85, 75s) == Desaturation::prolonged);
    CHECK(desaturation(72, 5s) == Desaturation::severe);
    CHECK(desaturation(90, 300s) == Desaturation::minor);
    CHECK(desaturation(92, 300s) == Desaturation::none);
    CHECK(desaturation(85, 60s) == Desaturation::minor);
    CHECK(desaturation(85, 60s + 1us) == Desaturation::prolonged);
    CHECK(desaturation(75, 61s) == Desaturation::prolonged);
    CHECK(desaturation(74, 61s) == Desaturation::severe);
    CHECK(desaturation(91, 40s) == Desaturation::none);  // 8-practice.md 5 A
    CHECK_FALSE(apnoea_prolonged(60s));
    CHECK(apnoea_prolonged(61s));
}

TEST_CASE("totals, per kg and volumes of the worked doses", "[rules][dose]") {
    struct Row {
        std::vector<const char*> doses;
        const char* unit;
        const char* per_ml;
        int weight_tenths;
        const char* total;
        const char* per_kg;
        const char* volume;
    };
    // before.md 9 and 8-practice.md 5
    const std::vector<Row> table{{{"40", "20", "20"}, "mg", "10", 964, "80", "0.83", "8.00"},
                                 {{"2.5", "1.0"}, "mg", "1", 964, "3.5", "0.036", "3.50"},
                                 {{"50"}, "ug", "50", 964, "50", "0.52", "1.00"},
                                 {{"40", "20", "20", "20"}, "mg", "10", 964, "100", "1.04", "10.00"},
                                 {{"50", "30", "20", "30", "20"}, "mg", "10", 1182, "150", "1.27", "15.00"},
                                 {{"50"}, "ug", "50", 1182, "50", "0.42", "1.00"},
                                 {{"4"}, "mg", "2", 964, "4", "0.041", "2.00"},
                                 {{"150", "30", "30"}, "mg", "10", 713, "210", "2.95", "21.00"},
                                 {{"0.2"}, "mg", "0.1", 964, "0.2", "0.002", "2.00"}};
    for (const auto& row : table) {
        INFO(row.total << " " << row.unit);
        Micrograms sum;
        for (const auto* dose : row.doses) {
            sum += *micrograms(dec(dose), row.unit);
        }
        CHECK(amount_in(sum, row.unit).text() == row.total);
        CHECK(per_kg_text(per_kg(sum, Kilograms::of_tenths(row.weight_tenths), row.unit)) == row.per_kg);
        CHECK(dose_volume(amount_in(sum, row.unit), dec(row.per_ml)).text(2) == row.volume);
    }
    CHECK(micrograms(dec("0.0001"), "mg").error().code == "out-of-range");
    CHECK(micrograms(dec("12.5"), "ug").error().code == "out-of-range");
    CHECK(micrograms(dec("0"), "mg").error().code == "out-of-range");
    CHECK(micrograms(dec("1"), "g").error().code == "dose-unit");
    CHECK(per_kg_text(Fraction{1, 10}) == "0.10");
    CHECK(per_kg_text(Fraction{99'999, 1'000'000}) == "0.100");
}

TEST_CASE("a single dose outside its span is asked, the ends are not", "[rules][dose]") {
    const Drug& propofol = *house_policy().drug("propofol");
    const auto asked = [&](std::string_view amount) {
        return dose_asked(dec(amount), propofol.usual_low, propofol.usual_high);
    };
    CHECK(asked("200"));  // before.md 9
    CHECK_FALSE(asked("10"));
    CHECK_FALSE(asked("100"));
    CHECK(asked("100.1"));
    CHECK(asked("9.9"));
    CHECK_FALSE(dose_asked(dec("1000"), std::nullopt, std::nullopt));
}

TEST_CASE("totals above their limit remind once, equal is not above", "[rules][dose]") {
    const Policy& p = house_policy();
    const auto reminds = [&](const char* id, std::string_view total, int age,
                             std::optional<Kilograms> weight = {}) {
        return dose_reminds(dec(total), dose_limit(*p.drug(id), age, weight, p.dose));
    };
    CHECK_FALSE(reminds("midazolam", "3.5", 61));  // before.md 9
    CHECK(reminds("midazolam", "3.6", 60));
    CHECK_FALSE(reminds("midazolam", "3.6", 59));
    CHECK_FALSE(reminds("midazolam", "7.5", 59));
    CHECK(reminds("midazolam", "7.6", 59));
    CHECK_FALSE(reminds("flumazenil", "1", 40));
    CHECK(reminds("flumazenil", "1.1", 40));
    CHECK_FALSE(reminds("propofol", "5000", 40));
    const auto lidocaine = [&](int tenths) {
        return dose_limit(*p.drug("lidocaine"), 40, Kilograms::of_tenths(tenths), p.dose)->rounded(1).text();
    };
    CHECK(lidocaine(400) == "180");
    CHECK(lidocaine(444) == "199.8");
    CHECK(lidocaine(964) == "200");
    CHECK(reminds("lidocaine", "180.1", 40, 40_kg));
    CHECK_FALSE(reminds("lidocaine", "180", 40, 40_kg));
    CHECK(dose_limit(*p.drug("lidocaine"), 40, std::nullopt, p.dose) == Fraction{Decimal::of(200)});
}

TEST_CASE("a pause is complete only with every answer good and every role there", "[rules][pause]") {
    const std::vector<Check> checks{{"identity", "w", "yes", "stop", {}},
                                    {"fasting", "w", "yes", "absolute", {}},
                                    {"pulse-oximeter", "w", "yes", "absolute", {}}};
    using A = PauseAnswer;
    using Answers = std::map<std::string, A, std::less<>>;
    const Answers yes{{"identity", A::yes}, {"fasting", A::yes}, {"pulse-oximeter", A::yes}};
    CHECK(judge_pause(checks, yes, pause_roles) == PauseOutcome{true, {}, {}, {}});
    // before.md 6
    CHECK(judge_pause(checks, yes, {Role::assistant, Role::physician}) ==
          PauseOutcome{false, {}, {}, {Role::sedation_provider}});
    CHECK(judge_pause(checks, Answers{{"identity", A::yes}, {"fasting", A::yes}}, pause_roles) ==
          PauseOutcome{false, {"pulse-oximeter"}, {}, {}});
    Answers no = yes;
    no["fasting"] = A::no;
    CHECK(judge_pause(checks, no, pause_roles) == PauseOutcome{false, {}, {"fasting"}, {}});
    no["fasting"] = A::not_applicable;
    CHECK(judge_pause(checks, no, pause_roles) == PauseOutcome{false, {"fasting"}, {}, {}});
    const std::vector<std::string> allowed{"fasting"};
    CHECK(judge_pause(checks, no, pause_roles, allowed).complete);
    CHECK(judge_pause({}, {}, pause_roles).complete);
}

TEST_CASE("what stops at Look and what is looked at again", "[rules][look]") {
    CHECK_FALSE(hernia_stops(dec("3.0"), dec("3.0")));  // before.md 10
    CHECK(hernia_stops(dec("3.1"), dec("3.0")));
    CHECK_FALSE(hernia_stops(dec("2.0"), dec("5.0")));
    const LookPolicy& p = house_policy().look;
    using Ids = std::vector<std::string>;
    const auto look = [&](Seen seen) { return judge_look(std::vector{std::move(seen)}, p); };
    CHECK(look({"retained-food", {}, {}}) == LookOutcome{Ids{"retained-food"}, {}, {}});
    CHECK(look({"ulcer", {}, {}}).stop());
    CHECK(look({"erosions", {}, {}}) == LookOutcome{{}, Ids{"erosions"}, {}});
    CHECK(look({"oesophagitis", "C", {}}).stop());
    CHECK(look({"oesophagitis", "B", {}}) == LookOutcome{{}, Ids{"oesophagitis"}, {}});
    CHECK(look({"oesophagitis", {}, {}}) == LookOutcome{{}, Ids{"oesophagitis"}, Ids{"oesophagitis"}});
    CHECK(look({"hiatal-hernia", {}, dec("5.1")}).stop());
    CHECK_FALSE(look({"hiatal-hernia", {}, dec("5.0")}).stop());
    CHECK(look({"hiatal-hernia", {}, {}}).unmeasured == Ids{"hiatal-hernia"});
    CHECK(look({"other", {}, {}}) == LookOutcome{});
}

TEST_CASE("dye waits for serotonergic medicines and never holds the case", "[rules][dye]") {
    const MedicinePolicy& p = house_policy().medicine;
    const auto on = day("2026-11-25");
    // before.md 11
    CHECK(dye_caution({false, day("2026-11-11")}, on, p) == DyeCaution{14, 14, false});
    CHECK(dye_caution({false, day("2026-11-12")}, on, p) == DyeCaution{13, 14, true});
    CHECK(dye_caution({true, day("2026-10-21")}, on, p) == DyeCaution{35, 35, false});
    CHECK(dye_caution({true, day("2026-10-22")}, on, p) == DyeCaution{34, 35, true});
    CHECK(dye_caution({false, std::nullopt}, on, p) == DyeCaution{std::nullopt, 14, true});
    CHECK(dye_held(true, false));
    CHECK(dye_held(false, true));
    CHECK_FALSE(dye_held(false, false));
    CHECK(dye_mg(10_mL, Decimal::of(10)) == Fraction{Decimal::of(100)});
    CHECK(per_kg_text(dye_mg_per_kg(10_mL, Decimal::of(10), Kilograms::of_tenths(964))) == "1.04");
}

}  // namespace
}  // namespace brimline::rules
