// The policy in force, as far as the record rests on it, and what was tried and refused.
#include <fmt/format.h>

#include "core/case/codes.h"
#include "core/record/text_parts.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view whole_text = "The whole policy stands in the journal under this hash.";
constexpr std::string_view no_hash = "not recorded in this store";
}  // namespace say

std::string hours(minutes m) { return span_words(std::chrono::duration_cast<Duration>(m)); }

void fasting(Sheet& sheet, const Source& v) {
    const auto& f = v.policy.fasting;
    if (v.s.kind == CaseKind::removal) {
        return sheet.field("Preparation",
                           fmt::format("solids {}, full liquids {}, clear fluids {}", hours(f.removal_solid),
                                       hours(f.removal_full_liquid), hours(f.removal_clear)));
    }
    sheet.field(
        "Fasting",
        fmt::format("clear fluids {}, milk {}, full liquids {}, light meal {}, fatty meal {}, meal of "
                    "unknown kind {}",
                    hours(f.clear_fluid), hours(f.milk), hours(f.full_liquid), hours(f.light_meal),
                    hours(f.fatty_meal), hours(f.meal_unknown)));
}

void fill(Sheet& sheet, const Source& v) {
    const auto& f = v.policy.fill;
    sheet.field(
        "Fill",
        fmt::format("syringe {}; a tap within {} of the last is a question; count check every {}; "
                    "read-back within {}; saline {} g/mL; valve watched {}",
                    ml_words(nominal_syringe(v.s, v.policy)), span_words(f.double_tap),
                    counted(f.count_check_every, "syringe", "syringes"), ml_words(f.read_back_tolerance),
                    f.saline_g_per_ml.text(), span_words(f.valve_dry)));
    const auto& look = v.policy.look;
    sheet.field("Look", fmt::format("stopping findings: {}; hiatal hernia above {} cm; oesophagitis grade {}",
                                    plain(joined(look.stopping_findings)), look.hernia_ceiling_cm.text(),
                                    joined(look.stopping_grades)));
}

void recovery(Sheet& sheet, const Source& v) {
    const auto& r = v.policy.recovery;
    const auto& d = v.policy.discharge;
    sheet.field("Vital signs",
                fmt::format("every {} in the room, every {} in recovery, every {} once fit; mean pressure "
                            "prompts below {} mmHg",
                            span_words(v.policy.vitals.interval), hours(r.vitals), hours(r.vitals_when_fit),
                            v.policy.vitals.map_below));
    sheet.field(
        "Fit",
        fmt::format("score {} or more {} in a row at least {} apart, {} since the last sedative or opioid, "
                    "{} after a reversal drug",
                    r.threshold, times_words(r.consecutive), hours(r.gap), hours(r.since_sedative),
                    hours(r.since_reversal)));
    sheet.field("Home",
                fmt::format("PADSS {} or more {}; nausea at most {}, pain at most {}; no driving for {} h",
                            d.padss_threshold, times_words(d.padss_consecutive), d.max_nausea, d.max_pain,
                            d.limits_h));
}

void register_and_entry(Sheet& sheet, const Source& v) {
    const auto& dwell = v.policy.dwell;
    const auto* profile = profile_of(v.s.device(), v.policy);
    const int months = profile == nullptr ? dwell.months : std::min(profile->dwell_months, dwell.months);
    int days = dwell.days;
    if (profile != nullptr && profile->dwell_days > 0) {
        days = days > 0 ? std::min(days, profile->dwell_days) : profile->dwell_days;
    }
    const auto after = counted(months, "calendar month", "calendar months") +
                       (days > 0 ? fmt::format(" or {}, the sooner", counted(days, "day", "days")) : "");
    sheet.field("Register", fmt::format("due after {}, {} of grace, book by {} before", after,
                                        counted(dwell.grace_days, "day", "days"),
                                        counted(dwell.book_by_days, "day", "days")));
    sheet.field("Entries",
                fmt::format("late when entered more than {} after; values of an airway event within {}",
                            hours(v.policy.rules.late_entry), hours(v.policy.rules.airway_values)));
    sheet.field("Time zone", v.zone.name());
}

/// The sentence of a code, when the table has it.
std::string code_words(const std::string& code) {
    for (const auto& known : all_codes()) {
        if (known.code == code) {
            return fmt::format("{} ({})", known.say, code);
        }
    }
    return code;
}

}  // namespace

void write_policy(Sheet& sheet, const Source& v) {
    sheet.section("Policy in force");
    sheet.field("Hash", v.desk.policy ? v.desk.policy->hash : std::string{say::no_hash});
    if (v.desk.policy) {
        sheet.field("", say::whole_text);
    }
    fasting(sheet, v);
    if (v.s.kind == CaseKind::placement) {
        fill(sheet, v);
    }
    recovery(sheet, v);
    register_and_entry(sheet, v);
}

void write_attempts(Sheet& sheet, const Source& v) {
    if (v.s.attempts.empty()) {
        return;
    }
    sheet.section("Attempts that were refused");
    for (const auto& attempt : v.s.attempts) {
        sheet.field(v.clock_s(attempt.stamp.at),
                    fmt::format("{}, {}: {}{}", plain(attempt.is.what), v.person(attempt.stamp.by),
                                code_words(attempt.is.code),
                                attempt.is.raw ? fmt::format(", read: \"{}\"", *attempt.is.raw) : ""));
    }
}

}  // namespace brimline::record
