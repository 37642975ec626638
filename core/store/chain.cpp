// Hashing of events into their case's chain.
#include "core/store/chain.h"

namespace brimline::store {

Hash32 ChainHasher::of(const Hash32& before, const StoredEvent& event) {
    encoding_.clear();
    put(encoding_, before, event);
    return blake2b(encoding_.bytes());
}

void ChainHasher::put(Encoding& into, const Hash32& before, const StoredEvent& event) {
    into.field(std::string_view{"brimline event 1"});
    into.field(before);
    into.field(event.kiosk_id);
    into.number(event.seq);
    into.field(event.command);
    into.number(event.part);
    into.number(event.parts);
    into.field(event.case_id);
    into.number(event.case_seq);
    into.number(event.utc.in_us());
    into.number(event.tick_us);
    into.field(event.boot);
    into.field(event.person);
    into.field(event.role);
    into.field(event.policy);
    into.number(event.version);
    into.field(event.kind);
    into.field(event.payload);
}

}  // namespace brimline::store
