// LiveRoom: a loop whose disk works on its own thread, for the kiosk. What a finger did is decided and shown
// at once as "on its way"; it counts as saved only when the store has answered.
#pragma once
#include <deque>
#include <memory>

#include "app/loop/loop.h"
#include "app/loop/room.h"
#include "core/store/store_thread.h"

namespace brimline {

/// A wall clock shifted to another time of day, for the demo. Its tick is the real one.
class OffsetClock final : public store::Clock {
public:
    OffsetClock(store::Clock& real, Duration offset) : real_{real}, offset_{offset} {}
    [[nodiscard]] Instant utc() override { return real_.utc() + offset_; }
    [[nodiscard]] std::int64_t tick_us() override { return real_.tick_us(); }
    [[nodiscard]] store::Id16 boot() override { return real_.boot(); }

private:
    store::Clock& real_;
    Duration offset_;
};

/// What is on its way to the disk.
struct Waiting {
    std::size_t commands{0};
    bool failing{false};  // the disk refused at least once; it is tried again
    bool late{false};     // failing, or the oldest waits longer than a working disk takes
    std::string say;
};

/// How old the newest backup is, as the data folder tells it.
struct BackupAge {
    std::optional<Instant> made;  // empty: none was ever made
    std::string failing;          // why the last one by the kiosk did not succeed
};

class LiveRoom {
public:
    struct Options {
        Room::Options room;
        bool copies{false};        // keeps a copy for reading commands, and backups where one is planned
        bool script_clock{false};  // entries are marked as script (the demo's clock)
        store::StoreThread::Options thread{};
    };
    /// A journal that fails its checks is opened for reading: see read_only(). Errors: it is open already,
    /// the disk refuses, or the options do not fit the store.
    [[nodiscard]] static tl::expected<std::unique_ptr<LiveRoom>, RoomFault> open(Options options,
                                                                                 store::Clock& clock,
                                                                                 store::Chance& chance);

    /// Decides a command now and hands it to the disk. The reply says what it will be once it is saved.
    Reply say(Command command);
    /// Takes what the disk has answered; true when something changed. Also ends what time has ended.
    bool poll();
    /// Waits until nothing is on its way, at most this long; true when so.
    bool wait_until_saved(std::chrono::milliseconds most);
    /// Checks a PIN. Errors: a sentence when the disk does not answer in time.
    [[nodiscard]] tl::expected<store::PinAnswer, std::string> check_pin(const std::string& person,
                                                                        const std::string& pin);

    /// As check_pin, for somebody who signs in: a wrong try is an entry too.
    [[nodiscard]] tl::expected<store::PinAnswer, std::string> sign_in(const std::string& person,
                                                                      const std::string& pin);

    /// Why nothing is recorded and everything can only be read; empty when all is well.
    [[nodiscard]] const std::string& read_only() const { return read_only_; }
    [[nodiscard]] BackupAge backup() const;

    /// Everybody whom the store keeps. Errors: a sentence when the disk does not answer in time.
    [[nodiscard]] tl::expected<std::vector<store::Person>, std::string> people();
    /// A person with the PIN that another store of this kiosk keeps, for practice.
    void bring_person(const PersonKnown& known, const store::Person& kept);

    /// Puts the policy of another store in force here, when it is not yet.
    void follow_policy(const PolicyInForce& other);

    [[nodiscard]] const PolicyInForce& in_force() const { return loop_.in_force(); }
    [[nodiscard]] const Desk& desk() const { return loop_.desk(); }
    [[nodiscard]] const Desk& ahead() const { return loop_.ahead(); }
    [[nodiscard]] const Policy& policy() const { return loop_.policy(); }
    [[nodiscard]] const Zone& zone() const { return loop_.zone(); }
    [[nodiscard]] Waiting waiting() const;
    [[nodiscard]] Instant now() const;
    /// When this program was started; entries before it belong to an earlier run.
    [[nodiscard]] Instant started() const { return started_; }
    /// A batch that the journal will never take (read-only, or a bug): the sentence to show. Empty = none.
    [[nodiscard]] const std::string& broken() const { return broken_; }

private:
    LiveRoom(std::optional<store::Journal> journal, Loop loop, Options options, store::Clock& clock,
             std::string read_only);
    void hand_in(Prepared prepared);
    [[nodiscard]] EntryTime time() const;
    void write_what_time_ended();

    Loop loop_;
    Options options_;
    store::Clock& clock_;
    Instant started_;
    std::deque<Prepared> on_the_way_;
    std::string broken_, read_only_;
    std::map<std::string, store::PinTries> tries_;  // of a journal that keeps none
    std::unique_ptr<store::StoreThread> thread_;
};

}  // namespace brimline
