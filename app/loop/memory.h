// Memory: the journal read back into states. The only place where stored rows become events again.
#pragma once
#include "core/case/codec.h"
#include "core/desk/desk.h"
#include "core/store/event.h"
#include "core/store/finding.h"

namespace brimline {

/// One stored row as an event with its stamp. Errors: a kind or payload that this version cannot read.
[[nodiscard]] tl::expected<Recorded, Malformed> recorded_of(const store::StoredEvent& row);

/// Rows of all kiosks in the order in which they are folded, numbered through: what came with a restored
/// backup first, the oldest kiosk first of all; then this kiosk's own. With one kiosk the numbers stay as
/// they are.
[[nodiscard]] std::vector<store::StoredEvent> in_order(std::vector<store::StoredEvent> rows);

struct Memory {
    Desk desk;
    std::vector<store::Finding> unreadable;
};
/// All rows folded in their order, up to a moment of entry when one is given.
[[nodiscard]] Memory remember(std::vector<store::StoredEvent> rows, const store::Id16& kiosk_id,
                              std::optional<Instant> until = std::nullopt);

}  // namespace brimline
