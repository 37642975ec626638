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
        desk.people[added->id] = {added->id, added->name, added->roles};
    } else if (const auto* policy = std::get_if<PolicyAdopted>(&recorded.event)) {
        desk.policy = *policy;
    } else if (const auto* recall = std::get_if<Recall>(&recorded.event)) {
        desk.recalls.push_back(*recall);
    }
    if (case_id == desk.kiosk_id) {
        return;
    }
    if (const auto* booked = std::get_if<Booked>(&recorded.event)) {
        desk.case_ids[booked->name] = booked->id;
        desk.case_order.push_back(booked->name);
    } else if (const auto* sealed = std::get_if<Sealed>(&recorded.event)) {
        if (const auto year = year_in(sealed->number)) {
            ++desk.sealed_in_year[*year];
        }
    }
    evolve(desk.cases[case_id], recorded);
}

}  // namespace brimline
