// Deciding for the register: calls, flags, closing, lost to follow-up, a balloon placed elsewhere.
#include <fmt/format.h>

#include <algorithm>

#include "core/case/causes.h"
#include "core/case/decide/stage.h"
#include "core/desk/register.h"
#include "core/rules/dates.h"

namespace brimline::deciding {
namespace {

std::optional<Placement> placement(const Scene& scene) {
    return placement_of(scene.state, scene.setting.desk, scene.setting.policy, scene.setting.zone);
}

/// What no entry of the register takes: there is none, or it happened before the placement.
std::optional<Refusal> bad_entry(const Scene& scene, const std::string& entry) {
    const auto placed = placement(scene);
    if (!placed) {
        return coded("no-such-entry", fmt::format("There is no entry \"{}\" in the register.", entry));
    }
    if (scene.setting.zone.date_of(scene.happened()) < placed->placed) {
        return coded("out-of-range",
                     fmt::format("This lies before the placement on {}.", date_words(placed->placed)));
    }
    return std::nullopt;
}

std::optional<Refusal> bad_owner(const Scene& scene, const std::optional<std::string>& owner) {
    if (owner && scene.setting.desk.person(*owner) == nullptr) {
        return coded("no-such-person", fmt::format("There is no person \"{}\".", *owner));
    }
    return std::nullopt;
}

bool ends(Closing outcome) { return outcome != Closing::transferred && outcome != Closing::declined; }

/// Out by our own record, or closed with proof: nothing more can be closed.
bool is_closed(const Scene& scene) {
    const auto entry = entry_on(scene.state, scene.setting.desk, scene.setting.policy, scene.setting.zone,
                                scene.setting.zone.date_of(scene.at()));
    return entry && !entry->open();
}

rules::Way way_of(const std::string& id) {
    return id == "message"     ? rules::Way::message
           : id == "letter"    ? rules::Way::letter
           : id == "in-person" ? rules::Way::in_person
                               : rules::Way::phone;
}

std::optional<Refusal> may_not_be_lost(const Scene& scene) {
    std::vector<rules::FailedContact> failed;
    for (const auto* call : failed_in_a_row(scene.state)) {
        failed.push_back(
            {scene.setting.zone.date_of(call->stamp.happened), way_of(call->is.way.value_or("phone"))});
    }
    const auto today = scene.setting.zone.date_of(scene.happened());
    const auto check = rules::may_be_lost(placement(scene)->due, today, failed, scene.setting.policy.reg);
    if (check.allowed()) {
        return std::nullopt;
    }
    std::string missing;
    const auto add = [&](bool is_missing, const char* words) {
        if (is_missing) {
            missing += (missing.empty() ? "" : ", ") + std::string{words};
        }
    };
    add(check.before_due, "before due date");
    add(check.attempts, "attempts");
    add(check.dates, "dates");
    add(check.ways, "ways");
    return coded("lost-not-allowed",
                 fmt::format("Lost to follow-up is not allowed yet; missing: {}.", missing));
}

/// The physician of a removal that is booked or under way sees the flag there as well, at once.
void tell_removals(const Scene& scene, const Flag& says, Outcome& outcome) {
    const auto code = "review-" + says.flag;
    const auto booked = scene.setting.desk.removals.find(scene.state.name);
    if (booked == scene.setting.desk.removals.end() || says.flag == "not-reached") {
        return;
    }
    for (const auto& name : booked->second) {
        const auto* removal = scene.setting.desk.find_case(name);
        const bool over = removal == nullptr || removal->out || removal->cancelled || removal->sealed;
        if (over || removal->has_open(code)) {
            continue;
        }
        const auto day = scene.setting.zone.date_of(removal->planned.value_or(scene.at()));
        outcome.events.push_back({Event{ItemOpened{code, flag_words(says.flag),
                                                   scene.setting.desk.first_with(Role::physician), day}},
                                  {},
                                  false,
                                  removal->id});
    }
}

}  // namespace

std::optional<Outcome> two_people(const Scene& scene, const std::string& second) {
    if (scene.setting.desk.person(second) == nullptr) {
        return refused(coded("no-such-person", fmt::format("There is no person \"{}\".", second)));
    }
    if (second == scene.command.by) {
        return refused(coded("same-person"));
    }
    if (scene.setting.pin == PinCheck::right) {
        return std::nullopt;
    }
    const auto& say = scene.setting.pin_say;
    if (scene.setting.pin == PinCheck::locked) {
        return refused_attempt(scene, coded("pin-locked", "The PIN is locked: " + say + "."));
    }
    return refused_attempt(scene, say.empty() ? coded("pin-wrong", "Both PINs are needed.")
                                              : coded("pin-wrong", "PIN not right: " + say + "."));
}

Outcome decide_one(const Scene& scene, const Call& says) {
    if (auto refusal = bad_entry(scene, says.entry)) {
        return refused(*refusal);
    }
    const auto& lists = scene.setting.policy.lists;
    const auto outcomes = ids_of(lists.call_outcomes);
    if (!holds_id(outcomes, says.outcome)) {
        return refused(not_on_list("Outcome", says.outcome, outcomes));
    }
    const auto ways = ids_of(lists.call_ways);
    if (says.way && !holds_id(ways, *says.way)) {
        return refused(not_on_list("Way", *says.way, ways));
    }
    if (auto refusal = bad_owner(scene, says.owner)) {
        return refused(*refusal);
    }
    if (says.next && says.next->date && *says.next->date < scene.setting.zone.date_of(scene.happened())) {
        return refused(coded("out-of-range", "What comes next cannot lie before the call."));
    }
    return recorded(Event{says});
}

/// Taken in every state of a case (10-decisions F7), a balloon in or not.
Outcome decide_one(const Scene& scene, const Flag& says) {
    const auto flags = ids_of(scene.setting.policy.lists.flags);
    if (!holds_id(flags, says.flag)) {
        return refused(not_on_list("Flag", says.flag, flags));
    }
    auto outcome = recorded(Event{says});
    tell_removals(scene, says, outcome);
    return outcome;
}

Outcome decide_one(const Scene& scene, const CloseEntry& says) {
    if (auto refusal = bad_entry(scene, says.entry)) {
        return refused(*refusal);
    }
    if (is_closed(scene)) {
        return refused(coded("entry-closed", fmt::format("Entry {} is closed already.", says.entry)));
    }
    if (says.known_from.empty()) {
        return refused(coded("out-of-range", "Say from whom or what this is known."));
    }
    if (auto refusal = bad_owner(scene, says.owner)) {
        return refused(*refusal);
    }
    if (says.pin && !scene.by_has(Role::physician) && !scene.said_by_has(Role::physician)) {
        return refused_attempt(scene,
                               coded("role-may-not", "The PIN that stands for proof is a physician's."));
    }
    if (says.pin && scene.setting.pin != PinCheck::right) {
        return refused_attempt(scene,
                               coded(scene.setting.pin == PinCheck::locked ? "pin-locked" : "pin-wrong"));
    }
    const auto day = scene.setting.zone.date_of(scene.happened());
    EntryClosed closed;
    closed.entry = says.entry;
    closed.outcome = says.outcome;
    closed.known_from = says.known_from;
    closed.proof = says.proof;
    closed.owner = says.owner;
    closed.review = says.review;
    closed.verified = says.pin || (says.proof && *says.proof != Proof::none);
    if (!ends(says.outcome) && !closed.review) {
        closed.review = add_days(day, scene.setting.policy.dwell.soon_days);
    }
    return recorded(Event{closed});
}

Outcome decide_one(const Scene& scene, const LostToFollowUp& says) {
    if (auto refusal = bad_entry(scene, says.entry)) {
        return refused(*refusal);
    }
    if (is_closed(scene)) {
        return refused(coded("entry-closed", fmt::format("Entry {} is closed already.", says.entry)));
    }
    if (auto outcome = two_people(scene, says.second)) {
        return *outcome;
    }
    const auto* second = scene.setting.desk.person(says.second);
    const bool both = (scene.by_has(Role::coordinator) && second->has(Role::physician)) ||
                      (scene.by_has(Role::physician) && second->has(Role::coordinator));
    if (!both) {
        return refused(coded("role-may-not", "Coordinator and physician say it together."));
    }
    if (auto refusal = may_not_be_lost(scene)) {
        return refused(*refusal);
    }
    return recorded(Event{LostAgreed{says.entry, says.second}});
}

Outcome decide_one(const Scene& scene, const PlacedElsewhere& says) {
    if (placed_at(scene.state)) {
        return refused(coded("out-of-range", "This case placed a balloon of its own."));
    }
    if (scene.state.entry) {
        return refused(
            coded("out-of-range", fmt::format("This case is booked for entry {}.", *scene.state.entry)));
    }
    if (says.placed > scene.setting.zone.date_of(scene.at())) {
        return refused(coded("out-of-range", "The placement cannot lie in the future."));
    }
    if (says.ml && *says.ml <= Millilitres{}) {
        return refused(coded("out-of-range", "A volume that is known is above 0 mL."));
    }
    if (says.weight_kg) {
        if (auto outcome =
                judged(scene, "weight_kg", *says.weight_kg, scene.setting.policy.body.weight_kg, "kg")) {
            return *outcome;
        }
    }
    return recorded(Event{says});
}

}  // namespace brimline::deciding
