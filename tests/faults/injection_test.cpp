// A whole placement, command by command as the reference day recorded it, on a disk that fails at every write
// and every sync in turn and with memory that runs out at every allocation: nothing is lost, doubled or half
// there. A part of it in every tests/run, all of it by tests/faults/run. Source: 7-journal, Fault tests,
// Injection.
#include <sqlite3.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <set>

#include "core/store/journal.h"
#include "core/store/pins.h"
#include "tests/catch.h"
#include "tests/faults/failing_memory.h"
#include "tests/source_folder.h"
#include "tests/store/failing_disk.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::faults;
using namespace brimline::store::scratch;

namespace fs = std::filesystem;

namespace {

bool whole_campaign() { return std::getenv("BRIMLINE_CRASH_IMAGES") != nullptr; }

/// Case A of the reference day, and what it stands on (people, policy), as the batches that wrote it.
std::vector<Batch> placement() {
    const Place place;
    fs::create_directory(place.data());
    for (const char* name : {"brimline.db", "brimline.mark", "sign.key"}) {
        fs::copy(brimline::test::in_sources(std::string{"/tests/fixtures/store-version-1/"} + name),
                 place.data() / name);
    }
    auto journal = Journal::open(place.data(), Mode::read_only);
    REQUIRE(journal.has_value());
    const auto sealed = journal->sealed().rows;
    const auto balloons = journal->balloons().rows;
    const auto pin_hash = hash_pin("135790");
    std::vector<Batch> batches;
    Id16 placed{};
    for (const auto& row : journal->events().rows) {
        placed = placed == Id16{} && row.kind == "booked" ? row.case_id : placed;
        if (row.case_id != placed && row.case_id != journal->kiosk().id) {
            continue;
        }
        if (row.part == 0) {
            batches.push_back({.command = row.command});
        }
        auto& batch = batches.back();
        batch.events.push_back(row);
        if (row.kind == "person-added") {
            batch.people.push_back(
                {.id = "p" + std::to_string(row.seq), .name = "N", .pin_hash = pin_hash, .roles = {"nurse"}});
        }
        for (const auto& seal : sealed) {
            if (row.kind == "sealed" && seal.case_id == placed) {
                batch.seal = SealRequest{seal.number, placed, 0, seal.through_case_seq, seal.body};
                batch.balloons = balloons;
            }
        }
    }
    return batches;
}

/// Every command up to `last` is there whole and once, in order, as it was said.
void check_all(Journal& journal, const std::vector<Batch>& batches, std::size_t last) {
    const auto events = journal.events();
    REQUIRE(events.damage.empty());
    std::size_t at = 0;
    bool same = true;
    for (std::size_t i = 0; i <= last; ++i) {
        for (const auto& said : batches[i].events) {
            same = same && at < events.rows.size() && events.rows[at].command == batches[i].command &&
                   static_cast<const NewEvent&>(events.rows[at]) == said;
            ++at;
        }
    }
    CHECK(same);
    CHECK(events.rows.size() == at);
}

struct Counts {
    int runs{0}, failed{0}, pending{0};
};

/// Appends with the fault under it; what stays pending is healed and tried again with the same id.
template <class Fault>
void say(Journal& journal, const Batch& batch, Fault& fault, Counts& counts) {
    auto outcome = journal.append(batch);
    if (!outcome) {
        REQUIRE(outcome.error().kind == Failure::pending);
        ++counts.pending;
        fault.heal();
        outcome = journal.append(batch);
    }
    REQUIRE(outcome.has_value());
}

/// Runs the case once; before command k the folder is kept, and `at_each` may try what it likes on copies of
/// it.
template <class AtEach>
void along_the_case(const std::vector<Batch>& batches, AtEach at_each) {
    static_cast<void>(fs::exists("/dev/shm") && ::setenv("TMPDIR", "/dev/shm", 1) == 0);
    const Place base;
    { const Journal made = writing(base.data()); }
    for (std::size_t k = 0; k + 1 < batches.size(); ++k) {
        INFO("command " << k << ", " << batches[k].events.front().kind);
        if (whole_campaign() || k % 4 == 0 || k + 2 == batches.size()) {  // the last ones seal
            at_each(base.data(), k);
        }
        Journal journal = writing(base.data());
        put(journal, batches[k]);
    }
}

constexpr FailingDisk::Plan plans[] = {
    {0, false, SQLITE_IOERR_FSYNC, false}, {0, true, SQLITE_FULL, false},
    {0, false, SQLITE_FULL, true},         {0, true, SQLITE_IOERR_FSYNC, true},
    {0, false, SQLITE_IOERR_FSYNC, true},  {0, true, SQLITE_FULL, true},
    {0, false, SQLITE_FULL, false},        {0, true, SQLITE_IOERR_FSYNC, false}};

/// Fails at the n-th write or sync of commands k and k + 1, n = 1, 2 … until the run is untouched.
void fail_at_each_write(const std::vector<Batch>& batches, const fs::path& base, std::size_t k,
                        const FailingDisk::Plan& how, Counts& counts) {
    bool untouched = false;
    for (int at = 1; !untouched; ++at) {
        REQUIRE(at < 500);
        const Place place;
        fs::copy(base, place.data(), fs::copy_options::recursive);
        FailingDisk disk;
        {
            Journal journal = writing(place.data());
            disk.plan({at, how.for_good, how.code, how.written});
            say(journal, batches[k], disk, counts);
            say(journal, batches[k + 1], disk, counts);
            untouched = disk.failed() == 0;
            disk.heal();
            check_all(journal, batches, k + 1);
        }
        CHECK(disk.carried_on() == 0);
        counts.failed += untouched ? 0 : 1;
        if (++counts.runs % 32 == 0) {
            CHECK(verified(place.data()).empty());
        }
    }
}

/// The same with allocations; every `stride`-th.
void fail_at_each_allocation(const std::vector<Batch>& batches, const fs::path& base, std::size_t k,
                             Whose whose, bool for_good, int stride, Counts& counts) {
    bool untouched = false;
    for (int at = 1 + static_cast<int>(k) % stride; !untouched; at += stride) {
        REQUIRE(at < 20'000);
        const Place place;
        fs::copy(base, place.data(), fs::copy_options::recursive);
        {
            Journal journal = writing(place.data());
            FailingMemory memory{whose, at, for_good};
            const auto try_once = [&](const Batch& batch) -> tl::expected<Receipt, AppendFault> {
                try {
                    return journal.append(batch);
                } catch (const std::bad_alloc&) {  // not even a word for it; the store's thread takes it as
                                                   // pending
                    return tl::unexpected{AppendFault{}};
                }
            };
            bool good = true;
            for (const auto* batch : {&batches[k], &batches[k + 1]}) {
                auto outcome = try_once(*batch);
                if (!outcome) {
                    good = good && outcome.error().kind == Failure::pending;
                    ++counts.pending;
                    memory.heal();
                    outcome = try_once(*batch);
                }
                good = good && outcome.has_value();
            }
            untouched = memory.failed() == 0;
            memory.heal();
            REQUIRE(good);
            check_all(journal, batches, k + 1);
        }
        counts.failed += untouched ? 0 : 1;
        if (++counts.runs % 64 == 0) {
            CHECK(verified(place.data()).empty());
        }
    }
}

}  // namespace

TEST_CASE("a whole placement on a disk that fails at any write or sync loses, doubles and halves nothing",
          "[faults][injection]") {
    const auto batches = placement();
    REQUIRE(batches.size() > 100);
    Counts counts;
    along_the_case(batches, [&](const fs::path& base, std::size_t k) {
        for (std::size_t mode = 0; mode < std::size(plans); ++mode) {
            if (whole_campaign() || mode == k / 4 % std::size(plans)) {
                fail_at_each_write(batches, base, k, plans[mode], counts);
            }
        }
    });
    std::printf("injection, writes and syncs: %zu commands, %d runs, %d with a failure, %d left pending\n",
                batches.size(), counts.runs, counts.failed, counts.pending);
    CHECK(counts.failed > (whole_campaign() ? 5000 : 200));
    CHECK(counts.pending > 0);
}

TEST_CASE("a whole placement with memory that runs out at any allocation loses, doubles and halves nothing",
          "[faults][injection][memory]") {
    const auto batches = placement();
    put_under_sqlite();
    Counts counts;
    const int stride = whole_campaign() ? 3 : 61;
    along_the_case(batches, [&](const fs::path& base, std::size_t k) {
        for (const auto whose : {Whose::sqlite, Whose::ours}) {
            for (const bool for_good : {false, true}) {
                if (whole_campaign() || for_good == (k % 8 == 0)) {
                    fail_at_each_allocation(batches, base, k, whose, for_good, stride, counts);
                }
            }
        }
    });
    std::printf("injection, allocations: %zu commands, %d runs, %d with a failure, %d left pending\n",
                batches.size(), counts.runs, counts.failed, counts.pending);
    CHECK(counts.failed > (whole_campaign() ? 2000 : 50));
    CHECK(counts.pending > 0);
}
