// The store's thread: order is kept, the screen never waits, and a disk that stalls or fails is told and
// retried.
#include "core/store/store_thread.h"

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>

#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;
using namespace std::chrono_literals;

namespace {

/// Waits until `is_so`, for at most ten seconds.
template <class Condition>
bool soon(Condition is_so) {
    const auto end = std::chrono::steady_clock::now() + 10s;
    while (!is_so()) {
        if (std::chrono::steady_clock::now() > end) {
            return false;
        }
        std::this_thread::sleep_for(1ms);
    }
    return true;
}

/// A disk that can be told to stall or to fail.
class Disk {
public:
    [[nodiscard]] std::optional<AppendFault> answer() {
        std::unique_lock lock{guard_};
        ++tries_;
        wake_.wait(lock, [this] { return !stalled_; });
        return failing_ ? std::optional{AppendFault{Failure::pending, "The tablet cannot save."}}
                        : std::nullopt;
    }
    void set(bool stalled, bool failing) {
        const std::lock_guard lock{guard_};
        stalled_ = stalled;
        failing_ = failing;
        wake_.notify_all();
    }
    [[nodiscard]] int tries() const {
        const std::lock_guard lock{guard_};
        return tries_;
    }

private:
    mutable std::mutex guard_;
    std::condition_variable wake_;
    bool stalled_{false}, failing_{false};
    int tries_{0};
};

StoreThread::Options quick(Disk& disk) {
    StoreThread::Options options;
    options.retry_first = 2ms;
    options.retry_most = 10ms;
    options.before_try = [&disk](const Batch&) { return disk.answer(); };
    return options;
}

}  // namespace

TEST_CASE("commands are written in the order they were handed in, and answered in it", "[thread]") {
    const Place place;
    std::vector<std::int64_t> seqs;
    std::atomic<int> notified{0};
    {
        StoreThread::Options options;
        options.notify = [&] { ++notified; };
        StoreThread store{writing(place.data()), options};
        for (std::uint64_t n = 1; n <= 200; ++n) {
            store.submit(one(n, 1),
                         [&](const StoreThread::Outcome& outcome) { seqs.push_back(outcome->seqs[0]); });
        }
        REQUIRE(soon([&] {
            store.poll();
            return seqs.size() == 200;
        }));
        CHECK(store.state().waiting == 0);
    }
    CHECK(notified == 200);
    Journal journal = writing(place.data());
    const auto events = journal.events();
    REQUIRE(events.rows.size() == 200);
    for (std::size_t i = 0; i < 200; ++i) {
        CHECK(seqs[i] == static_cast<std::int64_t>(i) + 1);
        CHECK(events.rows[i].command == command_of(i + 1));
    }
}

TEST_CASE("answers are given on the thread that polls, and only there", "[thread]") {
    const Place place;
    StoreThread store{writing(place.data()), {}};
    std::optional<std::thread::id> answered_on;
    std::thread::id worked_on;
    store.submit(one(1, 1), [&](const StoreThread::Outcome&) { answered_on = std::this_thread::get_id(); });
    store.run([&](Journal&) { worked_on = std::this_thread::get_id(); });
    REQUIRE(soon([&] { return store.state().waiting == 0; }));
    CHECK_FALSE(answered_on.has_value());
    REQUIRE(soon([&] {
        store.poll();
        return answered_on.has_value();
    }));
    CHECK(*answered_on == std::this_thread::get_id());
    static_cast<void>(store.close());
    CHECK(worked_on != std::this_thread::get_id());
}

TEST_CASE("a stalled disk holds up no one who hands in, and what waits can be seen", "[thread]") {
    const Place place;
    Disk disk;
    disk.set(true, false);
    StoreThread store{writing(place.data()), quick(disk)};
    const auto start = std::chrono::steady_clock::now();
    int answered = 0;
    for (std::uint64_t n = 1; n <= 3; ++n) {
        store.submit(one(n, 1), [&](const StoreThread::Outcome& outcome) { answered += outcome ? 1 : 0; });
    }
    CHECK(std::chrono::steady_clock::now() - start < 1s);
    CHECK(store.poll() == 0);
    const auto state = store.state();
    CHECK(state.waiting == 3);
    REQUIRE(state.oldest.has_value());
    CHECK(*state.oldest >= start);
    CHECK_FALSE(state.pending_since.has_value());
    disk.set(false, false);
    REQUIRE(soon([&] {
        store.poll();
        return answered == 3;
    }));
}

TEST_CASE("a failing disk is retried with the same command until it holds, once, in order", "[thread]") {
    const Place place;
    Disk disk;
    disk.set(false, true);
    StoreThread store{writing(place.data()), quick(disk)};
    std::vector<std::int64_t> seqs;
    const auto keep = [&](const StoreThread::Outcome& outcome) { seqs.push_back(outcome.value().seqs[0]); };
    store.submit(one(1, 1), keep);
    store.submit(one(2, 1), keep);
    REQUIRE(soon([&] { return disk.tries() > 4; }));
    CHECK(store.poll() == 0);
    const auto state = store.state();
    CHECK(state.waiting == 2);
    CHECK(state.pending_since.has_value());
    CHECK(state.say == "The tablet cannot save.");
    disk.set(false, false);
    REQUIRE(soon([&] {
        store.poll();
        return seqs.size() == 2;
    }));
    CHECK(seqs == std::vector<std::int64_t>{1, 2});
    CHECK_FALSE(store.state().pending_since.has_value());
    CHECK(store.state().say.empty());
}

TEST_CASE("between tries it waits, and closing does not wait with it", "[thread]") {
    const Place place;
    Disk disk;
    disk.set(false, true);
    StoreThread::Options options = quick(disk);
    options.retry_first = options.retry_most = 1h;
    StoreThread store{writing(place.data()), options};
    store.submit(one(1, 1), {});
    REQUIRE(soon([&] { return store.state().pending_since.has_value(); }));
    std::this_thread::sleep_for(30ms);
    CHECK(disk.tries() == 1);
    CHECK(store.close().size() == 1);
    CHECK(disk.tries() == 2);
}

TEST_CASE("a refused command is answered at once and does not hold up the next", "[thread]") {
    const Place place;
    StoreThread store{writing(place.data()), {}};
    Batch wrong = one(1, 1);
    wrong.events[0].payload.pop_back();
    std::vector<bool> outcomes;
    const auto keep = [&](const StoreThread::Outcome& outcome) { outcomes.push_back(outcome.has_value()); };
    store.submit(wrong, keep);
    store.submit(one(2, 1), keep);
    REQUIRE(soon([&] {
        store.poll();
        return outcomes.size() == 2;
    }));
    CHECK(outcomes == std::vector<bool>{false, true});
}

TEST_CASE("closing works off what waits; what the disk refuses is given back, none lost", "[thread]") {
    const Place place;
    {
        StoreThread store{writing(place.data()), {}};
        for (std::uint64_t n = 1; n <= 20; ++n) {
            store.submit(one(n, 1), {});
        }
        CHECK(store.close().empty());
    }
    Disk disk;
    disk.set(false, true);
    StoreThread store{writing(place.data()), quick(disk)};
    store.submit(one(21, 1), {});
    store.submit(one(22, 1), {});
    REQUIRE(soon([&] { return disk.tries() > 1; }));
    const auto left = store.close();
    REQUIRE(left.size() == 2);
    CHECK(left[0].command == command_of(21));
    CHECK(left[1].command == command_of(22));
    Journal journal = writing(place.data());
    CHECK(journal.head()->seq == 20);
}

TEST_CASE("a task runs with the journal after what was handed in before it", "[thread]") {
    const Place place;
    StoreThread store{writing(place.data()), {}};
    std::int64_t seen = 0;
    bool told = false;
    store.submit(one(1, 1), {});
    store.run([&](Journal& journal) { seen = journal.head()->seq; }, [&] { told = true; });
    REQUIRE(soon([&] {
        store.poll();
        return told;
    }));
    CHECK(seen == 1);
}

TEST_CASE("after idling the events are in the file itself, not only in its log", "[thread]") {
    const Place place;
    StoreThread::Options options;
    options.idle_after = 20ms;
    StoreThread store{writing(place.data()), options};
    const auto size = std::filesystem::file_size(place.data() / "brimline.db");
    for (std::uint64_t n = 1; n <= 40; ++n) {
        store.submit(one(n, 1, std::string(500, 'x')), {});
    }
    CHECK(soon([&] { return std::filesystem::file_size(place.data() / "brimline.db") > size; }));
}
