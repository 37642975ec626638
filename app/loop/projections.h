// The tables beside the journal against a fold of it: people, register, sealed records.
#pragma once
#include "core/store/verify.h"

namespace brimline {

/// Every difference, in plain words. Shape: events of this kiosk in order of their numbers.
[[nodiscard]] std::vector<store::Finding> compare_projections(const std::vector<store::StoredEvent>& events,
                                                              const store::Tables& tables);

}  // namespace brimline
