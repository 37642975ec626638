// Deciding, laying out batches, and moving the state.
#include "app/loop/loop.h"

#include <fmt/format.h>

#include "app/loop/register_row.h"
#include "core/desk/register.h"
#include "core/record/text.h"

namespace brimline {
namespace {

store::Id16 id_of(const std::string& hex) { return store::id_from_hex(hex).value_or(store::Id16{}); }

void fill_lists(Reply& answer, const std::vector<NewEvent>& events) {
    for (const auto& one : events) {
        if (const auto* raised = std::get_if<HoldRaised>(&one.event)) {
            answer.raised.push_back(raised->code);
        } else if (const auto* ended = std::get_if<HoldEnded>(&one.event)) {
            answer.ended.push_back(ended->code);
        } else if (const auto* overridden = std::get_if<Overridden>(&one.event);
                   overridden && overridden->ends) {
            answer.ended.push_back(overridden->hold);
        } else if (const auto* opened = std::get_if<ItemOpened>(&one.event)) {
            answer.opened.push_back(opened->code);
        } else if (const auto* closed = std::get_if<ItemClosed>(&one.event)) {
            answer.closed.push_back(closed->code);
        }
    }
}

/// How the store's answer about a PIN reaches core: right, wrong or locked, with the words for it.
void tell_pin(const tl::expected<store::PinAnswer, std::string>& answer, bool one_time_counts,
              const Zone& zone, Setting& setting) {
    setting.pin = PinCheck::wrong;
    if (!answer) {
        setting.pin_say = answer.error();
    } else if (const auto* right = std::get_if<store::PinRight>(&*answer)) {
        const bool counts = !right->one_time || one_time_counts;
        setting.pin = counts ? PinCheck::right : PinCheck::wrong;
        setting.pin_say = counts ? "" : "it was given by another; set your own first";
    } else if (const auto* wrong = std::get_if<store::PinWrong>(&*answer)) {
        setting.pin_say =
            fmt::format("{} {} left", wrong->tries_left, wrong->tries_left == 1 ? "try" : "tries");
    } else if (const auto* locked = std::get_if<store::PinLocked>(&*answer)) {
        setting.pin = PinCheck::locked;
        setting.pin_say = "until " + clock_text(locked->until, zone, true);
    }
}

Refusal nobody_addressed(const Command& command) {
    const bool of_entry = std::holds_alternative<Call>(command.says) ||
                          std::holds_alternative<Flag>(command.says) ||
                          std::holds_alternative<CloseEntry>(command.says) ||
                          std::holds_alternative<LostToFollowUp>(command.says);
    if (of_entry) {
        return coded("no-such-entry", "There is no entry of this name in the register.");
    }
    return coded("no-such-case", fmt::format("There is no case \"{}\".", command.case_name));
}

}  // namespace

Loop::Loop(Desk desk, PolicyInForce in_force, store::Chance& chance)
    : confirmed_{desk}, ahead_{std::move(desk)}, in_force_{std::move(in_force)}, chance_{chance} {}

void Loop::reset(Desk desk) {
    confirmed_ = desk;
    ahead_ = std::move(desk);
}

Prepared Loop::lay_out(std::vector<NewEvent> events, const Command& command, Role role, std::string case_id,
                       const EntryTime& time) {
    Prepared prepared;
    fill_lists(prepared.answer, events);
    store::Batch batch;
    batch.command = chance_.id();
    std::int64_t seq = ahead_.last_seq;
    for (auto& one : events) {
        auto stamp = stamp_of(one, ++seq, command, role);
        stamp.tick_us = time.tick_us;
        stamp.boot = time.boot;
        stamp.script = time.script;
        store::NewEvent row;
        const auto& chain = one.case_id.empty() ? case_id : one.case_id;
        row.case_id = id_of(chain);
        row.utc = stamp.at;
        row.tick_us = stamp.tick_us;
        row.boot = id_of(stamp.boot);
        row.person = stamp.by;
        row.role = std::string{name_of(stamp.role)};
        row.policy = store::hash_from_hex(in_force_.hash).value_or(store::Hash32{});
        row.kind = std::string{kind_of(one.event)};
        row.payload = payload_of(stamp, one.event);
        batch.events.push_back(std::move(row));
        prepared.events.emplace_back(chain, Recorded{std::move(stamp), std::move(one.event)});
    }
    for (const auto& [id, recorded] : prepared.events) {
        evolve(ahead_, id, recorded);
    }
    prepared.batch = std::move(batch);
    return prepared;
}

std::optional<Prepared> Loop::adopt_policy_first(const EntryTime& time) {
    if (ahead_.policy) {
        return std::nullopt;
    }
    return adopt_policy(in_force_, "kiosk", Role::kiosk, time);
}

Prepared Loop::adopt_policy(PolicyInForce next, const std::string& by, Role role, const EntryTime& time) {
    in_force_ = std::move(next);
    Command command;
    command.by = by;
    command.at = time.at;
    return lay_out({{PolicyAdopted{in_force_.hash, in_force_.policy.text}, {}, role == Role::kiosk}}, command,
                   role, ahead_.kiosk_id, time);
}

Prepared Loop::note(Event event, const EntryTime& time, const std::string& by) {
    Command command;
    command.by = by;
    command.at = time.at;
    const auto* person = ahead_.person(by);
    const bool kiosk = person == nullptr || person->roles.empty();
    return lay_out({{std::move(event), {}, kiosk}}, command, kiosk ? Role::kiosk : person->roles.front(),
                   ahead_.kiosk_id, time);
}

Prepared Loop::bring_person(const PersonKnown& known, const store::Person& kept, const EntryTime& time) {
    store::PersonChange change;
    change.id = known.id;
    change.name = known.name;
    change.pin_hash = kept.pin_hash;
    change.roles = kept.roles;
    change.one_time = kept.one_time;
    auto prepared =
        note(PersonAdded{known.id, known.name, known.roles, store::pin_fingerprint(kept.pin_hash)}, time);
    prepared.batch->people.push_back(std::move(change));
    return prepared;
}

std::optional<Prepared> Loop::ended_by_time(const EntryTime& time) {
    Command command;
    command.by = "kiosk";
    command.at = time.at;
    for (const auto& [id, state] : ahead_.cases) {
        auto ended = brimline::ended_by_time(state, time.at);
        if (!ended.empty()) {
            return lay_out(std::move(ended), command, Role::kiosk, id, time);
        }
    }
    return std::nullopt;
}

std::optional<Prepared> Loop::clock_jump(const EntryTime& time) {
    if (time.script || ahead_.last_seq == 0) {
        return std::nullopt;
    }
    const bool same_boot = ahead_.last_boot == time.boot;
    const auto wall = (time.at - ahead_.last_at).count();
    const auto drift =
        same_boot ? wall - (time.tick_us - ahead_.last_tick_us) : std::min<std::int64_t>(wall, 0);
    // 7-journal: apart by more than the clinic's limit, or behind the last event
    const std::int64_t noted_from_us = Duration{policy().rules.clock_jump}.count();
    if (drift > -noted_from_us && drift < noted_from_us && wall >= 0) {
        return std::nullopt;
    }
    Command command;
    command.by = "kiosk";
    command.at = time.at;
    return lay_out({{ClockJump{drift / 1000}, {}, true}}, command, Role::kiosk, ahead_.kiosk_id, time);
}

struct Loop::Writer {
    Loop& loop;
    const Command& command;
    const EntryTime& time;

    /// What only the store can add to the events of a decision: marks of PIN hashes, the hash of a sealed
    /// record.
    void complete(std::vector<NewEvent>& events, const CaseState* state, store::Batch& extra) const {
        for (auto& one : events) {
            if (auto* added = std::get_if<PersonAdded>(&one.event)) {
                const auto& says = std::get<AddPerson>(command.says);
                change_person(*added, says.pin, true, extra);
                added->pin_mark = store::pin_fingerprint(*extra.people.back().pin_hash);
            } else if (auto* set = std::get_if<PinSet>(&one.event)) {
                const auto* person = loop.ahead_.person(command.by);
                change_person({person->id, person->name, person->roles, {}},
                              std::get<SetPin>(command.says).new_pin, false, extra);
                set->pin_mark = store::pin_fingerprint(*extra.people.back().pin_hash);
            } else if (const auto* left = std::get_if<PersonLeft>(&one.event)) {
                const auto* person = loop.ahead_.person(left->id);
                store::PersonChange change{person->id, person->name, {}, {}, false, false};
                for (const Role role : person->roles) {
                    change.roles.emplace_back(name_of(role));
                }
                extra.people.push_back(std::move(change));
            } else if (auto* sealed = std::get_if<Sealed>(&one.event)) {
                seal_record(*sealed, *state, extra);
            }
        }
    }

    static void change_person(const PersonAdded& person, const std::string& pin, bool one_time,
                              store::Batch& extra) {
        store::PersonChange change;
        change.id = person.id;
        change.name = person.name;
        change.pin_hash = store::hash_pin(pin);
        for (const Role role : person.roles) {
            change.roles.emplace_back(name_of(role));
        }
        change.one_time = one_time;
        extra.people.push_back(std::move(change));
    }

    void seal_record(Sealed& sealed, const CaseState& state, store::Batch& extra) const {
        store::SealRequest request;
        request.number = sealed.number;
        request.case_id = id_of(state.id);
        request.through_case_seq = state.chain_length;
        request.body = record_text(state, loop.ahead_, loop.policy(), loop.zone(), sealed.number);
        sealed.hash = store::hex(store::blake2b(request.body));
        extra.seal = std::move(request);
    }
};

Prepared Loop::prepare(const Command& given, const EntryTime& time, const PinChecker& pins) {
    Command command = given;
    command.at = time.at;
    const bool for_desk = is_desk_command(command.says);
    const auto* state = for_desk ? nullptr : case_addressed(command, ahead_);
    Prepared nothing;
    nothing.answer.result = Reply::Result::refused;
    if (!for_desk && state == nullptr) {
        nothing.answer.refusal = nobody_addressed(command);
        return nothing;
    }
    Setting setting{policy(), zone(), ahead_,    time.tick_us, time.boot, store::hex(chance_.id()),
                    {},       "",     practice_, &names_taken_};
    for (const auto& need : pins_needed(command, state, ahead_)) {
        if (ahead_.person(need.person) != nullptr) {
            tell_pin(pins(need, time.at), practice_ || ahead_.scripts_only, zone(), setting);
        }
        if (setting.pin != PinCheck::right) {
            break;  // one that is wrong is enough
        }
    }
    auto outcome = for_desk ? decide_desk(command, setting) : decide(*state, command, setting);
    if (outcome.events.empty()) {
        nothing.answer.asked = std::move(outcome.asked);
        nothing.answer.refusal = std::move(outcome.refusal);
        nothing.answer.result = nothing.answer.refusal ? Reply::Result::refused : Reply::Result::asked;
        return nothing;
    }
    store::Batch extra;
    Writer{*this, command, time}.complete(outcome.events, state, extra);
    const bool books = std::holds_alternative<Booked>(outcome.events.front().event);
    const auto case_id = books ? setting.new_case_id : for_desk ? ahead_.kiosk_id : state->id;
    const auto before = rows_of(touched_by(case_id));
    auto prepared = lay_out(std::move(outcome.events), command, acting_role(command, ahead_), case_id, time);
    prepared.batch->people = std::move(extra.people);
    prepared.batch->seal = std::move(extra.seal);
    for (const auto& [id, row] : rows_of(touched_by(case_id))) {
        const auto was = before.find(id);
        if (was == before.end() || was->second != row) {
            prepared.batch->balloons.push_back(row);
        }
    }
    prepared.answer.asked = std::move(outcome.asked);
    prepared.answer.refusal = std::move(outcome.refusal);
    prepared.answer.proviso_ids = std::move(outcome.proviso_ids);
    prepared.answer.result = prepared.answer.refusal ? Reply::Result::refused
                             : prepared.answer.asked ? Reply::Result::asked
                                                     : Reply::Result::recorded;
    return prepared;
}

std::vector<std::string> Loop::touched_by(const std::string& case_id) const {
    std::vector<std::string> ids{case_id};
    const auto found = ahead_.cases.find(case_id);
    if (found == ahead_.cases.end()) {
        return ids;
    }
    if (found->second.entry) {
        if (const auto* placed = ahead_.case_of_entry(*found->second.entry)) {
            ids.push_back(placed->id);
        }
    }
    for (const auto& moved : found->second.belongs_to) {
        if (const auto* target = ahead_.find_case(moved.is.to)) {
            ids.push_back(target->id);
        }
    }
    return ids;
}

std::map<std::string, store::BalloonRow> Loop::rows_of(const std::vector<std::string>& ids) const {
    std::map<std::string, store::BalloonRow> rows;
    for (const auto& id : ids) {
        const auto found = ahead_.cases.find(id);
        if (found == ahead_.cases.end()) {
            continue;
        }
        if (auto row = register_row(found->second, ahead_, policy(), zone())) {
            rows.emplace(id, std::move(*row));
        }
    }
    return rows;
}

void Loop::settle(const Prepared& prepared) {
    for (const auto& [id, recorded] : prepared.events) {
        evolve(confirmed_, id, recorded);
    }
}

std::optional<Malformed> malformed_in_context(const Command& command, const Desk& desk) {
    if (lacks_said_by(command, desk)) {
        return Malformed{"said_by", fmt::format("is missing: {} is the physician's word, entered by another",
                                                spec_of(command.says).name)};
    }
    const auto* correct = std::get_if<Correct>(&command.says);
    const auto* state = desk.find_case(command.case_name);
    if (correct == nullptr || !correct->entry || state == nullptr) {
        return std::nullopt;
    }
    for (const auto& kept : state->history) {
        if (kept.first.stamp.seq != correct->entry->seq) {
            continue;
        }
        const auto changes = parse_json(correct->changes);
        const auto fits = with_fields(kept.now.event, changes ? *changes : Json::object());
        return fits ? std::nullopt : std::optional{fits.error()};
    }
    return std::nullopt;
}

}  // namespace brimline
