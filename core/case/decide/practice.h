// A case of practice that was a real one. Source: 10-decisions F9.
#pragma once
#include "core/case/decide/stage.h"

namespace brimline::deciding {

/// A new case of this store, its patient not known yet, with the facts of the case of practice as they were
/// entered there: each keeps its moment, who entered it and whose word it was. References between them follow
/// their new numbers. Errors: out-of-range when the entries cannot be read or hold no fact.
[[nodiscard]] Outcome as_real(const Command& command, const Setting& setting, const WasReal& says);

}  // namespace brimline::deciding
