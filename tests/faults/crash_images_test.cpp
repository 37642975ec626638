// Power cuts by the thousand: every image that a cut may leave is opened, and every acknowledged command must
// be there, whole, once and in order, with a journal that goes on. Source: 7-journal, Fault tests. The whole
// campaign: tests/faults/run; a part of it, with the seed printed, in every tests/run.
#include <cstdio>
#include <cstdlib>
#include <filesystem>

#include "core/store/chain.h"
#include "core/store/connection.h"
#include "core/store/journal.h"
#include "core/store/mark.h"
#include "core/store/rows.h"
#include "core/store/verify.h"
#include "tests/catch.h"
#include "tests/faults/power_cut.h"
#include "tests/source_folder.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::faults;
using namespace brimline::store::scratch;

namespace fs = std::filesystem;

namespace {

constexpr int commands = 12;

/// Commands of one, two or three events; one is larger than many pages of the log.
Batch command(int n) {
    Batch batch = one(static_cast<std::uint64_t>(n), 1 + n % 2, "c" + std::to_string(n));
    for (int more = 0; more < n % 3; ++more) {
        batch.events.push_back(event(1 + more % 2, "vitals", "more"));
    }
    if (n == 6) {
        batch.events.front().payload = "{\"words\":\"" + std::string(20'000, 'w') + "\"}";
    }
    return batch;
}

Image image_of(const fs::path& folder) {
    Image image;
    for (const auto& entry : fs::directory_iterator{folder}) {
        if (entry.is_regular_file()) {
            image[entry.path().filename().string()] = read_whole(entry.path());
        }
    }
    return image;
}
void lay_out(const Image& image, const fs::path& folder) {
    fs::remove_all(folder);
    fs::create_directory(folder);
    for (const auto& [name, bytes] : image) {
        write_whole(folder / name, bytes);
    }
    fs::permissions(folder / "sign.key", fs::perms::owner_read);
}

struct Run {
    Image base;
    std::vector<Step> steps;
};
/// How commands are written; all but the right one are controls.
enum class How { right, early, in_two };

/// A control: every event in a transaction of its own, as a careless program would. Numbers and chain are
/// right.
void append_in_parts(Database& db, const Id16& kiosk, const Batch& batch) {
    for (std::size_t part = 0; part < batch.events.size(); ++part) {
        StoredEvent row;
        static_cast<NewEvent&>(row) = batch.events[part];
        row.kiosk_id = kiosk;
        row.seq = read_head(db)->seq + 1;
        Statement last = db.prepare("SELECT coalesce(max(case_seq), 0) FROM journal WHERE case_id = ?");
        last.bind(row.case_id);
        REQUIRE(last.next());
        row.case_seq = last.integer(0).value() + 1;
        last.reset();
        const auto before = read_hash(db, row.case_id, row.case_seq - 1).value_or(Hash32{});
        row.command = batch.command;
        row.part = static_cast<std::int64_t>(part);
        row.parts = static_cast<std::int64_t>(batch.events.size());
        row.hash = ChainHasher{}.of(before, row);
        Statement put =
            db.prepare("INSERT INTO journal VALUES(1, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
        put.bind(row.seq)
            .bind(row.command)
            .bind(row.part)
            .bind(row.parts)
            .bind(row.case_id)
            .bind(row.case_seq);
        put.bind(row.utc.in_us()).bind(row.tick_us).bind(row.boot).bind(std::string_view{row.person});
        put.bind(std::string_view{row.role})
            .bind(row.policy)
            .bind(row.version)
            .bind(std::string_view{row.kind});
        put.bind(std::string_view{row.payload}).bind(row.hash);
        REQUIRE(put.run());  // each its own transaction: nothing was begun
    }
}

/// The mark as the file holds it after this head was written.
std::string marked(const fs::path& folder, MarkFile& mark, const Head& head) {
    REQUIRE(mark.write(head) == 0);
    return read_whole(folder / "brimline.mark");
}

void run_in_parts(const fs::path& folder, RecordedDisk& disk) {
    const Id16 kiosk = [&] { return Journal::open(folder, Mode::read_only)->kiosk().id; }();
    auto db = connect_writing(folder);
    REQUIRE(db.has_value());
    auto mark = MarkFile::open(folder);
    REQUIRE(mark.has_value());
    for (int n = 1; n <= commands; ++n) {
        append_in_parts(*db, kiosk, command(n));
        disk.acknowledged(n, marked(folder, *mark, read_head(*db).value()));
    }
}

void run_right(const fs::path& folder, RecordedDisk& disk, bool early) {
    Journal journal = writing(folder);
    for (int n = 1; n <= commands; ++n) {
        if (early) {
            disk.acknowledged(n, read_whole(folder / "brimline.mark"));
        }
        REQUIRE(journal.append(command(n)));
        disk.acknowledged(n, read_whole(folder / "brimline.mark"));
        n == 5 ? journal.idle() : void();
        n == 8 ? journal.close_day() : void();
    }
}

/// A store that exists, then twelve commands with a quiet time and the end of a day between them.
Run record(const fs::path& folder, How how) {
    { Journal made = writing(folder); }
    Run run;
    run.base = image_of(folder);
    RecordedDisk disk;
    how == How::in_two ? run_in_parts(folder, disk) : run_right(folder, disk, how == How::early);
    run.steps = disk.take();
    return run;
}

/// What is wrong with a journal that was opened from an image; empty when every promise is kept.
std::string broken_promise(const fs::path& folder, int acknowledged) {
    auto opened = Journal::open(folder, Mode::read_write);
    if (!opened) {
        return "not opened: " + opened.error().say;
    }
    if (opened->read_only()) {
        return "read-only: " + opened->why_read_only();
    }
    std::map<Id16, std::size_t> parts;
    std::int64_t last = 0;
    for (const auto& row : opened->events().rows) {
        if (row.seq != ++last) {
            return "a number is missing";
        }
        ++parts[row.command];
    }
    for (int n = 1; n <= commands; ++n) {
        const auto there = parts[command_of(static_cast<std::uint64_t>(n))];
        const auto whole = command(n).events.size();
        if (there != whole && (there != 0 || n <= acknowledged)) {
            return "command " + std::to_string(n) + " has " + std::to_string(there) + " of " +
                   std::to_string(whole) + " events, " + std::to_string(acknowledged) + " were acknowledged";
        }
    }
    for (int n = 1; n <= commands; n += commands - 1) {  // tried again: once all the same
        if (!opened->append(command(n))) {
            return "it does not go on";
        }
    }
    const auto went_on = opened->append(one(99, 3, "after"));
    return went_on ? "" : "it does not go on";
}

struct Outcome {
    int images{0}, second{0}, bad{0};
    std::string first;
};

struct Campaign {
    const Place& place;
    std::mt19937_64 chance;
    Outcome outcome;

    explicit Campaign(const Place& where, std::uint64_t seed) : place{where}, chance{seed} {}

    void try_image(const Image& image, int acknowledged) {
        ++outcome.images;
        const auto folder = place.path() / "image";
        lay_out(image, folder);
        auto wrong = broken_promise(folder, acknowledged);
        if (wrong.empty() && outcome.images % 16 == 0) {
            wrong = verified(folder);
        }
        tell(wrong);
    }
    /// The first opening of an image is cut as well; what that leaves must keep the promises.
    void cut_again(const Image& image, int acknowledged) {
        const auto folder = place.path() / "again";
        lay_out(image, folder);
        std::vector<Step> steps;
        {
            RecordedDisk disk;
            {
                const auto opened = Journal::open(folder, Mode::read_write);
                static_cast<void>(opened);
            }
            steps = disk.take();
        }
        cut_everywhere(image, steps, {}, 4, 3, chance, [&](const Image& second, int) {
            ++outcome.second;
            const auto there = place.path() / "image";
            lay_out(second, there);
            tell(broken_promise(there, acknowledged));
        });
    }
    void tell(const std::string& wrong) {
        if (!wrong.empty()) {
            ++outcome.bad;
            outcome.first = outcome.first.empty() ? wrong : outcome.first;
        }
    }
};

std::uint64_t seed_of_run() {
    const char* given = std::getenv("BRIMLINE_SEED");
    return given != nullptr ? std::strtoull(given, nullptr, 10) : 20261125U;
}
bool whole_campaign() { return std::getenv("BRIMLINE_CRASH_IMAGES") != nullptr; }

Outcome campaign(const Model& model, int random, int stride, How how = How::right) {
    // In memory: the images are what matters, not how long this machine's disk takes to sync them.
    static_cast<void>(fs::exists("/dev/shm") && ::setenv("TMPDIR", "/dev/shm", 1) == 0);
    const Place place;
    const auto run = record(place.data(), how);
    Campaign all{place, seed_of_run()};
    cut_everywhere(run.base, run.steps, model, random, stride, all.chance,
                   [&](const Image& image, int acknowledged) {
                       all.try_image(image, acknowledged);
                       if (all.outcome.images % 4 == 0 && !model.torn && !model.log_never_syncs &&
                           !model.nothing_syncs && how == How::right) {
                           all.cut_again(image, acknowledged);
                       }
                   });
    return all.outcome;
}

void report(const char* what, const Outcome& outcome) {
    std::printf("%s: %d images, %d after a second cut, %d bad, seed %llu\n", what, outcome.images,
                outcome.second, outcome.bad, static_cast<unsigned long long>(seed_of_run()));
}

}  // namespace

TEST_CASE(
    "no image that a power cut leaves has lost, doubled or halved a command (7-journal, promises 1 to 4)",
    "[faults][images]") {
    const auto outcome = whole_campaign() ? campaign({}, 2000, 1) : campaign({}, 20, 5);
    report("whole sectors", outcome);
    INFO(outcome.first);
    CHECK(outcome.bad == 0);
    CHECK(outcome.images > 300);
    CHECK(outcome.second > 100);
}

TEST_CASE("a migration that is cut off anywhere leaves the old version or the new one, whole",
          "[faults][migration]") {
    static_cast<void>(fs::exists("/dev/shm") && ::setenv("TMPDIR", "/dev/shm", 1) == 0);
    const Place place;
    fs::create_directory(place.data());
    for (const char* name : {"brimline.db", "brimline.mark", "sign.key"}) {
        fs::copy(brimline::test::in_sources(std::string{"/tests/fixtures/store-version-1/"} + name),
                 place.data() / name);
    }
    const Image base = image_of(place.data());
    const auto steps = [&] {
        RecordedDisk disk;
        { const Journal migrated = writing(place.data()); }
        return disk.take();
    }();
    std::mt19937_64 chance{seed_of_run()};
    int old_ones = 0;
    int new_ones = 0;
    const auto folder = place.path() / "image";
    const auto look = place.path() / "look";  // SQL may move the log into the file there
    cut_everywhere(base, steps, {.torn = true}, whole_campaign() ? 500 : 10, whole_campaign() ? 1 : 4, chance,
                   [&](const Image& image, int) {
                       lay_out(image, folder);
                       CHECK(verified(folder).empty());
                       lay_out(image, look);
                       const bool is_old = sql(look, "SELECT 1 FROM sign_key") != "";
                       (is_old ? old_ones : new_ones) += 1;
                       Journal journal = writing(folder);
                       CHECK(journal.events().rows.size() == 460);
                       CHECK(journal.keys().rows.size() == 1);
                   });
    std::printf("migration: %d images of the old version, %d of the new, seed %llu\n", old_ones, new_ones,
                static_cast<unsigned long long>(seed_of_run()));
    CHECK(old_ones > 0);
    CHECK(new_ones > 0);
}

TEST_CASE("sectors torn at a byte are no way round it", "[faults][images]") {
    const auto outcome =
        whole_campaign() ? campaign({.torn = true}, 2000, 1) : campaign({.torn = true}, 20, 5);
    report("torn sectors", outcome);
    INFO(outcome.first);
    CHECK(outcome.bad == 0);
    CHECK(outcome.images > 300);
}

TEST_CASE(
    "controls: a log that is not synced, no sync at all, two transactions a command and an early "
    "acknowledgement",
    "[faults][images]") {
    const auto normal = campaign({.log_never_syncs = true}, 20, 5);
    report("control, log never syncs", normal);
    CHECK(normal.bad > 0);
    const auto off = campaign({.nothing_syncs = true}, 20, 5);
    report("control, nothing syncs", off);
    CHECK(off.bad > 0);
    const auto two = campaign({}, 20, 5, How::in_two);
    report("control, two transactions a command", two);
    INFO(two.first);
    CHECK(two.bad > 0);
    // Half of a command is there, and nothing else is wrong: the start itself says so.
    CHECK(two.first.find("read-only: The command that begins with number") == 0);
    CHECK(two.first.find("is not whole: 1 of 2 parts") != std::string::npos);
    const auto early = campaign({}, 20, 5, How::early);
    report("control, acknowledged before the append", early);
    CHECK(early.bad > 0);
}
