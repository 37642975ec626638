// The seal of a record: BLAKE2b over the body, Ed25519 over number, head, body hash and how far the body
// tells. A sealed row is never changed; what comes later is an addendum.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "core/store/event.h"
#include "core/store/ids.h"

namespace brimline::store {

/// The bytes that are signed, each field with its length before it, integers as eight bytes, little-endian.
[[nodiscard]] std::string seal_message(std::string_view number, const Hash32& head, const Hash32& body_hash,
                                       std::int64_t through_case_seq);

enum class SealState { holds, body_changed, signature_wrong, head_differs };

/// Whether a sealed row still is what was sealed. `head` = hash of event `through_case_seq` in the journal
/// now.
[[nodiscard]] SealState check_seal(const SealedRow& row, const Key32& public_key, const Hash32& head);

}  // namespace brimline::store
