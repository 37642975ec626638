// Why holds stand and items are open, as functions of the state: a hold is raised when its cause appears and
// ends when its cause is gone. So one place says what a hold is for, and a correction that removes the cause
// ends the hold.
#pragma once
#include "core/case/decide.h"

namespace brimline {

struct HoldCause {
    std::string code;
    HoldClass hold_class{};
    std::string say;
    std::optional<Instant> until;
    std::int64_t arose{0};  // the latest entry that is its cause, where a later one outlives an override
};
/// Every hold that should stand at `now`.
[[nodiscard]] std::vector<HoldCause> hold_causes(const CaseState& state, const Setting& setting, Instant now);

struct ItemCause {
    std::string code, say;
    std::optional<std::string> owner;
    std::optional<LocalDate> due;
};
/// Every open item that should stand at `now`.
[[nodiscard]] std::vector<ItemCause> item_causes(const CaseState& state, const Setting& setting, Instant now);

/// What the open item of a flag says.
[[nodiscard]] std::string flag_words(std::string_view flag);

/// The events that bring holds and items of `after` in line with their causes. `moved` = the plan was moved
/// by this command, so that a fasting hold which goes now ends as "plan moved".
[[nodiscard]] std::vector<NewEvent> follow_up(const CaseState& after, const Setting& setting, Instant now,
                                              bool moved);

}  // namespace brimline
