// Worked examples of fasting: one item, several, clock changes, meal kinds, and drugs that slow the stomach.
#include <array>

#include "app/desk/rules/rule.h"
#include "core/rules/fasting.h"
#include "core/rules/glp1.h"

namespace brimline::worked {
namespace {

using rules::Intake;

struct Kind {
    std::string_view word;
    Intake intake;
};
constexpr std::array<Kind, 9> kinds{{{"clear-fluid", Intake::clear_fluid},
                                     {"breast-milk", Intake::breast_milk},
                                     {"infant-formula", Intake::infant_formula},
                                     {"non-human-milk", Intake::milk},
                                     {"milk", Intake::milk},
                                     {"full-liquid", Intake::full_liquid},
                                     {"light-meal", Intake::light_meal},
                                     {"fatty-meal", Intake::fatty_meal},
                                     {"solids", Intake::meal_unknown}}};

/// The words of kinds, "a|b|c".
std::string intake_words() {
    std::string words;
    for (const Kind& kind : kinds) {
        words += (words.empty() ? "" : "|") + std::string{kind.word};
    }
    return words;
}

/// A word that is not listed is a meal of unknown kind, which waits longest.
Intake intake_of(std::string_view word) {
    for (const Kind& kind : kinds) {
        if (kind.word == word) {
            return kind.intake;
        }
    }
    return Intake::meal_unknown;
}

minutes required(const Inputs& in) {
    const auto given = in.maybe_whole("required_min");
    return given ? minutes{*given} : rules::fasting_required(intake_of(in.text("kind")), in.house().fasting);
}

/// The moment of an intake: with its own offset, else by the wall clock of the zone.
Expected<Instant> intake(const Inputs& in, std::string_view name, const Zone& zone) {
    const Written written = in.written(name).value_or(Written{});
    if (written.offset) {
        return written.as_utc();
    }
    return rules::intake_moment(written.reading(), zone, in.text("answered") == "first");
}

/// The moment that is judged at: of two readings the earlier, which makes no fast longer than it was.
Expected<Instant> judged_at(const Inputs& in, std::string_view name, const Zone& zone) {
    const Written written = in.written(name).value_or(Written{});
    return written.offset ? written.as_utc() : rules::intake_moment(written.reading(), zone, true);
}

void put_fast(Outputs& out, Instant last, std::optional<Instant> at, minutes wait, const Zone& zone) {
    const rules::Fast fast = rules::judge_fast(last, at.value_or(last), wait);
    if (at) {
        out.put("elapsed_min", fast.elapsed_min).put("met", fast.met);
    }
    out.put("earliest_local", Moment{fast.earliest, &zone}).put("earliest_utc", Moment{fast.earliest});
}

/// One intake judged at `at_name`, or only dated where that is absent.
Outputs answer_fast(const Inputs& in, std::string_view at_name, minutes wait) {
    const Zone& zone = in.zone("tz");
    const auto last = intake(in, in.has("last_local") ? "last_local" : "last_solids_local", zone);
    if (!last) {
        return refused(last.error().code);
    }
    std::optional<Instant> at;
    if (in.has(at_name)) {
        const auto moment = judged_at(in, at_name, zone);
        if (!moment) {
            return refused(moment.error().code);
        }
        at = *moment;
    }
    Outputs out;
    out.put("refused", false);
    put_fast(out, *last, at, wait, zone);
    return out;
}

Outputs answer_fasting(const Inputs& in) { return answer_fast(in, "at_local", required(in)); }

Outputs answer_fasting_input(const Inputs& in) {
    const Zone& zone = in.zone("tz");
    const auto last = intake(in, "last_local", zone);
    const auto entered = judged_at(in, "entered_at_local", zone);
    if (!last || !entered) {
        return refused(last ? entered.error().code : last.error().code);
    }
    const auto asked = rules::intake_asked(*last, *entered, in.house().fasting);
    if (!asked) {
        return refused(asked.error().code);
    }
    return answer_fast(in, in.has("at_local") ? "at_local" : "entered_at_local", required(in));
}

Outputs answer_combined(const Inputs& in) {
    const Zone& zone = in.zone("tz");
    const auto at = judged_at(in, "at_local", zone);
    if (!at) {
        return refused(at.error().code);
    }
    std::vector<rules::FastingItem> items;
    std::vector<std::string> names;
    for (const Inputs& given : in.objects("items")) {
        rules::FastingItem item{std::nullopt, required(given), given.text("answer") == "none"};
        if (given.has("last_local") && given.text("answer").empty()) {
            const auto last = intake(given, "last_local", zone);
            if (!last) {
                return refused(last.error().code);
            }
            item.last = *last;
        }
        items.push_back(item);
        names.push_back(given.text("kind"));
    }
    const auto combined = rules::combine_fasts(items, *at);
    Values met;
    for (const bool one : combined.met) {
        met.push_back({one});
    }
    std::vector<std::string> missing;
    for (const std::size_t i : combined.missing) {
        missing.push_back(names[i]);
    }
    Outputs out;
    out.put("met", std::move(met)).put("all_met", combined.all_met).put("missing", missing);
    if (combined.all_from) {
        out.put("every_rule_met_from_local", Moment{*combined.all_from, &zone});
    }
    return out;
}

/// "coffee with milk, about 15 % milk" -> 15; milk of unknown share is all of it; no milk is none.
int milk_percent(const std::string& description) {
    const auto sign = description.find('%');
    const auto last = description.find_last_of("0123456789", sign);
    if (sign == std::string::npos || last == std::string::npos) {
        return description.find("milk") == std::string::npos ? 0 : 100;
    }
    const auto before = description.find_last_not_of("0123456789.", last);
    const auto first = before == std::string::npos ? 0 : before + 1;
    const auto share = Decimal::parse(std::string_view{description}.substr(first, last + 1 - first));
    const std::int64_t millionths = share ? share->in_millionths() : 100 * Decimal::scale;
    return static_cast<int>((millionths + Decimal::scale - 1) /
                            Decimal::scale);  // any part counts as one more
}

Outputs answer_meal_type(const Inputs& in) {
    Outputs out;
    const std::string kind = in.text("kind");
    if (kind == "chewing-gum") {
        return out.put("delays", rules::gum_delays(in.truth("removed"))), out;
    }
    FastingPolicy policy = in.house().fasting;
    policy.milk_in_tea_percent = in.policy().whole("milk_in_tea_max_percent", policy.milk_in_tea_percent);
    Intake intake = intake_of(kind == "solids" ? in.text("meal_type") : kind);
    if (kind == "drink") {
        intake = rules::drink_with_milk(milk_percent(in.text("description")), policy);
        out.put("treated_as", intake == Intake::clear_fluid ? "clear-fluid" : "non-human-milk");
    }
    const auto wait = static_cast<int>(rules::fasting_required(intake, policy).count());
    out.put("required_min", wait).put("delays", true);
    return out;
}

Outputs answer_glp1(const Inputs& in) {
    const Inputs policy = in.policy();
    FastingPolicy fasting = in.house().fasting;
    fasting.glp1_solids =
        minutes{policy.whole("liquid_diet_min", static_cast<int>(fasting.glp1_solids.count()))};
    fasting.glp1_apply = policy.has("apply") ? policy.text("apply") : fasting.glp1_apply;
    const Intake meal = intake_of(in.text("meal_type"));
    const minutes wait = in.truth("on_glp1") ? rules::fasting_required_on_glp1(meal, {}, fasting)
                                             : rules::fasting_required(meal, fasting);
    Outputs out = answer_fast(in, "at_local", wait);
    out.put("required_min", static_cast<int>(wait.count()));
    return out;
}

Outputs answer_glp1_hold(const Inputs& in) {
    const FastingPolicy& house = in.house().fasting;
    const int usual =
        in.text("formulation") == "daily" ? house.glp1_hold_daily_days : house.glp1_hold_weekly_days;
    const auto hold = rules::glp1_hold(in.date("last_dose_date"), in.date("procedure_date"),
                                       in.policy().whole("hold_days", usual));
    Outputs out;
    out.put("days_since", hold.days_since).put("hold_met", hold.met);
    return out;
}

constexpr std::string_view fast_out =
    "elapsed_min?: whole, met?: true/false, earliest_local?: time, earliest_utc?: time, refused?: "
    "true/false, "
    "reason?: text";
constexpr std::string_view fasting_source =
    "before.md 1: ASA Task Force, Anesthesiology 2017;126:376-393 (as quoted); ESA, Eur J Anaesthesiol "
    "2011;28:556-569 (abstract)";
constexpr std::string_view clock_source =
    "before.md 0 and 1: Directive 2000/84/EC for the dates; which of two readings: common practice";

}  // namespace

std::vector<Rule> fasting_rules() {
    const std::string kind = "kind: one of " + intake_words();
    const std::string out{fast_out};
    return {
        {"fasting", kind + ", last_local: time, at_local: time, tz: zone, required_min?: whole", out,
         fasting_source, answer_fasting},
        {"fasting-dst",
         kind + ", last_local: time, at_local?: time, tz: zone, required_min?: whole, "
                "answered?: one of first|second",
         out, clock_source, answer_fasting},
        {"fasting-input",
         kind + ", last_local: time, entered_at_local: time, tz: zone, at_local?: time, required_min?: whole",
         out, "before.md 1, fasting-future: case design, common practice", answer_fasting_input},
        {"fasting-combined",
         "at_local: time, tz: zone, items: list of {" + kind +
             ", last_local?: time, required_min?: whole, answer?: one of none|not-answered}",
         "met: list of true/false, all_met: true/false, every_rule_met_from_local?: time, "
         "missing?: set of text, refused?: true/false, reason?: text",
         "before.md 0 and 1: strictest wins, no answer is never none (common practice)", answer_combined},
        {"fasting-meal-type",
         "kind: one of chewing-gum|drink|solids, meal_type?: one of unknown|light-meal|fatty-meal, "
         "description?: text, policy?: {milk_in_tea_max_percent?: whole}, "
         "removed?: true/false",
         "required_min?: whole, treated_as?: text, delays?: true/false",
         "before.md 1: ASA 2017 (black only), ESA 2011 (up to about a fifth); ASA 2023 and ESA 2011 on gum",
         answer_meal_type},
        {"glp1",
         "meal_type: one of light-meal|fatty-meal|unknown, last_solids_local: time, at_local: time, tz: "
         "zone, on_glp1: true/false, "
         "policy?: {apply?: one of all|elevated-risk, liquid_diet_min?: whole}",
         "required_min: whole, elapsed_min: whole, met: true/false, earliest_local: time, earliest_utc: "
         "time, "
         "refused?: true/false, reason?: text",
         "before.md 2: multisociety guidance 2024, 10.1016/j.soard.2024.08.033 (as reported)", answer_glp1},
        {"glp1-hold",
         "formulation: one of daily|weekly, last_dose_date: time, procedure_date: time, policy?: "
         "{hold_days?: whole}",
         "days_since: whole, hold_met: true/false",
         "before.md 2: ASA guidance of 29 June 2023; Anaesthesia 2025;80:412-424 (disputed, so off)",
         answer_glp1_hold},
    };
}

}  // namespace brimline::worked
