// The store's own thread: it owns the journal, takes batches in order and retries what the disk refused, so
// that the screen never waits for a disk. Answers come back through poll() on the thread of the screen.
#pragma once
#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "core/store/copies.h"
#include "core/store/event.h"
#include "core/store/journal.h"

namespace brimline::store {

class StoreThread {
public:
    using Outcome = tl::expected<Receipt, AppendFault>;
    /// Called by poll(), with a receipt or a refusal; never with `pending`, for that goes on being retried.
    using Done = std::function<void(const Outcome&)>;
    using Task = std::function<void(Journal&)>;
    using Moment = std::chrono::steady_clock::time_point;

    struct Options {
        std::function<void()> notify{};  // called on the store's thread when an answer is ready
        std::chrono::milliseconds retry_first{250}, retry_most{5000};  // wait between tries, doubling
        std::chrono::milliseconds idle_after{5000};  // without work, the log is moved into the file
        CopyOptions copies{};                        // for reading commands, and backups
        /// For tests: runs before each try. It may sleep (a stalled disk) or give a fault (a failing one).
        std::function<std::optional<AppendFault>(const Batch&)> before_try{};
    };
    struct State {
        std::size_t waiting{0};               // batches not yet answered
        std::optional<Moment> oldest;         // when the oldest of these was handed in
        std::optional<Moment> pending_since;  // first failed try of the one now retried
        std::string say;                      // why it failed
    };

    StoreThread(Journal journal, Options options);
    StoreThread(const StoreThread&) = delete;
    StoreThread& operator=(const StoreThread&) = delete;
    /// As close().
    ~StoreThread();

    /// Hands in one command. Any thread; never waits for the disk. Order is kept, also behind a pending one.
    void submit(Batch batch, Done done);
    /// Runs a task with the journal on the store's thread, after everything that was handed in before it, a
    /// pending batch included; `done` is called by poll(). What still waits when close() gives batches back
    /// is not run.
    void run(Task task, std::function<void()> done = {});
    /// Calls the callbacks of everything answered, in order; on the thread of the screen. Gives how many.
    std::size_t poll();
    [[nodiscard]] State state() const;
    /// Works off what is waiting and closes the journal; a batch that the disk refuses is tried once more and
    /// then given back with those behind it. Waits as long as a stalled disk does.
    std::vector<Batch> close();

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

}  // namespace brimline::store
