// Reading the journal back into states.
#include "app/loop/memory.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/case/codec.h"

namespace brimline {

tl::expected<Recorded, Malformed> recorded_of(const store::StoredEvent& row) {
    Recorded recorded;
    auto& stamp = recorded.stamp;
    stamp.seq = row.seq;
    stamp.at = row.utc;
    stamp.tick_us = row.tick_us;
    stamp.boot = store::hex(row.boot);
    stamp.by = row.person;
    const auto role = role_named(row.role);
    if (!role) {
        return tl::unexpected{Malformed{"role", fmt::format("\"{}\" is no role", row.role)}};
    }
    stamp.role = *role;
    auto event = read_event(row.kind, row.payload, stamp);
    if (!event) {
        return tl::unexpected{event.error()};
    }
    recorded.event = std::move(*event);
    return recorded;
}

std::vector<store::StoredEvent> in_order(std::vector<store::StoredEvent> rows) {
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
        return a.kiosk != b.kiosk ? a.kiosk > b.kiosk : a.seq < b.seq;
    });
    std::int64_t before = 0;  // numbers used up by kiosks further back
    std::int64_t last = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i > 0 && rows[i].kiosk != rows[i - 1].kiosk) {
            before = last;
        }
        last = rows[i].seq += before;
    }
    return rows;
}

Memory remember(std::vector<store::StoredEvent> given, const store::Id16& kiosk_id,
                std::optional<Instant> until) {
    Memory memory;
    memory.desk.kiosk_id = store::hex(kiosk_id);
    const auto rows = in_order(std::move(given));
    for (const auto& row : rows) {
        if (row.kiosk_id != kiosk_id) {
            memory.desk.other_kiosks.insert(store::hex(row.kiosk_id));
        }
    }
    for (const auto& row : rows) {
        if (until && row.utc > *until) {
            continue;
        }
        const auto recorded = recorded_of(row);
        if (!recorded) {
            memory.unreadable.push_back({"event", fmt::format("event {}", row.seq),
                                         fmt::format("Event {} cannot be read: {} {}.", row.seq,
                                                     recorded.error().field, recorded.error().say)});
            continue;
        }
        evolve(memory.desk, store::hex(row.case_id), *recorded);
    }
    return memory;
}

}  // namespace brimline
