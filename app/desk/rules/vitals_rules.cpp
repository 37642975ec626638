// Worked examples of vital signs, depth and airway events.
#include <algorithm>
#include <array>
#include <string>

#include "app/desk/rules/rule.h"
#include "core/rules/body.h"
#include "core/rules/depth.h"
#include "core/rules/vitals.h"

namespace brimline::worked {
namespace {

Outputs answer_map(const Inputs& in) {
    const auto map = rules::mean_pressure(in.whole("sbp"), in.whole("dbp"));
    if (!map) {
        Outputs out = refused("systolic must be above diastolic");
        out.put("result", "refuse");
        return out;
    }
    Outputs out;
    out.put("map_mmHg", ratio_whole(map->numerator(), map->denominator()));
    return out;
}

Outputs answer_map_alert(const Inputs& in) {
    const auto map = rules::mean_pressure(in.whole("sbp"), in.whole("dbp"));
    if (!map) {
        return refused("systolic must be above diastolic");
    }
    const int below = in.policy().whole("map_alert_below", in.house().vitals.map_below);
    Outputs out;
    out.put("alert", rules::map_alerts(*map, below)).put_shown("display", rules::map_text(*map, below));
    return out;
}

Outputs answer_band(const Inputs& in) {
    const std::string sign = in.text("sign");
    const auto which = sign == "hr"     ? rules::Sign::hr
                       : sign == "rr"   ? rules::Sign::rr
                       : sign == "spo2" ? rules::Sign::spo2
                                        : rules::Sign::systolic;
    const int band = rules::alert_band(which, in.whole("value"));
    Outputs out;
    out.put("news2_band", band)
        .put("prompt", rules::name_of(rules::band_prompt(band, in.house().vitals.prompt_band)));
    return out;
}

Outputs answer_change(const Inputs& in) {
    const int percent = in.policy().whole("limit_percent", in.house().vitals.baseline_percent);
    Outputs out;
    out.put("prompt", rules::baseline_changed(in.whole("baseline"), in.whole("value"), percent));
    return out;
}

const Limits& limits_of(const std::string& sign, const VitalsPolicy& policy) {
    return sign == "hr"      ? policy.hr
           : sign == "dbp"   ? policy.diastolic
           : sign == "spo2"  ? policy.spo2
           : sign == "rr"    ? policy.rr
           : sign == "etco2" ? policy.etco2
                             : policy.systolic;
}

Outputs answer_plausible(const Inputs& in) {
    const Limits limits = limits_over(limits_of(in.text("sign"), in.house().vitals), in.policy());
    Outputs out;
    out.put("result", rules::name_of(rules::judge_typed(in.decimal("value"), limits)));
    return out;
}

Outputs answer_timer(const Inputs& in) {
    const VitalsPolicy& house = in.house().vitals;
    const seconds interval{in.policy().whole("interval_s", static_cast<int>(house.interval.count()))};
    const seconds lead{in.policy().whole("lead_s", static_cast<int>(house.lead.count()))};
    const Written start = in.written("sedation_start").value_or(Written{});
    const Instant due = rules::vitals_due(start.as_utc(), in.maybe_utc("last_set"), interval);
    Outputs out;
    out.put("due", Moment{due, nullptr, !start.date})
        .put("state", rules::name_of(rules::vitals_state(due, in.utc("now"), interval, lead)));
    return out;
}

/// The step that a nurse's own words describe, by the words that set the steps apart. Words that fit none, or
/// tell only that something failed short of pain, are not guessed at. Source: before.md 8, moaas.
std::optional<int> step_said(std::string said) {
    std::transform(said.begin(), said.end(), said.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    const auto any = [&](std::initializer_list<std::string_view> words) {
        return std::any_of(words.begin(), words.end(),
                           [&](auto w) { return said.find(w) != std::string::npos; });
    };
    const bool fails =
        any({"not even", "no answer", "no response", "does not", "doesn't", "unresponsive", "none"});
    const bool pain = any({"squeeze", "pain", "trapezius"});
    if (fails) {
        const bool short_of_pain = any({"prod", "shak", "loud", "call", "voice", "name"}) && !pain;
        return short_of_pain ? std::nullopt : std::optional{0};
    }
    if (pain) {
        return 1;
    }
    if (any({"prod", "shak"})) {
        return 2;
    }
    if (any({"loud", "repeat"})) {
        return 3;
    }
    if (any({"letharg", "slow", "drows"})) {
        return 4;
    }
    return any({"readil", "awake", "normal"}) ? std::optional{5} : std::nullopt;
}

Outputs answer_depth(const Inputs& in) {
    const auto said = in.text("response");
    const auto worded = rules::moaas_worded(said);
    const auto step = in.has("moaas") ? in.maybe_whole("moaas") : worded ? worded : step_said(said);
    const auto depth = rules::depth_of(step.value_or(-1));
    if (!depth) {
        return refused(depth.error().code);
    }
    const int prompt_at = in.policy().whole("prompt_at_or_below", in.house().vitals.depth_prompt_at);
    Outputs out;
    out.put("moaas", *step)
        .put("level", rules::name_of(*depth))
        .put("prompt", rules::name_of(rules::depth_prompt(*step, prompt_at)))
        .put("refused", false);
    return out;
}

Outputs answer_airway_event(const Inputs& in) {
    Outputs out;
    out.put("desaturation",
            rules::name_of(rules::desaturation(in.whole("lowest_spo2"), seconds{in.whole("duration_s")})));
    return out;
}

}  // namespace

std::vector<Rule> vitals_rules() {
    return {
        {"map", "sbp: whole, dbp: whole",
         "map_mmHg?: whole, result?: text, reason?: text, refused?: true/false",
         "before.md 7: DeMers and Wachs, Physiology, Mean Arterial Pressure (formula as quoted)", answer_map},
        {"map-alert", "sbp: whole, dbp: whole, policy?: {map_alert_below?: whole}",
         "alert: true/false, display: decimal, refused?: true/false, reason?: text",
         "before.md 0 and 7: common practice in perioperative care", answer_map_alert},
        {"alert-band", "sign: one of hr|rr|sbp|spo2, value: whole", "news2_band: whole, prompt: text",
         "before.md 7: RCP, National Early Warning Score 2 (2017), chart 1; single bands only", answer_band},
        {"baseline-change",
         "sign: one of hr|sbp, baseline: whole, value: whole, policy?: {limit_percent?: whole}",
         "prompt: true/false", "before.md 7: Br J Anaesth 2012;108:13-20 (tool as reproduced)",
         answer_change},
        {"plausible",
         "sign: one of hr|sbp|dbp|spo2|rr|etco2, value: decimal, policy?: {hard?: list of decimal, ask?: "
         "list of decimal}",
         "result: text", "before.md 0 and 7: common practice", answer_plausible},
        {"vitals-timer",
         "sedation_start: time, last_set?: time, now: time, policy?: {interval_s?: whole, lead_s?: whole}",
         "due: time, state: text",
         "before.md 7: ASA Standards for Basic Anesthetic Monitoring (at least every 5 min)", answer_timer},
        {"depth", "moaas?: whole, policy?: {prompt_at_or_below?: whole}, response?: text",
         "level?: text, prompt?: text, refused?: true/false, moaas?: whole, reason?: text",
         "before.md 8: J Clin Psychopharmacol 1990;10:244-251, modified; ASA continuum", answer_depth},
        {"airway-event", "lowest_spo2: whole, duration_s: whole", "desaturation: text",
         "before.md 8: Br J Anaesth 2012;108:13-20, 10.1093/bja/aer407", answer_airway_event},
    };
}

}  // namespace brimline::worked
