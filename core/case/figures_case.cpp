// Figures of the whole case: gates, stage, outcome, weight, dose totals, lowest SpO2, dates.
#include <fmt/format.h>

#include <algorithm>

#include "core/case/figures.h"
#include "core/rules/dates.h"

namespace brimline {
namespace {

GateState gate(bool crossed, bool met) {
    return crossed ? GateState::crossed : met ? GateState::met : GateState::open;
}

/// The screen was gone through, asked or confirmed unchanged; what it left unanswered becomes an open item.
bool screened(const CaseState& s) {
    const bool unchanged = std::any_of(s.unchanged.begin(), s.unchanged.end(),
                                       [](const auto& u) { return u.is.block == Block::contraindications; });
    return s.kind == CaseKind::removal || unchanged || !s.answers.empty();
}

bool arrival_complete(const CaseState& s) {
    const bool asked = s.identity_settled() && s.allergies && !s.intakes.empty();
    return asked && weight_of(s) && s.airway && screened(s) && s.escort;
}

const DeviceBlock* left_in(const CaseState& s) {
    const auto& block = s.device();
    return block.not_left_in ? nullptr : &block;
}

/// Between the look and leaving the room, at a removal.
std::optional<Stage> stage_of_removal(const CaseState& s) {
    if (s.kind != CaseKind::removal) {
        return std::nullopt;
    }
    if (s.seen_empty || s.grasp || s.out || s.abandoned || (s.no_go && !s.go)) {
        return Stage::out;
    }
    if (s.puncture) {
        return Stage::aspirate;
    }
    return s.balloon_seen.empty() ? std::nullopt : std::optional{Stage::puncture};
}

Stage stage_under_way(const CaseState& s) {
    const auto& block = s.device();
    if (s.discharged) {
        return Stage::record;
    }
    const bool padss = std::any_of(s.scores.begin(), s.scores.end(),
                                   [](const auto& score) { return score.is.scale == Scale::padss; });
    if (padss) {
        return Stage::discharge;
    }
    if (s.left_room || s.offered || s.accepted) {
        return Stage::recovery;
    }
    if (const auto stage = stage_of_removal(s); stage && !block.label) {
        return *stage;
    }
    if (block.off || (s.no_go && !s.go) || s.abandoned || block.read_back_stands) {
        return Stage::release;
    }
    if (block.not_left_in) {
        return Stage::place;
    }
    if (!block.matters.empty() || !block.sizings.empty() || !block.read_backs.empty()) {
        return Stage::size;
    }
    if (block.ready || !block.deliveries.empty() || !block.questions.empty()) {
        return Stage::fill;
    }
    if (s.go || block.label) {
        return Stage::place;
    }
    if (s.sedation_start) {
        return Stage::look;
    }
    const bool in_room = !s.entered.empty() || !s.pauses.empty();
    return in_room || arrival_complete(s) ? Stage::sedation : Stage::arrival;
}

struct Sum {
    std::string drug, unit;
    bool is_mass{true};
    Decimal total;  // in `unit`
};

void add_to(std::vector<Sum>& sums, const std::string& drug, bool is_mass, std::string_view unit,
            Decimal amount) {
    const auto same = [&](const Sum& s) { return s.drug == drug && s.is_mass == is_mass; };
    auto found = std::find_if(sums.begin(), sums.end(), same);
    if (found == sums.end()) {
        sums.push_back({drug, std::string{unit}, is_mass, amount});
    } else if (found->unit == unit) {
        found->total = found->total + amount;
    } else {  // mg beside ug: the unit of the first entry counts; amounts are whole micrograms, so nothing is
              // lost
        const auto converted =
            found->unit == "mg" ? Decimal::of_millionths(amount.in_millionths() / 1000) : amount * 1000;
        found->total = found->total + converted;
    }
}

DoseTotal finished(const Sum& sum, const std::optional<WeightInForce>& weight) {
    DoseTotal total{sum.drug, sum.unit, sum.total, std::nullopt, ""};
    if (!sum.is_mass || !weight || weight->weight.in_tenths() <= 0) {
        return total;
    }
    const auto numerator = sum.total.in_millionths() * 10;
    const auto denominator = Decimal::scale * weight->weight.in_tenths();
    const bool small = numerator * 10 < denominator;  // below 0.1
    total.per_kg = ratio_text(numerator, denominator, small ? 3 : 2);
    total.per_kg_unit = sum.unit + "/kg";
    return total;
}

std::string_view kind_of_drug(const std::string& id, const Policy& policy) {
    const auto* drug = policy.drug(id);
    return drug == nullptr ? std::string_view{"sedative"} : std::string_view{drug->kind};
}

void later(std::optional<Instant>& latest, Instant t) { latest = latest ? std::max(*latest, t) : t; }

}  // namespace

GateState gate_identity(const CaseState& s) { return gate(s.identity_crossed, s.identity_settled()); }
GateState gate_go(const CaseState& s) { return gate(s.go_crossed, s.go.has_value()); }
GateState gate_position(const CaseState& s) {
    return gate(s.device().position_crossed, s.device().position_seen.has_value());
}
GateState gate_read_back(const CaseState& s) {
    return gate(s.device().read_back_crossed, s.device().read_back_stands);
}

std::optional<Stage> stage_of(const CaseState& s, const Zone& zone, Instant now) {
    if (s.sealed) {
        return std::nullopt;
    }
    const auto stage = stage_under_way(s);
    const bool days_before = s.planned && zone.date_of(*s.planned) > zone.date_of(now);
    return stage == Stage::arrival && days_before ? Stage::pre_visit : stage;
}

bool stage_reached(const CaseState& s, Stage stage) { return stage_under_way(s) >= stage; }

std::optional<Instant> placed_at(const CaseState& s) {
    const auto* block = left_in(s);
    if (block == nullptr) {
        return std::nullopt;
    }
    if (block->off) {
        return block->off->happened;  // at a removal: the balloon that took the old one's place
    }
    return s.kind == CaseKind::placement && s.abandoned && s.abandoned->is.inside.device
               ? std::optional{s.abandoned->stamp.happened}
               : std::nullopt;
}

std::optional<CaseOutcome> outcome_of(const CaseState& s) {
    if (s.abandoned) {
        return CaseOutcome::abandoned;
    }
    if ((left_in(s) != nullptr && left_in(s)->off) || s.out) {
        return CaseOutcome::completed;
    }
    if (s.no_go && !s.go) {
        return CaseOutcome::deferred;
    }
    const bool moved = s.discharged && s.discharged->is.disposition == Disposition::transfer;
    return moved ? std::optional{CaseOutcome::converted} : std::nullopt;
}

std::optional<WeightInForce> weight_of(const CaseState& s) {
    if (s.measure) {
        return WeightInForce{Kilograms::of_tenths(s.measure->is.weight_kg.whole(10).value()),
                             s.measure->is.weight_basis};
    }
    if (s.weight_known) {
        return WeightInForce{Kilograms::of_tenths(s.weight_known->is.weight_kg.whole(10).value()),
                             s.weight_known->is.weight_basis};
    }
    return std::nullopt;
}

std::optional<Centimetres> height_of(const CaseState& s) {
    return s.measure ? std::optional{Centimetres::of_tenths(s.measure->is.height_cm.whole(10).value())}
                     : std::nullopt;
}

std::vector<DoseTotal> dose_totals(const CaseState& s, Instant now) {
    std::vector<Sum> sums;
    for (const auto& dose : s.doses) {
        const auto& is = dose.is;
        add_to(sums, is.drug, is.unit != DoseUnit::ml, name_of(is.unit), is.amount);
    }
    for (const auto& run : s.infusions) {
        const auto until = run.stop ? run.stop->happened : std::max(now, run.start.stamp.happened);
        const auto ran = whole_seconds(until - run.start.stamp.happened);
        const bool mass = run.start.is.unit == RateUnit::mg_h;
        const auto amount =
            Decimal::of_millionths(ratio_whole(run.start.is.rate.in_millionths() * ran, 3600));
        add_to(sums, run.start.is.drug, mass, mass ? "mg" : "mL", amount);
    }
    std::vector<DoseTotal> totals;
    const auto weight = weight_of(s);
    for (const auto& sum : sums) {
        totals.push_back(finished(sum, weight));
    }
    return totals;
}

std::optional<LowestSpo2> lowest_spo2(const CaseState& s) {
    std::optional<LowestSpo2> lowest;
    const auto consider = [&](int value, Instant at) {
        const bool counts = s.sedation_start && at >= s.sedation_start->happened;
        if (counts && (!lowest || value < lowest->value || (value == lowest->value && at < lowest->at))) {
            lowest = LowestSpo2{value, at};
        }
    };
    for (const auto& set : s.vitals) {
        if (set.is.spo2) {
            consider(*set.is.spo2, set.stamp.happened);
        }
    }
    for (const auto& episode : s.airway_events) {
        if (episode.lowest_spo2) {
            consider(*episode.lowest_spo2, episode.start.happened);
        }
    }
    return lowest;
}

std::optional<Instant> last_sedative(const CaseState& s, const Policy& policy) {
    std::optional<Instant> latest;
    const auto counts = [&](const std::string& drug) {
        const auto kind = kind_of_drug(drug, policy);
        return kind == "sedative" || kind == "opioid";
    };
    for (const auto& dose : s.doses) {
        if (counts(dose.is.drug)) {
            later(latest, dose.stamp.happened);
        }
    }
    for (const auto& run : s.infusions) {
        if (counts(run.start.is.drug)) {
            later(latest, run.stop ? run.stop->happened : run.start.stamp.happened);
        }
    }
    return latest;
}

std::optional<Instant> last_reversal(const CaseState& s, const Policy& policy) {
    std::optional<Instant> latest;
    for (const auto& dose : s.doses) {
        if (kind_of_drug(dose.is.drug, policy) == "reversal") {
            later(latest, dose.stamp.happened);
        }
    }
    return latest;
}

LocalDate due_by(const Policy& policy, const DeviceProfile* profile, LocalDate placed) {
    auto due = rules::due_date(placed, policy.dwell.months, policy.dwell.days);
    for (const auto& device : policy.devices) {
        if (profile == nullptr || profile->gtin == device.gtin) {
            due = std::min(due, rules::due_date(placed, device.dwell_months, device.dwell_days));
        }
    }
    return due;
}

CaseDates dates_of(const CaseState& s, const Policy& policy, const Zone& zone) {
    CaseDates dates;
    if (const auto placed = placed_at(s)) {
        const auto day = zone.date_of(*placed);
        dates.placed = day;
        const auto* profile = profile_of(s.device(), policy);
        dates.dwell_by_default = profile == nullptr;
        dates.due = due_by(policy, profile, day);
        dates.latest = add_days(*dates.due, policy.dwell.grace_days);
        dates.book_by = add_days(*dates.due, -policy.dwell.book_by_days);
        dates.clear_through = add_days(day, policy.diet.clear_days - 1);
        dates.full_through = add_days(day, policy.diet.full_through - 1);
        dates.soft_through = add_days(day, policy.diet.soft_through - 1);
        dates.call_first = add_days(day, policy.discharge.call_day_first - 1);
        dates.call_second = add_days(day, policy.discharge.call_day_second - 1);
    }
    if (s.discharged && s.sedation_start) {
        dates.no_driving_before =
            s.discharged->stamp.happened + std::chrono::hours{policy.discharge.limits_h};
    }
    return dates;
}

bool entered_late(const Stamp& stamp, const Policy& policy) {
    return stamp.at - stamp.happened > policy.rules.late_entry;
}

namespace {

/// What an entry brought with it, and nobody entered.
bool follows(const Event& event) {
    return std::holds_alternative<HoldRaised>(event) || std::holds_alternative<HoldEnded>(event) ||
           std::holds_alternative<ItemOpened>(event) || std::holds_alternative<ItemClosed>(event);
}

}  // namespace

std::vector<Stamp> nameless(const CaseState& state) {
    std::vector<Stamp> entries;
    for (const auto& kept : state.history) {
        if (std::holds_alternative<WhoItWas>(kept.now.event)) {
            entries.clear();
        } else if (kept.first.stamp.by == nobody_signed_in && !follows(kept.first.event)) {
            entries.push_back(kept.first.stamp);
        }
    }
    return entries;
}

}  // namespace brimline
