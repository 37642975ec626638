// PauseView: the checks of a pause, which of them is asked next, and what is known beside it.
#pragma once
#include "core/case/figures.h"

namespace brimline {

[[nodiscard]] const std::vector<Check>& checks_of_pause(PauseKind which, const Lists& lists);
/// The stage in which this pause is a moment.
[[nodiscard]] Stage stage_of_pause(PauseKind which);

/// How a pause stands, with answers that were said and are not yet entered.
struct PauseStanding {
    std::map<std::string, Answered> answers;
    std::optional<std::size_t>
        current;  ///< the check asked next: the first open one, then what was not ready
    int said{0};  ///< checks with a good answer
    [[nodiscard]] bool complete() const { return !current; }
};
[[nodiscard]] PauseStanding pause_standing(const CaseState& state, PauseKind which, const Lists& lists,
                                           const std::map<std::string, Answered>& typed);
/// Every check of this pause has its good answer.
[[nodiscard]] bool pause_held(const CaseState& state, PauseKind which, const Lists& lists);

/// A check about a device or its saline at a removal that places none.
[[nodiscard]] bool does_not_apply(const CaseState& state, std::string_view check);

/// The matter as it was last looked at, to be looked at again before leaving; empty without one.
[[nodiscard]] std::optional<Matter> matter_to_look_again(const CaseState& state);

/// Day and month are those of this patient.
[[nodiscard]] bool birthday_is(const CaseState& state, const DayMonth& said);

}  // namespace brimline
