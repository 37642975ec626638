// Memory: the journal read back into states. The only place where stored rows become events again.
#pragma once
#include "core/case/codec.h"
#include "core/desk/desk.h"
#include "core/store/event.h"
#include "core/store/finding.h"

namespace brimline {

/// One stored row as an event with its stamp. Errors: a kind or payload that this version cannot read.
[[nodiscard]] tl::expected<Recorded, Malformed> recorded_of(const store::StoredEvent& row);

struct Memory {
    Desk desk;
    std::vector<store::Finding> unreadable;
};
/// All rows folded, up to a moment of entry when one is given.
[[nodiscard]] Memory remember(const std::vector<store::StoredEvent>& rows, const store::Id16& kiosk_id,
                              std::optional<Instant> until = std::nullopt);

}  // namespace brimline
