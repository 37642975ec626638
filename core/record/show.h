// show: the state of one case as one JSON object, with the names of the script language. A value that is not
// known is absent, never 0; what is covered (pedal presses before a count check) is not there.
#pragma once
#include "core/case/codec.h"
#include "core/clinic/policy.h"
#include "core/desk/desk.h"

namespace brimline {

/// `now` is the instant shown; prompts, due times and running totals are judged at it.
[[nodiscard]] Json show_case(const CaseState& state, const Desk& desk, const Policy& policy, const Zone& zone,
                             Instant now);

}  // namespace brimline
