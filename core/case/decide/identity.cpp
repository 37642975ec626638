// Deciding whose case it is, after the fact: a patient completed or corrected, entries that belong to
// another. After the seal both take two people with a PIN each (10-decisions F12); the sealed text itself
// stays whole.
#include <fmt/format.h>

#include "core/case/causes.h"
#include "core/case/decide/stage.h"

namespace brimline::deciding {
namespace {

std::optional<Outcome> second_person_after_seal(const Scene& scene,
                                                const std::optional<std::string>& second) {
    if (!scene.state.sealed) {
        return std::nullopt;
    }
    if (!second) {
        return refused(coded("two-people-needed"));
    }
    return two_people(scene, *second);
}

std::optional<std::string> named_second(const Scene& scene, const std::optional<std::string>& second) {
    return scene.state.sealed ? second : std::nullopt;
}

/// The target's state once the block has arrived, and what follows from it there: holds are judged anew.
void follow_there(const Scene& scene, const CaseState& target, const NewEvent& received, Outcome& outcome) {
    auto after = target;
    Stamp stamp;
    stamp.seq = scene.setting.desk.last_seq;
    stamp.at = stamp.happened = scene.at();
    stamp.by = scene.command.by;
    evolve(after, {std::move(stamp), received.event});
    for (auto& more : follow_up(after, scene.setting, scene.at(), false)) {
        more.case_id = target.id;
        more.happened = scene.at();
        outcome.events.push_back(std::move(more));
    }
}

Outcome move_block(const Scene& scene, const CaseState& target, const BelongsTo& says) {
    std::vector<Recorded> block;
    for (const auto& kept : scene.state.history) {
        if (!kept.withdrawn && moves_with_the_block(kept.now.event)) {
            block.push_back(kept.now);
        }
    }
    Outcome outcome;
    outcome.events.push_back({Event{EntriesMoved{says.to, says.reason, false, {}}}, {}, false, {}});
    NewEvent received{Event{EntriesReceived{scene.state.name, entries_text(block)}}, {}, false, target.id};
    outcome.events.push_back(received);
    follow_there(scene, target, received, outcome);
    return outcome;
}

/// A sealed record stays whole: it is told whose it is, on every later copy.
Outcome name_whose(const Scene& scene, const CaseState& target, const BelongsTo& says) {
    Outcome outcome;
    outcome.events.push_back({Event{EntriesMoved{says.to, says.reason, true, says.second}}, {}, false, {}});
    outcome.events.push_back({Event{PatientNow{target.patient, says.reason, says.second}}, {}, false, {}});
    outcome.events.push_back(
        {Event{EntriesReceived{scene.state.name, entries_text({})}}, {}, false, target.id});
    return outcome;
}

}  // namespace

Outcome decide_one(const Scene& scene, const PatientChange& says) {
    if (says.to.born && *says.to.born > scene.setting.zone.date_of(scene.at())) {
        return refused(coded("out-of-range", "The birth date lies in the future."));
    }
    if (auto refusal = bad_number(scene.setting, says.to.number)) {
        return refused(*refusal);
    }
    if (auto outcome = second_person_after_seal(scene, says.second)) {
        return *outcome;
    }
    return recorded(Event{PatientNow{says.to, says.reason, named_second(scene, says.second)}});
}

Outcome decide_one(const Scene& scene, const BelongsTo& says) {
    const auto* target = scene.setting.desk.find_case(says.to);
    if (target == nullptr) {
        return refused(coded("no-such-case", fmt::format("There is no case \"{}\".", says.to)));
    }
    if (target->id == scene.state.id) {
        return refused(coded("out-of-range", "The entries are in this case already."));
    }
    if (auto outcome = second_person_after_seal(scene, says.second)) {
        return *outcome;
    }
    if (scene.state.sealed) {
        return name_whose(scene, *target, says);
    }
    if (target->sealed) {
        return refused(
            coded("case-sealed", fmt::format("Case {} is sealed as {}; nothing can be added to it.", says.to,
                                             target->sealed->is.number)));
    }
    return move_block(scene, *target, says);
}

}  // namespace brimline::deciding
