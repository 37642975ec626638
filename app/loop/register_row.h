// One line of the register, as a case gives it.
#pragma once
#include <optional>

#include "core/case/state.h"
#include "core/clinic/policy.h"
#include "core/store/event.h"

namespace brimline {

/// Empty while no balloon is in the patient by this case.
[[nodiscard]] std::optional<store::BalloonRow> register_row(const CaseState& state, const Policy& policy,
                                                            const Zone& zone);

}  // namespace brimline
