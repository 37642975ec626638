// Deciding what belongs to no case yet: people and their PINs, booking, an emergency start, lots under
// recall.
#include <fmt/format.h>

#include <algorithm>

#include "core/case/causes.h"
#include "core/case/decide/practice.h"
#include "core/desk/register.h"

namespace brimline {
namespace deciding {
namespace {

bool all_digits(const std::string& text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::optional<Refusal> bad_pin(const Setting& setting, const std::string& pin) {
    const auto& rules = setting.policy.rules;
    const auto digits = static_cast<int>(pin.size());
    if (!all_digits(pin) || digits < rules.pin_digits_least || digits > rules.pin_digits_most) {
        return coded("out-of-range", fmt::format("A PIN has {} to {} digits.", rules.pin_digits_least,
                                                 rules.pin_digits_most));
    }
    return std::nullopt;
}

/// Who may: the first person of an empty store may be entered by anyone.
std::optional<Refusal> bad_person(const Command& command, const Setting& setting) {
    const auto& spec = spec_of(command.says);
    const auto* by = setting.desk.person(command.by);
    if (std::holds_alternative<AddPerson>(command.says) && setting.desk.people.empty()) {
        return std::nullopt;
    }
    if (command.by == nobody_signed_in) {
        return std::holds_alternative<StartNow>(command.says) ? std::nullopt
                                                              : std::optional{coded("nobody-signed-in")};
    }
    if (by == nullptr || !by->active) {
        return coded("no-such-person", fmt::format("There is no person \"{}\".", command.by));
    }
    if (!spec.who.meets(by->set())) {
        return coded("role-may-not", fmt::format("{} may not enter {}.", by->name, spec.name));
    }
    return std::nullopt;
}

/// Practice knows only the patients it brings along, and none by the name of somebody on today's list.
template <class Patient>
std::optional<Refusal> not_for_practice(const Setting& setting, const Patient& patient) {
    if (!setting.practice) {
        return std::nullopt;
    }
    const std::optional<std::string> number{patient.number}, family{patient.family_name};
    if (!number || number->rfind("P-", 0) != 0) {
        return coded("not-in-practice");
    }
    if (family && setting.names_taken != nullptr && setting.names_taken->count(*family) != 0) {
        return coded("not-in-practice", fmt::format("{} is a name of today's list.", *family));
    }
    return std::nullopt;
}

std::optional<Refusal> bad_birth(const Setting& setting, const std::optional<LocalDate>& born, Instant at) {
    const auto today = setting.zone.date_of(at);
    if (born && (*born > today || age_on(*born, today) > 120)) {
        return coded("out-of-range", fmt::format("The birth date {} cannot be.", date_text(*born)));
    }
    return std::nullopt;
}

/// A removal is booked for an open entry of that very patient.
std::optional<Refusal> bad_entry_to_remove(const Command& command, const Setting& setting, const Book& says) {
    if (!says.entry) {
        return std::nullopt;
    }
    if (says.kind != CaseKind::removal) {
        return coded("out-of-range", "An entry to be removed goes with a removal only.");
    }
    const auto* state = setting.desk.case_of_entry(*says.entry);
    const auto today = setting.zone.date_of(command.at);
    const auto entry =
        state == nullptr ? std::nullopt : entry_on(*state, setting.desk, setting.policy, setting.zone, today);
    if (!entry) {
        return coded("no-such-entry", fmt::format("There is no entry \"{}\" in the register.", *says.entry));
    }
    if (state->patient.number && *state->patient.number != says.patient.number) {
        return coded("entry-of-another",
                     fmt::format("Entry {} is the balloon of {}, {}, not of {}.", *says.entry,
                                 state->patient.family_name.value_or("unknown"), *state->patient.number,
                                 says.patient.number));
    }
    return entry->open() ? std::nullopt
                         : std::optional{coded("entry-closed",
                                               fmt::format("Entry {} is closed already.", *says.entry))};
}

Outcome decide_here(const Command&, const Setting& setting, const AddPerson& says) {
    if (says.id.empty() || says.name.empty()) {
        return refused(coded("out-of-range", "A person has an id and a name."));
    }
    if (says.id == "kiosk" || says.id == nobody_signed_in || says.id == "not-known") {
        return refused(coded("out-of-range", fmt::format("\"{}\" is nobody's id; choose another.", says.id)));
    }
    if (setting.desk.person(says.id) != nullptr) {
        return refused(coded("person-exists", fmt::format("There is a person \"{}\" already.", says.id)));
    }
    if (auto refusal = bad_pin(setting, says.pin)) {
        return refused(*refusal);
    }
    return recorded(Event{PersonAdded{says.id, says.name, says.roles, {}}});
}

/// Nobody takes the last one away who may add people.
Outcome decide_here(const Command&, const Setting& setting, const PersonLeft& says) {
    const auto* person = setting.desk.person(says.id);
    if (person == nullptr || !person->active) {
        return refused(coded("no-such-person", fmt::format("There is no person \"{}\" here.", says.id)));
    }
    const auto& people = setting.desk.people;
    const bool others = std::any_of(people.begin(), people.end(), [&](const auto& one) {
        return one.first != says.id && one.second.active &&
               (one.second.has(Role::coordinator) || one.second.has(Role::installer));
    });
    if (!others) {
        return refused(
            coded("last-who-may",
                  fmt::format("{} is the last who may add people; add another first.", person->name)));
    }
    return recorded(Event{says});
}

Outcome decide_here(const Command& command, const Setting& setting, const SetPin& says) {
    const CaseState none;
    const Scene scene{none, command, setting};
    if (setting.pin == PinCheck::locked) {
        return refused_attempt(scene, coded("pin-locked", "The PIN is locked: " + setting.pin_say + "."));
    }
    if (setting.pin != PinCheck::right) {
        return refused_attempt(scene, coded("pin-wrong"));
    }
    if (auto refusal = bad_pin(setting, says.new_pin)) {
        return refused(*refusal);
    }
    return recorded(Event{PinSet{}});
}

Outcome decide_here(const Command& command, const Setting& setting, const Book& says) {
    const auto rooms = setting.policy.clinic.rooms;
    if (!rooms.empty() && !holds_id(rooms, says.room)) {
        return refused(not_on_list("Room", says.room, rooms));
    }
    if (auto refusal = bad_birth(setting, says.patient.born, command.at)) {
        return refused(*refusal);
    }
    if (auto refusal = not_for_practice(setting, says.patient)) {
        return refused(*refusal);
    }
    if (auto refusal = bad_number(setting, says.patient.number)) {
        return refused(*refusal);
    }
    if (auto refusal = bad_entry_to_remove(command, setting, says)) {
        return refused(*refusal);
    }
    Booked booked;
    booked.id = setting.new_case_id;
    booked.name = command.case_name;
    booked.kind = says.kind;
    booked.patient = {says.patient.number,  says.patient.family_name,  says.patient.given_name,
                      says.patient.born,    says.patient.sex_at_birth, says.patient.phone,
                      says.patient.language};
    booked.planned = says.planned;
    booked.room = says.room;
    booked.entry = says.entry;
    return recorded(Event{booked});
}

Outcome decide_here(const Command& command, const Setting& setting, const StartNow& says) {
    if (auto refusal = bad_birth(setting, says.patient.born, command.at)) {
        return refused(*refusal);
    }
    if (auto refusal = not_for_practice(setting, says.patient)) {
        return refused(*refusal);
    }
    if (auto refusal = bad_number(setting, says.patient.number)) {
        return refused(*refusal);
    }
    const CaseState none;
    const Scene scene{none, command, setting};
    if (says.weight_kg) {
        if (auto outcome = judged(scene, "weight_kg", *says.weight_kg, setting.policy.body.weight_kg, "kg")) {
            return *outcome;
        }
        if (!says.weight_kg->whole(10)) {
            return refused(coded("out-of-range", "A weight in kg has at most one decimal."));
        }
    }
    Booked booked;
    booked.id = setting.new_case_id;
    booked.name = command.case_name;
    booked.kind = says.kind;
    booked.patient = says.patient;
    booked.planned = command.at;
    booked.started_now = true;
    std::vector<NewEvent> events{{Event{booked}, {}, false}};
    if (says.weight_kg) {
        events.push_back(
            {Event{WeightKnown{*says.weight_kg, says.weight_basis.value_or(WeightBasis::estimated)}},
             {},
             false});
    }
    return recorded(std::move(events));
}

Outcome decide_here(const Command&, const Setting&, const Recall& says) {
    return says.lot.empty() ? refused(coded("out-of-range", "A lot is named.")) : recorded(Event{says});
}

/// A badge is one person's, and never reads as a device label.
Outcome decide_here(const Command&, const Setting& setting, const Badge& says) {
    const auto* person = setting.desk.person(says.id);
    if (person == nullptr || !person->active) {
        return refused(coded("no-such-person", fmt::format("There is no person \"{}\" here.", says.id)));
    }
    if (const auto* other = setting.desk.with_badge(says.badge); other != nullptr && other->id != says.id) {
        return refused(coded("badge-in-use", fmt::format("This badge is {}'s.", other->name)));
    }
    constexpr char label_begins = ']';  // the symbology prefix, GS1 General Specifications
    if (!says.badge.empty() && says.badge.front() == label_begins) {
        return refused(coded("badge-in-use", "This is the label of a device, no badge."));
    }
    return recorded(Event{says});
}

Outcome decide_here(const Command& command, const Setting& setting, const WasReal& says) {
    return as_real(command, setting, says);
}

template <class T>
Outcome decide_here(const Command&, const Setting&, const T&) {
    std::abort();  // is_desk_command said otherwise
}

bool names_a_new_case(const Statement& says) {
    return std::holds_alternative<Book>(says) || std::holds_alternative<StartNow>(says) ||
           std::holds_alternative<WasReal>(says);
}

/// What is open from the first moment of a case, such as an unknown patient.
Outcome with_follow_up(Outcome outcome, const Command& command, const Setting& setting) {
    if (outcome.refusal || outcome.asked || !names_a_new_case(command.says)) {
        return outcome;
    }
    CaseState fresh;
    std::int64_t seq = setting.desk.last_seq;
    for (const auto& one : outcome.events) {
        evolve(fresh, {stamp_of(one, ++seq, command, acting_role(command, setting.desk)), one.event});
    }
    for (auto& more : follow_up(fresh, setting, command.at, false)) {
        outcome.events.push_back(std::move(more));
    }
    return outcome;
}

}  // namespace
}  // namespace deciding

bool is_desk_command(const Statement& says) {
    return std::holds_alternative<AddPerson>(says) || std::holds_alternative<SetPin>(says) ||
           std::holds_alternative<Book>(says) || std::holds_alternative<StartNow>(says) ||
           std::holds_alternative<Recall>(says) || std::holds_alternative<PersonLeft>(says) ||
           std::holds_alternative<Badge>(says) || std::holds_alternative<WasReal>(says);
}

Outcome decide_desk(const Command& command, const Setting& setting) {
    if (auto refusal = deciding::bad_person(command, setting)) {
        return deciding::refused(*refusal);
    }
    if (deciding::names_a_new_case(command.says) && setting.desk.find_case(command.case_name) != nullptr) {
        return deciding::refused(
            coded("case-exists", fmt::format("There is a case \"{}\" already.", command.case_name)));
    }
    auto outcome = std::visit([&](const auto& says) { return deciding::decide_here(command, setting, says); },
                              command.says);
    return deciding::with_follow_up(std::move(outcome), command, setting);
}

}  // namespace brimline
