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
    outcome.events.push_back({Attempt{what, refusal.code, std::move(raw)}, {}, false, {}});
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

Reasoned reasoned(const std::vector<ListItem>& list, const std::string& reason,
                  const std::optional<std::string>& words) {
    if (holds_id(ids_of(list), reason)) {
        return {reason, words};
    }
    return {"other", words ? reason + ": " + *words : reason};
}

std::optional<Refusal> bad_number(const Setting& setting, const std::optional<std::string>& number) {
    const auto is_lot = [&](const std::optional<std::string>& lot) { return number && lot == number; };
    bool known =
        std::any_of(setting.policy.recalled_lots.begin(), setting.policy.recalled_lots.end(), is_lot);
    known = known || std::any_of(setting.desk.recalls.begin(), setting.desk.recalls.end(),
                                 [&](const Recall& recall) { return is_lot(recall.lot); });
    for (const auto& [id, other] : setting.desk.cases) {
        for (const auto& block : other.devices) {
            known = known || (block.label && is_lot(block.label->is.lot)) ||
                    (block.saline && is_lot(block.saline->is.lot));
        }
    }
    return known ? std::optional{coded("out-of-range",
                                       fmt::format("\"{}\" is a lot, not a hospital number.", *number))}
                 : std::nullopt;
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
/// What is recorded although nobody is signed in (10-decisions F7).
bool is_rescue(const Statement& says) {
    return is_one_of<Vitals, Depth, Oxygen, Dose, Allergies, AirwayEvent, AirwayEventEnd, Emergency,
                     EmergencyEnd, HelpCalled>(says);
}
/// What is still possible after the seal.
bool after_seal(const Statement& says) {
    return is_one_of<Addendum, PatientChange, BelongsTo, Seen, Call, Flag, CloseEntry, LostToFollowUp>(says);
}

bool is_shut(const CaseState& state) {
    return state.standing("identity-mismatch") != nullptr && !state.sedation_start;
}

std::optional<Refusal> wrong_person(const Command& command, const Desk& desk) {
    const auto* person = desk.person(command.by);
    if (command.by == nobody_signed_in) {
        return is_rescue(command.says) ? std::nullopt : std::optional{coded("nobody-signed-in")};
    }
    if (person == nullptr) {
        return coded("no-such-person", fmt::format("There is no person \"{}\".", command.by));
    }
    if (!person->active) {
        return coded("no-such-person", fmt::format("{} has left; somebody else enters this.", person->name));
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
bool refusal_is_attempt(const Statement& says) {
    return is_one_of<Sign, Seal, Override, LostToFollowUp>(says);
}

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
        ++seq;
        if (!fresh.case_id.empty()) {
            continue;  // written to another case's chain
        }
        auto stamp = stamp_of(fresh, seq, scene.command, role);
        stamp.tick_us = scene.setting.tick_us;
        stamp.boot = scene.setting.boot;
        evolve(after, {std::move(stamp), fresh.event});
    }
    return after;
}

}  // namespace
}  // namespace deciding

Stamp stamp_of(const NewEvent& event, std::int64_t seq, const Command& command, Role role) {
    Stamp stamp;
    stamp.seq = seq;
    stamp.at = command.at;
    stamp.happened = event.happened.value_or(command.happened.value_or(command.at));
    stamp.by = event.by_kiosk ? "kiosk" : command.by;
    stamp.role = event.by_kiosk ? Role::kiosk : role;
    stamp.said_by = event.by_kiosk ? std::nullopt : command.said_by;
    stamp.how = command.how;
    if (event.entered) {
        stamp.by = event.entered->by;
        stamp.role = event.entered->role;
        stamp.said_by = event.entered->said_by;
        stamp.how = event.entered->how;
        stamp.practice = event.entered->practice;
    }
    return stamp;
}

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

namespace deciding {
namespace {

/// Both people's PINs, in that order; nothing when one of them is missing.
std::vector<PinNeed> pins_of_two(const std::string& by, const std::string& second, const Pins& pins) {
    const auto own = pins.find(by);
    const auto other = pins.find(second);
    if (own == pins.end() || other == pins.end()) {
        return {};
    }
    return {{by, own->second}, {second, other->second}};
}

std::vector<PinNeed> pin_of_override(const Command& command, const Override& says, const CaseState* state,
                                     const Desk& desk) {
    const auto* by = desk.person(command.by);
    const bool own = by != nullptr && by->has(Role::physician);
    const bool said_in_the_room = !own && state != nullptr && state->scope_is_in();
    return !says.pin || said_in_the_room ? std::vector<PinNeed>{}
                                         : std::vector<PinNeed>{{command.by, *says.pin}};
}

/// The physician who enters it, or whose word it is.
std::vector<PinNeed> pin_of_closing(const Command& command, const CloseEntry& says, const Desk& desk) {
    const auto* by = desk.person(command.by);
    const bool own = by != nullptr && by->has(Role::physician);
    return says.pin
               ? std::vector<PinNeed>{{own ? command.by : command.said_by.value_or(command.by), *says.pin}}
               : std::vector<PinNeed>{};
}

}  // namespace
}  // namespace deciding

std::vector<PinNeed> pins_needed(const Command& command, const CaseState* state, const Desk& desk) {
    using namespace deciding;
    return std::visit(
        [&](const auto& says) -> std::vector<PinNeed> {
            using T = std::decay_t<decltype(says)>;
            if constexpr (std::is_same_v<T, Sign> || std::is_same_v<T, Seal>) {
                return {{command.by, says.pin}};
            } else if constexpr (std::is_same_v<T, SetPin>) {
                return {{command.by, says.old_pin}};
            } else if constexpr (std::is_same_v<T, Override>) {
                return pin_of_override(command, says, state, desk);
            } else if constexpr (std::is_same_v<T, CloseEntry>) {
                return pin_of_closing(command, says, desk);
            } else if constexpr (std::is_same_v<T, LostToFollowUp>) {
                return pins_of_two(command.by, says.second, says.pins);
            } else if constexpr (std::is_same_v<T, PatientChange> || std::is_same_v<T, BelongsTo>) {
                return says.second && says.pins ? pins_of_two(command.by, *says.second, *says.pins)
                                                : std::vector<PinNeed>{};
            } else {
                return {};
            }
        },
        command.says);
}

std::vector<NewEvent> ended_by_time(const CaseState& state, Instant now) {
    std::vector<NewEvent> ended;
    if (state.sedation_start || state.sealed) {
        return ended;
    }
    for (const auto& hold : state.holds) {
        if (hold.stands() && hold.until && *hold.until <= now) {
            ended.push_back({HoldEnded{hold.code, HoldEnd::time}, hold.until, true, {}});
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
