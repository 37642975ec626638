// Comparing tables with the fold.
#include "app/loop/projections.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "app/loop/memory.h"
#include "app/loop/register_row.h"
#include "app/loop/room.h"
#include "core/store/ids.h"
#include "core/store/pins.h"

namespace brimline {
namespace {

using Findings = std::vector<store::Finding>;

/// The latest mark of each person's PIN, as the events tell it.
std::map<std::string, std::string> pin_marks(const std::vector<store::StoredEvent>& rows) {
    std::map<std::string, std::string> marks;
    for (const auto& row : in_order(rows)) {
        const bool tells = row.kind == PersonAdded::spec.name || row.kind == PinSet::spec.name;
        const auto recorded = tells ? recorded_of(row) : tl::unexpected{Malformed{}};
        if (!recorded) {
            continue;
        }
        if (const auto* added = std::get_if<PersonAdded>(&recorded->event)) {
            marks[added->id] = added->pin_mark.value_or("");
        } else if (const auto* set = std::get_if<PinSet>(&recorded->event)) {
            marks[recorded->stamp.by] = set->pin_mark.value_or("");
        }
    }
    return marks;
}

std::set<std::string> role_set(const PersonKnown& person) {
    std::set<std::string> roles;
    for (const Role role : person.roles) {
        roles.emplace(name_of(role));
    }
    return roles;
}

void people(const Desk& desk, const std::map<std::string, std::string>& marks, const store::Tables& tables,
            Findings& out) {
    const auto wrong = [&](const std::string& id, const char* what) {
        out.push_back({"person", id,
                       fmt::format("Person \"{}\": {} in the table differs from the journal.", id, what)});
    };
    for (const auto& row : tables.people) {
        const auto* known = desk.person(row.id);
        if (known == nullptr) {
            wrong(row.id, "the entry");
            continue;
        }
        if (known->active != row.active) {
            wrong(row.id, "whether they left");
        }
        if (known->name != row.name) {
            wrong(row.id, "the name");
        }
        if (role_set(*known) != std::set<std::string>(row.roles.begin(), row.roles.end())) {
            wrong(row.id, "the roles");
        }
        const auto mark = marks.find(row.id);
        if (mark == marks.end() || mark->second != store::pin_fingerprint(row.pin_hash)) {
            wrong(row.id, "the PIN");
        }
    }
    for (const auto& [id, known] : desk.people) {
        const bool there = std::any_of(tables.people.begin(), tables.people.end(),
                                       [&](const auto& row) { return row.id == id; });
        if (!there) {
            wrong(id, "the missing entry");
        }
    }
}

/// The list of signing keys against the events that replaced them, each vouched for by the one before.
void keys(const std::vector<store::StoredEvent>& rows, const store::Tables& tables, Findings& out) {
    std::map<std::int64_t, std::vector<store::KeySince>> expected;
    for (const auto& key : tables.keys) {
        if (key.since_seq == 0) {
            expected[key.kiosk].push_back(key);
        }
    }
    for (const auto& row : rows) {
        const auto recorded =
            row.kind == KeyRotated::spec.name ? recorded_of(row) : tl::unexpected{Malformed{}};
        const auto* rotated = recorded ? std::get_if<KeyRotated>(&recorded->event) : nullptr;
        if (rotated == nullptr) {
            continue;
        }
        const auto next = store::hash_from_hex(rotated->new_key).value_or(store::Key32{});
        store::Signature64 signature{};
        const auto& before = expected[row.kiosk];
        const bool vouched =
            !before.empty() && store::hex(before.back().key) == rotated->old_key &&
            store::unhex(rotated->signature, signature) &&
            store::signature_holds(store::key_message(before.back().key, next), signature, before.back().key);
        if (!vouched) {
            out.push_back(
                {"key", "sign_key", "A signing key was replaced without the word of the one before it."});
        }
        expected[row.kiosk].push_back({row.kiosk, row.seq, next});
    }
    std::vector<store::KeySince> all;
    for (const auto& [kiosk, list] : expected) {
        all.insert(all.end(), list.begin(), list.end());
    }
    if (all != tables.keys) {
        out.push_back({"key", "sign_key", "The list of signing keys differs from the journal."});
    }
}

void sealed(const Desk& desk, const store::Tables& tables, Findings& out) {
    std::set<std::string> seen;
    for (const auto& row : tables.sealed) {
        const auto found = desk.cases.find(store::hex(row.case_id));
        const bool fits = found != desk.cases.end() && found->second.sealed &&
                          found->second.sealed->is.number == row.number &&
                          found->second.sealed->is.hash == store::hex(row.body_hash);
        if (!fits) {
            out.push_back({"sealed", row.number,
                           fmt::format("Record {} is not the one that the journal sealed.", row.number)});
        }
        seen.insert(row.number);
    }
    for (const auto& [id, state] : desk.cases) {
        if (state.sealed && seen.count(state.sealed->is.number) == 0) {
            out.push_back({"sealed", state.sealed->is.number,
                           fmt::format("The sealed record {} is missing.", state.sealed->is.number)});
        }
    }
}

void balloons(const Desk& desk, const PolicyInForce& in_force, const store::Tables& tables, Findings& out) {
    std::map<std::string, store::BalloonRow> expected;
    for (const auto& [id, state] : desk.cases) {
        if (const auto row = register_row(state, desk, in_force.policy, in_force.zone)) {
            expected[id] = *row;
        }
    }
    for (const auto& row : tables.balloons) {
        const auto id = store::hex(row.case_id);
        const auto found = expected.find(id);
        if (found == expected.end() || !(found->second == row)) {
            out.push_back({"register", row.hospital_no,
                           fmt::format("The register's line for {} differs from the journal.", row.patient)});
        }
        if (found != expected.end()) {
            expected.erase(found);
        }
    }
    for (const auto& [id, row] : expected) {
        out.push_back(
            {"register", row.hospital_no, fmt::format("The register lacks the balloon of {}.", row.patient)});
    }
}

}  // namespace

std::vector<store::Finding> compare_kept(const std::vector<store::StoredEvent>& events, const Memory& memory,
                                         const store::Tables& tables) {
    Findings out = memory.unreadable;
    people(memory.desk, pin_marks(events), tables, out);
    sealed(memory.desk, tables, out);
    keys(events, tables, out);
    return out;
}

std::vector<store::Finding> compare_projections(const std::vector<store::StoredEvent>& events,
                                                const store::Tables& tables) {
    const auto memory = remember(events, tables.kiosk.id);
    Findings out = compare_kept(events, memory, tables);
    if (memory.desk.policy) {
        if (store::hex(store::blake2b(memory.desk.policy->text)) != memory.desk.policy->hash) {
            out.push_back({"policy", "policy", "The policy's text does not fit its hash."});
        }
        if (const auto in_force = policy_in_force(memory.desk, std::nullopt)) {
            balloons(memory.desk, *in_force, tables, out);
        } else {
            out.push_back(
                {"policy", "policy", "The policy in the journal cannot be read: " + in_force.error().say});
        }
    }
    return out;
}

}  // namespace brimline
