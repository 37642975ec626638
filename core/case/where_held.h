// Where the holds of a case are worked off: the stage whose page resolves each of them.
#pragma once
#include "core/case/figures.h"

namespace brimline {

/// The stage at which a hold of this code is resolved.
[[nodiscard]] Stage stage_of_hold(std::string_view code);
/// The stages at which a hold stands, each once, in order.
[[nodiscard]] std::vector<Stage> stages_with_holds(const CaseState& state);

}  // namespace brimline
