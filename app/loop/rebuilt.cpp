// One pass over the journal; a record is written just before the first event of the command that sealed it.
#include "app/loop/rebuilt.h"

#include <map>
#include <optional>

#include "app/loop/memory.h"
#include "app/loop/room.h"
#include "core/record/text.h"
#include "core/store/ids.h"

namespace brimline {
namespace {

/// The policy in force on a desk, read once for each that was.
class Policies {
public:
    [[nodiscard]] const PolicyInForce* of(const Desk& desk) {
        const auto hash = desk.policy ? desk.policy->hash : std::string{};
        if (read_.count(hash) == 0) {
            auto in_force = policy_in_force(desk, std::nullopt);
            read_[hash] = in_force ? std::optional{std::move(*in_force)} : std::nullopt;
        }
        const auto& known = read_[hash];
        return known ? &*known : nullptr;
    }

private:
    std::map<std::string, std::optional<PolicyInForce>> read_;
};

using ByEnd = std::multimap<std::pair<std::string, std::int64_t>, const store::SealedRow*>;

/// Records (no addenda: those are written from what came after) by their case and its first event after them.
ByEnd by_first_event_after(const std::vector<store::SealedRow>& sealed) {
    ByEnd ends;
    for (const auto& row : sealed) {
        if (row.addendum == 0) {
            ends.emplace(std::pair{store::hex(row.case_id), row.through_case_seq + 1}, &row);
        }
    }
    return ends;
}

}  // namespace

Rebuilt rebuild_records(const std::vector<store::StoredEvent>& given, const store::Id16& kiosk_id,
                        const std::vector<store::SealedRow>& sealed) {
    const auto ends = by_first_event_after(sealed);
    Rebuilt rebuilt;
    Policies policies;
    Desk desk;
    desk.kiosk_id = store::hex(kiosk_id);
    const auto rows = in_order(given);
    for (const auto& row : rows) {
        if (row.kiosk_id != kiosk_id) {
            desk.other_kiosks.insert(store::hex(row.kiosk_id));
        }
    }
    for (const auto& row : rows) {
        const auto id = store::hex(row.case_id);
        const auto [first, last] = ends.equal_range({id, row.case_seq});
        for (auto end = first; end != last; ++end) {
            const auto& record = *end->second;
            const auto* in_force = policies.of(desk);
            const bool same =
                in_force != nullptr && record_text(desk.cases[id], desk, in_force->policy, in_force->zone,
                                                   record.number) == record.body;
            same ? void(++rebuilt.same) : rebuilt.different.push_back(record.number);
        }
        if (const auto recorded = recorded_of(row)) {
            evolve(desk, id, *recorded);
        }
    }
    return rebuilt;
}

}  // namespace brimline
