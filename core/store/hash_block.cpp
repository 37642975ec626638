// Comparing hashes beside the reading.
#include "core/store/hash_block.h"

#include <utility>

namespace brimline::store {

void HashBlocks::Block::clear() {
    bytes.clear();
    ends.clear();
    hashes.clear();
    wrong.clear();
}

void HashBlocks::Block::compare() {
    std::size_t from = 0;
    const std::string_view all{bytes.bytes()};
    for (std::size_t i = 0; i < ends.size(); ++i) {
        if (blake2b(all.substr(from, ends[i] - from)) != hashes[i]) {
            wrong.push_back(i);
        }
        from = ends[i];
    }
}

HashBlocks::~HashBlocks() {
    if (thread_.joinable()) {
        {
            const std::lock_guard lock{guard_};
            end_ = true;
        }
        wake_.notify_all();
        thread_.join();
    }
}

void HashBlocks::add(std::size_t place, const Hash32& before, const StoredEvent& event) {
    EventName& name = filling_.names[filling_.ends.size()];
    name.place = place;
    name.case_id = event.case_id;
    name.case_seq = event.case_seq;
    name.seq = event.seq;
    name.kind = event.kind;
    ChainHasher::put(filling_.bytes, before, event);
    filling_.ends.push_back(filling_.bytes.bytes().size());
    filling_.hashes.push_back(event.hash);
    if (filling_.ends.size() == most) {
        hand_over();
    }
}

void HashBlocks::hand_over() {
    wait();
    tell(comparing_);
    std::swap(filling_, comparing_);
    filling_.clear();
    {
        const std::lock_guard lock{guard_};
        busy_ = true;
    }
    if (!thread_.joinable()) {
        thread_ = std::thread{[this] { work(); }};
    }
    wake_.notify_all();
}

void HashBlocks::wait() {
    std::unique_lock lock{guard_};
    wake_.wait(lock, [this] { return !busy_; });
}

void HashBlocks::tell(Block& block) {
    for (const std::size_t i : block.wrong) {
        wrong_(block.names[i]);
    }
    block.wrong.clear();
}

void HashBlocks::finish() {
    filling_.compare();
    wait();
    tell(comparing_);
    tell(filling_);
    filling_.clear();
}

void HashBlocks::work() {
    std::unique_lock lock{guard_};
    while (true) {
        wake_.wait(lock, [this] { return busy_ || end_; });
        if (end_) {
            return;
        }
        lock.unlock();
        comparing_.compare();
        lock.lock();
        busy_ = false;
        wake_.notify_all();
    }
}

}  // namespace brimline::store
