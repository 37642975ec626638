// Memory that runs out on purpose: the n-th allocation fails, once or from then on, in SQLite or in our own
// code.
#pragma once

namespace brimline::store::faults {

enum class Whose { sqlite, ours };

class FailingMemory {
public:
    /// Allocations of this thread are counted from here on; `at` = the one that fails, from 1, 0 = none.
    /// SQLite must have no open connection when the first of these is made.
    FailingMemory(Whose whose, int at, bool for_good);
    ~FailingMemory();
    FailingMemory(const FailingMemory&) = delete;
    FailingMemory& operator=(const FailingMemory&) = delete;
    void heal();
    [[nodiscard]] int seen() const;
    [[nodiscard]] int failed() const;
};

/// Whether an allocation of our own code is to fail now; asked by this program's operator new.
[[nodiscard]] bool our_allocation_fails();
/// Puts the counting allocator under SQLite; once, before any connection.
void put_under_sqlite();

}  // namespace brimline::store::faults
