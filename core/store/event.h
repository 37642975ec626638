// What the journal takes and gives: events as kind and JSON text, and the rows kept beside them. The store
// knows nothing of their meaning; it keeps them whole, in order and unaltered.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/store/ids.h"
#include "core/units/time.h"

namespace brimline::store {

/// One event to be written. Numbers are given by the journal.
struct NewEvent {
    Id16 case_id{};  // what belongs to no case goes to the kiosk's own id
    Instant utc{};
    std::int64_t tick_us{0};  // never negative; counts sleep
    Id16 boot{};
    std::string person{}, role{};   // who entered it; "kiosk" for what time did
    Hash32 policy{};                // hash of the policy in force
    std::int64_t version{1};        // of the payload's shape
    std::string kind{}, payload{};  // payload: one JSON value, kept byte for byte
    bool operator==(const NewEvent&) const = default;
};

/// One event as it stands in the journal.
struct StoredEvent : NewEvent {
    std::int64_t kiosk{1};  // local number of the kiosk that wrote it; 1 = this one
    Id16 kiosk_id{};
    std::int64_t seq{0};  // 1, 2, 3 … per kiosk
    Id16 command{};
    std::int64_t part{0}, parts{1};  // event `part` (from 0) of `parts` of that command
    std::int64_t case_seq{0};        // 1, 2, 3 … per case
    Hash32 hash{};
    bool operator==(const StoredEvent&) const = default;
};

/// A person who may enter or sign. The PIN itself is kept nowhere.
struct Person {
    std::string id{}, name{};
    std::string pin_hash{};            // as hash_pin() gives it
    std::vector<std::string> roles{};  // ascending
    bool active{true};
    bool one_time{false};   // the PIN was given by another and waits to be replaced
    std::int64_t fails{0};  // wrong tries since the last right one
    std::optional<Instant> locked_until{};
    bool operator==(const Person&) const = default;
};

/// A person as they are from now on. A new PIN clears the wrong tries.
struct PersonChange {
    std::string id{}, name{};
    std::optional<std::string> pin_hash{};  // absent = as before (a new person needs one)
    std::vector<std::string> roles{};
    bool active{true};
    bool one_time{false};
};

/// One line of the register, a projection of the journal: it can be dropped and rebuilt.
struct BalloonRow {
    Id16 case_id{};  // the placement
    std::string patient{}, hospital_no{};
    std::int64_t volume_dml{0};             // tenths of a millilitre
    std::string placed{}, due{}, latest{};  // local dates, 2026-11-25
    std::string state{};
    std::optional<Id16> out_case{};  // the removal
    bool operator==(const BalloonRow&) const = default;
};

/// A record to be sealed with the batch: the store adds head, hash and signature.
struct SealRequest {
    std::string number{};  // "R-2026-0001", unique
    Id16 case_id{};
    std::int64_t addendum{0};          // 0 = the record, then 1, 2 …
    std::int64_t through_case_seq{0};  // last event that the body tells; may be one of this batch
    std::string body{};
};

/// A sealed record as it is kept.
struct SealedRow {
    std::string number{};
    Id16 case_id{};
    std::int64_t addendum{0}, through_case_seq{0};
    Hash32 head{};  // hash of the event `through_case_seq`
    std::string body{};
    Hash32 body_hash{};
    std::int64_t kiosk{1};
    Signature64 signature{};
    bool operator==(const SealedRow&) const = default;
};

/// Everything that one command changes: one transaction, whole or not at all.
struct Batch {
    Id16 command{};                  // made when the finger lifts; the same on every retry
    std::vector<NewEvent> events{};  // at least one
    std::vector<PersonChange> people{};
    std::optional<SealRequest> seal{};
    std::vector<BalloonRow> balloons{};  // inserted, or replaced by case
    std::optional<Key32> new_key{};      // the kiosk signs with it from here on
    std::int64_t balloon_code{1};        // version of the code that made these rows
};

/// What became of a batch that is on disk.
struct Receipt {
    std::vector<std::int64_t> seqs{};       // of its events, in order
    std::vector<std::int64_t> case_seqs{};  // beside them
    Hash32 hash{};                          // of the last
    bool already_there{false};              // found from an earlier try, not written now
};

/// Why a batch is not acknowledged.
enum class Failure {
    pending,  // not known to be on disk: keep it, show it, try again with the same command id
    refused,  // not written and never will be: the batch breaks the journal's form, or the journal is
              // read-only
};
struct AppendFault {
    Failure kind{Failure::pending};
    std::string say{};
};

}  // namespace brimline::store
