// The way every command takes: who may, is the case open to it, what it becomes, and what follows from that.
#include <fmt/format.h>

#include "core/case/causes.h"
#include "core/case/decide/stage.h"

namespace brimline {
namespace deciding {

bool Scene::by_has(Role role) const {
    const auto* person = setting.desk.person(command.by);
    return person != nullptr && person->has(role);
}
bool Scene::said_by_has(Role role) const {
    const auto* person = command.said_by ? setting.desk.person(*command.said_by) : nullptr;
    return person != nullptr && person->has(role);
}

Outcome refused_attempt(const Scene& scene, Refusal refusal, std::optional<std::string> raw) {
    const std::string what{spec_of(scene.command.says).name};
    Outcome outcome;
    outcome.events.push_back({Attempt{what, refusal.code, std::move(raw)}, {}, false});
    outcome.refusal = std::move(refusal);
    return outcome;
}

Outcome implausible(std::string field, std::string say) {
    Outcome outcome;
    outcome.asked = Asked{"implausible", "", std::move(field), std::move(say)};
    return outcome;
}

Refusal not_on_list(std::string_view what, std::string_view id, const std::vector<std::string>& ids) {
    auto refusal =
        coded("not-on-list", fmt::format("{} \"{}\" is not on the list{}.", what, id, did_you_mean(id, ids)));
    std::string all;
    for (const auto& one : ids) {
        all += (all.empty() ? "" : ", ") + one;
    }
    refusal.next = "Choose one of: " + all + ".";
    return refusal;
}

std::optional<Outcome> judged(const Scene& scene, std::string field, Decimal value, const Limits& limits,
                              std::string_view unit) {
    const auto with_unit = [&](Decimal d) {
        return d.text() + (unit.empty() ? "" : " " + std::string{unit});
    };
    if (value < limits.hard_low || value > limits.hard_high) {
        return refused(coded("out-of-range",
                             fmt::format("{} {} cannot be; {} to {} is allowed.", field, with_unit(value),
                                         limits.hard_low.text(), with_unit(limits.hard_high))));
    }
    if ((value < limits.ask_low || value > limits.ask_high) && !scene.command.sure) {
        return implausible(
            field, fmt::format("{} {} is unusual ({} to {} is usual). Is it right?", field, with_unit(value),
                               limits.ask_low.text(), with_unit(limits.ask_high)));
    }
    return std::nullopt;
}

namespace {

template <class... T>
bool is_one_of(const Statement& says) {
    return (std::holds_alternative<T>(says) || ...);
}

/// What leads on: refused while the wrong person may be in the room.
bool leads_on(const Statement& says) { return is_one_of<Pause, StartSedation, Go, Device, Plan>(says); }
/// What is still possible after the seal.
bool after_seal(const Statement& says) { return is_one_of<Addendum, PatientChange, Flag>(says); }

bool is_shut(const CaseState& state) {
    return state.standing("identity-mismatch") != nullptr && !state.sedation_start;
}

std::optional<Refusal> wrong_person(const Command& command, const Desk& desk) {
    const auto* person = desk.person(command.by);
    if (person == nullptr) {
        return coded("no-such-person", fmt::format("There is no person \"{}\".", command.by));
    }
    if (command.said_by && desk.person(*command.said_by) == nullptr) {
        return coded("no-such-person", fmt::format("There is no person \"{}\".", *command.said_by));
    }
    const auto& spec = spec_of(command.says);
    if (!spec.who.meets(person->set())) {
        return coded("role-may-not", fmt::format("{} may not enter {}.", person->name, spec.name));
    }
    if (spec.word == Word::physician_says && command.said_by &&
        !desk.person(*command.said_by)->has(Role::physician)) {
        return coded("role-may-not", fmt::format("{} is the physician's word; {} is none.", spec.name,
                                                 desk.person(*command.said_by)->name));
    }
    return std::nullopt;
}

/// A refused signature is an attempt that the record keeps.
bool refusal_is_attempt(const Statement& says) { return is_one_of<Sign, Seal, Override>(says); }

std::optional<Outcome> stopped_at_the_door(const Scene& scene) {
    const auto& says = scene.command.says;
    if (auto refusal = wrong_person(scene.command, scene.setting.desk)) {
        const bool keep = refusal->code == "role-may-not" && refusal_is_attempt(says);
        return keep ? refused_attempt(scene, *refusal) : refused(*refusal);
    }
    if (scene.command.happened && *scene.command.happened > scene.at()) {
        return refused(coded("out-of-range", "It cannot have happened later than it is entered."));
    }
    if (scene.state.sealed && !after_seal(says)) {
        return refused(
            coded("case-sealed", fmt::format("The case is sealed as {}.", scene.state.sealed->is.number)));
    }
    if (is_one_of<Addendum>(says) && !scene.state.sealed) {
        return refused(coded("case-not-sealed"));
    }
    if (leads_on(says) && is_shut(scene.state)) {
        return refused(coded("case-shut"));
    }
    return std::nullopt;
}

/// A copy of the state as it will be once these events are written.
CaseState ahead(const CaseState& state, const std::vector<NewEvent>& events, const Scene& scene) {
    CaseState after = state;
    const auto role = acting_role(scene.command, scene.setting.desk);
    std::int64_t seq = scene.setting.desk.last_seq;
    for (const auto& fresh : events) {
        Stamp stamp{++seq,
                    scene.at(),
                    fresh.happened.value_or(scene.happened()),
                    scene.setting.tick_us,
                    scene.setting.boot,
                    scene.command.by,
                    role,
                    scene.command.said_by,
                    scene.command.how,
                    false};
        evolve(after, {std::move(stamp), fresh.event});
    }
    return after;
}

}  // namespace
}  // namespace deciding

Role acting_role(const Command& command, const Desk& desk) {
    const auto* person = desk.person(command.by);
    if (person == nullptr) {
        return Role::kiosk;
    }
    const auto& who = spec_of(command.says).who;
    for (const Role role : person->roles) {
        if (who.has(role)) {
            return role;
        }
    }
    return person->roles.front();
}

bool lacks_said_by(const Command& command, const Desk& desk) {
    const auto* person = desk.person(command.by);
    return spec_of(command.says).word == Word::physician_says && !command.said_by && person != nullptr &&
           !person->has(Role::physician);
}

std::optional<PinNeed> pin_needed(const Command& command, const CaseState* state, const Desk& desk) {
    if (const auto* sign = std::get_if<Sign>(&command.says)) {
        return PinNeed{command.by, sign->pin};
    }
    if (const auto* seal = std::get_if<Seal>(&command.says)) {
        return PinNeed{command.by, seal->pin};
    }
    if (const auto* change = std::get_if<SetPin>(&command.says)) {
        return PinNeed{command.by, change->old_pin};
    }
    const auto* override_said = std::get_if<Override>(&command.says);
    if (override_said == nullptr || !override_said->pin) {
        return std::nullopt;
    }
    const auto* by = desk.person(command.by);
    const bool own = by != nullptr && by->has(Role::physician);
    const bool said_in_the_room = !own && state != nullptr && state->scope_is_in();
    return said_in_the_room ? std::nullopt : std::optional{PinNeed{command.by, *override_said->pin}};
}

std::vector<NewEvent> ended_by_time(const CaseState& state, Instant now) {
    std::vector<NewEvent> ended;
    if (state.sedation_start || state.sealed) {
        return ended;
    }
    for (const auto& hold : state.holds) {
        if (hold.stands() && hold.until && *hold.until <= now) {
            ended.push_back({HoldEnded{hold.code, HoldEnd::time}, hold.until, true});
        }
    }
    return ended;
}

Outcome decide(const CaseState& state, const Command& command, const Setting& setting) {
    const deciding::Scene scene{state, command, setting};
    if (auto stopped = deciding::stopped_at_the_door(scene)) {
        return *stopped;
    }
    auto outcome =
        std::visit([&](const auto& says) { return deciding::decide_one(scene, says); }, command.says);
    if (outcome.refusal || outcome.events.empty()) {
        return outcome;
    }
    const auto after = deciding::ahead(state, outcome.events, scene);
    const bool moved = std::holds_alternative<Move>(command.says);
    const bool corrects = std::holds_alternative<Correct>(command.says);  // may name a moment long before
    for (auto& more : follow_up(after, setting, command.at, moved)) {
        more.happened = corrects ? std::optional{command.at} : more.happened;
        outcome.events.push_back(std::move(more));
    }
    return outcome;
}

}  // namespace brimline
