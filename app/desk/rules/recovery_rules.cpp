// Worked examples of recovery: parts of the scores, totals, fitness, and when vital signs are due.
#include <algorithm>
#include <array>

#include "app/desk/rules/rule.h"
#include "core/rules/padss.h"
#include "core/rules/recovery.h"

namespace brimline::worked {
namespace {

/// Minutes of an example as moments.
Instant minute(int n) { return Instant{} + minutes{n}; }
std::optional<Instant> minute(std::optional<int> n) { return n ? std::optional{minute(*n)} : std::nullopt; }
std::int64_t minute_of(Instant t) { return whole_minutes(t - Instant{}); }

minutes minutes_over(const Inputs& policy, std::string_view name, minutes house) {
    return minutes{policy.whole(name, static_cast<int>(house.count()))};
}

Outputs suggest(std::optional<int> points) {
    Outputs out;
    out.put("suggested", points);
    return out;
}

Outputs answer_circulation(const Inputs& in) {
    return suggest(
        rules::aldrete_circulation(in.maybe_whole("systolic_before_sedation"), in.whole("systolic_now")));
}
Outputs answer_oxygen(const Inputs& in) {
    return suggest(rules::aldrete_oxygen(in.whole("spo2_percent"), in.truth("on_oxygen")));
}
Outputs answer_activity(const Inputs& in) {
    return suggest(rules::aldrete_activity(in.whole("limbs_moved")));
}
Outputs answer_padss_vital(const Inputs& in) {
    return suggest(rules::padss_vital(in.maybe_whole("systolic_before"), in.whole("systolic_now"),
                                      in.maybe_whole("pulse_before"), in.whole("pulse_now")));
}

constexpr std::array<std::string_view, 5> aldrete_names{"activity", "respiration", "circulation",
                                                        "consciousness", "oxygen"};
constexpr std::array<std::string_view, 5> padss_names{"vital_signs", "ambulation", "nausea_vomiting", "pain",
                                                      "bleeding"};

std::array<std::optional<int>, 5> items_of(const Inputs& items,
                                           const std::array<std::string_view, 5>& names) {
    std::array<std::optional<int>, 5> found;
    std::transform(names.begin(), names.end(), found.begin(),
                   [&](std::string_view name) { return items.maybe_whole(name); });
    return found;
}

Outputs answer_aldrete(const Inputs& in) {
    const auto answers = items_of(in.within("items"), aldrete_names);
    const auto total = rules::aldrete_total(answers);
    bool qualifies = false;
    if (total) {
        rules::AldreteItems items{};
        std::transform(answers.begin(), answers.end(), items.begin(), [](auto answer) { return *answer; });
        qualifies = rules::aldrete_qualifies(items, in.whole("threshold", in.house().recovery.threshold),
                                             in.whole("item_floor", in.house().recovery.item_floor));
    }
    Outputs out;
    out.put("total", total).put("qualifies", qualifies);
    return out;
}

Outputs answer_trend(const Inputs& in) {
    Outputs out;
    out.put("trend", rules::name_of(rules::aldrete_trend(in.wholes("totals"))));
    return out;
}

/// The five items; where an example gives a total alone, items that add up to it.
rules::AldreteItems score_items(const Inputs& score) {
    rules::AldreteItems items{};
    if (const auto given = score.wholes("items"); given.size() == items.size()) {
        std::copy(given.begin(), given.end(), items.begin());
        return items;
    }
    const int total = score.whole("total");
    for (std::size_t i = 0; i < items.size(); ++i) {
        items[i] = total / 5 + (static_cast<int>(i) < total % 5 ? 1 : 0);
    }
    return items;
}

Outputs answer_fit(const Inputs& in) {
    const Inputs policy = in.policy();
    RecoveryPolicy rules_in_force = in.house().recovery;
    rules_in_force.threshold = policy.whole("threshold", rules_in_force.threshold);
    rules_in_force.item_floor = policy.whole("item_floor", rules_in_force.item_floor);
    rules_in_force.consecutive = policy.whole("consecutive", rules_in_force.consecutive);
    rules_in_force.gap = minutes_over(policy, "gap_min", rules_in_force.gap);
    rules_in_force.since_sedative = minutes_over(policy, "since_sedative_min", rules_in_force.since_sedative);
    rules_in_force.since_reversal = minutes_over(policy, "since_reversal_min", rules_in_force.since_reversal);
    std::vector<rules::AldreteScore> scores;
    for (const Inputs& score : in.objects("scores")) {
        scores.push_back({minute(score.whole("minute")), score_items(score)});
    }
    const rules::RecoveryTimes times{minute(in.maybe_whole("last_sedative_minute")),
                                     minute(in.maybe_whole("last_reversal_minute")), std::nullopt};
    const auto fit = rules::fit_from(scores, times, rules_in_force);
    Outputs out;
    out.put("fit_from_minute", fit ? std::optional{minute_of(*fit)} : std::nullopt);
    return out;
}

Outputs answer_vitals(const Inputs& in) {
    const Inputs policy = in.policy();
    const RecoveryPolicy& house = in.house().recovery;
    const Instant due = rules::recovery_vitals_due(
        minute(in.whole("last_vitals_minute")), minute(in.maybe_whole("last_reversal_minute")),
        minutes_over(policy, "interval", house.vitals),
        minutes_over(policy, "interval_after_reversal", house.vitals_after_reversal),
        minutes_over(policy, "reversal_wait", house.since_reversal));
    Outputs out;
    out.put("next_due_minute", minute_of(due));
    return out;
}

Outputs answer_padss(const Inputs& in) {
    const auto total = rules::padss_total(items_of(in.within("items"), padss_names));
    const int threshold = in.whole("threshold", in.house().discharge.padss_threshold);
    Outputs out;
    out.put("total", total).put("qualifies", total && rules::padss_qualifies(*total, threshold));
    return out;
}

Outputs answer_symptom(const Inputs& in) {
    const int rating = in.whole("rating_0_to_10");
    if (rating < 0 || rating > 10) {
        return refused("out-of-range");
    }
    Outputs out;
    out.put("padss_points", rules::symptom_points(rating));
    return out;
}

constexpr std::string_view aldrete =
    "after.md 2.1: J Clin Anesth 1995;7:89-91 (secondary copies); gaps are our reading";
constexpr std::string_view padss =
    "after.md 2.3: Anesth Analg 1999;88:508-517 (from memory); World J Gastrointest Endosc 2013;5:502-507";

}  // namespace

std::vector<Rule> recovery_rules() {
    return {
        {"aldrete-circulation", "systolic_before_sedation?: whole, systolic_now: whole", "suggested?: whole",
         aldrete, answer_circulation},
        {"aldrete-oxygen", "spo2_percent: whole, on_oxygen: true/false", "suggested: whole", aldrete,
         answer_oxygen},
        {"aldrete-activity", "limbs_moved: whole", "suggested: whole", aldrete, answer_activity},
        {"aldrete-total",
         "items: {activity?: whole, respiration?: whole, circulation?: whole, consciousness?: whole, "
         "oxygen?: whole}, threshold?: whole, item_floor?: whole",
         "total?: whole, qualifies: true/false", aldrete, answer_aldrete},
        {"aldrete-trend", "totals: list of whole", "trend: text", "after.md 2.1: common practice",
         answer_trend},
        {"recovery-fit",
         "scores: list of {minute: whole, items?: list of whole, total?: whole}, last_sedative_minute?: "
         "whole, "
         "last_reversal_minute?: whole, policy?: {threshold?: whole, item_floor?: whole, consecutive?: "
         "whole, "
         "gap_min?: whole, since_sedative_min?: whole, since_reversal_min?: whole}",
         "fit_from_minute?: whole",
         "after.md 2.1 and 2.2: 10.4253/wjge.v5.i10.502; 10.1097/00000542-200204000-00031; our reading",
         answer_fit},
        {"recovery-vitals-interval",
         "last_vitals_minute: whole, last_reversal_minute?: whole, policy?: {interval?: whole, "
         "interval_after_reversal?: whole, reversal_wait?: whole}",
         "next_due_minute: whole", "after.md 2.2: a children's sedation pathway; common practice",
         answer_vitals},
        {"padss-vital",
         "systolic_before?: whole, systolic_now: whole, pulse_before?: whole, pulse_now: whole",
         "suggested?: whole", padss, answer_padss_vital},
        {"padss-total",
         "items: {vital_signs?: whole, ambulation?: whole, nausea_vomiting?: whole, pain?: whole, "
         "bleeding?: whole}, threshold?: whole",
         "total?: whole, qualifies: true/false", padss, answer_padss},
        {"symptom-band", "rating_0_to_10: whole", "padss_points?: whole, refused?: true/false, reason?: text",
         "after.md 2.3: published for pain; used for nausea too (our reading)", answer_symptom},
    };
}

}  // namespace brimline::worked
