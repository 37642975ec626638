// Opening a store and running commands on it, one after another.
#include "app/loop/room.h"

#include <fmt/format.h>

#include "app/loop/policy_source.h"
#include "app/loop/projections.h"
#include "core/clinic/policy_text.h"

namespace brimline {
namespace {

RoomFault of(const store::OpenFault& fault) {
    return {fault.say + (fault.next.empty() ? "" : " " + fault.next), 3};
}

/// The clock of a store that only scripts have written stands where the last line put it.
Instant to_milliseconds(Instant t) { return Instant::of_us(t.in_us() - t.in_us() % 1000); }

}  // namespace

store::PinRule pin_rule(const Policy& policy) {
    const auto& rules = policy.rules;
    return {rules.pin_digits_least, rules.pin_digits_most, rules.pin_tries, rules.pin_lock_first,
            rules.pin_lock_most};
}

tl::expected<PolicyInForce, RoomFault> policy_in_force(const Desk& desk,
                                                       const std::optional<std::filesystem::path>& folder) {
    const auto house = desk.policy ? load_policy(std::nullopt) : tl::unexpected{std::vector<PolicyFault>{}};
    auto policy = house         ? read_policy_text_over(desk.policy->text, *house)
                  : desk.policy ? read_policy_text(desk.policy->text)
                                : load_policy(folder);
    if (!policy) {
        auto lines = fault_lines(policy.error());
        lines.pop_back();
        return tl::unexpected{RoomFault{std::move(lines), desk.policy ? 3 : 2}};
    }
    auto zone = zone_of(*policy);
    if (!zone) {
        return tl::unexpected{RoomFault{zone.error().say + " " + zone.error().next, 2}};
    }
    auto hash = desk.policy ? desk.policy->hash : policy_hash(*policy);
    return PolicyInForce{std::move(*policy), std::move(*zone), std::move(hash)};
}

Started start_from(store::Journal& journal) {
    const auto rows = journal.events(0, 0).rows;
    Started started{remember(rows, journal.kiosk().id), {}};
    const store::Tables tables{
        journal.kiosk(), journal.people().rows, {}, journal.sealed().rows, journal.keys().rows};
    const auto found = compare_kept(rows, started.memory, tables);
    started.wrong = found.empty() ? "" : found.front().sentence + " Run brimline verify.";
    return started;
}

Room::Room(store::Journal journal, Loop loop)
    : journal_{std::make_unique<store::Journal>(std::move(journal))},
      loop_{std::make_unique<Loop>(std::move(loop))} {}

tl::expected<Room, RoomFault> Room::open(const Options& options, store::Clock&, store::Chance& chance) {
    auto journal = store::Journal::open(options.data, store::Mode::read_write);
    if (!journal) {
        return tl::unexpected{of(journal.error())};
    }
    if (journal->read_only()) {
        return tl::unexpected{RoomFault{journal->why_read_only(), 3}};
    }
    auto [memory, wrong] = start_from(*journal);
    if (!wrong.empty()) {
        return tl::unexpected{RoomFault{wrong, 3}};
    }
    auto in_force = policy_in_force(memory.desk, options.policy);
    if (!in_force) {
        return tl::unexpected{in_force.error()};
    }
    Loop loop{std::move(memory.desk), std::move(*in_force), chance};
    loop.set_practice(options.practice, options.names_taken);
    return Room{std::move(*journal), std::move(loop)};
}

bool Room::write(Prepared& prepared) {
    const auto receipt = journal_->append(*prepared.batch);
    if (!receipt) {
        pending_say_ = receipt.error().say;
        return false;
    }
    for (const auto& [id, recorded] : prepared.events) {  // numbered through, as everything shown is
        prepared.answer.seqs.push_back(recorded.stamp.seq);
    }
    prepared.answer.hash = store::hex(receipt->hash);
    loop_->settle(prepared);
    return true;
}

bool Room::write_what_time_ended(const EntryTime& time) {
    if (auto first = loop_->adopt_policy_first(time); first && !write(*first)) {
        return false;
    }
    if (auto jump = loop_->clock_jump(time); jump && !write(*jump)) {
        return false;
    }
    while (auto ended = loop_->ended_by_time(time)) {
        if (!write(*ended)) {
            return false;
        }
    }
    return true;
}

Reply Room::run(const Command& command, const EntryTime& time) {
    Reply pending;
    pending.result = Reply::Result::pending;
    if (!write_what_time_ended(time)) {
        pending.say = pending_say_;
        return pending;
    }
    const PinChecker pins = [&](const PinNeed& need,
                                Instant now) -> tl::expected<store::PinAnswer, std::string> {
        auto answer = store::check_pin(*journal_, need.person, need.pin, now, pin_rule(loop_->policy()));
        if (!answer) {
            return tl::unexpected{answer.error().say};
        }
        return *answer;
    };
    auto prepared = loop_->prepare(command, time, pins);
    if (prepared.batch && !write(prepared)) {
        pending.say = pending_say_;
        return pending;
    }
    return prepared.answer;
}

Reply Room::adopt(PolicyInForce next, const std::string& by, const EntryTime& time) {
    const auto* person = loop_->desk().person(by);
    auto prepared = loop_->adopt_policy(std::move(next), by,
                                        person == nullptr ? Role::kiosk : person->roles.front(), time);
    if (!write(prepared)) {
        prepared.answer.result = Reply::Result::pending;
        prepared.answer.say = pending_say_;
    }
    return prepared.answer;
}

Reply Room::rotate_key(const std::string& by, const EntryTime& time) {
    Reply pending;
    pending.result = Reply::Result::pending;
    const auto fresh = journal_->fresh_key();
    if (!fresh) {
        pending.say = fresh.error();
        return pending;
    }
    auto prepared = loop_->note(Event{KeyRotated{store::hex(fresh->old_key), store::hex(fresh->new_key),
                                                 store::hex(fresh->signature)}},
                                time, by);
    prepared.batch->new_key = fresh->new_key;
    prepared.answer.result = Reply::Result::recorded;
    if (!write(prepared)) {
        pending.say = pending_say_;
        return pending;
    }
    return prepared.answer;
}

Reply Room::note(Event event, const EntryTime& time, const std::string& by) {
    auto prepared = loop_->note(std::move(event), time, by);
    prepared.answer.result = Reply::Result::recorded;
    if (!write(prepared)) {
        prepared.answer.result = Reply::Result::pending;
        prepared.answer.say = pending_say_;
    }
    return prepared.answer;
}

EntryTime Room::now(store::Clock& clock) const {
    return {to_milliseconds(clock.utc()), clock.tick_us(), store::hex(clock.boot()), false};
}

tl::expected<Reading, RoomFault> read_store(const std::filesystem::path& data, std::optional<Instant> until) {
    auto journal = store::Journal::open(data, store::Mode::read_only);
    if (!journal) {
        return tl::unexpected{of(journal.error())};
    }
    Reading reading;
    auto rows = journal->events(0, 0);
    reading.damage = journal->damage();
    reading.damage.insert(reading.damage.end(), rows.damage.begin(), rows.damage.end());
    reading.rows = in_order(rows.rows);
    reading.kiosk = journal->kiosk();
    reading.sealed = journal->sealed().rows;
    reading.copied = journal->copied();
    for (const auto& row : reading.sealed) {
        if (const auto key = journal->key_that_sealed(row)) {
            reading.keys[row.number] = *key;
        }
    }
    reading.memory = remember(std::move(rows.rows), reading.kiosk.id, until);
    auto in_force = policy_in_force(reading.memory.desk, std::nullopt);
    if (!in_force) {
        return tl::unexpected{in_force.error()};
    }
    reading.in_force = std::move(*in_force);
    return reading;
}

}  // namespace brimline
