// Reads rows of the journal's tables into values, and says when a row is not what the schema promises. Inside
// the store.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "core/store/journal.h"
#include "core/store/sqlite.h"

namespace brimline::store {

/// Columns that read_event expects; to be followed by WHERE and ORDER BY on `j`.
inline constexpr const char* select_events =
    "SELECT j.kiosk, j.seq, j.command, j.part, j.parts, j.case_id, j.case_seq, j.utc_us, j.tick_us, "
    "j.boot, "
    "j.person, j.role, j.policy, j.version, j.kind, j.payload, j.hash "
    "FROM journal j ";
/// The ids of all kiosks by their local numbers.
using KioskIds = std::map<std::int64_t, Id16>;
[[nodiscard]] KioskIds read_kiosk_ids(Database& db);
/// False when its kiosk is not known or a column has not its type or length; `event` is then only partly
/// filled.
[[nodiscard]] bool read_event(const Statement& row, const KioskIds& kiosks, StoredEvent& event);

/// Every event that the statement still gives.
[[nodiscard]] Rows<StoredEvent> read_events(Database& db, Statement& rows);
[[nodiscard]] Rows<Person> read_people(Database& db);
[[nodiscard]] Rows<BalloonRow> read_balloons(Database& db);
[[nodiscard]] Rows<SealedRow> read_sealed(Database& db, const std::optional<Id16>& case_id);
/// The row of a kiosk, with the key it signs with now; empty when it cannot be read.
[[nodiscard]] std::optional<Kiosk> read_kiosk(Database& db, std::int64_t n = 1);
/// Every key of every kiosk, in order. A file of version 1 knows the first of each only.
[[nodiscard]] Rows<KeySince> read_keys(Database& db);
/// The key that signed this record: of those that its kiosk had in force since the record's last event. Empty
/// when none fits, or no key or event can be read.
[[nodiscard]] std::optional<Key32> read_key_of(Database& db, const SealedRow& row);
/// The last event of this kiosk, seq 0 when there is none; empty when it cannot be read.
[[nodiscard]] std::optional<Head> read_head(Database& db);
/// The hash of one event; empty when there is none.
[[nodiscard]] std::optional<Hash32> read_hash(Database& db, const Id16& case_id, std::int64_t case_seq);

}  // namespace brimline::store
