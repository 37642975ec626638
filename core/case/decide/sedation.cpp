// Deciding in Sedation: pauses, overrides, vital signs, doses, airway events, roles handed over.
#include <fmt/format.h>

#include <array>

#include "core/case/decide/stage.h"
#include "core/case/pause_view.h"

namespace brimline::deciding {
namespace {

std::optional<Outcome> judged_sign(const Scene& scene, const char* field, const std::optional<int>& value,
                                   const Limits& limits, std::string_view unit) {
    return value ? judged(scene, field, Decimal::of(*value), limits, unit) : std::nullopt;
}

/// The hold of this code that stands, or the latest that was overridden and still wants words.
const Hold* overridable(const CaseState& state, const std::string& code) {
    if (const auto* hold = state.standing(code)) {
        return hold;
    }
    for (auto hold = state.holds.rbegin(); hold != state.holds.rend(); ++hold) {
        if (hold->code == code && hold->ended_how == HoldEnd::overridden) {
            return &*hold;
        }
    }
    return nullptr;
}

std::optional<Outcome> refused_override(const Scene& scene, const Override& says, const Hold* hold) {
    const auto& by = scene.command.by;
    const bool own = scene.by_has(Role::physician);
    if (!own && (!scene.said_by_has(Role::physician) || !scene.state.scope_is_in())) {
        return refused_attempt(scene,
                               coded("role-may-not", fmt::format("{} may not override; a physician does.",
                                                                 scene.setting.desk.name_of_person(by))));
    }
    if (hold == nullptr) {
        return refused(coded("no-such-hold", fmt::format("No hold \"{}\" stands.", says.hold)));
    }
    if (hold->hold_class != HoldClass::absolute && hold->hold_class != HoldClass::relative) {
        return refused_attempt(scene, coded("hold-has-no-override"));
    }
    if (own && scene.setting.pin == PinCheck::locked) {
        return refused_attempt(scene,
                               coded("pin-locked", "The PIN is locked: " + scene.setting.pin_say + "."));
    }
    if (own && scene.setting.pin != PinCheck::right) {
        return refused_attempt(scene, coded("pin-wrong"));
    }
    return std::nullopt;
}

bool is_stage(std::string_view name) {
    const auto names = names_of(Stage{});
    return std::find(names.begin(), names.end(), name) != names.end();
}

std::optional<Outcome> refused_dose(const Scene& scene, std::string_view drug, bool free) {
    if (free || scene.setting.policy.drug(drug) != nullptr) {
        return std::nullopt;
    }
    std::vector<std::string> ids;
    for (const auto& known : scene.setting.policy.formulary) {
        ids.push_back(known.id);
    }
    auto refusal = not_on_list("Drug", drug, ids);
    refusal.next += " Or send it with free true.";
    return refused(std::move(refusal));
}

/// A single dose outside the drug's usual span is asked about once, with the unit in words.
std::optional<Outcome> asked_span(const Scene& scene, const Dose& says) {
    const auto* drug = scene.setting.policy.drug(says.drug);
    if (drug == nullptr || scene.command.sure || says.free.value_or(false) || !drug->usual_low ||
        !drug->usual_high) {
        return std::nullopt;
    }
    const std::string said_unit = says.unit == DoseUnit::ug ? "mcg" : std::string{name_of(says.unit)};
    const bool other_kind = (says.unit == DoseUnit::ml) != (drug->unit == "mL");
    const auto in_micro = [](Decimal d, std::string_view unit) { return unit == "mg" ? d * 1000 : d; };
    const auto amount = in_micro(says.amount, name_of(says.unit));
    if (!other_kind && amount >= in_micro(*drug->usual_low, drug->unit) &&
        amount <= in_micro(*drug->usual_high, drug->unit)) {
        return std::nullopt;
    }
    return implausible(
        "amount", fmt::format("{} {} of {}? The ampoule counts in {}; a single dose is usually {} to {} {}.",
                              says.amount.text(), said_unit, drug->words, drug->unit_words,
                              drug->usual_low->text(), drug->usual_high->text(), drug->unit_words));
}

}  // namespace

Outcome decide_one(const Scene& scene, const Vitals& says) {
    const auto& limits = scene.setting.policy.vitals;
    using Sign = std::tuple<const char*, std::optional<int>, const Limits*, const char*>;
    const std::array<Sign, 6> signs{Sign{"hr", says.hr, &limits.hr, "per minute"},
                                    Sign{"systolic", says.systolic, &limits.systolic, "mmHg"},
                                    Sign{"diastolic", says.diastolic, &limits.diastolic, "mmHg"},
                                    Sign{"spo2", says.spo2, &limits.spo2, "%"},
                                    Sign{"rr", says.rr, &limits.rr, "per minute"},
                                    Sign{"etco2", says.etco2, &limits.etco2, "mmHg"}};
    std::optional<Outcome> asked;
    for (const auto& [field, value, limit, unit] : signs) {
        auto outcome = judged_sign(scene, field, value, *limit, unit);
        if (outcome && outcome->refusal) {
            return *outcome;
        }
        asked = asked ? asked : outcome;
    }
    if (says.systolic && says.diastolic && *says.diastolic >= *says.systolic) {
        return refused(coded("out-of-range", fmt::format("The lower pressure {} is not below the upper {}.",
                                                         *says.diastolic, *says.systolic)));
    }
    return asked ? *asked : recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Pause& says) {
    const auto ids = ids_of(checks_of_pause(says.which, scene.setting.policy.lists));
    for (const auto& [check, value] : says.answers) {
        if (!holds_id(ids, check)) {
            return refused(not_on_list("Check", check, ids));
        }
        if (value == Answered::not_known) {
            return refused(
                coded("out-of-range", "A check of a pause is answered yes, no or not-applicable."));
        }
    }
    for (const auto& person : says.present) {
        if (scene.setting.desk.person(person) == nullptr) {
            return refused(coded("no-such-person", fmt::format("There is no person \"{}\".", person)));
        }
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Override& says) {
    const auto* hold = overridable(scene.state, says.hold);
    if (auto outcome = refused_override(scene, says, hold)) {
        return *outcome;
    }
    if (says.proviso && !is_stage(says.proviso->stage)) {
        const auto names = names_of(Stage{});
        return refused(
            not_on_list("Stage", says.proviso->stage, std::vector<std::string>(names.begin(), names.end())));
    }
    auto [reason, words] = reasoned(scene.setting.policy.lists.override_reasons, says.reason, says.words);
    Overridden done;
    done.hold = says.hold;
    done.reason = std::move(reason);
    done.words = std::move(words);
    const bool worded = done.words && !done.words->empty();
    done.ends = hold->stands() && (hold->hold_class == HoldClass::relative || worded);
    done.to_countersign = !scene.by_has(Role::physician);
    done.proviso = says.proviso;
    Outcome outcome;
    if (says.proviso) {
        done.proviso_id = next_proviso_id(scene.state);
        outcome.proviso_ids.push_back(*done.proviso_id);
    }
    outcome.events.push_back({Event{done}, {}, false, {}});
    return outcome;
}

Outcome decide_one(const Scene& scene, const AnswerProviso& says) {
    const bool known = std::any_of(scene.state.provisos.begin(), scene.state.provisos.end(),
                                   [&](const Proviso& p) { return p.id == says.proviso; });
    return known ? recorded(Event{says})
                 : refused(coded("no-such-entry",
                                 fmt::format("There is no proviso \"{}\" in this case.", says.proviso)));
}

Outcome decide_one(const Scene& scene, const Dose& says) {
    if (auto outcome = refused_dose(scene, says.drug, says.free.value_or(false))) {
        return *outcome;
    }
    const int most_places = says.unit == DoseUnit::mg ? 6 : 3;  // to a thousandth of a microgram
    if (says.amount <= Decimal{} || says.amount > Decimal::of(100'000) ||
        says.amount.places() > most_places) {
        const std::string unit = says.unit == DoseUnit::ug ? "mcg" : std::string{name_of(says.unit)};
        return refused(
            coded("out-of-range",
                  fmt::format("{} {} cannot be a dose; above 0 and at most 100000, with at most {} decimals.",
                              says.amount.text(), unit, most_places)));
    }
    if (auto outcome = asked_span(scene, says)) {
        return *outcome;
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const InfusionStart& says) {
    if (auto outcome = refused_dose(scene, says.drug, false)) {
        return *outcome;
    }
    if (says.rate <= Decimal{} || says.rate > Decimal::of(100'000)) {
        return refused(coded("out-of-range", "A rate is above 0."));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const InfusionStop& says) {
    const bool runs =
        std::any_of(scene.state.infusions.begin(), scene.state.infusions.end(),
                    [&](const InfusionRun& r) { return r.start.is.drug == says.drug && !r.stop; });
    return runs ? recorded(Event{says})
                : refused(coded("no-such-entry", fmt::format("No infusion of {} is running.", says.drug)));
}

Outcome decide_one(const Scene& scene, const Oxygen& says) {
    if (auto outcome =
            judged(scene, "l_min", says.l_min, scene.setting.policy.vitals.oxygen_l_min, "L/min")) {
        return *outcome;
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const AirwayEventEnd& says) {
    const auto& events = scene.state.airway_events;
    const auto episode = std::find_if(events.begin(), events.end(),
                                      [&](const AirwayEpisode& e) { return e.start.seq == says.event.seq; });
    if (episode == events.end()) {
        return refused(
            coded("no-such-entry", fmt::format("Entry {} is no airway event of this case.", says.event.seq)));
    }
    if (scene.happened() < episode->start.happened) {
        return refused(coded("out-of-range", "An airway event cannot end before it began."));
    }
    if (auto outcome =
            judged_sign(scene, "lowest_spo2", says.lowest_spo2, scene.setting.policy.vitals.spo2, "%")) {
        return *outcome;
    }
    const auto actions = ids_of(scene.setting.policy.lists.airway_actions);
    for (const auto& action : says.action.value_or(Words{}).list) {
        if (!holds_id(actions, action)) {
            return refused(not_on_list("Action", action, actions));
        }
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const EmergencyEnd& says) {
    const auto kinds = ids_of(scene.setting.policy.lists.emergency_kinds);
    if (!holds_id(kinds, says.kind)) {
        return refused(not_on_list("Emergency", says.kind, kinds));
    }
    const bool open = std::any_of(scene.state.emergencies.begin(), scene.state.emergencies.end(),
                                  [](const EmergencyEpisode& e) { return !e.end; });
    return open ? recorded(Event{says})
                : refused(coded("no-such-entry", "No emergency is open in this case."));
}

Outcome decide_one(const Scene& scene, const HandOverRole& says) {
    const auto role = role_named(says.role);
    const auto* to = scene.setting.desk.person(says.to);
    if (!role || *role == Role::kiosk) {
        return refused(not_on_list("Role", says.role,
                                   std::vector<std::string>(role_names.begin(), role_names.end() - 1)));
    }
    if (to == nullptr) {
        return refused(coded("no-such-person", fmt::format("There is no person \"{}\".", says.to)));
    }
    const auto holder = scene.state.role_holder.find(says.role);
    const bool holds =
        holder == scene.state.role_holder.end() ? scene.by_has(*role) : holder->second == scene.command.by;
    if (!holds) {
        return refused(coded("role-may-not", "Only who holds the role hands it over."));
    }
    if (!to->has(*role)) {
        return refused(
            coded("role-may-not", fmt::format("{} does not have the role {}.", to->name, says.role)));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const AcceptRole& says) {
    const auto offered = scene.state.role_offered.find(says.role);
    if (offered == scene.state.role_offered.end()) {
        return refused(coded("no-such-entry", fmt::format("The role {} was not handed over.", says.role)));
    }
    if (offered->second != scene.command.by) {
        return refused(coded("role-may-not", "Only the person named accepts the role."));
    }
    return recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const WhoItWas& says) {
    if (nameless(scene.state).empty()) {
        return refused(coded("no-such-entry", "Every entry of this case has its name."));
    }
    if (says.person == "not-known") {
        return says.words.value_or("").empty()
                   ? refused(coded("out-of-range", "Who it was is not known: say why in words."))
                   : recorded(Event{says});
    }
    return scene.setting.desk.person(says.person) == nullptr
               ? refused(coded("no-such-person", fmt::format("There is no person \"{}\".", says.person)))
               : recorded(Event{says});
}

Outcome decide_one(const Scene& scene, const Seen& says) {
    return scene.state.has_open(says.item)
               ? recorded(Event{says})
               : refused(coded("no-such-entry", fmt::format("No open item \"{}\" in this case.", says.item)));
}

}  // namespace brimline::deciding
