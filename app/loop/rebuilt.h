// Sealed records, written anew from their events: what was sealed must follow from what is in the journal.
#pragma once
#include <string>
#include <vector>

#include "core/store/event.h"

namespace brimline {

/// What writing the sealed records anew came to.
struct Rebuilt {
    std::size_t same{0};
    std::vector<std::string> different;  // numbers of records
    bool operator==(const Rebuilt&) const = default;
};
/// Folds the rows in their order and writes each record as it stood when it was sealed. A text that differs
/// while every hash and signature holds was laid out by another version of this program.
[[nodiscard]] Rebuilt rebuild_records(const std::vector<store::StoredEvent>& rows,
                                      const store::Id16& kiosk_id,
                                      const std::vector<store::SealedRow>& sealed);

}  // namespace brimline
