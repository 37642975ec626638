// A process killed at any moment, and a disk that refuses: what was acknowledged is there, whole and once.
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <map>
#include <random>
#include <thread>

#include "core/store/mark.h"
#include "tests/catch.h"
#include "tests/store/failing_disk.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;

namespace fs = std::filesystem;

namespace {

/// A command of one to four events, a register row with every third.
Batch command(std::uint64_t n) {
    Batch batch;
    batch.command = command_of(n);
    for (std::uint64_t part = 0; part <= n % 4; ++part) {
        batch.events.push_back(event(static_cast<int>(1 + n % 5), "syringe-in", std::string(n % 700, 's')));
    }
    if (n % 3 == 0) {
        batch.balloons = {{case_of(static_cast<int>(1 + n % 5)),
                           "Quill",
                           "HM-1",
                           static_cast<std::int64_t>(n),
                           "2026-11-25",
                           "2027-05-25",
                           "2027-05-25",
                           "in-place",
                           {}}};
    }
    return batch;
}

/// In the child: appends from `first` on and tells each acknowledged command through the pipe, until it is
/// killed.
[[noreturn]] void append_until_killed(const fs::path& folder, std::uint64_t first, int pipe) {
    auto journal = Journal::open(folder, Mode::read_write);
    if (!journal || journal->read_only()) {
        ::_exit(1);
    }
    for (std::uint64_t n = first;; ++n) {
        const auto receipt = journal->append(command(n));
        if (!receipt || ::write(pipe, &n, sizeof n) != sizeof n) {
            ::_exit(2);
        }
        if (n % 16 == 0) {
            journal->idle();
        }
    }
}

/// Starts a child, kills it after `wait`, and gives the last command that it acknowledged (0 = none).
std::uint64_t run_and_kill(const fs::path& folder, std::uint64_t first, std::chrono::microseconds wait) {
    std::array<int, 2> ends{};
    REQUIRE(::pipe(ends.data()) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        ::close(ends[0]);
        append_until_killed(folder, first, ends[1]);
    }
    ::close(ends[1]);
    std::this_thread::sleep_for(wait);
    ::kill(child, SIGKILL);
    std::uint64_t last = 0;
    for (std::uint64_t n = 0; ::read(ends[0], &n, sizeof n) == sizeof n;) {
        last = n;
    }
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFSIGNALED(status));  // it did not end by a failure of its own
    return last;
}

/// Every command up to `acknowledged` is there whole and once, at most one more, and nothing else.
std::uint64_t check_commands(Journal& journal, std::uint64_t acknowledged) {
    std::map<Id16, std::size_t> parts;
    const auto events = journal.events();
    REQUIRE(events.damage.empty());
    for (const StoredEvent& event : events.rows) {
        ++parts[event.command];
    }
    std::uint64_t last = 0;
    while (parts.contains(command_of(last + 1))) {
        ++last;
        CHECK(parts[command_of(last)] == command(last).events.size());
    }
    CHECK(last >= acknowledged);
    CHECK(last <= acknowledged + 1);
    CHECK(parts.size() == last);
    return last;
}

unsigned seed_of_this_run() {
    const char* given = std::getenv("BRIMLINE_SEED");
    return given == nullptr ? std::random_device{}()
                            : static_cast<unsigned>(std::strtoul(given, nullptr, 10));
}

/// A limit on the size of any file that this process writes: what lies beyond it is refused like a full disk.
class FileLimit {
public:
    explicit FileLimit(rlim_t bytes) {
        before_handler_ = std::signal(SIGXFSZ, SIG_IGN);
        REQUIRE(::getrlimit(RLIMIT_FSIZE, &before_) == 0);
        rlimit now = before_;
        now.rlim_cur = bytes;
        REQUIRE(::setrlimit(RLIMIT_FSIZE, &now) == 0);
    }
    ~FileLimit() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, before_handler_);
    }
    FileLimit(const FileLimit&) = delete;
    FileLimit& operator=(const FileLimit&) = delete;

private:
    rlimit before_{};
    void (*before_handler_)(int){SIG_DFL};
};

}  // namespace

TEST_CASE("a process killed at any moment loses nothing acknowledged and leaves nothing half", "[crash]") {
    const unsigned seed = seed_of_this_run();
    std::mt19937 random{seed};
    INFO("BRIMLINE_SEED=" << seed);
    const Place place;
    std::uint64_t last = 0;
    int rounds_with_work = 0;
    for (int round = 0; round < 60; ++round) {
        INFO("round " << round);
        const std::uint64_t before = last;
        const std::uint64_t told =
            run_and_kill(place.data(), last + 1, std::chrono::microseconds{random() % 40000});
        rounds_with_work += told > 0 ? 1 : 0;
        if (fs::exists(place.data() / "brimline.db")) {
            CHECK(verified(place.data()).empty());
        }
        Journal journal = writing(place.data());
        last = check_commands(journal, std::max(told, last));
        CHECK(read_mark(place.data()).slots.size() == 2);
        CHECK(read_mark(place.data()).newest()->seq == journal.head()->seq);
        // The command that may have been under way is tried again with its id, whatever became of it.
        const std::uint64_t doubtful = std::max<std::uint64_t>(std::max(told, before) + 1, last);
        CHECK(put(journal, command(doubtful)).already_there == (last == doubtful));
        last = doubtful;
    }
    CHECK(rounds_with_work > 10);
}

TEST_CASE("a disk that is full leaves the command pending, and it is recorded once when there is room",
          "[crash][full]") {
    const Place place;
    Journal journal = writing(place.data());
    put(journal, command(1));
    journal.close_day();
    int pending = 0;
    std::uint64_t n = 1;
    {
        const FileLimit limit{fs::file_size(place.data() / "brimline.db") + 4096};
        while (pending < 3 && n < 500) {
            const auto outcome = journal.append(command(n + 1));
            if (outcome) {
                ++n;
                continue;
            }
            CHECK(outcome.error().kind == Failure::pending);
            CHECK(outcome.error().say.find("The tablet cannot save") == 0);
            ++pending;  // the same command again, with the same id
        }
        CHECK(n > 1);
        CHECK(n < 500);
    }
    CHECK(pending == 3);
    const Receipt receipt = put(journal, command(n + 1));
    CHECK(receipt.seqs.size() == command(n + 1).events.size());
    CHECK(check_commands(journal, n + 1) == n + 1);
    { const Journal closed = std::move(journal); }
    CHECK(verified(place.data()).empty());
}

TEST_CASE("whichever write or sync fails, a command is recorded once and never on a connection that failed",
          "[crash][injection]") {
    const auto how = GENERATE(FailingDisk::Plan{0, false, SQLITE_IOERR_FSYNC, false},
                              FailingDisk::Plan{0, false, SQLITE_FULL, true},
                              FailingDisk::Plan{0, true, SQLITE_FULL, false},
                              FailingDisk::Plan{0, true, SQLITE_IOERR_FSYNC, true});
    constexpr std::uint64_t commands = 4;
    const Place made;
    { const Journal journal = writing(made.data()); }
    int pending = 0;
    int found_again = 0;
    bool untouched = false;
    for (int at = 1; !untouched; ++at) {
        INFO("fails at " << at);
        REQUIRE(at < 500);
        const Place place;
        fs::copy(made.data(), place.data());
        FailingDisk disk;
        {
            Journal journal = writing(place.data());
            disk.plan({at, how.for_good, how.code, how.written});
            for (std::uint64_t n = 1; n <= commands; ++n) {
                auto outcome = journal.append(command(n));
                if (!outcome) {
                    REQUIRE(outcome.error().kind == Failure::pending);
                    ++pending;
                    disk.heal();
                    outcome = journal.append(command(n));
                }
                REQUIRE(outcome.has_value());
                found_again += outcome->already_there ? 1 : 0;
                if (n == 2) {
                    journal.idle();
                }
            }
            untouched = disk.failed() == 0;
            disk.heal();
            CHECK(check_commands(journal, commands) == commands);
        }
        CHECK(disk.carried_on() == 0);
        CHECK(verified(place.data()).empty());
    }
    if (how.for_good) {
        CHECK(pending > 0);
    } else {
        CHECK(pending == 0);  // one failure is overcome within the same call
        CHECK(found_again > 0);
    }
}

TEST_CASE("a start on a full disk after a crash reads everything and takes nothing", "[crash][full]") {
    const Place place;
    leave_with_log(place.data(), 40);
    {
        const FileLimit limit{4096};
        auto journal = Journal::open(place.data(), Mode::read_write);
        REQUIRE(journal.has_value());
        CHECK(journal->read_only());
        CHECK(journal->why_read_only().find("The tablet cannot save") == 0);
        CHECK(journal->events().rows.size() == 40);
        CHECK(journal->damage().empty());
    }
    Journal journal = writing(place.data());
    CHECK(put(journal, one(41, 1)).seqs == std::vector<std::int64_t>{41});
}

TEST_CASE("a mark that cannot be written is a warning, never a lost or doubtful event", "[crash][mark]") {
    const Place place;
    { const Journal made = writing(place.data()); }
    fs::remove(place.data() / "brimline.mark");
    fs::create_symlink("/dev/full", place.data() / "brimline.mark");
    Journal journal = writing(place.data());
    CHECK(put(journal, one(1, 1)).seqs == std::vector<std::int64_t>{1});
    CHECK(journal.warning() == "brimline.mark cannot be written: No space left on device.");
    CHECK(journal.events().rows.size() == 1);
}
