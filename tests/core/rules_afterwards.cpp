// Recovery, discharge, dates, register, removal, outcomes. Worked examples of after.md 2 to 9.
#include "core/rules/dates.h"
#include "core/rules/discharge.h"
#include "core/rules/outcome.h"
#include "core/rules/padss.h"
#include "core/rules/recovery.h"
#include "core/rules/removal.h"
#include "tests/catch.h"
#include "tests/core/policy_files.h"
#include "tests/core/zones.h"

namespace brimline::rules {
namespace {

using test::at;
using test::day;
using test::demo_policy;
using test::house_policy;
using test::london;

constexpr AldreteItems nine{2, 2, 2, 1, 2};
constexpr AldreteItems full{2, 2, 2, 2, 2};
constexpr AldreteItems eight{2, 2, 1, 1, 2};

Instant minute(int n) { return Instant::of_us(0) + minutes{n}; }
Decimal dec(std::string_view text) { return Decimal::parse(text).value(); }
Kilograms kg(std::string_view text) { return Kilograms::of_tenths(dec(text).whole(10).value()); }
Centimetres cm(int whole) { return Centimetres::of_tenths(10 * whole); }
Millilitres ml(std::string_view text) { return Millilitres::of_tenths(dec(text).whole(10).value()); }

TEST_CASE("parts of the recovery score are proposed by the exact rule", "[rules][recovery]") {
    // after.md 2.1
    const std::vector<std::pair<int, int>> pressure{{104, 2}, {103, 1}, {156, 2}, {157, 1},
                                                    {66, 1},  {65, 0},  {195, 0}};
    for (const auto& [now, points] : pressure) {
        INFO(now);
        CHECK(aldrete_circulation(130, now) == points);
    }
    CHECK_FALSE(aldrete_circulation(std::nullopt, 120).has_value());
    CHECK(aldrete_oxygen(93, false) == 2);
    CHECK(aldrete_oxygen(92, false) == 1);
    CHECK(aldrete_oxygen(91, false) == 1);
    CHECK(aldrete_oxygen(90, false) == 0);
    CHECK(aldrete_oxygen(91, true) == 1);
    CHECK(aldrete_oxygen(90, true) == 0);
    CHECK(aldrete_oxygen(97, true) == 1);
    CHECK(aldrete_oxygen(97, true, true) == 2);
    const std::array<int, 5> activity{0, 0, 1, 1, 2};
    for (int limbs = 0; limbs <= 4; ++limbs) {
        CHECK(aldrete_activity(limbs) == activity[static_cast<std::size_t>(limbs)]);
    }
}

TEST_CASE("a score qualifies by total and floor, and has none with an item open", "[rules][recovery]") {
    CHECK(aldrete_total(nine) == 9);
    CHECK(aldrete_qualifies(nine, 9, 1));
    CHECK_FALSE(aldrete_qualifies({2, 2, 2, 0, 2}, 8, 1));
    CHECK(aldrete_qualifies({2, 1, 2, 1, 2}, 8, 1));
    CHECK(aldrete_total(AldreteAnswers{2, 2, std::nullopt, 2, 2}) == std::nullopt);
    CHECK(aldrete_total(AldreteAnswers{2, 2, 0, 2, 2}) == 8);
    const auto trend = [](std::vector<int> totals) { return name_of(aldrete_trend(totals)); };
    CHECK(trend({8, 10}) == "rising");
    CHECK(trend({8, 8}) == "steady");
    CHECK(trend({9, 10, 8}) == "falling");
    CHECK(trend({8}) == "first");
    CHECK(trend({}) == "none");
    const RecoveryPolicy& p = house_policy().recovery;
    CHECK(aldrete_drop(std::vector<AldreteScore>{{minute(0), full}, {minute(9), eight}}, p) ==
          Priority::high);
    CHECK(aldrete_drop(std::vector<AldreteScore>{{minute(0), nine}, {minute(9), eight}}, p) ==
          Priority::medium);
    CHECK(aldrete_drop(std::vector<AldreteScore>{{minute(0), full}, {minute(9), nine}}, p) == Priority::none);
    CHECK(aldrete_drop(std::vector<AldreteScore>{{minute(0), eight}, {minute(9), eight}}, p) ==
          Priority::none);
}

TEST_CASE("fit comes from the minute the worked rows say", "[rules][recovery]") {
    using Scores = std::vector<AldreteScore>;
    const auto n = [](int m) { return AldreteScore{minute(m), nine}; };
    const auto f = [](int m) { return AldreteScore{minute(m), full}; };
    const auto e = [](int m) { return AldreteScore{minute(m), eight}; };
    struct Row {
        Scores scores;
        std::optional<int> reversal;
        std::optional<int> fit;
    };
    // after.md 2.2: the sedative at 0
    const std::vector<Row> table{{{n(35), n(50)}, {}, 50},
                                 {{n(15), n(29)}, {}, 30},
                                 {{n(35), f(44)}, {}, {}},
                                 {{n(35), f(45)}, {}, 45},
                                 {{n(33), e(43), n(53)}, {}, {}},
                                 {{n(20), f(35), n(80)}, 10, {}},
                                 {{n(20), f(35), n(80), f(129)}, 10, {}},
                                 {{n(20), f(35), n(80), f(130)}, 10, 130},
                                 {{n(20), f(35), n(80), f(129), f(144)}, 10, 144},
                                 {{n(35), f(44), n(46)}, {}, 46},
                                 {{n(35), n(50), e(60)}, {}, {}},
                                 {{n(35), e(40), n(50), n(60)}, {}, 60},
                                 {{n(0), n(10)}, {}, {}},
                                 {{n(0), n(10), n(20)}, {}, 30},
                                 {{n(20)}, {}, {}},
                                 {{}, {}, {}}};
    for (std::size_t i = 0; i < table.size(); ++i) {
        INFO("row " << i);
        const auto& row = table[i];
        const RecoveryTimes times{
            minute(0), row.reversal ? std::optional{minute(*row.reversal)} : std::nullopt, {}};
        const auto fit = fit_from(row.scores, times, house_policy().recovery);
        CHECK(fit == (row.fit ? std::optional{minute(*row.fit)} : std::nullopt));
    }
    RecoveryPolicy stay = house_policy().recovery;
    stay.min_stay = minutes{60};
    CHECK(fit_from(Scores{n(35), n(50)}, {minute(0), {}, minute(5)}, stay) == minute(65));
    CHECK(fit_from(Scores{n(5), n(15)}, {}, house_policy().recovery) == minute(15));
    // 8-practice.md 5 A: 9 at 10:25, 10 at 10:40, last dose 09:43:10
    const Scores day_a{{at("2026-11-25T10:10:00Z"), eight},
                       {at("2026-11-25T10:25:00Z"), nine},
                       {at("2026-11-25T10:40:00Z"), full}};
    CHECK(fit_from(day_a, {at("2026-11-25T09:43:10Z"), {}, at("2026-11-25T09:52:00Z")},
                   demo_policy().recovery) == at("2026-11-25T10:40:00Z"));
}

TEST_CASE("recovery's next set is due by the earlier of two clocks", "[rules][recovery]") {
    const auto due = [](int last, std::optional<int> reversal) {
        return recovery_vitals_due(minute(last), reversal ? std::optional{minute(*reversal)} : std::nullopt,
                                   minutes{15}, minutes{10}, minutes{120});
    };
    // after.md 2.2
    CHECK(due(30, {}) == minute(45));
    CHECK(due(30, 25) == minute(40));
    CHECK(due(30, 33) == minute(43));
    CHECK(due(144, 25) == minute(154));
    CHECK(due(145, 25) == minute(160));
    CHECK(due(30, 40) == minute(45));
    const RecoveryPolicy& p = house_policy().recovery;
    CHECK(recovery_vitals_due(minute(0), std::nullopt, std::nullopt, false, p) == minute(3));
    CHECK(recovery_vitals_due(minute(10), minute(8), std::nullopt, false, p) == minute(13));
    CHECK(recovery_vitals_due(minute(0), minute(3), std::nullopt, false, p) == minute(18));
    CHECK(recovery_vitals_due(minute(0), minute(48), std::nullopt, true, p) == minute(78));
}

TEST_CASE("the home-readiness parts follow their own cuts", "[rules][padss]") {
    struct Row {
        int systolic, pulse, points;
    };
    // after.md 2.3, before 120 / 70
    const std::vector<Row> table{{96, 84, 2}, {95, 70, 1},  {72, 70, 1},
                                 {71, 70, 0}, {120, 98, 1}, {120, 99, 0}};
    for (const auto& row : table) {
        INFO(row.systolic << " / " << row.pulse);
        CHECK(padss_vital(120, row.systolic, 70, row.pulse) == row.points);
    }
    CHECK_FALSE(padss_vital(120, 120, std::nullopt, 70).has_value());
    CHECK(symptom_points(2) == 2);
    CHECK(symptom_points(3) == 2);
    CHECK(symptom_points(5) == 1);
    CHECK(symptom_points(6) == 1);
    CHECK(symptom_points(8) == 0);
    CHECK(padss_total({2, 2, 2, 2, 1}) == 9);
    CHECK(padss_total({2, 2, std::nullopt, 2, 1}) == std::nullopt);
    const auto met = [](std::vector<int> totals, const Policy& p) { return padss_met(totals, p.discharge); };
    CHECK(met({9}, demo_policy()));
    CHECK_FALSE(met({9}, house_policy()));
    CHECK(met({8, 9, 9}, house_policy()));
    CHECK_FALSE(met({9, 8, 9}, house_policy()));
    CHECK_FALSE(met({9, 9, 8}, house_policy()));
    CHECK_FALSE(met({}, demo_policy()));
}

TEST_CASE("a drink is kept at its time and undone by vomiting", "[rules][discharge]") {
    // after.md 3
    CHECK(drink_kept(minute(10), std::nullopt, minute(40), minutes{30}));
    CHECK_FALSE(drink_kept(minute(10), std::nullopt, minute(39), minutes{30}));
    CHECK_FALSE(drink_kept(minute(10), minute(25), minute(60), minutes{30}));
    CHECK_FALSE(drink_kept(minute(10), minute(10), minute(60), minutes{30}));
    CHECK(drink_kept(minute(10), minute(9), minute(40), minutes{30}));
    CHECK_FALSE(drink_kept(std::nullopt, std::nullopt, minute(40), minutes{0}));
    CHECK(rating_met(6, 6));
    CHECK_FALSE(rating_met(7, 6));
    CHECK_FALSE(rating_met(std::nullopt, 6));
}

TEST_CASE("what is missing before home is named in the policy's order", "[rules][discharge]") {
    const DischargePolicy& p = house_policy().discharge;
    std::set<std::string, std::less<>> met{p.placed_checks.begin(), p.placed_checks.end()};
    CHECK(discharge_missing(p.placed_checks, met, p).empty());
    for (const auto* id : {"card", "drink", "pain"}) {
        met.erase(id);
    }
    CHECK(discharge_missing(p.placed_checks, met, p) == std::vector<std::string>{"drink", "pain", "card"});
    CHECK(discharge_missing(p.deferred_checks, met, p) == std::vector<std::string>{"drink", "pain"});
    DischargePolicy optional = p;
    optional.drink_required = false;
    CHECK(discharge_missing(p.deferred_checks, met, optional) == std::vector<std::string>{"pain"});
}

TEST_CASE("the hours after sedation are real hours", "[rules][discharge]") {
    const auto local = [](const char* from) { return instant_text(limits_until(at(from), 24), london()); };
    // after.md 3
    CHECK(local("2027-03-27T15:10:00Z") == "2027-03-28T16:10:00+01:00");
    CHECK(local("2027-10-30T15:10:00+01:00") == "2027-10-31T14:10:00+00:00");
    // 8-practice.md 5 A: home 11:40, no driving before 26 Nov 12:00
    CHECK(next_full_hour(limits_until(at("2026-11-25T11:40:00Z"), 24), london()) ==
          at("2026-11-26T12:00:00Z"));
    CHECK(next_full_hour(at("2026-11-26T12:00:00Z"), london()) == at("2026-11-26T12:00:00Z"));
    CHECK(next_full_hour(at("2026-11-26T12:00:01Z"), london()) == at("2026-11-26T13:00:00Z"));
}

TEST_CASE("due dates are the worked ones, in the clinic's own days", "[rules][dates]") {
    struct Row {
        const char* placed;
        const char* due;
    };
    // after.md 5
    const std::vector<Row> table{{"2026-11-25", "2027-05-25"}, {"2026-11-30", "2027-05-30"},
                                 {"2026-03-31", "2026-09-30"}, {"2027-08-30", "2028-02-29"},
                                 {"2026-02-28", "2026-08-28"}, {"2026-05-26", "2026-11-26"},
                                 {"2026-03-06", "2026-09-06"}};
    for (const auto& row : table) {
        INFO(row.placed);
        CHECK(date_text(due_date(day(row.placed), 6)) == row.due);
    }
    CHECK(placement_date(at("2027-07-31T22:59:00Z"), london()) == day("2027-07-31"));
    CHECK(placement_date(at("2027-07-31T23:10:00Z"), london()) == day("2027-08-01"));
    CHECK(due_date(day("2027-07-31"), 6) == day("2028-01-31"));
    CHECK(due_date(day("2027-08-01"), 6) == day("2028-02-01"));
    CHECK(dwell_in_force(6, 4) == 4);
    CHECK(dwell_in_force(6, 12) == 6);
    CHECK(dwell_in_force(6, std::nullopt) == 6);
    CHECK(book_by_date(day("2027-05-25"), 56) == day("2027-03-30"));  // 8-practice.md 5 A
    CHECK(latest_date(day("2027-05-25"), 7) == day("2027-06-01"));
    CHECK(days_in_place(day("2026-05-26"), day("2026-11-25")) == 183);  // 8-practice.md 5 D
}

TEST_CASE("diet, medicines and visits fall on the worked dates", "[rules][dates]") {
    const Policy& p = house_policy();
    // after.md 4.2 and 8-practice.md 5 A
    CHECK(diet_plan(day("2026-11-25"), p.diet) ==
          DietPlan{day("2026-11-25"), day("2026-11-27"), day("2026-11-28"), day("2026-12-11"),
                   day("2026-12-12"), day("2026-12-18"), day("2026-12-19")});
    DietPolicy other = p.diet;
    other.full_through = 14;
    other.soft_through = 21;
    CHECK(diet_plan(day("2027-10-29"), other) ==
          DietPlan{day("2027-10-29"), day("2027-10-31"), day("2027-11-01"), day("2027-11-11"),
                   day("2027-11-12"), day("2027-11-18"), day("2027-11-19")});
    CHECK(antiemetic_through(day("2026-11-25"), p.diet.antiemetic_days) == day("2026-12-08"));
    // after.md 4.4
    const OpenDays days{{day("2026-12-25"), day("2026-12-28")}};
    const auto plan = visit_plan(day("2026-11-25"), p.discharge, p.reg.visit_months, days);
    CHECK(plan.first_call == day("2026-11-26"));
    CHECK(plan.second_call == day("2026-12-02"));
    const std::vector<std::pair<int, LocalDate>> months{
        {1, day("2026-12-29")}, {2, day("2027-01-25")}, {3, day("2027-02-25")}, {4, day("2027-03-25")},
        {5, day("2027-04-26")}, {9, day("2027-08-25")}, {12, day("2027-11-25")}};
    CHECK(plan.months == months);
}

TEST_CASE("the last open day is on or before, the first on or after", "[rules][dates]") {
    const OpenDays plain{{}};
    // after.md 5
    CHECK(plain.backward(day("2027-05-29")) == day("2027-05-28"));
    CHECK(plain.backward(day("2027-05-25")) == day("2027-05-25"));
    CHECK(OpenDays{{day("2027-12-27")}}.backward(day("2027-12-27")) == day("2027-12-24"));
    CHECK(plain.forward(day("2027-05-29")) == day("2027-05-31"));
    CHECK_FALSE(plain.open(day("2026-11-29")));
    CHECK(OpenDays::of(demo_policy().clinic).forward(day("2026-12-25")) == day("2026-12-29"));
}

TEST_CASE("an entry stands by its date whatever its flags say", "[rules][dates]") {
    const auto due = day("2027-05-25");
    const auto status = [&](const char* today, const char* latest, int soon = 30) {
        return register_status(due, day(latest), day(today), std::nullopt, false, soon);
    };
    // after.md 5
    CHECK(status("2027-04-24", "2027-05-25") == RegisterStatus{Standing::in_place, 31, false});
    CHECK(status("2027-04-25", "2027-05-25") == RegisterStatus{Standing::due_soon, 30, false});
    CHECK(status("2027-05-25", "2027-05-25") == RegisterStatus{Standing::due, 0, false});
    CHECK(status("2027-05-26", "2027-05-25") == RegisterStatus{Standing::overdue, -1, true});
    CHECK(status("2027-06-01", "2027-06-01") == RegisterStatus{Standing::due, -7, false});
    CHECK(status("2027-06-02", "2027-06-01") == RegisterStatus{Standing::overdue, -8, true});
    CHECK(status("2027-04-24", "2027-05-25", 60).standing == Standing::due_soon);
    CHECK(register_status(due, due, day("2027-05-26"), std::nullopt, true, 30) ==
          RegisterStatus{Standing::lost, -1, true});
    CHECK(register_status(due, due, day("2027-05-26"), day("2027-05-26"), true, 30) ==
          RegisterStatus{Standing::out, std::nullopt, false});
    CHECK(register_status(due, due, day("2027-05-26"), day("2027-05-27"), false, 30).standing ==
          Standing::overdue);
    CHECK(register_status(day("2026-09-06"), day("2026-09-06"), day("2026-11-25"), std::nullopt, false, 30)
              .days_left == -80);  // 8-practice.md 5 E
}

TEST_CASE("nobody is lost before three contacts on three dates by two ways after due", "[rules][dates]") {
    const RegisterPolicy& p = house_policy().reg;
    const auto due = day("2027-05-25");
    std::vector<FailedContact> failed{{day("2027-05-26"), Way::phone}, {day("2027-05-26"), Way::phone}};
    CHECK(may_be_lost(due, day("2027-05-24"), failed, p) == LostCheck{true, true, true, true});
    failed.push_back({day("2027-05-28"), Way::letter});
    CHECK(may_be_lost(due, day("2027-05-28"), failed, p) == LostCheck{false, false, true, false});
    failed.push_back({day("2027-05-30"), Way::phone});
    CHECK(may_be_lost(due, day("2027-05-30"), failed, p).allowed());
    CHECK_FALSE(may_be_lost(due, day("2027-05-24"), failed, p).allowed());
}

TEST_CASE("records are kept from the later of seal and removal", "[rules][dates]") {
    // after.md 9
    CHECK(keep_through(day("2026-11-25"), day("2027-05-25"), 15) == day("2042-05-25"));
    CHECK(keep_through(day("2027-06-01"), day("2027-05-25"), 15) == day("2042-06-01"));
    CHECK(keep_through(day("2024-02-29"), std::nullopt, 15) == day("2039-02-28"));
}

TEST_CASE("recovered volume is compared exactly and never clamped", "[rules][removal]") {
    struct Row {
        const char* filled;
        const char* recovered;
        const char* difference;
        const char* percent;
        const char* deviation;
        const char* state;
    };
    // after.md 6 and 8-practice.md 5 D, E
    const std::vector<Row> table{{"500", "485", "-15", "97.0", "-3.0", "within"},
                                 {"550", "495", "-55", "90.0", "-10.0", "within"},
                                 {"550", "494.9", "-55.1", "90.0", "-10.0", "less than put in"},
                                 {"500", "551", "51", "110.2", "10.2", "more than put in"},
                                 {"500", "550", "50", "110.0", "10.0", "within"},
                                 {"600", "470", "-130", "78.3", "-21.7", "less than put in"},
                                 {"600", "655", "55", "109.2", "9.2", "within"}};
    for (const auto& row : table) {
        INFO(row.filled << " " << row.recovered);
        const auto result = recovered_volume(ml(row.filled), ml(row.recovered), 10);
        CHECK(name_of(result.state) == row.state);
        CHECK(result.difference == ml(row.difference));
        CHECK(result.percent->text(1) == row.percent);
        CHECK(result.deviation->text(1) == row.deviation);
    }
    CHECK(recovered_volume(ml("0"), ml("480"), 10).state == Recovered::not_comparable);
    CHECK_FALSE(recovered_volume(std::nullopt, ml("480"), 10).difference.has_value());
}

TEST_CASE("the colour of the fluid is read with the dye in mind", "[rules][removal]") {
    CHECK(read_fluid(true, FluidOut::dyed) == FluidReading::expected);
    CHECK(read_fluid(true, FluidOut::clear) == FluidReading::leak_suspected);
    CHECK(read_fluid(false, FluidOut::clear) == FluidReading::expected);
    CHECK(read_fluid(false, FluidOut::dyed) == FluidReading::record_mismatch);
    CHECK(read_fluid(true, FluidOut::cloudy_or_brown) == FluidReading::contents_changed);
    CHECK(read_fluid(false, FluidOut::cloudy_or_brown) == FluidReading::contents_changed);
    CHECK(read_stomach(true) == FluidReading::leak_suspected);
    CHECK(read_stomach(false) == FluidReading::expected);
    CHECK(name_of(FluidReading::record_mismatch) == "record mismatch");
}

TEST_CASE("a removal is early, on time or late by the day", "[rules][removal]") {
    const auto due = day("2027-05-25");
    const auto timing = [&](const char* out) { return removal_timing(day(out), due, due, 30); };
    // after.md 6
    CHECK(timing("2027-04-25") == RemovalTiming::on_time);
    CHECK(timing("2027-04-24") == RemovalTiming::early);
    CHECK(timing("2027-05-25") == RemovalTiming::on_time);
    CHECK(timing("2027-05-26") == RemovalTiming::late);
}

TEST_CASE("weight outcomes are fractions of exact weights", "[rules][outcome]") {
    struct Row {
        const char* start;
        const char* end;
        int height;
        const char* loss;
        const char* tbwl;
        const char* ewl;  // "" = undefined
    };
    // after.md 7 and 8-practice.md 5 D
    const std::vector<Row> table{
        {"96.4", "81.9", 167, "5.2", "15.0", "54.4"},   {"96.4", "99.0", 167, "-0.9", "-2.7", "-9.7"},
        {"100", "60", 160, "15.6", "40.0", "111.1"},    {"72.2", "66.3", 170, "2.0", "8.2", ""},
        {"72.3", "66.3", 170, "2.1", "8.3", "12000.0"}, {"124.6", "107.9", 183, "5.0", "13.4", "40.9"}};
    const Decimal ideal = house_policy().body.ideal_bmi;
    for (const auto& row : table) {
        INFO(row.start << " " << row.end);
        CHECK(bmi_loss(kg(row.start), kg(row.end), cm(row.height)).text(1) == row.loss);
        CHECK(tbwl_percent(kg(row.start), kg(row.end)).text(1) == row.tbwl);
        const auto ewl = ewl_percent(kg(row.start), kg(row.end), cm(row.height), ideal);
        CHECK((ewl ? ewl->text(1) : "") == row.ewl);
    }
    CHECK(excess_small(kg("72.3"), cm(170), ideal));
    CHECK_FALSE(excess_small(kg("96.4"), cm(167), ideal));
    CHECK(responder(kg("110"), kg("99"), 10));
    CHECK_FALSE(responder(kg("110"), kg("99.1"), 10));
}

TEST_CASE("register rates are of the matured, and the median is exact", "[rules][outcome]") {
    // after.md 7
    const auto rates = register_rates({30, 10, 2, 15, 1, 1, 1});
    CHECK(rates.matured == 20);
    CHECK(rates.early->text(1) == "10.0");
    CHECK(rates.on_time->text(1) == "75.0");
    CHECK(rates.late_or_not_out->text(1) == "15.0");
    CHECK_FALSE(register_rates({10, 10, 0, 0, 0, 0, 0}).early.has_value());
    CHECK(median_ml(std::vector{ml("520"), ml("480"), ml("500")}) == Fraction{Decimal::of(500)});
    CHECK(median_ml(std::vector{ml("525"), ml("500")})->text(1) == "512.5");
    CHECK_FALSE(median_ml({}).has_value());
}

}  // namespace
}  // namespace brimline::rules
