// A disk that fails on purpose: stands between SQLite and the system's files, lets the n-th write or sync
// fail, and watches that nothing is written to a file after it failed until it was closed.
#pragma once
#include <cstdint>

namespace brimline::store::scratch {

class FailingDisk {
public:
    /// What fails, how long, and whether the bytes of a failed sync or write are in the file all the same.
    struct Plan {
        int at{0};             // the n-th write or sync from now on, from 1; 0 = none
        bool for_good{false};  // and every later one, until healed
        int code{0};           // SQLite's code, such as SQLITE_IOERR_FSYNC or SQLITE_FULL
        bool written{false};   // a failed write has put its bytes into the file
    };
    /// From here on every file that SQLite opens in this process goes through it. A store must exist already:
    /// new ones need shared memory, which this disk has not.
    FailingDisk();
    ~FailingDisk();
    FailingDisk(const FailingDisk&) = delete;
    FailingDisk& operator=(const FailingDisk&) = delete;

    void plan(const Plan& plan);
    void heal();
    /// Writes and syncs since the plan was made.
    [[nodiscard]] int seen() const;
    /// How many failed.
    [[nodiscard]] int failed() const;
    /// Writes and syncs on a connection that had failed and was not closed.
    [[nodiscard]] int carried_on() const;
};

}  // namespace brimline::store::scratch
