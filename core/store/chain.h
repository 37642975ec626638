// The hash chain of a case: each event's hash covers the one before it and everything the event says. Inside
// the store.
#pragma once
#include "core/store/encoding.h"
#include "core/store/event.h"

namespace brimline::store {

/// Computes event hashes; keeps its buffer between calls.
class ChainHasher {
public:
    /// BLAKE2b-256 over domain, previous hash of the same case (zeros for its first event) and every column
    /// from the kiosk's id to the payload, as encoding.h puts them.
    [[nodiscard]] Hash32 of(const Hash32& before, const StoredEvent& event);
    /// The bytes that are hashed, put behind what `into` holds.
    static void put(Encoding& into, const Hash32& before, const StoredEvent& event);

private:
    Encoding encoding_;
};

}  // namespace brimline::store
