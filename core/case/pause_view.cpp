// How a pause stands, from the state and the policy alone.
#include "core/case/pause_view.h"

#include <cstdlib>

namespace brimline {
namespace {

bool is_good(const Check& check, Answered answer) {
    return answer == Answered::not_applicable || name_of(answer) == check.good;
}

}  // namespace

const std::vector<Check>& checks_of_pause(PauseKind which, const Lists& lists) {
    switch (which) {
        case PauseKind::before_sedation:
            return lists.before_sedation;
        case PauseKind::before_device:
            return lists.before_device;
        case PauseKind::before_leaving:
            return lists.before_leaving;
    }
    std::abort();
}

Stage stage_of_pause(PauseKind which) {
    switch (which) {
        case PauseKind::before_sedation:
            return Stage::sedation;
        case PauseKind::before_device:
            return Stage::place;
        case PauseKind::before_leaving:
            return Stage::release;
    }
    std::abort();
}

PauseStanding pause_standing(const CaseState& state, PauseKind which, const Lists& lists,
                             const std::map<std::string, Answered>& typed) {
    PauseStanding standing;
    if (const auto held = state.pauses.find(which); held != state.pauses.end()) {
        standing.answers = held->second.answers;
    }
    for (const auto& [check, answer] : typed) {
        standing.answers[check] = answer;
    }
    const auto& checks = checks_of_pause(which, lists);
    std::optional<std::size_t> not_ready;
    for (std::size_t i = 0; i < checks.size(); ++i) {
        const auto answer = standing.answers.find(checks[i].id);
        const bool open = answer == standing.answers.end();
        if (open && !standing.current) {
            standing.current = i;
        } else if (!open && is_good(checks[i], answer->second)) {
            ++standing.said;
        } else if (!open && !not_ready) {
            not_ready = i;
        }
    }
    standing.current = standing.current ? standing.current : not_ready;
    return standing;
}

bool pause_held(const CaseState& state, PauseKind which, const Lists& lists) {
    return state.pauses.contains(which) && pause_standing(state, which, lists, {}).complete();
}

bool does_not_apply(const CaseState& state, std::string_view check) {
    const bool of_a_device = check == "device-fits" || check == "target-and-ceiling" ||
                             check == "saline-and-dye" || check == "catheter-and-valve";
    return of_a_device && state.kind == CaseKind::removal && !state.device().label;
}

std::optional<Matter> matter_to_look_again(const CaseState& state) {
    const auto& block = state.device();
    if (block.matters.empty() || !block.saline || block.saline->is.method == SalineMethod::pair) {
        return std::nullopt;
    }
    return block.matters.back().is;
}

bool birthday_is(const CaseState& state, const DayMonth& said) {
    const auto& born = state.patient.born;
    if (!born) {
        return said.unknown();
    }
    return !said.unknown() && unsigned{born->month()} == static_cast<unsigned>(said.month) &&
           unsigned{born->day()} == static_cast<unsigned>(said.day);
}

}  // namespace brimline
