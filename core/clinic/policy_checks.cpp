// What must hold between the keys of a policy: orders, ids that must exist, checks that no clinic may take
// away. Sources: after.md section 10 (cross-checks on load), before.md 6 and 13, 10-decisions C; the rest is
// common practice.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "core/clinic/nearest.h"
#include "core/clinic/policy_schema.h"

namespace brimline::schema {
namespace {

using Ids = std::vector<std::string>;

class Checker {
public:
    void must(bool good, std::string_view key, std::string say) {
        if (!good) {
            faults_.push_back({file_of(key), std::string{key}, std::move(say)});
        }
    }
    std::vector<PolicyFault> done() { return std::move(faults_); }

private:
    std::vector<PolicyFault> faults_;
};

template <class T>
Ids ids_of(const std::vector<T>& list) {
    Ids ids;
    std::transform(list.begin(), list.end(), std::back_inserter(ids), [](const T& item) { return item.id; });
    return ids;
}

bool has(const Ids& ids, std::string_view id) { return std::find(ids.begin(), ids.end(), id) != ids.end(); }

void check_orders(Checker& c, const Policy& p) {
    const auto& f = p.fasting;
    c.must(f.light_meal <= f.fatty_meal, "fasting.light-meal-min",
           "must not be longer than fasting.fatty-meal-min");
    c.must(f.fatty_meal <= f.meal_unknown, "fasting.meal-unknown-min",
           "must not be shorter than fasting.fatty-meal-min");
    c.must(f.removal_clear <= f.removal_full_liquid && f.removal_full_liquid <= f.removal_solid,
           "removal.solid-h",
           "must not be shorter than removal.full-liquid-h, nor that than removal.clear-h");
    c.must(p.body.review_bmi_below < p.body.review_bmi_above, "body.review-bmi-below",
           "must be below body.review-bmi-above");
    c.must(p.airway.review_from_asa <= p.airway.hold_from_asa, "airway.review-from-asa",
           "must not be above airway.hold-from-asa");
    c.must(p.vitals.lead < p.vitals.interval, "vitals.lead-s", "must be shorter than vitals.interval-s");
    c.must(p.medicine.serotonergic_days <= p.medicine.fluoxetine_days, "medicine.fluoxetine-days",
           "must not be shorter than medicine.serotonergic-days");
    c.must(p.fill.syringe_least <= p.fill.syringe && p.fill.syringe <= p.fill.syringe_most, "fill.syringe-ml",
           "must lie from fill.syringe-least-ml to fill.syringe-most-ml");
    c.must(p.recovery.since_sedative <= p.recovery.since_reversal, "recovery.since-reversal-min",
           "must not be shorter than recovery.since-sedative-min");
    c.must(p.recovery.vitals_after_reversal <= p.recovery.vitals, "recovery.vitals-after-reversal-min",
           "must not be longer than recovery.vitals-min");
    c.must(p.recovery.vitals <= p.recovery.vitals_when_fit, "recovery.vitals-when-fit-min",
           "must not be shorter than recovery.vitals-min");
    c.must(p.diet.clear_days < p.diet.full_through && p.diet.full_through < p.diet.soft_through,
           "diet.full-through", "must lie between diet.clear-days and diet.soft-through");
    c.must(p.discharge.call_day_first < p.discharge.call_day_second, "discharge.call-day-second",
           "must be later than discharge.call-day-first");
    c.must(p.dwell.days == 0 || p.dwell.days >= 30, "dwell.days", "must be 0 (months alone) or 30 to 365");
    c.must(p.reg.lost_dates <= p.reg.lost_attempts, "register.lost-dates",
           "must not exceed register.lost-attempts");
    c.must(p.rules.pin_digits_least <= p.rules.pin_digits_most, "case.pin-digits-least",
           "must not exceed case.pin-digits-most");
    c.must(p.rules.pin_lock_first <= p.rules.pin_lock_most, "case.pin-lock-first-s",
           "must not exceed case.pin-lock-most-s");
    c.must(std::is_sorted(p.reg.visit_months.begin(), p.reg.visit_months.end()), "register.visit-months",
           "must ascend");
}

void must_have(Checker& c, std::string_view key, const Ids& ids, const Ids& needed) {
    for (const std::string& id : needed) {
        c.must(has(ids, id), key, fmt::format("must keep \"{}\"", id));
    }
}
/// A list that other parts of the program take apart: exactly these ids.
void must_be(Checker& c, std::string_view key, const Ids& ids, const Ids& exact) {
    c.must(std::is_permutation(ids.begin(), ids.end(), exact.begin(), exact.end()), key,
           fmt::format("must hold exactly {}", fmt::join(exact, ", ")));
}
void must_fit(Checker& c, std::string_view key, const std::vector<Check>& checks, std::size_t most,
              std::size_t fixed, const Ids& first) {
    const Ids ids = ids_of(checks);
    c.must(!ids.empty() && ids.size() <= most, key,
           fmt::format("holds {} checks, allowed are 1 to {}", ids.size(), most));
    const bool kept = ids.size() >= fixed && std::equal(first.begin(), first.end(), ids.begin());
    c.must(kept, key, fmt::format("must begin with {}", fmt::join(first, ", ")));
}

void check_lists(Checker& c, const Policy& p) {
    const Lists& l = p.lists;
    const Ids screen = ids_of(l.screen);
    must_have(c, "screen.checks", screen,
              {"earlier-surgery", "balloon-in-place", "pregnancy-or-feeding", "hiatal-hernia-known",
               "active-ulcer-or-bleeding", "varices", "oesophagus-or-emptying", "bowel-inflammation",
               "bleeding-disorder", "severe-organ-disease", "dependence", "eating-or-mental-disorder",
               "anticoagulant-or-nsaid", "silicone-allergy", "pregnancy-test"});
    c.must(!screen.empty() && screen.back() == "pregnancy-test", "screen.checks",
           "must end with \"pregnancy-test\"");
    must_fit(c, "pause.before-sedation", l.before_sedation, 7, 4,
             {"identity-procedure-consent", "allergies", "fasting", "airway-plan"});
    must_fit(c, "pause.before-device", l.before_device, 4, 1, {"patient-and-go"});
    must_fit(c, "pause.before-leaving", l.before_leaving, 4, 2, {"procedure-and-volume", "counts-explained"});
    must_have(c, "list.findings", ids_of(l.findings),
              {"oesophagitis", "ulcer", "erosions", "hiatal-hernia", "varices", "mass", "stricture",
               "retained-food", "bleeding", "earlier-surgery-seen", "other"});
    for (const auto* list :
         {&l.override_reasons, &l.refusal_reasons, &l.samples, &l.early_reasons, &l.second_look}) {
        const std::string_view key = list == &l.override_reasons  ? "list.override-reasons"
                                     : list == &l.refusal_reasons ? "list.refusal-reasons"
                                     : list == &l.samples         ? "list.samples"
                                     : list == &l.early_reasons   ? "list.early-reasons"
                                                                  : "list.second-look";
        c.must(!list->empty(), key, "must not be empty");
    }
    must_have(c, "list.override-reasons", ids_of(l.override_reasons), {"left-as-it-is", "other"});
    must_have(c, "list.refusal-reasons", ids_of(l.refusal_reasons), {"other"});
    must_have(c, "list.second-look", ids_of(l.second_look), {"none", "other"});
    must_have(c, "list.early-reasons", ids_of(l.early_reasons), {"other"});
    must_be(c, "list.balloon-states", ids_of(l.balloon_states), {"soft", "tense", "folded", "not-seen"});
    must_be(c, "list.fluid-colours", ids_of(l.fluid_colours),
            {"clear", "pale-blue", "blue", "cloudy", "brown", "other"});
    must_be(c, "list.call-ways", ids_of(l.call_ways), {"phone", "message", "letter", "in-person"});
    must_be(c, "list.call-outcomes", ids_of(l.call_outcomes),
            {"reached", "not-reached", "refused", "wrong-number", "relative-reached"});
    must_be(c, "list.flags", ids_of(l.flags), {"leak-suspected", "pregnant", "intolerance", "not-reached"});
    must_be(c, "list.discharge-answers", ids_of(l.discharge_answers),
            {"cannula", "prescriptions", "advice", "card"});
    must_be(c, "list.emergency-kinds", ids_of(l.emergency_kinds),
            {"bleeding", "anaphylaxis", "arrest", "perforation", "other"});
    must_have(c, "list.airway-actions", ids_of(l.airway_actions),
              {"chin-lift", "jaw-thrust", "oxygen-up", "airway-adjunct", "bag-mask", "suction", "drug",
               "stop", "other"});
    must_have(c, "list.sample-sites", ids_of(l.sample_sites),
              {"antrum", "body", "fundus", "oesophagus", "duodenum", "balloon", "other"});
}

void check_references(Checker& c, const Policy& p) {
    const Ids findings = ids_of(p.lists.findings);
    const auto known = [&](std::string_view key, const Ids& ids) {
        for (const std::string& id : ids) {
            c.must(has(findings, id), key,
                   fmt::format("names \"{}\", which list.findings does not hold{}", id,
                               did_you_mean(id, findings)));
        }
    };
    known("look.stopping-findings", p.look.stopping_findings);
    known("look.review-findings", p.look.review_findings);
    must_have(c, "look.stopping-findings", p.look.stopping_findings,
              {"retained-food"});  // after.md 6: not switchable
    for (const auto& [key, ids] : {std::pair{"discharge.placed-checks", &p.discharge.placed_checks},
                                   std::pair{"discharge.deferred-checks", &p.discharge.deferred_checks}}) {
        must_have(c, key, *ids,
                  {"score", "time", "alert", "air", "nausea", "pain", "escort", "cannula", "advice"});
        c.must(!p.discharge.drink_required || has(*ids, "drink"), key,
               "must keep \"drink\" while discharge.drink-required is true");
    }
    for (const DeviceProfile& d : p.devices) {
        c.must(p.fill.syringe_least <= d.syringe && d.syringe <= p.fill.syringe_most, "device.profiles",
               fmt::format("{}: syringe_ml must lie from fill.syringe-least-ml to fill.syringe-most-ml",
                           d.gtin));
    }
}

/// "Europe/London", "UTC", or empty for the system's own; whether it exists is for the adapter that loads it.
bool zone_good(std::string_view zone) {
    return zone.size() <= 60 && zone.find("..") == std::string_view::npos &&
           (zone.empty() || zone.front() != '/') && std::all_of(zone.begin(), zone.end(), [](char ch) {
               return (ch >= 'a' && ch <= 'z') || (ch >= 'A' && ch <= 'Z') || (ch >= '0' && ch <= '9') ||
                      ch == '/' || ch == '_' || ch == '-' || ch == '+';
           });
}

void check_clinic(Checker& c, const Policy& p) {
    const Clinic& clinic = p.clinic;
    c.must(zone_good(clinic.zone), "clinic.zone",
           "must be a zone like Europe/London, or empty for the system's own");
    const auto& prefix = clinic.record_prefix;
    const bool capitals =
        std::all_of(prefix.begin(), prefix.end(), [](char ch) { return ch >= 'A' && ch <= 'Z'; });
    c.must(!prefix.empty() && prefix.size() <= 4 && capitals, "clinic.record-prefix",
           "must be 1 to 4 capital letters");
    c.must(!clinic.rooms.empty(), "clinic.rooms", "must name at least one room");
    c.must(clinic.language.size() == 2 && id_good(clinic.language), "clinic.language",
           "must be two small letters, like en");
    for (const std::string& date : clinic.closed_dates) {
        c.must(parse_date(date).has_value(), "clinic.closed-dates",
               fmt::format("holds \"{}\", which is no date like 2026-12-25", date));
    }
}

}  // namespace

std::vector<PolicyFault> cross_check(const Policy& policy) {
    Checker checker;
    check_orders(checker, policy);
    check_lists(checker, policy);
    check_references(checker, policy);
    check_clinic(checker, policy);
    return checker.done();
}

}  // namespace brimline::schema
