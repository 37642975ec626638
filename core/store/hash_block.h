// A block of events whose hashes are compared on another thread than the one that reads them: reading a row
// and hashing it take about as long as each other. Inside the store only.
#pragma once
#include <condition_variable>
#include <cstddef>
#include <functional>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "core/store/chain.h"

namespace brimline::store {

/// What a sentence about an event needs.
struct EventName {
    std::size_t place{0};  // in the pass, from 0
    Id16 case_id{};
    std::int64_t case_seq{0}, seq{0};
    std::string kind;
};

class HashBlocks {
public:
    /// `wrong` is called for each event whose hash does not fit: on the thread that calls add() and finish().
    using Wrong = std::function<void(const EventName&)>;
    explicit HashBlocks(Wrong wrong) : wrong_{std::move(wrong)} {}
    HashBlocks(const HashBlocks&) = delete;
    HashBlocks& operator=(const HashBlocks&) = delete;
    ~HashBlocks();

    void add(std::size_t place, const Hash32& before, const StoredEvent& event);
    /// Compares what is left; to be called once, at the end.
    void finish();

private:
    static constexpr std::size_t most = 1024;
    struct Block {
        Encoding bytes;
        std::vector<std::size_t> ends;
        std::vector<Hash32> hashes;
        std::vector<EventName> names{most};
        std::vector<std::size_t> wrong;
        void clear();
        void compare();
    };
    void hand_over();
    void wait();
    void tell(Block& block);
    void work();

    Wrong wrong_;
    Block filling_, comparing_;
    std::mutex guard_;
    std::condition_variable wake_;
    bool busy_{false}, end_{false};
    std::thread thread_;
};

}  // namespace brimline::store
