// The table of policy keys, one line each: name, unit, accepted range, allowed words, member. The sources of
// the figures stand beside the defaults in assets/policy; ranges of the case, record and list keys are common
// practice.
#include "core/clinic/policy_schema.h"

namespace brimline::schema {
namespace {

using P = Policy;

Range whole(std::int64_t low, std::int64_t high) { return {Decimal::of(low), Decimal::of(high)}; }
Range exact(std::string_view low, std::string_view high) {
    return {Decimal::parse(low).value(), Decimal::parse(high).value()};
}

template <auto Group, auto Field>
auto& grouped(Policy& p) {
    return p.*Group.*Field;
}
template <auto Field>
auto& plain(Policy& p) {
    return p.*Field;
}
/// The member `Field` of the group `Group`.
template <auto Group, auto Field>
Where in() {
    return Where{&grouped<Group, Field>};
}
/// A member of the policy itself.
template <auto Field>
Where in() {
    return Where{&plain<Field>};
}

std::vector<std::string_view> discharge_ids() {
    return {"score", "time",   "alert",   "air",           "drink",  "nausea",
            "pain",  "escort", "cannula", "prescriptions", "advice", "card"};
}

// A table, one line a key.
// clang-format off
std::vector<Key> arrival_keys() {
    return {
        {"fasting.clear-fluid-min", "min", whole(120, 480), {},
         in<&P::fasting, &FastingPolicy::clear_fluid>()},
        {"fasting.milk-min", "min", whole(360, 720), {}, in<&P::fasting, &FastingPolicy::milk>()},
        {"fasting.full-liquid-min", "min", whole(360, 720), {},
         in<&P::fasting, &FastingPolicy::full_liquid>()},
        {"fasting.light-meal-min", "min", whole(360, 1440), {},
         in<&P::fasting, &FastingPolicy::light_meal>()},
        {"fasting.fatty-meal-min", "min", whole(480, 1440), {},
         in<&P::fasting, &FastingPolicy::fatty_meal>()},
        {"fasting.meal-unknown-min", "min", whole(480, 1440), {},
         in<&P::fasting, &FastingPolicy::meal_unknown>()},
        {"fasting.breast-milk-min", "min", whole(240, 480), {},
         in<&P::fasting, &FastingPolicy::breast_milk>()},
        {"fasting.infant-formula-min", "min", whole(360, 480), {},
         in<&P::fasting, &FastingPolicy::infant_formula>()},
        {"fasting.milk-in-tea-percent", "percent", whole(0, 20), {},
         in<&P::fasting, &FastingPolicy::milk_in_tea_percent>()},
        {"fasting.oldest-unasked-h", "h", whole(24, 168), {},
         in<&P::fasting, &FastingPolicy::oldest_unasked>()},
        {"fasting.glp1-apply", "", std::nullopt, {"all", "elevated-risk"},
         in<&P::fasting, &FastingPolicy::glp1_apply>()},
        {"fasting.glp1-liquid-diet-min", "min", whole(1440, 4320), {},
         in<&P::fasting, &FastingPolicy::glp1_solids>()},
        {"fasting.glp1-hold-weekly-days", "days", whole(0, 28), {},
         in<&P::fasting, &FastingPolicy::glp1_hold_weekly_days>()},
        {"fasting.glp1-hold-daily-days", "days", whole(0, 7), {},
         in<&P::fasting, &FastingPolicy::glp1_hold_daily_days>()},
        {"removal.solid-h", "h", whole(48, 120), {}, in<&P::fasting, &FastingPolicy::removal_solid>()},
        {"removal.full-liquid-h", "h", whole(12, 72), {},
         in<&P::fasting, &FastingPolicy::removal_full_liquid>()},
        {"removal.clear-h", "h", whole(8, 24), {}, in<&P::fasting, &FastingPolicy::removal_clear>()},
        {"removal.volume-tolerance-percent", "percent", whole(5, 30), {},
         in<&P::removal, &RemovalPolicy::volume_tolerance_percent>()},
        {"body.weight-kg", "kg", whole(20, 450), {}, in<&P::body, &BodyPolicy::weight_kg>()},
        {"body.height-cm", "cm", whole(100, 250), {}, in<&P::body, &BodyPolicy::height_cm>()},
        {"body.neck-cm", "cm", whole(10, 120), {}, in<&P::body, &BodyPolicy::neck_cm>()},
        {"body.ideal-bmi", "kg/m2", exact("23", "25"), {}, in<&P::body, &BodyPolicy::ideal_bmi>()},
        {"body.review-bmi-below", "kg/m2", exact("25", "35"), {},
         in<&P::body, &BodyPolicy::review_bmi_below>()},
        {"body.review-bmi-above", "kg/m2", exact("40", "70"), {},
         in<&P::body, &BodyPolicy::review_bmi_above>()},
        {"body.review-age-below", "years", whole(16, 21), {}, in<&P::body, &BodyPolicy::review_age_below>()},
        {"body.review-age-above", "years", whole(60, 80), {}, in<&P::body, &BodyPolicy::review_age_above>()},
        {"airway.questionnaire", "", std::nullopt, {}, in<&P::airway, &AirwayPolicy::questionnaire>()},
        {"airway.neck-cm", "cm", exact("40", "43"), {}, in<&P::airway, &AirwayPolicy::neck_cm>()},
        {"airway.two-step", "", std::nullopt, {}, in<&P::airway, &AirwayPolicy::two_step>()},
        {"airway.hold-from-asa", "class", whole(3, 4), {}, in<&P::airway, &AirwayPolicy::hold_from_asa>()},
        {"airway.review-from-asa", "class", whole(2, 3), {},
         in<&P::airway, &AirwayPolicy::review_from_asa>()},
        {"airway.review-from-mallampati", "class", whole(2, 3), {},
         in<&P::airway, &AirwayPolicy::review_from_mallampati>()},
        {"medicine.window-days", "days", whole(5, 14), {}, in<&P::medicine, &MedicinePolicy::window_days>()},
        {"medicine.serotonergic-days", "days", whole(14, 42), {},
         in<&P::medicine, &MedicinePolicy::serotonergic_days>()},
        {"medicine.fluoxetine-days", "days", whole(35, 70), {},
         in<&P::medicine, &MedicinePolicy::fluoxetine_days>()},
        {"medicine.pregnancy-test-h", "h", whole(0, 168), {},
         in<&P::medicine, &MedicinePolicy::pregnancy_test_h>()},
        {"medicine.antiemetic-days", "days", whole(3, 21), {}, in<&P::diet, &DietPolicy::antiemetic_days>()},
        {"dose.age-reduced-from", "years", whole(60, 75), {}, in<&P::dose, &DosePolicy::age_reduced_from>()},
    };
}

std::vector<Key> room_keys() {
    return {
        {"vitals.interval-s", "s", whole(60, 900), {}, in<&P::vitals, &VitalsPolicy::interval>()},
        {"vitals.lead-s", "s", whole(0, 120), {}, in<&P::vitals, &VitalsPolicy::lead>()},
        {"vitals.hr", "/min", whole(0, 300), {}, in<&P::vitals, &VitalsPolicy::hr>()},
        {"vitals.systolic", "mmHg", whole(0, 300), {}, in<&P::vitals, &VitalsPolicy::systolic>()},
        {"vitals.diastolic", "mmHg", whole(0, 220), {}, in<&P::vitals, &VitalsPolicy::diastolic>()},
        {"vitals.spo2", "percent", whole(0, 100), {}, in<&P::vitals, &VitalsPolicy::spo2>()},
        {"vitals.rr", "/min", whole(0, 80), {}, in<&P::vitals, &VitalsPolicy::rr>()},
        {"vitals.etco2", "mmHg", whole(0, 150), {}, in<&P::vitals, &VitalsPolicy::etco2>()},
        {"vitals.oxygen", "L/min", whole(0, 30), {}, in<&P::vitals, &VitalsPolicy::oxygen_l_min>()},
        {"vitals.prompt-band", "band", whole(1, 3), {}, in<&P::vitals, &VitalsPolicy::prompt_band>()},
        {"vitals.map-below", "mmHg", whole(55, 75), {}, in<&P::vitals, &VitalsPolicy::map_below>()},
        {"vitals.baseline-percent", "percent", whole(15, 40), {},
         in<&P::vitals, &VitalsPolicy::baseline_percent>()},
        {"vitals.etco2-high", "mmHg", whole(45, 60), {}, in<&P::vitals, &VitalsPolicy::etco2_high>()},
        {"vitals.etco2-change", "mmHg", whole(5, 20), {}, in<&P::vitals, &VitalsPolicy::etco2_change>()},
        {"vitals.etco2-absent-s", "s", whole(10, 60), {}, in<&P::vitals, &VitalsPolicy::etco2_absent>()},
        {"vitals.etco2-expected", "", std::nullopt, {"never", "deep", "moderate"},
         in<&P::vitals, &VitalsPolicy::etco2_expected>()},
        {"vitals.depth-prompt-at", "level", whole(0, 2), {},
         in<&P::vitals, &VitalsPolicy::depth_prompt_at>()},
        {"look.hernia-ceiling-cm", "cm", exact("2", "8"), {}, in<&P::look, &LookPolicy::hernia_ceiling_cm>()},
        {"look.stopping-findings", "", std::nullopt, {}, in<&P::look, &LookPolicy::stopping_findings>()},
        {"look.review-findings", "", std::nullopt, {}, in<&P::look, &LookPolicy::review_findings>()},
        {"look.stopping-grades", "", std::nullopt, {"A", "B", "C", "D"},
         in<&P::look, &LookPolicy::stopping_grades>()},
        {"fill.syringe-ml", "mL", exact("20", "60"), {}, in<&P::fill, &FillPolicy::syringe>()},
        {"fill.syringe-least-ml", "mL", exact("1", "60"), {}, in<&P::fill, &FillPolicy::syringe_least>()},
        {"fill.syringe-most-ml", "mL", exact("20", "100"), {}, in<&P::fill, &FillPolicy::syringe_most>()},
        {"fill.double-tap-s", "s", whole(1, 15), {}, in<&P::fill, &FillPolicy::double_tap>()},
        {"fill.count-check-every", "syringes", whole(1, 10), {},
         in<&P::fill, &FillPolicy::count_check_every>()},
        {"fill.fast-ml-min", "mL/min", whole(100, 600), {}, in<&P::fill, &FillPolicy::fast_ml_min>()},
        {"fill.stalled-s", "s", whole(30, 600), {}, in<&P::fill, &FillPolicy::stalled>()},
        {"fill.saline-g-per-ml", "g/mL", exact("0.99", "1.02"), {},
         in<&P::fill, &FillPolicy::saline_g_per_ml>()},
        {"fill.read-back-tolerance-ml", "mL", exact("0", "5"), {},
         in<&P::fill, &FillPolicy::read_back_tolerance>()},
        {"fill.single-most-ml", "mL", exact("200", "2000"), {}, in<&P::fill, &FillPolicy::single_most>()},
        {"fill.valve-dry-s", "s", whole(10, 120), {}, in<&P::fill, &FillPolicy::valve_dry>()},
        {"fill.bag-tolerance-ml", "mL", exact("10", "100"), {}, in<&P::fill, &FillPolicy::bag_tolerance>()},
        {"fill.dye-ml", "mL", exact("0", "20"), {}, in<&P::fill, &FillPolicy::dye_ml>()},
    };
}

std::vector<Key> afterwards_keys() {
    return {
        {"recovery.threshold", "points", whole(8, 10), {}, in<&P::recovery, &RecoveryPolicy::threshold>()},
        {"recovery.item-floor", "points", whole(0, 2), {}, in<&P::recovery, &RecoveryPolicy::item_floor>()},
        {"recovery.consecutive", "scores", whole(1, 3), {}, in<&P::recovery, &RecoveryPolicy::consecutive>()},
        {"recovery.gap-min", "min", whole(0, 30), {}, in<&P::recovery, &RecoveryPolicy::gap>()},
        {"recovery.since-sedative-min", "min", whole(0, 120), {},
         in<&P::recovery, &RecoveryPolicy::since_sedative>()},
        {"recovery.since-reversal-min", "min", whole(60, 240), {},
         in<&P::recovery, &RecoveryPolicy::since_reversal>()},
        {"recovery.min-stay-min", "min", whole(0, 240), {}, in<&P::recovery, &RecoveryPolicy::min_stay>()},
        {"recovery.drop-alert", "points", whole(1, 3), {}, in<&P::recovery, &RecoveryPolicy::drop_alert>()},
        {"recovery.first-set-min", "min", whole(1, 15), {}, in<&P::recovery, &RecoveryPolicy::first_set>()},
        {"recovery.vitals-min", "min", whole(5, 30), {}, in<&P::recovery, &RecoveryPolicy::vitals>()},
        {"recovery.vitals-after-reversal-min", "min", whole(5, 15), {},
         in<&P::recovery, &RecoveryPolicy::vitals_after_reversal>()},
        {"recovery.vitals-when-fit-min", "min", whole(15, 60), {},
         in<&P::recovery, &RecoveryPolicy::vitals_when_fit>()},
        {"recovery.symptom-recheck-min", "min", whole(10, 60), {},
         in<&P::recovery, &RecoveryPolicy::symptom_recheck>()},
        {"recovery.auto-score-age-min", "min", whole(1, 10), {},
         in<&P::recovery, &RecoveryPolicy::auto_score_age>()},
        {"recovery.home-oxygen-full", "", std::nullopt, {},
         in<&P::recovery, &RecoveryPolicy::home_oxygen_full>()},
        {"discharge.padss-threshold", "points", whole(8, 10), {},
         in<&P::discharge, &DischargePolicy::padss_threshold>()},
        {"discharge.padss-consecutive", "scores", whole(1, 3), {},
         in<&P::discharge, &DischargePolicy::padss_consecutive>()},
        {"discharge.drink-kept-min", "min", whole(0, 60), {},
         in<&P::discharge, &DischargePolicy::drink_kept>()},
        {"discharge.drink-required", "", std::nullopt, {},
         in<&P::discharge, &DischargePolicy::drink_required>()},
        {"discharge.urine-required", "", std::nullopt, {},
         in<&P::discharge, &DischargePolicy::urine_required>()},
        {"discharge.max-nausea", "points of 10", whole(3, 10), {},
         in<&P::discharge, &DischargePolicy::max_nausea>()},
        {"discharge.max-pain", "points of 10", whole(2, 6), {},
         in<&P::discharge, &DischargePolicy::max_pain>()},
        {"discharge.limits-h", "h", whole(24, 48), {}, in<&P::discharge, &DischargePolicy::limits_h>()},
        {"discharge.placed-checks", "", std::nullopt, discharge_ids(),
         in<&P::discharge, &DischargePolicy::placed_checks>()},
        {"discharge.deferred-checks", "", std::nullopt, discharge_ids(),
         in<&P::discharge, &DischargePolicy::deferred_checks>()},
        {"discharge.call-day-first", "day", whole(1, 3), {},
         in<&P::discharge, &DischargePolicy::call_day_first>()},
        {"discharge.call-day-second", "day", whole(4, 14), {},
         in<&P::discharge, &DischargePolicy::call_day_second>()},
        {"diet.clear-days", "days", whole(1, 7), {}, in<&P::diet, &DietPolicy::clear_days>()},
        {"diet.full-through", "day", whole(7, 21), {}, in<&P::diet, &DietPolicy::full_through>()},
        {"diet.soft-through", "day", whole(14, 35), {}, in<&P::diet, &DietPolicy::soft_through>()},
        {"diet.first-sip-h", "h", whole(2, 12), {}, in<&P::diet, &DietPolicy::first_sip_h>()},
        {"advice.no-fluid-h", "h", whole(12, 48), {}, in<&P::advice, &AdvicePolicy::no_fluid_h>()},
        {"advice.vomiting-day", "day", whole(3, 14), {}, in<&P::advice, &AdvicePolicy::vomiting_day>()},
        {"dwell.months", "months", whole(1, 12), {}, in<&P::dwell, &DwellPolicy::months>()},
        {"dwell.days", "days", whole(0, 365), {}, in<&P::dwell, &DwellPolicy::days>()},
        {"dwell.grace-days", "days", whole(0, 14), {}, in<&P::dwell, &DwellPolicy::grace_days>()},
        {"dwell.book-by-days", "days", whole(0, 120), {}, in<&P::dwell, &DwellPolicy::book_by_days>()},
        {"register.soon-days", "days", whole(14, 60), {}, in<&P::dwell, &DwellPolicy::soon_days>()},
        {"register.early-window-days", "days", whole(0, 60), {},
         in<&P::reg, &RegisterPolicy::early_window_days>()},
        {"register.lost-attempts", "contacts", whole(2, 10), {},
         in<&P::reg, &RegisterPolicy::lost_attempts>()},
        {"register.lost-dates", "dates", whole(2, 10), {}, in<&P::reg, &RegisterPolicy::lost_dates>()},
        {"register.lost-ways", "ways", whole(1, 3), {}, in<&P::reg, &RegisterPolicy::lost_ways>()},
        {"register.visit-months", "months", whole(0, 12), {}, in<&P::reg, &RegisterPolicy::visit_months>()},
        {"register.reminder-days", "days", whole(0, 180), {}, in<&P::reg, &RegisterPolicy::reminder_days>()},
        {"outcome.responder-percent", "percent", whole(5, 20), {},
         in<&P::outcome, &OutcomePolicy::responder_percent>()},
    };
}

std::vector<Key> house_keys() {
    return {
        {"case.late-entry-min", "min", whole(1, 60), {}, in<&P::rules, &CasePolicy::late_entry>()},
        {"case.airway-values-min", "min", whole(1, 60), {}, in<&P::rules, &CasePolicy::airway_values>()},
        {"case.unchanged-days", "days", whole(1, 90), {}, in<&P::rules, &CasePolicy::unchanged_days>()},
        {"case.pin-digits-least", "digits", whole(6, 8), {}, in<&P::rules, &CasePolicy::pin_digits_least>()},
        {"case.pin-digits-most", "digits", whole(6, 8), {}, in<&P::rules, &CasePolicy::pin_digits_most>()},
        {"case.pin-tries", "tries", whole(3, 5), {}, in<&P::rules, &CasePolicy::pin_tries>()},
        {"case.pin-lock-first-s", "s", whole(30, 300), {}, in<&P::rules, &CasePolicy::pin_lock_first>()},
        {"case.pin-lock-most-s", "s", whole(60, 3600), {}, in<&P::rules, &CasePolicy::pin_lock_most>()},
        {"case.seal-open-items", "", std::nullopt, {}, in<&P::rules, &CasePolicy::seal_open_items>()},
        {"record.retention-years", "years", whole(8, 30), {}, in<&P::rules, &CasePolicy::retention_years>()},
        {"record.sign-idle-min", "min", whole(1, 15), {}, in<&P::rules, &CasePolicy::sign_idle>()},
        {"record.practice-idle-min", "min", whole(5, 60), {}, in<&P::rules, &CasePolicy::practice_idle>()},
        {"record.clock-jump-s", "s", whole(1, 10), {}, in<&P::rules, &CasePolicy::clock_jump>()},
    };
}

std::vector<Key> list_keys() {
    return {
        {"clinic.name", "", std::nullopt, {}, in<&P::clinic, &Clinic::name>()},
        {"clinic.address", "", std::nullopt, {}, in<&P::clinic, &Clinic::address>()},
        {"clinic.phone", "", std::nullopt, {}, in<&P::clinic, &Clinic::phone>()},
        {"clinic.zone", "", std::nullopt, {}, in<&P::clinic, &Clinic::zone>()},
        {"clinic.record-prefix", "", std::nullopt, {}, in<&P::clinic, &Clinic::record_prefix>()},
        {"clinic.language", "", std::nullopt, {}, in<&P::clinic, &Clinic::language>()},
        {"clinic.rooms", "", std::nullopt, {}, in<&P::clinic, &Clinic::rooms>()},
        {"clinic.closed-dates", "", std::nullopt, {}, in<&P::clinic, &Clinic::closed_dates>()},
        {"screen.checks", "", std::nullopt, {}, in<&P::lists, &Lists::screen>()},
        {"pause.before-sedation", "", std::nullopt, {}, in<&P::lists, &Lists::before_sedation>()},
        {"pause.before-device", "", std::nullopt, {}, in<&P::lists, &Lists::before_device>()},
        {"pause.before-leaving", "", std::nullopt, {}, in<&P::lists, &Lists::before_leaving>()},
        {"list.findings", "", std::nullopt, {}, in<&P::lists, &Lists::findings>()},
        {"list.override-reasons", "", std::nullopt, {}, in<&P::lists, &Lists::override_reasons>()},
        {"list.refusal-reasons", "", std::nullopt, {}, in<&P::lists, &Lists::refusal_reasons>()},
        {"list.samples", "", std::nullopt, {}, in<&P::lists, &Lists::samples>()},
        {"list.sample-sites", "", std::nullopt, {}, in<&P::lists, &Lists::sample_sites>()},
        {"list.airway-actions", "", std::nullopt, {}, in<&P::lists, &Lists::airway_actions>()},
        {"list.emergency-kinds", "", std::nullopt, {}, in<&P::lists, &Lists::emergency_kinds>()},
        {"list.discharge-answers", "", std::nullopt, {}, in<&P::lists, &Lists::discharge_answers>()},
        {"list.flags", "", std::nullopt, {}, in<&P::lists, &Lists::flags>()},
        {"list.call-ways", "", std::nullopt, {}, in<&P::lists, &Lists::call_ways>()},
        {"list.call-outcomes", "", std::nullopt, {}, in<&P::lists, &Lists::call_outcomes>()},
        {"list.early-reasons", "", std::nullopt, {}, in<&P::lists, &Lists::early_reasons>()},
        {"list.second-look", "", std::nullopt, {}, in<&P::lists, &Lists::second_look>()},
        {"list.balloon-states", "", std::nullopt, {}, in<&P::lists, &Lists::balloon_states>()},
        {"list.fluid-colours", "", std::nullopt, {}, in<&P::lists, &Lists::fluid_colours>()},
        {"formulary.drugs", "", std::nullopt, {}, in<&P::formulary>()},
        {"device.profiles", "", std::nullopt, {}, in<&P::devices>()},
        {"recall.lots", "", std::nullopt, {}, in<&P::recalled_lots>()},
        {"print.paper", "", std::nullopt, {"a4", "letter"}, in<&P::print, &PrintPolicy::paper>()},
        {"print.sheets", "", std::nullopt, {}, in<&P::print, &PrintPolicy::sheets>()},
    };
}

// clang-format on
}  // namespace

const std::vector<Key>& keys() {
    static const std::vector<Key> all = [] {
        std::vector<Key> list = arrival_keys();
        for (const auto& more : {room_keys(), afterwards_keys(), house_keys(), list_keys()}) {
            list.insert(list.end(), more.begin(), more.end());
        }
        return list;
    }();
    return all;
}

std::string file_of(std::string_view key) { return std::string{key.substr(0, key.find('.'))} + ".json"; }

}  // namespace brimline::schema
