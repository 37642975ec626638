// The thread that owns the journal.
#include "core/store/store_thread.h"

#include <algorithm>
#include <condition_variable>
#include <deque>
#include <mutex>
#include <new>
#include <thread>
#include <utility>

namespace brimline::store {

struct StoreThread::Inside {
    /// One thing handed in: a batch, or a task when `task` is set.
    struct Work {
        Batch batch;
        Done done;
        Task task;
        std::function<void()> task_done;
        Moment handed_in;
    };

    Inside(Journal the_journal, Options the_options)
        : journal{std::in_place, std::move(the_journal)}, options{std::move(the_options)} {
        if ((options.copies.reading || options.copies.plan) && !journal->read_only()) {
            copies.emplace(*journal, options.copies);
        }
    }

    std::optional<Journal> journal;  // touched by the thread alone, until it has ended
    Options options;
    std::optional<Copies> copies;  // as the journal
    mutable std::mutex guard;      // of everything below
    std::condition_variable wake;
    std::deque<Work> waiting;  // the first is the one in work
    std::vector<std::function<void()>> answers;
    std::optional<Moment> pending_since;
    std::string say;
    bool closing{false};
    std::thread thread;

    void work();
    void rest(std::unique_lock<std::mutex>& lock);
    void copy_between(std::unique_lock<std::mutex>& lock, bool entered);
    bool serve_front(std::unique_lock<std::mutex>& lock);
    Outcome try_until_known(std::unique_lock<std::mutex>& lock, const Batch& batch);
    Outcome try_once(const Batch& batch);
    void answer(std::function<void()> callback);
};

StoreThread::Outcome StoreThread::Inside::try_once(const Batch& batch) {
    if (options.before_try) {
        if (auto fault = options.before_try(batch)) {
            return tl::unexpected{std::move(*fault)};
        }
    }
    try {
        return journal->append(batch);
    } catch (const std::bad_alloc&) {
        return tl::unexpected{AppendFault{}};  // pending, without a word: it is tried again
    }
}

/// Tries until the outcome is known; while closing it gives up after one more try, with `pending`.
StoreThread::Outcome StoreThread::Inside::try_until_known(std::unique_lock<std::mutex>& lock,
                                                          const Batch& batch) {
    auto wait = options.retry_first;
    while (true) {
        const bool last = closing;
        lock.unlock();
        Outcome outcome = try_once(batch);
        lock.lock();
        if (outcome || outcome.error().kind == Failure::refused || last) {
            return outcome;
        }
        if (!pending_since) {
            pending_since = std::chrono::steady_clock::now();
        }
        say = outcome.error().say;
        if (options.notify) {
            options.notify();
        }
        wake.wait_for(lock, wait, [this] { return closing; });
        wait = std::min(wait * 2, options.retry_most);
    }
}

void StoreThread::Inside::answer(std::function<void()> callback) {
    if (callback) {
        answers.push_back(std::move(callback));
    }
    if (options.notify) {
        options.notify();
    }
}

/// Serves the first in the queue; false when the disk refuses it and the thread is to close.
bool StoreThread::Inside::serve_front(std::unique_lock<std::mutex>& lock) {
    Work& front = waiting.front();  // a deque keeps its place while others are handed in behind
    if (front.task) {
        lock.unlock();
        front.task(*journal);
        lock.lock();
        std::function<void()> done = std::move(front.task_done);
        waiting.pop_front();
        answer(std::move(done));
        return true;
    }
    Outcome outcome = try_until_known(lock, front.batch);
    if (!outcome && outcome.error().kind == Failure::pending) {
        return false;
    }
    pending_since.reset();
    say.clear();
    Done done = std::move(front.done);
    waiting.pop_front();
    answer(done ? std::function<void()>{[done = std::move(done), outcome = std::move(outcome)] {
        done(outcome);
    }}
                : std::function<void()>{});
    return true;
}

/// Nothing to do: after a while the log is moved into the file, once; then copies are made, and it sleeps.
void StoreThread::Inside::rest(std::unique_lock<std::mutex>& lock) {
    const auto something = [this] { return closing || !waiting.empty(); };
    if (!copies || !copies->wake() || *copies->wake() > std::chrono::steady_clock::now()) {
        if (wake.wait_for(lock, options.idle_after, something)) {
            return;
        }
        lock.unlock();
        journal->idle();
        lock.lock();
    }
    while (!something()) {
        if (!copies) {
            wake.wait(lock, something);
            return;
        }
        lock.unlock();
        const bool worked = copies->work(std::chrono::steady_clock::now(), true);
        const auto next = worked ? std::nullopt : copies->wake();
        lock.lock();
        if (!worked && next) {
            wake.wait_until(lock, *next, something);
        } else if (!worked) {
            wake.wait(lock, something);
        }
    }
}

/// Between two entries: a piece of a copy that has waited too long.
void StoreThread::Inside::copy_between(std::unique_lock<std::mutex>& lock, bool entered) {
    if (!copies) {
        return;
    }
    lock.unlock();
    const auto now = std::chrono::steady_clock::now();
    if (entered) {
        copies->entered(now);
    }
    static_cast<void>(copies->work(now, false));
    lock.lock();
}

void StoreThread::Inside::work() {
    std::unique_lock lock{guard};
    while (true) {
        if (waiting.empty() && closing) {
            return;
        }
        if (waiting.empty()) {
            rest(lock);
            continue;
        }
        const bool entry = !waiting.front().task;
        if (!serve_front(lock)) {
            return;
        }
        copy_between(lock, entry);
    }
}

StoreThread::StoreThread(Journal journal, Options options)
    : inside_{std::make_unique<Inside>(std::move(journal), std::move(options))} {
    inside_->thread = std::thread{[inside = inside_.get()] { inside->work(); }};
}

StoreThread::~StoreThread() { static_cast<void>(close()); }

void StoreThread::submit(Batch batch, Done done) {
    {
        const std::lock_guard lock{inside_->guard};
        inside_->waiting.push_back(
            {std::move(batch), std::move(done), {}, {}, std::chrono::steady_clock::now()});
    }
    inside_->wake.notify_one();
}

void StoreThread::run(Task task, std::function<void()> done) {
    {
        const std::lock_guard lock{inside_->guard};
        inside_->waiting.push_back(
            {{}, {}, std::move(task), std::move(done), std::chrono::steady_clock::now()});
    }
    inside_->wake.notify_one();
}

std::size_t StoreThread::poll() {
    std::vector<std::function<void()>> ready;
    {
        const std::lock_guard lock{inside_->guard};
        ready.swap(inside_->answers);
    }
    for (const auto& callback : ready) {
        callback();
    }
    return ready.size();
}

StoreThread::State StoreThread::state() const {
    const std::lock_guard lock{inside_->guard};
    State state;
    for (const Inside::Work& work : inside_->waiting) {
        if (!work.task) {
            ++state.waiting;
            state.oldest = state.oldest.value_or(work.handed_in);
        }
    }
    state.pending_since = inside_->pending_since;
    state.say = inside_->say;
    return state;
}

std::vector<Batch> StoreThread::close() {
    {
        const std::lock_guard lock{inside_->guard};
        inside_->closing = true;
    }
    inside_->wake.notify_all();
    if (inside_->thread.joinable()) {
        inside_->thread.join();
    }
    if (inside_->copies && inside_->waiting.empty()) {
        inside_->copies->finish();
    }
    inside_->copies.reset();
    inside_->journal.reset();
    std::vector<Batch> left;
    for (Inside::Work& work : inside_->waiting) {
        if (!work.task) {
            left.push_back(std::move(work.batch));
        }
    }
    inside_->waiting.clear();
    return left;
}

}  // namespace brimline::store
