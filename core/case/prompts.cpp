// Working out the prompts of one moment.
#include "core/case/prompts.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/rules/depth.h"
#include "core/rules/fill.h"

namespace brimline {
namespace {

using rules::Priority;

struct View {
    const CaseState& s;
    Instant now;
    const Policy& policy;
    std::vector<Prompt>& out;

    void add(std::string_view code, Priority priority, std::string say, Instant since) const {
        out.push_back({std::string{code}, priority, std::move(say), since});
    }
    void add(std::string_view code, Priority priority, Instant since) const {
        add(code, priority, std::string{code_entry(code).say}, since);
    }
};

/// Of the last airway event that ended, until the next set is taken: medium, not loud (10-decisions G7).
void lowest_typed(const View& v) {
    const AirwayEpisode* last = nullptr;
    for (const auto& episode : v.s.airway_events) {
        last = episode.end && episode.lowest_spo2 ? &episode : last;
    }
    if (last == nullptr || (!v.s.vitals.empty() && v.s.vitals.back().stamp.happened >= *last->end)) {
        return;
    }
    if (rules::band_prompt(rules::alert_band(rules::Sign::spo2, *last->lowest_spo2),
                           v.policy.vitals.prompt_band) != Priority::none) {
        v.add("alert-value", Priority::medium,
              fmt::format("Lowest SpO2 of the airway event {}.", *last->lowest_spo2), *last->end);
    }
}

/// In recovery a score goes with every set until the patient is fit.
void scores(const View& v) {
    if (!v.s.accepted || v.s.discharged || fit_since(v.s, v.policy)) {
        return;
    }
    std::optional<Instant> last;
    for (const auto& score : v.s.scores) {
        last = score.is.scale == Scale::aldrete ? std::optional{score.stamp.happened} : last;
    }
    const auto& p = v.policy.recovery;
    const auto due = last ? *last + p.vitals : v.s.accepted->stamp.happened + p.first_set;
    if (v.now >= due) {
        v.add("score-due", Priority::low, due);
    }
}

bool emergency_open(const CaseState& s) {
    return std::any_of(s.airway_events.begin(), s.airway_events.end(),
                       [](const auto& e) { return !e.end; }) ||
           std::any_of(s.emergencies.begin(), s.emergencies.end(), [](const auto& e) { return !e.end; });
}

Priority priority_of(HoldClass hold_class) {
    switch (hold_class) {
        case HoldClass::stop:
        case HoldClass::count:
        case HoldClass::crossing:
        case HoldClass::ceiling:
            return Priority::high;
        case HoldClass::absolute:
        case HoldClass::relative:
            return Priority::medium;
    }
    std::abort();
}

void holds(const View& v, bool counts_only) {
    for (const auto& hold : v.s.holds) {
        if (!hold.stands() || (counts_only && hold.hold_class != HoldClass::count)) {
            continue;
        }
        if (hold.code == "count-differs") {
            v.add("counts-differ", Priority::high, hold.say, hold.since);
        } else {
            const bool stopping = hold.code == "look-stopping-finding";
            v.add(hold.code, stopping ? Priority::high : priority_of(hold.hold_class), hold.say, hold.since);
        }
    }
}

void vital_signs(const View& v) {
    const auto due = next_vitals_due(v.s, v.policy);
    if (!due || v.now < *due - v.policy.vitals.lead) {
        return;
    }
    const auto& p = v.policy.vitals;
    const auto state = rules::vitals_state(*due, v.now, p.interval, p.lead);
    const auto since = state == rules::DueState::overdue_high ? *due + p.interval
                       : state == rules::DueState::overdue    ? *due
                                                              : *due - p.lead;
    v.add(state == rules::DueState::overdue_high ? "vitals-overdue" : "vitals-due", rules::priority_of(state),
          since);
}

void fill(const View& v) {
    const auto& block = v.s.device();
    if (block.deliveries.empty() || block.off || block.not_left_in) {
        return;
    }
    int agreed_at = 0;
    for (const auto& check : block.checks) {
        agreed_at = check.is.agreed ? check.is.own : agreed_at;
    }
    const auto last = block.deliveries.back().stamp.happened;
    const int counted = syringes_counted(block);
    const int every = v.policy.fill.count_check_every;
    if (rules::count_check_due(counted, agreed_at, every)) {
        v.add("count-check-due", Priority::medium, last);
    } else if (rules::count_check_due(counted + 1, agreed_at, every)) {
        v.add("count-check-due", Priority::low, "Count check after the next syringe.", last);
    }
    const auto ceiling = ceiling_of(v.s, v.policy);
    const auto volume = possible_volume(block);
    if (ceiling && volume <= *ceiling && volume + nominal_syringe(v.s, v.policy) >= *ceiling) {
        v.add("ceiling-near", Priority::medium, last);
    }
    for (const auto* question : open_questions(block)) {
        v.add("double-tap", Priority::medium, question->stamp.happened);
    }
}

void depth(const View& v) {
    if (!v.s.under_sedation() || v.s.secured) {
        return;
    }
    const auto& depths = v.s.depths;
    const auto moaas = depths.empty() ? std::nullopt : std::optional{depths.back().is.moaas};
    const auto since = depths.empty() ? v.s.sedation_start->happened : depths.back().stamp.happened;
    const auto prompt = moaas ? rules::depth_prompt(*moaas, v.policy.vitals.depth_prompt_at) : Priority::none;
    if (prompt != Priority::none) {
        v.add("alert-value", prompt, fmt::format("MOAA/S {}.", *moaas), since);
    }
    const bool etco2 = std::any_of(v.s.vitals.begin(), v.s.vitals.end(),
                                   [](const auto& set) { return set.is.etco2.has_value(); });
    const bool propofol = std::any_of(v.s.doses.begin(), v.s.doses.end(),
                                      [](const auto& d) { return d.is.drug == "propofol"; });
    if (rules::etco2_missed(moaas, propofol, etco2, v.policy.vitals)) {
        v.add("etco2-missing", Priority::low, since);
    }
}

void alert_values(const View& v) {
    if (v.s.discharged || v.s.vitals.empty()) {
        return;
    }
    const auto& last = v.s.vitals.back();
    const auto judge = [&](rules::Sign sign, const char* words, const std::optional<int>& value) {
        const auto prompt =
            value ? rules::band_prompt(rules::alert_band(sign, *value), v.policy.vitals.prompt_band)
                  : Priority::none;
        if (prompt != Priority::none) {
            v.add("alert-value", prompt, fmt::format("{} {}.", words, *value), last.stamp.happened);
        }
    };
    judge(rules::Sign::spo2, "SpO2", last.is.spo2);
    judge(rules::Sign::hr, "Pulse", last.is.hr);
    judge(rules::Sign::systolic, "Systolic pressure", last.is.systolic);
    judge(rules::Sign::rr, "Breaths", last.is.rr);
    if (last.is.systolic && last.is.diastolic) {
        const auto map = rules::mean_pressure(*last.is.systolic, *last.is.diastolic);
        if (map && rules::map_alerts(*map, v.policy.vitals.map_below)) {
            v.add("alert-value", Priority::medium,
                  fmt::format("Mean pressure {}.", rules::map_text(*map, v.policy.vitals.map_below)),
                  last.stamp.happened);
        }
    }
}

void items(const View& v) {
    for (const auto& item : v.s.items) {
        if (item.closed) {
            continue;
        }
        // By the calendar of UTC: no zone is known here, and a day late is late in every zone.
        const auto day = Zone{}.date_of(v.now);
        if (item.due && *item.due < day) {
            v.add("item-due", Priority::low, item.say, item.opened);
        }
        if (item.code.rfind("review-", 0) == 0 || item.code.rfind("proviso-", 0) == 0 ||
            item.code == "printed-sheet-out-of-date") {
            v.add(item.code, Priority::medium, item.say, item.opened);
        }
    }
}

}  // namespace

std::vector<Prompt> prompts(const CaseState& state, Instant now, const Policy& policy) {
    std::vector<Prompt> all;
    const View view{state, now, policy, all};
    if (state.sealed) {
        return all;
    }
    const bool emergency = emergency_open(state);
    holds(view, emergency);
    if (!emergency) {
        vital_signs(view);
        fill(view);
        depth(view);
        alert_values(view);
        lowest_typed(view);
        scores(view);
        items(view);
    }
    std::stable_sort(all.begin(), all.end(), [](const Prompt& a, const Prompt& b) {
        return a.priority != b.priority ? a.priority > b.priority : a.since > b.since;
    });
    return all;
}

}  // namespace brimline
