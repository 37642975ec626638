// What hand-over and Recovery show, worked out from the case.
#include "core/case/recovery_view.h"

#include <algorithm>

#include "core/rules/padss.h"

namespace brimline {
namespace {

const Noted<Vitals>* last_set_of(const CaseState& s) {
    for (auto set = s.vitals.rbegin(); set != s.vitals.rend(); ++set) {
        if (!set->is.not_taken) {
            return &*set;
        }
    }
    return nullptr;
}

/// The last set before sedation: what "before" means in a score.
const Vitals* baseline_of(const CaseState& s) {
    const Vitals* before = nullptr;
    for (const auto& set : s.vitals) {
        if (!set.is.not_taken && s.sedation_start && set.stamp.happened < s.sedation_start->happened) {
            before = &set.is;
        }
    }
    return before;
}

std::optional<Decimal> oxygen_before(const CaseState& s) {
    std::optional<Decimal> before;
    for (const auto& one : s.oxygen) {
        if (s.sedation_start && one.stamp.happened < s.sedation_start->happened) {
            before = one.is.l_min;
        }
    }
    return before;
}

std::optional<int> fresh_rating(const CaseState& s, SymptomKind kind, Instant since) {
    std::optional<int> points;
    for (const auto& symptom : s.symptoms) {
        if (symptom.is.kind == kind && symptom.is.value && symptom.stamp.happened >= since) {
            points = rules::symptom_points(*symptom.is.value);
        }
    }
    return points;
}

/// The same policy without its waits: whether the scores alone suffice.
RecoveryPolicy scores_only(const RecoveryPolicy& policy) {
    auto alone = policy;
    alone.since_sedative = minutes{0};
    alone.since_reversal = minutes{0};
    alone.min_stay = minutes{0};
    return alone;
}

rules::RecoveryTimes times_of(const CaseState& s, const Policy& policy) {
    return {last_sedative(s, policy), last_reversal(s, policy),
            s.accepted ? std::optional{s.accepted->stamp.happened} : std::nullopt};
}

FitLine score_line(const CaseState& s, const Policy& policy) {
    FitLine line{FitLine::What::scores, false, policy.recovery.consecutive, {}, {}};
    const auto scores = scores_that_count(s);
    for (auto score = scores.rbegin(); score != scores.rend(); ++score) {
        const bool counts =
            rules::aldrete_qualifies(score->items, policy.recovery.threshold, policy.recovery.item_floor);
        if (!counts || static_cast<int>(line.at.size()) == policy.recovery.consecutive) {
            break;
        }
        line.at.insert(line.at.begin(), score->at);
    }
    line.met = rules::fit_from(scores, times_of(s, policy), scores_only(policy.recovery)).has_value();
    return line;
}

FitLine wait_line(FitLine::What what, std::optional<Instant> from, minutes wait, Instant now) {
    FitLine line{what, true, static_cast<int>(wait.count()), {}, {}};
    if (from) {
        line.gone = now - *from;
        line.met = *line.gone >= wait;
    }
    return line;
}

}  // namespace

HandoverView handover_view(const CaseState& s, const Policy& policy) {
    HandoverView view;
    const auto& block = s.device();
    view.inside = placed_at(s).has_value();
    view.volume = s.abandoned ? s.abandoned->is.inside.ml : running_volume(block);
    view.agreed = block.read_back_stands;
    view.dye = block.dye && block.dye->is.ml.has_value();
    view.last_dose = last_sedative(s, policy);
    view.reversal = last_reversal(s, policy);
    if (!s.oxygen.empty()) {
        view.oxygen = s.oxygen.back().is.l_min;
    }
    view.lowest = lowest_spo2(s);
    for (const auto& episode : s.airway_events) {
        const bool lower = view.event == nullptr || !view.event->lowest_spo2 ||
                           (episode.lowest_spo2 && *episode.lowest_spo2 <= *view.event->lowest_spo2);
        view.event = lower ? &episode : view.event;
    }
    view.last_set = last_set_of(s);
    return view;
}

std::optional<DayMonth> typed_day_month(std::string_view digits) {
    if (digits.size() != 4) {
        return std::nullopt;
    }
    const auto two = [&](std::size_t at) { return (digits[at] - '0') * 10 + (digits[at + 1] - '0'); };
    const DayMonth value{two(0), two(2)};
    const std::chrono::year_month_day day{std::chrono::year{2024},  // a leap year: 29 02 is a birthday too
                                          std::chrono::month{static_cast<unsigned>(value.month)},
                                          std::chrono::day{static_cast<unsigned>(value.day)}};
    return day.ok() ? std::optional{value} : std::nullopt;
}

std::vector<FitLine> fit_lines(const CaseState& s, const Policy& policy, Instant now) {
    const auto& p = policy.recovery;
    std::vector<FitLine> lines{
        score_line(s, policy),
        wait_line(FitLine::What::since_dose, last_sedative(s, policy), p.since_sedative, now),
        wait_line(FitLine::What::reversal, last_reversal(s, policy), p.since_reversal, now)};
    if (p.min_stay > minutes{0}) {
        const auto from = s.accepted ? std::optional{s.accepted->stamp.happened} : std::nullopt;
        lines.push_back(wait_line(FitLine::What::stay, from, p.min_stay, now));
        lines.back().met = lines.back().met && from;
    }
    return lines;
}

ScoreProposal proposed_parts(const CaseState& s, const Policy& policy, Instant now) {
    ScoreProposal parts;
    const auto* set = last_set_of(s);
    const auto since = now - policy.recovery.auto_score_age;
    if (set == nullptr || set->stamp.happened < since || s.oxygen.empty() ||
        s.oxygen.back().stamp.happened < set->stamp.happened) {
        return parts;
    }
    parts.from = set->stamp.happened;
    const auto* before = baseline_of(s);
    if (before != nullptr && set->is.systolic) {
        parts.circulation = rules::aldrete_circulation(before->systolic, *set->is.systolic);
        if (set->is.hr) {
            parts.vital_signs =
                rules::padss_vital(before->systolic, *set->is.systolic, before->hr, *set->is.hr);
        }
    }
    if (set->is.spo2) {
        const auto now_l = s.oxygen.back().is.l_min;
        const auto home_l = oxygen_before(s).value_or(Decimal{});
        const bool on_oxygen = now_l > Decimal{};
        const bool as_at_home = policy.recovery.home_oxygen_full && on_oxygen && now_l <= home_l;
        parts.oxygen = rules::aldrete_oxygen(*set->is.spo2, on_oxygen, as_at_home);
    }
    parts.nausea = fresh_rating(s, SymptomKind::nausea, since);
    parts.pain = fresh_rating(s, SymptomKind::pain, since);
    return parts;
}

std::optional<Instant> fit_with(const CaseState& s, const Policy& policy, const Score& score, Instant now) {
    CaseState after = s;
    Noted<Score> noted;
    noted.stamp.happened = now;
    noted.stamp.at = now;
    noted.is = score;
    after.scores.push_back(noted);
    return fit_since(after, policy);
}

}  // namespace brimline
