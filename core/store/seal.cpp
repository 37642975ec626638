// The signed message of a sealed record, and checking it.
#include "core/store/seal.h"

#include "core/store/encoding.h"
#include "core/store/journal.h"

namespace brimline::store {

std::string seal_message(std::string_view number, const Hash32& head, const Hash32& body_hash,
                         std::int64_t through_case_seq) {
    Encoding encoding;
    encoding.field(std::string_view{"brimline seal 1"});
    encoding.field(number);
    encoding.field(head);
    encoding.field(body_hash);
    encoding.number(through_case_seq);
    return encoding.bytes();
}

SealState check_seal(const SealedRow& row, const Key32& public_key, const Hash32& head) {
    if (blake2b(row.body) != row.body_hash) {
        return SealState::body_changed;
    }
    const std::string message = seal_message(row.number, row.head, row.body_hash, row.through_case_seq);
    if (!signature_holds(message, row.signature, public_key)) {
        return SealState::signature_wrong;
    }
    return row.head == head ? SealState::holds : SealState::head_differs;
}

}  // namespace brimline::store
