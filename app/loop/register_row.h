// One line of the register, as a case gives it.
#pragma once
#include <optional>

#include "core/desk/desk.h"
#include "core/store/event.h"

namespace brimline {

/// Shape: its state is "in place", or how the entry ended; no status that a day changes.
/// Empty while no balloon is in the patient by this case.
[[nodiscard]] std::optional<store::BalloonRow> register_row(const CaseState& state, const Desk& desk,
                                                            const Policy& policy, const Zone& zone);

}  // namespace brimline
