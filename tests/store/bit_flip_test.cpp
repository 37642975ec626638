// One bit flipped anywhere in the data folder either changes nothing that is kept, or is reported; and
// nothing crashes.
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <random>

#include "core/store/chain.h"
#include "core/store/pins.h"
#include "core/store/rows.h"
#include "core/store/verify.h"
#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;

namespace fs = std::filesystem;

namespace {

/// What the tables beside the journal should hold, as a caller's fold of the events would know it.
std::string beside(const Tables& tables) {
    std::string text = hex(tables.kiosk.id) + tables.kiosk.name + hex(tables.kiosk.public_key);
    for (const Person& person : tables.people) {
        text += "\n" + person.id + person.name + pin_fingerprint(person.pin_hash) +
                (person.active ? "1" : "0") + (person.one_time ? "1" : "0");
        for (const std::string& role : person.roles) {
            text += " " + role;
        }
    }
    for (const BalloonRow& row : tables.balloons) {
        text += "\n" + hex(row.case_id) + row.patient + row.hospital_no + std::to_string(row.volume_dml) +
                row.placed + row.due + row.latest + row.state + (row.out_case ? hex(*row.out_case) : "");
    }
    for (const KeySince& key : tables.keys) {
        text += "\n" + std::to_string(key.kiosk) + " " + std::to_string(key.since_seq) + hex(key.key);
    }
    for (const SealedRow& row : tables.sealed) {
        text += "\n" + row.number + hex(row.case_id) + std::to_string(row.addendum) + row.body;
    }
    return text;
}

/// Everything the folder keeps, read without any check; empty when it cannot be read whole.
std::string kept(const fs::path& folder) {
    auto journal = Journal::open(folder, Mode::read_only);
    if (!journal) {
        return {};
    }
    auto events = journal->events(0, 0);
    auto people = journal->people();
    auto balloons = journal->balloons();
    auto sealed = journal->sealed();
    if (!events.damage.empty() || !people.damage.empty() || !balloons.damage.empty() ||
        !sealed.damage.empty()) {
        return {};
    }
    std::string text;
    for (const StoredEvent& event : events.rows) {
        text += hex(ChainHasher{}.of(event.hash, event)) + "\n";
    }
    return text + beside({journal->kiosk(), people.rows, balloons.rows, sealed.rows, journal->keys().rows});
}

void fill(const fs::path& folder, bool with_log) {
    const auto work = [&] {
        auto journal = Journal::open(folder, Mode::read_write);
        std::uint64_t command = 0;
        for (int i = 1; i <= 60; ++i) {
            Batch batch = one(++command, 1 + i % 4, "syringe " + std::to_string(i) + std::string(200, '.'));
            if (i % 20 == 0) {
                batch.people = {{.id = "p" + std::to_string(i),
                                 .name = "Mina",
                                 .pin_hash = hash_pin("135790"),
                                 .roles = {"assistant", "nurse"}}};
                batch.balloons = {{case_of(i),
                                   "Quill",
                                   "HM-1",
                                   5000,
                                   "2026-11-25",
                                   "2027-05-25",
                                   "2027-05-25",
                                   "in-place",
                                   {}}};
                batch.seal = SealRequest{"R-" + std::to_string(i), case_of(i), 0, 1, std::string(900, 'r')};
                batch.events.push_back(event(i, "sealed"));
            }
            if (!journal || !journal->append(batch)) {
                return 1;
            }
        }
        if (with_log) {
            ::_exit(0);
        }
        return 0;
    };
    REQUIRE(in_child(work) == 0);
}

unsigned seed_of_this_run() {
    const char* given = std::getenv("BRIMLINE_SEED");
    return given == nullptr ? std::random_device{}()
                            : static_cast<unsigned>(std::strtoul(given, nullptr, 10));
}

}  // namespace

TEST_CASE("a bit flipped anywhere changes nothing or is reported", "[verify][flip]") {
    const bool with_log = GENERATE(false, true);
    const unsigned seed = seed_of_this_run();
    std::mt19937 random{seed};
    INFO("BRIMLINE_SEED=" << seed);
    const Place place;
    fill(place.data(), with_log);
    const std::string whole = kept(place.data());
    REQUIRE_FALSE(whole.empty());
    std::string fold;
    VerifyOptions options;
    options.projections = [&](const std::vector<StoredEvent>&, const Tables& tables) {
        if (fold.empty()) {
            fold = beside(tables);
        }
        return fold == beside(tables) ? std::vector<Finding>{}
                                      : std::vector<Finding>{{"projection", "", "Differs."}};
    };
    REQUIRE(verified(place.data(), options).empty());
    std::vector<fs::path> files{place.data() / "brimline.db", place.data() / "brimline.db",
                                place.data() / "sign.key", place.data() / "brimline.mark"};
    if (with_log) {
        files.insert(files.end(), 4, place.data() / "brimline.db-wal");
    }
    int changed = 0;
    int silent = 0;
    const int rounds =
        std::getenv("BRIMLINE_CRASH_IMAGES") != nullptr ? 5000 : 200;  // 10,000 in tests/faults/run
    for (int round = 0; round < rounds; ++round) {
        const fs::path& file = files[random() % files.size()];
        const std::string bytes = read_whole(file);
        std::string flipped = bytes;
        const std::size_t at = random() % flipped.size();
        const unsigned bit = random() % 8;
        flipped[at] = static_cast<char>(static_cast<unsigned char>(flipped[at]) ^ (1U << bit));
        fs::permissions(file, fs::perms(0600));
        write_whole(file, flipped);
        INFO(file.filename() << " byte " << at << " bit " << bit);
        const std::string found = verified(place.data(), options);
        const bool same = kept(place.data()) == whole;
        changed += same ? 0 : 1;
        silent += same || !found.empty() ? 0 : 1;
        CHECK((same || !found.empty()));
        write_whole(file, bytes);
    }
    std::printf("bit flips%s: %d, %d changed what is kept, %d silent, seed %u\n",
                with_log ? " with a log" : "", rounds, changed, silent, seed);
    CHECK(changed > rounds / 40);
    CHECK(verified(place.data(), options).empty());
}
