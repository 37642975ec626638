// Reading the index.
#include "core/store/case_index.h"

#include "core/store/connection.h"
#include "core/store/copies.h"
#include "core/store/rows.h"

namespace brimline::store {

tl::expected<CaseIndex, OpenFault> read_case_index(const std::filesystem::path& folder,
                                                   std::string_view kind) {
    if (const auto there = must_hold_store(folder); !there) {
        return tl::unexpected{there.error()};
    }
    auto lock = lock_to_read(folder);
    if (!lock) {
        return tl::unexpected{lock.error()};
    }
    auto db = connect_reading(lock->is_copy() ? reading_folder(folder) : folder, *lock);
    if (!db) {
        return tl::unexpected{db.error()};
    }
    CaseIndex index;
    index.kiosks = read_kiosk_ids(*db);
    Statement last = db->prepare("SELECT kiosk, max(seq) FROM journal GROUP BY kiosk");
    while (last.next()) {
        index.last_numbers[last.integer(0).value_or(0)] = last.integer(1).value_or(0);
    }
    Statement rows =
        db->prepare(std::string{select_events} + "WHERE j.kind = ? ORDER BY j.kiosk DESC, j.seq");
    rows.bind(kind);
    auto events = read_events(*db, rows);
    index.first_events = std::move(events.rows);
    index.damage = std::move(events.damage);
    return index;
}

}  // namespace brimline::store
