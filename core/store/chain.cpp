// Hashing of events into their case's chain.
#include "core/store/chain.h"

namespace brimline::store {

Hash32 ChainHasher::of(const Hash32& before, const StoredEvent& event) {
    encoding_.clear();
    encoding_.field(std::string_view{"brimline event 1"});
    encoding_.field(before);
    encoding_.field(event.kiosk_id);
    encoding_.number(event.seq);
    encoding_.field(event.command);
    encoding_.number(event.part);
    encoding_.number(event.parts);
    encoding_.field(event.case_id);
    encoding_.number(event.case_seq);
    encoding_.number(event.utc.in_us());
    encoding_.number(event.tick_us);
    encoding_.field(event.boot);
    encoding_.field(event.person);
    encoding_.field(event.role);
    encoding_.field(event.policy);
    encoding_.number(event.version);
    encoding_.field(event.kind);
    encoding_.field(event.payload);
    return blake2b(encoding_.bytes());
}

}  // namespace brimline::store
