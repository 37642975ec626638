// Folding the desk.
#include "core/desk/desk.h"

#include <algorithm>
#include <charconv>

namespace brimline {
namespace {

/// The year that stands in a record's number, "R-2026-0001": the clinic's own year, which around midnight of
/// the new year is not that of UTC.
std::optional<int> year_in(const std::string& number) {
    const auto last = number.rfind('-');
    if (last == std::string::npos || last < 4) {
        return std::nullopt;
    }
    int year = 0;
    const auto* end = number.data() + last;
    const auto read = std::from_chars(end - 4, end, year);
    return read.ec == std::errc{} && read.ptr == end ? std::optional{year} : std::nullopt;
}

/// Reading one takes milliseconds and most stores have one only, so that one is left unread.
void read_policies(Desk& desk) {
    if (desk.policies.size() < 2) {
        return;
    }
    for (auto& since : desk.policies) {
        if (since.policy) {
            continue;
        }
        if (auto read = read_policy_text(since.text)) {
            since.policy = std::make_shared<const Policy>(std::move(*read));
        }
    }
}

}  // namespace

bool PersonKnown::has(Role role) const { return std::find(roles.begin(), roles.end(), role) != roles.end(); }

Roles PersonKnown::set() const {
    Roles all;
    for (const Role role : roles) {
        all.add(role);
    }
    return all;
}

const PersonKnown* Desk::person(std::string_view id) const {
    const auto found = people.find(std::string{id});
    return found == people.end() ? nullptr : &found->second;
}

const CaseState* Desk::find_case(std::string_view name) const {
    const auto id = case_ids.find(std::string{name});
    if (id == case_ids.end()) {
        return nullptr;
    }
    const auto found = cases.find(id->second);
    return found == cases.end() ? nullptr : &found->second;
}

std::string_view case_part(std::string_view entry) {
    const auto slash = entry.rfind('/');
    const bool second = slash != std::string_view::npos && slash + 1 < entry.size() &&
                        entry.find_first_not_of("0123456789", slash + 1) == std::string_view::npos;
    return second ? entry.substr(0, slash) : entry;
}

const CaseState* Desk::case_of_entry(std::string_view entry) const {
    const auto* whole = find_case(entry);  // a case may have a stroke in its own name
    return whole != nullptr ? whole : find_case(case_part(entry));
}

const Policy& Desk::policy_at(std::int64_t seq, const Policy& current) const {
    const Policy* found = &current;
    if (policies.size() > 1) {
        for (const auto& since : policies) {
            found = since.seq <= seq && since.policy ? since.policy.get() : found;
        }
    }
    return *found;
}

const PersonKnown* Desk::with_badge(std::string_view badge) const {
    const auto has = [&](const auto& one) { return one.second.active && one.second.badge == badge; };
    const auto found = std::find_if(people.begin(), people.end(), has);
    return badge.empty() || found == people.end() ? nullptr : &found->second;
}

std::optional<std::string> Desk::first_with(Role role) const {
    for (const auto& [id, person] : people) {
        if (person.active && person.has(role)) {
            return id;
        }
    }
    return std::nullopt;
}

std::string Desk::name_of_person(std::string_view id) const {
    const auto* known = person(id);
    return known == nullptr ? std::string{id} : known->name;
}

void evolve(Desk& desk, const std::string& case_id, const Recorded& recorded) {
    desk.last_at = std::max(desk.last_at, recorded.stamp.at);
    desk.last_tick_us = recorded.stamp.tick_us;
    desk.last_boot = recorded.stamp.boot;
    desk.last_seq = recorded.stamp.seq;
    desk.scripts_only = desk.scripts_only && recorded.stamp.script;
    if (const auto* added = std::get_if<PersonAdded>(&recorded.event)) {
        desk.people[added->id] = {added->id, added->name, added->roles, true, ""};
    } else if (const auto* left = std::get_if<PersonLeft>(&recorded.event)) {
        if (const auto found = desk.people.find(left->id); found != desk.people.end()) {
            found->second.active = false;
        }
    } else if (const auto* given = std::get_if<Badge>(&recorded.event)) {
        if (const auto found = desk.people.find(given->id); found != desk.people.end()) {
            found->second.badge = given->badge;
        }
    } else if (const auto* plan = std::get_if<BackupPlanned>(&recorded.event)) {
        desk.backup_plan = *plan;
    } else if (const auto* policy = std::get_if<PolicyAdopted>(&recorded.event)) {
        desk.policy = *policy;
        desk.policies.push_back({recorded.stamp.seq, policy->text, nullptr});
        read_policies(desk);
    } else if (const auto* recall = std::get_if<Recall>(&recorded.event)) {
        desk.recalls.push_back(*recall);
    } else if (const auto* rehearsed = std::get_if<Rehearsed>(&recorded.event)) {
        desk.rehearsed = Noted<Rehearsed>{recorded.stamp, *rehearsed};
    }
    if (case_id == desk.kiosk_id || desk.other_kiosks.count(case_id) != 0) {
        return;
    }
    if (const auto* booked = std::get_if<Booked>(&recorded.event)) {
        desk.case_ids[booked->name] = booked->id;
        desk.case_order.push_back(booked->name);
        if (booked->kind == CaseKind::removal && booked->entry) {
            desk.removals[std::string{case_part(*booked->entry)}].push_back(booked->name);
        }
    } else if (const auto* sealed = std::get_if<Sealed>(&recorded.event)) {
        if (const auto year = year_in(sealed->number)) {
            ++desk.sealed_in_year[*year];
        }
    }
    evolve(desk.cases[case_id], recorded);
}

}  // namespace brimline
