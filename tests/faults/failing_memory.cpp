// Counting allocations.
#include "tests/faults/failing_memory.h"

#include <sqlite3.h>

#include <cstdlib>
#include <new>

#include "tests/catch.h"

namespace brimline::store::faults {
namespace {

struct State {
    bool on{false};
    Whose whose{Whose::sqlite};
    int at{0}, seen{0}, failed{0};
    bool for_good{false};
};
thread_local State state;  // another thread's allocations are none of this test's
sqlite3_mem_methods real;
bool under_sqlite = false;

bool fails(Whose whose) {
    if (!state.on || state.whose != whose) {
        return false;
    }
    ++state.seen;
    const bool now = state.at > 0 && (state.for_good ? state.seen >= state.at : state.seen == state.at);
    state.failed += now ? 1 : 0;
    return now;
}

void* allocate(int bytes) { return fails(Whose::sqlite) ? nullptr : real.xMalloc(bytes); }
void* again(void* old, int bytes) { return fails(Whose::sqlite) ? nullptr : real.xRealloc(old, bytes); }

}  // namespace

void put_under_sqlite() {
    if (under_sqlite) {
        return;
    }
    under_sqlite = true;
    REQUIRE(sqlite3_shutdown() == SQLITE_OK);
    REQUIRE(sqlite3_config(SQLITE_CONFIG_GETMALLOC, &real) == SQLITE_OK);
    auto ours = real;
    ours.xMalloc = allocate;
    ours.xRealloc = again;
    REQUIRE(sqlite3_config(SQLITE_CONFIG_MALLOC, &ours) == SQLITE_OK);
    REQUIRE(sqlite3_initialize() == SQLITE_OK);
}

bool our_allocation_fails() { return fails(Whose::ours); }

FailingMemory::FailingMemory(Whose whose, int at, bool for_good) {
    state = {true, whose, at, 0, 0, for_good};
}
FailingMemory::~FailingMemory() { state = {}; }
void FailingMemory::heal() { state.at = 0; }
int FailingMemory::seen() const { return state.seen; }
int FailingMemory::failed() const { return state.failed; }

}  // namespace brimline::store::faults

/// Takes the place of the library's, for this program of tests.
void* operator new(std::size_t bytes) {
    void* room = brimline::store::faults::our_allocation_fails() ? nullptr : std::malloc(bytes);
    if (room == nullptr) {
        throw std::bad_alloc{};
    }
    return room;
}
void operator delete(void* room) noexcept { std::free(room); }
void operator delete(void* room, std::size_t) noexcept { std::free(room); }
