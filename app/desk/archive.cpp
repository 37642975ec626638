// Reading one case after another.
#include "app/desk/archive.h"

#include <fmt/format.h>

#include <algorithm>

namespace brimline::desk {
namespace {

std::optional<CaseState> state_at_seal(const CaseFile& file) {
    std::vector<Recorded> until;
    for (const auto& row : file.rows) {
        auto recorded = recorded_of(row);
        if (!recorded) {
            return std::nullopt;
        }
        const bool seal = std::holds_alternative<Sealed>(recorded->event);
        until.push_back(std::move(*recorded));
        if (seal) {
            return until.size() == file.rows.size() ? std::nullopt : std::optional{fold(until)};
        }
    }
    return std::nullopt;
}

}  // namespace

tl::expected<Archive, RoomFault> Archive::open(const std::filesystem::path& data) {
    const auto said = [](const store::OpenFault& fault) {
        return tl::unexpected{RoomFault{fault.say + (fault.next.empty() ? "" : " " + fault.next), 3}};
    };
    const auto cases = store::read_case_index(data, Booked::spec.name);
    if (!cases) {
        return said(cases.error());
    }
    auto journal = store::Journal::open(data, store::Mode::read_only);
    if (!journal) {
        return said(journal.error());
    }
    Archive archive{std::move(*journal)};
    if (auto indexed = archive.index(*cases); !indexed) {
        return tl::unexpected{indexed.error()};
    }
    return archive;
}

void Archive::number_through(std::vector<store::StoredEvent>& rows) const {
    for (auto& row : rows) {
        const auto found = before_.find(row.kiosk);
        row.seq += found == before_.end() ? 0 : found->second;
    }
}

void Archive::take_kiosks(const store::CaseIndex& index) {
    base_.kiosk_id = store::hex(journal_.kiosk().id);
    std::int64_t used = 0;
    for (auto last = index.last_numbers.rbegin(); last != index.last_numbers.rend(); ++last) {
        before_[last->first] = used;  // what came with a backup stands first
        used += last->second;
        const auto id = index.kiosks.find(last->first);
        if (id == index.kiosks.end()) {
            continue;
        }
        base_.other_kiosks.insert(store::hex(id->second));
        auto rows = journal_.events_of(id->second);
        damage_.insert(damage_.end(), rows.damage.begin(), rows.damage.end());
        number_through(rows.rows);
        kiosk_rows_.insert(kiosk_rows_.end(), rows.rows.begin(), rows.rows.end());
    }
    base_.other_kiosks.erase(base_.kiosk_id);
    for (const auto& row : kiosk_rows_) {
        if (const auto recorded = recorded_of(row)) {
            evolve(base_, store::hex(row.case_id), *recorded);
        }
    }
    const auto own = index.last_numbers.empty() ? 0 : index.last_numbers.begin()->second;
    const auto newest = journal_.events(std::max<std::int64_t>(own, 1) - 1).rows;
    last_entry_ = newest.empty() ? Instant{} : newest.back().utc;
}

void Archive::take_cases(std::vector<store::StoredEvent> booked) {
    number_through(booked);
    std::map<std::string, std::string> entries;  // id of a removal -> entry it was booked for
    for (const auto& row : booked) {
        const auto recorded = recorded_of(row);
        const auto* is = recorded ? std::get_if<Booked>(&recorded->event) : nullptr;
        if (is == nullptr) {
            continue;
        }
        ids_[is->name] = is->id;
        cases_.push_back({is->id, is->name, row.seq, row.utc});
        if (is->kind == CaseKind::removal && is->entry) {
            entries[is->id] = *is->entry;
        }
    }
    for (const auto& [removal, entry] : entries) {
        auto found = ids_.find(entry);
        found = found == ids_.end() ? ids_.find(std::string{case_part(entry)}) : found;
        if (found != ids_.end()) {
            placements_[removal] = found->second;
            removals_[found->second].push_back(removal);
        }
    }
}

tl::expected<void, RoomFault> Archive::index(const store::CaseIndex& index) {
    damage_ = journal_.damage();
    damage_.insert(damage_.end(), index.damage.begin(), index.damage.end());
    take_kiosks(index);
    take_cases(index.first_events);
    auto in_force = policy_in_force(base_, std::nullopt);
    if (!in_force) {
        return tl::unexpected{in_force.error()};
    }
    in_force_ = std::move(*in_force);
    return {};
}

void Archive::fold_case(CaseFile& file, const std::string& id, bool own) {
    const auto known = store::id_from_hex(id);
    if (!known) {
        return;
    }
    auto rows = journal_.events_of(*known);
    number_through(rows.rows);
    for (const auto& row : rows.rows) {
        if (const auto recorded = recorded_of(row)) {
            evolve(file.desk, id, *recorded);
        } else {
            file.unreadable.push_back({"event", fmt::format("event {}", row.seq),
                                       fmt::format("Event {} cannot be read: {} {}.", row.seq,
                                                   recorded.error().field, recorded.error().say)});
        }
    }
    file.unreadable.insert(file.unreadable.end(), rows.damage.begin(), rows.damage.end());
    if (own) {
        file.rows = std::move(rows.rows);
    }
}

std::optional<CaseFile> Archive::read(std::string_view name) {
    const auto id = ids_.find(std::string{name});
    if (id == ids_.end()) {
        return std::nullopt;
    }
    CaseFile file;
    file.desk = base_;
    file.name = std::string{name};
    if (const auto placement = placements_.find(id->second); placement != placements_.end()) {
        fold_case(file, placement->second, false);
    }
    fold_case(file, id->second, true);
    if (const auto removals = removals_.find(id->second); removals != removals_.end()) {
        for (const auto& removal : removals->second) {
            fold_case(file, removal, false);
        }
    }
    if (file.desk.find_case(name) == nullptr) {
        return std::nullopt;
    }
    for (auto& row : journal_.sealed(store::id_from_hex(id->second)).rows) {
        if (row.addendum == 0) {
            file.seal_key = journal_.key_that_sealed(row).value_or(store::Key32{});
            file.sealed = std::move(row);
        }
    }
    if (file.now().sealed) {
        file.as_sealed = state_at_seal(file);
    }
    return file;
}

}  // namespace brimline::desk
