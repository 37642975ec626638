// What Sedation shows, from the state and the policy alone.
#include "core/case/sedation_view.h"

#include <algorithm>

#include "core/case/codec.h"
#include "core/rules/dose.h"
#include "core/rules/vitals.h"

namespace brimline {
namespace {

bool is_corrected(const CaseState& state, std::int64_t seq) {
    return std::any_of(state.history.begin(), state.history.end(), [&](const Kept& kept) {
        return kept.first.stamp.seq == seq && fields_json(kept.first.event) != fields_json(kept.now.event);
    });
}

int spo2_limit(const VitalsPolicy& policy) {
    constexpr int full = 100;
    int value = full;
    while (value > 0 && rules::band_prompt(rules::alert_band(rules::Sign::spo2, value), policy.prompt_band) ==
                            rules::Priority::none) {
        --value;
    }
    return value;
}

void add_moment(std::vector<SedationMoment>& all, SedationMoment::What what,
                const std::optional<Stamp>& stamp) {
    if (stamp) {
        all.push_back({what, stamp->happened, nullptr});
    }
}

}  // namespace

std::optional<DoseAgain> dose_again(const CaseState& state, const Policy& policy) {
    for (auto dose = state.doses.rbegin(); dose != state.doses.rend(); ++dose) {
        const auto* drug = policy.drug(dose->is.drug);
        if (drug == nullptr || drug->kind != "reversal") {
            const auto& is = dose->is;
            return DoseAgain{is.drug, is.amount, is.unit, is.route, is.free.value_or(false)};
        }
    }
    return std::nullopt;
}

DoseUnit unit_of(const Drug& drug) {
    return drug.unit == "ug" ? DoseUnit::ug : drug.unit == "mL" ? DoseUnit::ml : DoseUnit::mg;
}

AmountSaid amount_said(Decimal amount, DoseUnit unit, const CaseState& state) {
    AmountSaid said;
    const auto mass = unit == DoseUnit::ml ? Expected<Micrograms>{refuse("dose-unit", "", "")}
                                           : rules::micrograms(amount, name_of(unit));
    if (!mass) {
        return said;
    }
    if (unit == DoseUnit::ug) {
        said.in_mg = rules::amount_in(*mass, "mg");
    }
    const auto weight = weight_of(state);
    if (weight && weight->weight > Kilograms{}) {
        said.per_kg = rules::per_kg_text(rules::per_kg(*mass, weight->weight, name_of(unit)));
    }
    return said;
}

std::vector<const InfusionRun*> running_infusions(const CaseState& state) {
    std::vector<const InfusionRun*> running;
    for (const auto& run : state.infusions) {
        if (!run.stop) {
            running.push_back(&run);
        }
    }
    return running;
}

const AirwayEpisode* open_airway_event(const CaseState& state) {
    const auto open = std::find_if(state.airway_events.rbegin(), state.airway_events.rend(),
                                   [](const AirwayEpisode& e) { return !e.end; });
    return open == state.airway_events.rend() ? nullptr : &*open;
}

const AirwayEpisode* airway_event_in_hand(const CaseState& state, const Policy& policy, Instant now) {
    if (const auto* open = open_airway_event(state)) {
        return open;
    }
    if (state.airway_events.empty()) {
        return nullptr;
    }
    const auto& last = state.airway_events.back();
    return now - *last.end <= policy.rules.airway_values ? &last : nullptr;
}

std::optional<std::int64_t> entry_that_ended(const CaseState& state, const AirwayEpisode& episode) {
    if (!episode.end) {
        return std::nullopt;
    }
    for (const auto& kept : state.history) {
        const auto* end = std::get_if<AirwayEventEnd>(&kept.now.event);
        if (end != nullptr && !kept.withdrawn && end->event.seq == episode.start.seq) {
            return kept.first.stamp.seq;
        }
    }
    return std::nullopt;
}

const EmergencyEpisode* open_emergency(const CaseState& state) {
    const auto open = std::find_if(state.emergencies.rbegin(), state.emergencies.rend(),
                                   [](const EmergencyEpisode& e) { return !e.end; });
    return open == state.emergencies.rend() ? nullptr : &*open;
}

int syringes_after(const CaseState& state, Instant t) {
    return syringes_counted(state.device()) - syringes_until(state.device(), t);
}

FigureAge age_of_figure(Instant taken, Instant now, seconds interval) {
    if (now - taken <= interval) {
        return FigureAge::plain;
    }
    return now - taken <= 2 * interval ? FigureAge::framed : FigureAge::gone;
}

bool start_asks_identity(const CaseState& state) {
    return !state.sedation_start && gate_identity(state) == GateState::open;
}

seconds interval_of_sets(const CaseState& state, const Policy& policy) {
    const bool in_room = !state.left_room && !state.accepted;
    return in_room ? policy.vitals.interval : seconds{policy.recovery.vitals};
}

std::vector<ChangeableEntry> changeable_entries(const CaseState& state) {
    std::vector<ChangeableEntry> entries;
    for (const auto& kept : state.history) {
        const auto& event = kept.now.event;
        const auto* set = std::get_if<Vitals>(&event);
        const bool typed = (set != nullptr && !set->not_taken) || std::holds_alternative<Dose>(event) ||
                           std::holds_alternative<Depth>(event) || std::holds_alternative<Oxygen>(event);
        if (typed && !kept.withdrawn) {
            entries.push_back({kept.first.stamp.seq, kept.now.stamp.happened, &event});
        }
    }
    std::stable_sort(entries.begin(), entries.end(),
                     [](const ChangeableEntry& a, const ChangeableEntry& b) { return a.at > b.at; });
    return entries;
}

TrendView trend_view(const CaseState& state, const Policy& policy) {
    TrendView view;
    view.spo2_limit = spo2_limit(policy.vitals);
    for (const auto& set : state.vitals) {
        const auto at = set.stamp.happened;
        const bool corrected = is_corrected(state, set.stamp.seq);
        const auto add = [&](std::vector<TrendValue>& lane, const std::optional<int>& value) {
            if (value) {
                lane.push_back({at, *value, corrected});
            }
        };
        if (!set.is.not_taken) {
            view.sets.push_back(at);
        }
        add(view.spo2, set.is.spo2);
        add(view.hr, set.is.hr);
        add(view.rr, set.is.rr);
        if (set.is.systolic && set.is.diastolic) {
            view.pressure.push_back({at, *set.is.systolic, *set.is.diastolic, corrected});
        }
    }
    for (const auto& episode : state.airway_events) {
        if (episode.lowest_spo2) {
            view.airway.push_back({episode.start.happened, *episode.lowest_spo2, false});
        }
    }
    return view;
}

std::vector<SedationMoment> sedation_moments(const CaseState& state) {
    using What = SedationMoment::What;
    std::vector<SedationMoment> all;
    add_moment(all, What::start, state.sedation_start);
    for (const auto& episode : state.airway_events) {
        all.push_back({What::airway_event, episode.start.happened, &episode});
        if (episode.end) {
            all.push_back({What::airway_ended, *episode.end, &episode});
        }
    }
    if (state.secured) {
        all.push_back({What::secured, state.secured->stamp.happened, nullptr});
    }
    add_moment(all, What::scope_in, state.scope_in);
    add_moment(all, What::scope_out, state.scope_out);
    for (const auto& episode : state.emergencies) {
        all.push_back({What::emergency, episode.start.happened, nullptr});
        if (episode.end) {
            all.push_back({What::emergency_ended, episode.end->stamp.happened, nullptr});
        }
    }
    for (const auto& called : state.help_called) {
        all.push_back({What::help, called.happened, nullptr});
    }
    add_moment(all, What::end, state.sedation_end);
    std::stable_sort(all.begin(), all.end(),
                     [](const SedationMoment& a, const SedationMoment& b) { return a.at < b.at; });
    return all;
}

}  // namespace brimline
