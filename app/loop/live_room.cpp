// Commands on their way to the disk and back.
#include "app/loop/live_room.h"

#include <future>
#include <map>
#include <thread>

#include "core/case/codes.h"
#include "core/store/backup.h"

namespace brimline {

LiveRoom::LiveRoom(std::optional<store::Journal> journal, Loop loop, Options options, store::Clock& clock,
                   std::string read_only)
    : loop_{std::move(loop)},
      options_{std::move(options)},
      clock_{clock},
      started_{time().at},
      broken_{read_only},
      read_only_{std::move(read_only)} {
    if (journal) {
        thread_ = std::make_unique<store::StoreThread>(std::move(*journal), options_.thread);
    }
}

namespace {

/// The policy that a store recorded; where that cannot be read, and only for reading, the house's.
tl::expected<PolicyInForce, RoomFault> policy_for(const Desk& desk, const LiveRoom::Options& options,
                                                  std::string& read_only) {
    auto in_force = policy_in_force(desk, options.room.policy);
    if (in_force || !desk.policy) {
        return in_force;
    }
    read_only = read_only.empty() ? in_force.error().say : read_only;
    Desk none;
    return policy_in_force(none, std::nullopt);
}

std::optional<store::BackupPlan> plan_of(const Desk& desk) {
    if (!desk.backup_plan || desk.backup_plan->folder.empty()) {
        return std::nullopt;
    }
    const auto key = store::hash_from_hex(desk.backup_plan->key);
    return key ? std::optional{store::BackupPlan{desk.backup_plan->folder, *key}} : std::nullopt;
}

}  // namespace

tl::expected<std::unique_ptr<LiveRoom>, RoomFault> LiveRoom::open(Options options, store::Clock& clock,
                                                                  store::Chance& chance) {
    auto journal = store::Journal::open(options.room.data, store::Mode::read_write);
    std::string read_only =
        journal ? journal->why_read_only() : journal.error().say + " " + journal.error().next;
    if (!journal) {
        const auto kind = journal.error().kind;
        journal = kind == store::OpenFault::Kind::disk
                      ? store::Journal::open(options.room.data, store::Mode::read_only)
                      : std::move(journal);
        if (!journal && kind != store::OpenFault::Kind::damaged) {
            return tl::unexpected{RoomFault{read_only, 3}};
        }
    }
    Memory memory;
    if (journal) {
        auto started = start_from(*journal);
        memory = std::move(started.memory);
        read_only = read_only.empty() ? started.wrong : read_only;
    }
    if (options.script_clock && !memory.desk.scripts_only && !options.room.practice) {
        return tl::unexpected{RoomFault{
            "--clock is allowed only with a store that scripts alone have written, or in practice.", 2}};
    }
    auto in_force = policy_for(memory.desk, options, read_only);
    if (!in_force) {
        return tl::unexpected{in_force.error()};
    }
    if (options.copies && read_only.empty()) {
        options.thread.copies.reading = true;
        options.thread.copies.plan = plan_of(memory.desk);
    }
    Loop loop{std::move(memory.desk), std::move(*in_force), chance};
    loop.set_practice(options.room.practice, options.room.names_taken);
    auto owned = journal ? std::optional{std::move(*journal)} : std::nullopt;
    return std::unique_ptr<LiveRoom>{
        new LiveRoom{std::move(owned), std::move(loop), std::move(options), clock, std::move(read_only)}};
}

EntryTime LiveRoom::time() const {
    const auto utc = clock_.utc().in_us();
    return {Instant::of_us(utc - utc % 1000), clock_.tick_us(), store::hex(clock_.boot()),
            options_.script_clock};
}

Instant LiveRoom::now() const { return time().at; }

BackupAge LiveRoom::backup() const {
    const auto last = store::last_backup(options_.room.data);
    return {last ? std::optional{last->at} : std::nullopt, store::failing_backup(options_.room.data)};
}

Waiting LiveRoom::waiting() const {
    if (!thread_) {
        return {};
    }
    const auto state = thread_->state();
    const bool failing = state.pending_since.has_value();
    constexpr std::int64_t patience_us = 1'000'000;  // a working disk answers within a tenth of this
    bool late = failing;
    if (!on_the_way_.empty() && !on_the_way_.front().events.empty()) {
        const auto handed_in = on_the_way_.front().events.front().second.stamp.tick_us;
        late = late || clock_.tick_us() - handed_in >= patience_us;
    }
    return {on_the_way_.size(), failing, late, state.say};
}

void LiveRoom::hand_in(Prepared prepared) {
    on_the_way_.push_back(std::move(prepared));
    thread_->submit(*on_the_way_.back().batch, [this](const store::StoreThread::Outcome& outcome) {
        if (on_the_way_.empty()) {
            return;  // thrown away after an earlier refusal
        }
        auto done = std::move(on_the_way_.front());
        on_the_way_.pop_front();
        if (outcome) {
            loop_.settle(done);
        } else {
            broken_ = outcome.error().say;
            on_the_way_.clear();
            loop_.reset(loop_.desk());
        }
    });
}

void LiveRoom::write_what_time_ended() {
    const auto at = time();
    if (auto first = loop_.adopt_policy_first(at)) {
        hand_in(std::move(*first));
    }
    if (auto jump = loop_.clock_jump(at)) {
        hand_in(std::move(*jump));
    }
    while (auto ended = loop_.ended_by_time(at)) {
        hand_in(std::move(*ended));
    }
}

Reply LiveRoom::say(Command command) {
    if (!read_only_.empty()) {
        Reply refused;
        refused.result = Reply::Result::refused;
        refused.refusal = coded("read-only");
        return refused;
    }
    write_what_time_ended();
    const PinChecker pins = [this](const PinNeed& need, Instant) { return check_pin(need.person, need.pin); };
    auto prepared = loop_.prepare(command, time(), pins);
    auto reply = prepared.answer;
    if (prepared.batch) {
        hand_in(std::move(prepared));
    }
    return reply;
}

bool LiveRoom::poll() {
    if (!read_only_.empty()) {
        return thread_ && thread_->poll() > 0;
    }
    const bool answered = thread_->poll() > 0;
    bool ended = false;
    while (auto batch = loop_.ended_by_time(time())) {
        hand_in(std::move(*batch));
        ended = true;
    }
    return answered || ended;
}

bool LiveRoom::wait_until_saved(std::chrono::milliseconds most) {
    const auto until = std::chrono::steady_clock::now() + most;
    while (!on_the_way_.empty() && std::chrono::steady_clock::now() < until) {
        if (thread_->poll() == 0) {
            std::this_thread::sleep_for(std::chrono::milliseconds{1});
        }
    }
    return on_the_way_.empty();
}

namespace {

/// What the disk's thread answers, waited for as long as a person would. Errors: `late`.
template <class T, class Ask>
tl::expected<T, std::string> answer_of(store::StoreThread& thread, Ask ask, std::string late) {
    using Answer = tl::expected<T, std::string>;
    auto promise = std::make_shared<std::promise<Answer>>();
    auto future = promise->get_future();
    thread.run([promise, ask](store::Journal& journal) { promise->set_value(ask(journal)); });
    constexpr std::chrono::seconds patience{3};
    if (future.wait_for(patience) != std::future_status::ready) {
        return tl::unexpected{std::move(late)};
    }
    return future.get();
}

}  // namespace

tl::expected<store::PinAnswer, std::string> LiveRoom::check_pin(const std::string& person,
                                                                const std::string& pin) {
    using Checked = tl::expected<store::PinAnswer, std::string>;
    if (!thread_) {
        return tl::unexpected{read_only_};
    }
    const auto now = time().at;
    const auto rule = pin_rule(loop_.policy());
    const auto tries = std::make_shared<store::PinTries>(tries_[person]);
    const bool reading = !read_only_.empty();
    auto answer = answer_of<store::PinAnswer>(
        *thread_,
        [person, pin, now, rule, reading, tries](store::Journal& journal) -> Checked {
            if (reading) {
                return store::check_pin_reading(journal, person, pin, now, rule, *tries);
            }
            auto checked = store::check_pin(journal, person, pin, now, rule);
            return checked ? Checked{*checked} : Checked{tl::unexpected{checked.error().say}};
        },
        "the tablet is still saving; the PIN could not be checked");
    if (answer) {
        tries_[person] = *tries;
    }
    return answer;
}

tl::expected<store::PinAnswer, std::string> LiveRoom::sign_in(const std::string& person,
                                                              const std::string& pin) {
    auto answer = check_pin(person, pin);
    if (!answer || std::holds_alternative<store::PinRight>(*answer) || !read_only_.empty()) {
        return answer;
    }
    const bool locked = std::holds_alternative<store::PinLocked>(*answer);
    const bool unknown = std::holds_alternative<store::PinUnknown>(*answer);
    write_what_time_ended();
    hand_in(loop_.note(Event{Attempt{"sign-in",
                                     locked    ? "pin-locked"
                                     : unknown ? "no-such-person"
                                               : "pin-wrong",
                                     person}},
                       time()));
    return answer;
}

tl::expected<std::vector<store::Person>, std::string> LiveRoom::people() {
    using People = tl::expected<std::vector<store::Person>, std::string>;
    if (!thread_) {
        return tl::unexpected{read_only_};
    }
    return answer_of<std::vector<store::Person>>(
        *thread_,
        [](store::Journal& journal) {
            auto rows = journal.people();
            return rows.damage.empty() ? People{std::move(rows.rows)}
                                       : People{tl::unexpected{rows.damage.front().sentence}};
        },
        "the tablet is still saving; its people could not be read");
}

void LiveRoom::follow_policy(const PolicyInForce& other) {
    if (!read_only_.empty()) {
        return;
    }
    if (loop_.in_force().hash != other.hash || !loop_.ahead().policy) {
        hand_in(loop_.adopt_policy(other, "kiosk", Role::kiosk, time()));
    }
}

void LiveRoom::bring_person(const PersonKnown& known, const store::Person& kept) {
    if (!read_only_.empty()) {
        return;
    }
    write_what_time_ended();
    hand_in(loop_.bring_person(known, kept, time()));
}

}  // namespace brimline
