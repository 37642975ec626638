// Clinic policy: every threshold, list and profile that a clinic may change. Values come from files
// (assets/policy, overlaid by the clinic's own folder); no default stands in code.
#pragma once
#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/clinic/roles.h"
#include "core/units/decimal.h"
#include "core/units/quantity.h"
#include "core/units/refusal.h"
#include "core/units/time.h"

namespace brimline {

using std::chrono::minutes;
using std::chrono::seconds;

/// A number is accepted inside `ask`, asked about once outside it, and refused outside `hard`. Ends included.
struct Limits {
    Decimal ask_low, ask_high, hard_low, hard_high;
};

struct FastingPolicy {  // before.md 1 and 2, after.md 6
    minutes clear_fluid, milk, light_meal, fatty_meal, meal_unknown;
    minutes full_liquid;     // as milk for a placement
    minutes glp1_solids;     // liquids only for this long on such a drug; 0 = no rule
    minutes oldest_unasked;  // an intake older than this is asked once
    minutes removal_solid, removal_full_liquid, removal_clear;
    minutes breast_milk, infant_formula;  // infants only, not on adult screens
    int milk_in_tea_percent;              // up to this share of milk, tea and coffee still count as clear
    std::string glp1_apply;               // "all", "elevated-risk": to whom the liquid day applies
    int glp1_hold_weekly_days, glp1_hold_daily_days;  // days since the last dose; 0 = no rule
};
struct BodyPolicy {  // before.md 3
    Limits weight_kg, height_cm, neck_cm;
    Decimal ideal_bmi, review_bmi_below, review_bmi_above;
    int review_age_below, review_age_above;
};
struct AirwayPolicy {    // before.md 4
    bool questionnaire;  // STOP-Bang is asked
    Decimal neck_cm;
    bool two_step;
    int hold_from_asa, review_from_asa, review_from_mallampati;
};
struct VitalsPolicy {  // before.md 7 and 8
    seconds interval, lead;
    Limits hr, systolic, diastolic, spo2, rr, etco2, oxygen_l_min;
    int prompt_band, map_below, baseline_percent, etco2_high, depth_prompt_at;
    std::string etco2_expected;  // "never", "deep", "moderate"
    int etco2_change;            // mmHg from baseline
    seconds etco2_absent;        // waveform lost this long is an airway event
};
struct MedicinePolicy {  // before.md 5 and 11
    int window_days;     // anticoagulant, antiplatelet, NSAID
    int serotonergic_days, fluoxetine_days;
    int pregnancy_test_h;  // a test is no older than this
};
struct DosePolicy {        // before.md 9
    int age_reduced_from;  // years; reminders for older patients apply from here
};
struct LookPolicy {  // before.md 10
    Decimal hernia_ceiling_cm;
    std::vector<std::string> stopping_findings, review_findings;
    std::vector<std::string> stopping_grades;  // of oesophagitis
};
struct FillPolicy {                                    // before.md 13 and 14
    Millilitres syringe, syringe_least, syringe_most;  // nominal size and its allowed span
    seconds double_tap;
    int count_check_every;
    int fast_ml_min;
    seconds stalled;
    Decimal saline_g_per_ml;
    Millilitres read_back_tolerance;
    Millilitres single_most;  // more than this in one entry cannot be true
    seconds valve_dry;
    Millilitres bag_tolerance;  // a difference of this much or more is a hold
    Limits dye_ml;
};
struct RecoveryPolicy {  // after.md 2
    int threshold, item_floor, consecutive;
    minutes gap, since_sedative, since_reversal, min_stay;
    int drop_alert;
    minutes first_set, vitals, vitals_after_reversal, vitals_when_fit, symptom_recheck;
    minutes auto_score_age;
    bool home_oxygen_full;  // oxygen as at home scores as on air
};
struct DischargePolicy {  // after.md 2.3 and 3
    int padss_threshold, padss_consecutive;
    minutes drink_kept;
    bool drink_required;
    int max_nausea, max_pain;
    int limits_h;
    std::vector<std::string> placed_checks, deferred_checks;  // ids in order
    int call_day_first, call_day_second;                      // day 1 = placement date
    bool urine_required;
};
struct DietPolicy {  // after.md 4.2
    int clear_days, full_through, soft_through, first_sip_h, antiemetic_days;
};
struct AdvicePolicy {  // after.md 4.3
    int no_fluid_h, vomiting_day;
};
struct DwellPolicy {                                        // after.md 5
    int months, days, grace_days, book_by_days, soon_days;  // days 0: the months alone count
};
struct RegisterPolicy {  // after.md 4.4, 5 and 6
    int early_window_days;
    int lost_attempts, lost_dates, lost_ways;
    std::vector<int> visit_months, reminder_days;
};
struct RemovalPolicy {  // after.md 6
    int volume_tolerance_percent;
};
struct OutcomePolicy {  // after.md 7
    int responder_percent;
};
struct CasePolicy {                     // 3-case.md, 7-journal.md
    minutes late_entry, airway_values;  // entered later than this is marked late
    int unchanged_days;                 // older pre-visit answers are asked anew
    int pin_digits_least, pin_digits_most, pin_tries;
    seconds pin_lock_first, pin_lock_most;
    std::vector<std::string> seal_open_items;  // kinds of open items that may stay at the seal; "*" = any
    int retention_years;                       // after.md 9
    minutes sign_idle;
    seconds clock_jump;
    minutes practice_idle;  // 10-decisions F9
};

/// One line of a list a clinic may extend: its id and the words shown.
struct ListItem {
    std::string id, words;
};
/// One check of a pause, of the screen or of the discharge.
struct Check {
    std::string id, words;    // words = the question as shown
    std::string good;         // the answer that raises nothing: "yes" or "no"
    std::string hold_class;   // "stop", "absolute", "relative", "review" when badly answered
    std::vector<Role> roles;  // who may answer; empty = any
};
/// One drug of the formulary. The unit is that of its ampoule.
struct Drug {
    std::string id, words, unit, unit_words;  // unit: mg, ug, mL; unit_words: "mg", "mcg", "mL"
    std::optional<Decimal> per_ml;            // strength in `unit` per mL
    std::string route;
    std::optional<Decimal> usual_low, usual_high;  // single span, for the typing check only
    std::string kind;                              // "sedative", "opioid", "reversal", "other"
    std::vector<Decimal> chips;                    // amounts offered as keys
    std::optional<Decimal> remind_above;           // total in `unit`
    std::optional<Decimal> remind_above_older;     // the same from DosePolicy's age on
    std::optional<Decimal> remind_per_kg;          // total in `unit` per kg; the lower limit rules
};
/// What the leaflet of one device says, by GTIN.
struct DeviceProfile {
    std::string gtin, words;
    Millilitres least, ceiling, syringe, band_low, band_high, aim;
    int dwell_months, dwell_days;  // days 0: the leaflet counts months
    std::string ready_words;       // "ready to fill, as the leaflet says"
    // What the maker gives for the implant card (Regulation (EU) 2017/745 Art. 18); each may be empty.
    std::string card_name, card_type, maker, maker_address, maker_website;
};
/// A patient's sheet in one language, as a person of the clinic approved it. A translation prints only with
/// one.
struct SheetApproval {
    std::string language, version;
    LocalDate date{};
    std::string approver;
};
struct PrintPolicy {
    std::string paper;  // "a4", "letter"
    std::vector<SheetApproval> sheets;
};
struct Clinic {
    std::string name, address, phone, zone, record_prefix, language;
    std::vector<std::string> rooms;
    std::vector<std::string> closed_dates;
};
struct Lists {
    std::vector<Check> screen;  // contraindications, pregnancy-test last
    std::vector<Check> before_sedation, before_device, before_leaving;
    std::vector<ListItem> findings, override_reasons, refusal_reasons, samples, sample_sites, airway_actions,
        emergency_kinds, discharge_answers, flags, call_ways, call_outcomes, early_reasons, second_look,
        balloon_states, fluid_colours;
};

/// The whole policy in force.
struct Policy {
    FastingPolicy fasting;
    BodyPolicy body;
    AirwayPolicy airway;
    VitalsPolicy vitals;
    MedicinePolicy medicine;
    DosePolicy dose;
    LookPolicy look;
    FillPolicy fill;
    RecoveryPolicy recovery;
    DischargePolicy discharge;
    DietPolicy diet;
    AdvicePolicy advice;
    DwellPolicy dwell;
    RegisterPolicy reg;
    RemovalPolicy removal;
    OutcomePolicy outcome;
    CasePolicy rules;
    Clinic clinic;
    Lists lists;
    std::vector<Drug> formulary;
    std::vector<DeviceProfile> devices;
    std::vector<std::string> recalled_lots;
    PrintPolicy print;
    std::string text;  // canonical JSON of everything above, as journalled; hash =
                       // BLAKE2b-256 of it

    [[nodiscard]] const Drug* drug(std::string_view id) const;
    [[nodiscard]] const DeviceProfile* device(std::string_view gtin) const;
    /// The approved sheet in this language; null when there is none.
    [[nodiscard]] const SheetApproval* sheet(std::string_view language) const;
};

/// One fault in a policy file: where, what, what is allowed.
struct PolicyFault {
    std::string file, key, say;
    bool operator==(const PolicyFault&) const = default;
};
/// The text of one policy file, by its name ("fasting.json").
struct PolicyFile {
    std::string name, text;
};

/// Reads the house files and the clinic's overlay on top (a clinic overlays only what differs).
/// Errors: every fault found, not only the first: bad JSON, unknown key (with the nearest known), missing
/// key, wrong type, out of range, order and cross-checks.
[[nodiscard]] tl::expected<Policy, std::vector<PolicyFault>> read_policy(
    const std::vector<PolicyFile>& house, const std::vector<PolicyFile>& overlay);
/// Reads a policy from its canonical text, as the journal keeps it.
[[nodiscard]] tl::expected<Policy, std::vector<PolicyFault>> read_policy_text(std::string_view text);

}  // namespace brimline
