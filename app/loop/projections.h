// The tables beside the journal against a fold of it: people, register, sealed records.
#pragma once
#include "app/loop/memory.h"
#include "core/store/verify.h"

namespace brimline {

/// Every difference, in plain words. Shape: events of this kiosk in order of their numbers.
[[nodiscard]] std::vector<store::Finding> compare_projections(const std::vector<store::StoredEvent>& events,
                                                              const store::Tables& tables);

/// The part of it that a start must know before anything is entered: people and PINs, sealed records, signing
/// keys. The register is left out: it follows from the events and can be made anew.
[[nodiscard]] std::vector<store::Finding> compare_kept(const std::vector<store::StoredEvent>& events,
                                                       const Memory& memory, const store::Tables& tables);

}  // namespace brimline
