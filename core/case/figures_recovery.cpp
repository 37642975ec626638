// Figures of monitoring and recovery: when the next set is due, since when the patient is fit, what discharge
// lacks.
#include <algorithm>
#include <set>

#include "core/case/recovery_view.h"
#include "core/rules/discharge.h"
#include "core/rules/padss.h"
#include "core/rules/recovery.h"
#include "core/rules/vitals.h"

namespace brimline {
namespace {

std::optional<Instant> last_set_from(const CaseState& s, Instant from) {
    std::optional<Instant> last;
    for (const auto& set : s.vitals) {
        if (set.stamp.happened >= from) {
            last = set.stamp.happened;
        }
    }
    return last;
}

std::optional<Instant> last_emergency_end(const CaseState& s) {
    std::optional<Instant> last;
    for (const auto& episode : s.emergencies) {
        if (episode.end) {
            last = episode.end->stamp.happened;
        }
    }
    return last;
}

/// A set that fell due while an airway event was open is answered by it (10-decisions F7).
Instant answered_by_airway(const CaseState& s, Instant due, seconds interval) {
    for (const auto& episode : s.airway_events) {
        const bool within = episode.end && episode.start.happened <= due && due <= *episode.end;
        due = within ? *episode.end + interval : due;
    }
    return due;
}

rules::AldreteItems items_of(const Score& score) {
    return {score.activity.value_or(0), score.respiration.value_or(0), score.circulation.value_or(0),
            score.consciousness.value_or(0), score.oxygen.value_or(0)};
}

/// A set with a value in the highest alert band ends "fit" (10-decisions F14).
bool alerts(const Vitals& set) {
    const auto highest = [](rules::Sign sign, const std::optional<int>& value) {
        return value && rules::alert_band(sign, *value) >= 3;
    };
    return highest(rules::Sign::hr, set.hr) || highest(rules::Sign::systolic, set.systolic) ||
           highest(rules::Sign::spo2, set.spo2) || highest(rules::Sign::rr, set.rr);
}

/// The latest moment after which scores must begin anew: an airway event, another emergency, an alert value,
/// vomited blood.
std::optional<Instant> fit_broken_at(const CaseState& s) {
    std::optional<Instant> broken;
    const auto later = [&](Instant t) { broken = broken ? std::max(*broken, t) : t; };
    for (const auto& episode : s.airway_events) {
        later(episode.end.value_or(episode.start.happened));
    }
    for (const auto& symptom : s.symptoms) {
        if (symptom.is.blood.value_or(false)) {
            later(symptom.stamp.happened);
        }
    }
    for (const auto& episode : s.emergencies) {
        later(episode.end ? episode.end->stamp.happened : episode.start.happened);
    }
    for (const auto& set : s.vitals) {
        if (s.accepted && set.stamp.happened > s.accepted->stamp.happened && alerts(set.is)) {
            later(set.stamp.happened);
        }
    }
    return broken;
}

std::optional<Instant> last_vomit(const CaseState& s) {
    std::optional<Instant> last;
    for (const auto& symptom : s.symptoms) {
        if (symptom.is.kind == SymptomKind::vomiting) {
            last = symptom.stamp.happened;
        }
    }
    return last;
}

bool answered_yes(const CaseState& s, const char* check) {
    const auto answer = s.answers.find(check);
    return answer != s.answers.end() && answer->second.is.value == Answered::yes;
}

/// No more oxygen than before sedation.
bool air_met(const CaseState& s) {
    Decimal before;
    Decimal now;
    for (const auto& oxygen : s.oxygen) {
        now = oxygen.is.l_min;
        if (s.sedation_start && oxygen.stamp.happened < s.sedation_start->happened) {
            before = oxygen.is.l_min;
        }
    }
    return now <= before;
}

bool alert_met(const CaseState& s) {
    std::optional<int> consciousness;
    for (const auto& score : s.scores) {
        consciousness = score.is.scale == Scale::aldrete ? score.is.consciousness : consciousness;
    }
    return consciousness == 2;
}

std::set<std::string, std::less<>> met_checks(const CaseState& s, const Policy& policy, Instant now) {
    std::set<std::string, std::less<>> met;
    const auto put = [&](const char* id, bool is_met) {
        if (is_met) {
            met.insert(id);
        }
    };
    std::vector<int> padss;
    for (const auto& score : s.scores) {
        if (score.is.scale == Scale::padss) {
            padss.push_back(total_of(score.is));
        }
    }
    std::optional<Instant> drink;
    for (const auto& one : s.drinks) {
        drink = one.is.kept.value_or(true) ? std::optional{one.stamp.happened} : std::nullopt;
    }
    const auto fit = fit_since(s, policy);
    put("score", rules::padss_met(padss, policy.discharge));
    put("time", fit && *fit <= now);
    put("alert", alert_met(s));
    put("air", air_met(s));
    put("drink", rules::drink_kept(drink, last_vomit(s), now, policy.discharge.drink_kept));
    put("nausea", rules::rating_met(last_rating(s, SymptomKind::nausea), policy.discharge.max_nausea));
    put("pain", rules::rating_met(last_rating(s, SymptomKind::pain), policy.discharge.max_pain));
    put("escort", s.escort && s.escort->is.present.value_or(false));
    put("cannula", answered_yes(s, "cannula"));
    put("prescriptions", answered_yes(s, "prescriptions"));
    put("advice", answered_yes(s, "advice") || s.leaflet);
    put("card", answered_yes(s, "card") || s.card);
    return met;
}

}  // namespace

int total_of(const Score& s) {
    return s.scale == Scale::aldrete ? rules::aldrete_total(items_of(s))
                                     : s.vital_signs.value_or(0) + s.walking.value_or(0) +
                                           s.nausea.value_or(0) + s.pain.value_or(0) + s.bleeding.value_or(0);
}

std::optional<Instant> next_vitals_due(const CaseState& s, const Policy& policy) {
    if (!s.sedation_start || s.discharged) {
        return std::nullopt;
    }
    Instant due;
    if (s.accepted) {
        const auto from = s.accepted->stamp.happened;
        due = rules::recovery_vitals_due(from, last_set_from(s, from), last_reversal(s, policy),
                                         fit_since(s, policy).has_value(), policy.recovery);
    } else {
        const auto start = s.sedation_start->happened;
        due = rules::vitals_due(start, last_set_from(s, start), policy.vitals.interval);
        due = answered_by_airway(s, due, policy.vitals.interval);
    }
    const auto emergency = last_emergency_end(s);
    return emergency ? std::max(due, *emergency + policy.vitals.interval) : due;
}

std::vector<rules::AldreteScore> scores_that_count(const CaseState& s) {
    const auto broken = fit_broken_at(s);
    std::vector<rules::AldreteScore> scores;
    for (const auto& score : s.scores) {
        if (score.is.scale == Scale::aldrete && (!broken || score.stamp.happened > *broken)) {
            scores.push_back({score.stamp.happened, items_of(score.is)});
        }
    }
    return scores;
}

std::optional<Instant> fit_since(const CaseState& s, const Policy& policy) {
    const auto scores = scores_that_count(s);
    const auto accepted = s.accepted ? std::optional{s.accepted->stamp.happened} : std::nullopt;
    return rules::fit_from(scores, {last_sedative(s, policy), last_reversal(s, policy), accepted},
                           policy.recovery);
}

std::optional<int> last_rating(const CaseState& s, SymptomKind kind) {
    std::optional<int> rating;
    for (const auto& symptom : s.symptoms) {
        rating = symptom.is.kind == kind ? symptom.is.value : rating;
    }
    return rating;
}

std::vector<std::string> unmet_checks(const CaseState& s, const Policy& policy, Instant now) {
    const bool placed = placed_at(s).has_value();
    const auto& required = placed ? policy.discharge.placed_checks : policy.discharge.deferred_checks;
    return rules::discharge_missing(required, met_checks(s, policy, now), policy.discharge);
}

}  // namespace brimline
