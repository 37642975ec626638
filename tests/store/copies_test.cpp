// Copies of a running kiosk: reading commands see one while the kiosk holds the store, and backups go to the
// clinic's folder, sealed to a key that is not on the tablet.
#include "core/store/copies.h"

#include <sys/stat.h>

#include <chrono>
#include <thread>

#include "core/store/backup.h"
#include "core/store/clock.h"
#include "core/store/store_thread.h"
#include "core/store/vault.h"
#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;
using namespace std::chrono_literals;

namespace fs = std::filesystem;

namespace {

template <class Condition>
bool soon(Condition is_so) {
    const auto end = std::chrono::steady_clock::now() + 20s;
    while (!is_so()) {
        if (std::chrono::steady_clock::now() > end) {
            return false;
        }
        std::this_thread::sleep_for(2ms);
    }
    return true;
}

StoreThread::Options with_copies(std::optional<BackupPlan> plan = std::nullopt) {
    StoreThread::Options options;
    options.idle_after = 5ms;
    options.copies = {.reading = true, .plan = std::move(plan), .quiet = 20ms, .again = 50ms, .utc = [] {
                          return Instant::of_us(1'800'000'000'000'000);
                      }};
    return options;
}

/// How many events a reading command sees; -1 when it is refused.
long seen(const fs::path& folder) {
    auto journal = Journal::open(folder, Mode::read_only);
    return journal ? static_cast<long>(journal->events().rows.size()) : -1;
}

unsigned mode_of(const fs::path& path) {
    struct stat about {};
    REQUIRE(::lstat(path.c_str(), &about) == 0);
    return about.st_mode & 0777U;
}

}  // namespace

TEST_CASE("reading commands see a copy while a kiosk holds the store, and hear how old it is", "[copies]") {
    const Place place;
    StoreThread kiosk{writing(place.data()), with_copies()};
    REQUIRE(soon([&] { return seen(place.data()) == 0; }));
    for (std::uint64_t n = 1; n <= 5; ++n) {
        kiosk.submit(one(n, 1), {});
    }
    REQUIRE(soon([&] { return seen(place.data()) == 5; }));
    const auto journal = Journal::open(place.data(), Mode::read_only);
    REQUIRE(journal.has_value());
    REQUIRE(journal->copied().has_value());
    CHECK(journal->copied()->current);
    CHECK(SystemClock{}.utc() - journal->copied()->at < Duration{60'000'000});
    CHECK(journal->damage().empty());
    const auto report = verify(place.data());
    REQUIRE(report.has_value());
    CHECK(report->findings.empty());
    CHECK(report->events == 5);
    CHECK(report->copied.has_value());
    CHECK(mode_of(reading_folder(place.data())) == 0700);
    CHECK(mode_of(reading_folder(place.data()) / "brimline.db") == 0600);
    CHECK(Journal::open(place.data(), Mode::read_write).error().kind == OpenFault::Kind::already_open);
    kiosk.close();
    CHECK_FALSE(fs::exists(reading_folder(place.data())));
    CHECK(seen(place.data()) == 5);
}

TEST_CASE("a copy that lacks entries says so, and one that was tampered with is no silent answer",
          "[copies]") {
    const Place place;
    Journal journal = writing(place.data());
    put(journal, one(1, 1));
    fs::create_directory(reading_folder(place.data()));
    REQUIRE(journal.begin_copy(reading_folder(place.data()) / "brimline.db"));
    REQUIRE(journal.copy_some(-1) == true);
    put(journal, one(2, 1));
    auto copy = Journal::open(place.data(), Mode::read_only);
    REQUIRE(copy.has_value());
    CHECK(copy->events().rows.size() == 1);
    CHECK_FALSE(copy->copied()->current);
    CHECK(copy->damage().empty());
    tamper(reading_folder(place.data()), "UPDATE journal SET payload = '{}'");
    copy = Journal::open(place.data(), Mode::read_only);
    REQUIRE(copy.has_value());
    CHECK_FALSE(copy->damage().empty());
    CHECK_FALSE(verify(place.data())->findings.empty());
}

TEST_CASE("what is appended while a copy is under way is in it", "[copies]") {
    const Place place;
    Journal journal = writing(place.data());
    for (std::uint64_t n = 1; n <= 200; ++n) {
        put(journal, one(n, 1, std::string(300, 'x')));
    }
    fs::create_directory(place.path() / "copy");
    const auto file = place.path() / "copy" / "brimline.db";
    REQUIRE(journal.begin_copy(file));
    std::uint64_t n = 200;
    auto whole = journal.copy_some(3);
    while (whole && !*whole) {
        if (n < 220) {
            put(journal, one(++n, 2, "meanwhile"));
        }
        whole = journal.copy_some(3);
    }
    REQUIRE(whole.has_value());
    CHECK(n > 202);
    CHECK(sql(place.path() / "copy", "CREATE TEMP TABLE t AS SELECT count(*) c FROM journal;") == "");
    auto db = Database::open("file:" + file.string() + "?immutable=1", SQLITE_OPEN_READONLY);
    REQUIRE(db.has_value());
    CHECK(db->first_number("SELECT count(*) FROM journal") == static_cast<std::int64_t>(n));
    CHECK(db->first("PRAGMA integrity_check") == "ok");
}

TEST_CASE("the running kiosk makes backups that only the key off the tablet opens", "[copies][backup]") {
    const Place place;
    const auto target = place.path() / "stick";
    fs::create_directory(target);
    const auto key = make_backup_key(place.path() / "key", "four plain words here");
    REQUIRE(key.has_value());
    CHECK(mode_of(place.path() / "key") == 0600);
    StoreThread kiosk{writing(place.data()), with_copies(BackupPlan{target, *key})};
    kiosk.submit(one(1, 1, "Quill"), {});
    REQUIRE(soon([&] { return last_backup(place.data()).has_value(); }));
    CHECK(last_backup(place.data())->head.seq == 1);
    CHECK(last_backup(place.data())->at == Instant::of_us(1'800'000'000'000'000));
    CHECK(failing_backup(place.data()).empty());
    const fs::path file = last_backup(place.data())->file;
    CHECK(file.parent_path() == target);
    CHECK(mode_of(file) == 0600);
    CHECK(read_whole(file).find("Quill") == std::string::npos);
    kiosk.submit(one(2, 1), {});  // and the one at the end of the day
    kiosk.close();
    CHECK(last_backup(place.data())->head.seq == 2);

    const auto back = place.path() / "back";
    CHECK(restore_backup(file, back, "four plain words here").error().kind == BackupFault::Kind::passphrase);
    CHECK(restore_backup(file, back, BackupSecret{fresh_key_pair().secret}).error().kind ==
          BackupFault::Kind::passphrase);
    CHECK(read_backup_key(place.path() / "key", "another").error().kind == BackupFault::Kind::passphrase);
    CHECK(read_backup_key(file, "four plain words here").error().kind == BackupFault::Kind::passphrase);
    const auto secret = read_backup_key(place.path() / "key", "four plain words here");
    REQUIRE(secret.has_value());
    const auto content = restore_backup(file, back, BackupSecret{*secret});
    REQUIRE(content.has_value());
    CHECK(content->events == 2);
    CHECK(verified(back).empty());
    CHECK_FALSE(
        make_backup_key(place.path() / "key", "four plain words here").has_value());  // never replaced
}

TEST_CASE("a backup to a key, cut or changed anywhere, does not open", "[copies][backup]") {
    const auto pair = fresh_key_pair();
    const std::string bytes(150'000, 'b');
    const auto vault = lock_vault_to(bytes, pair.open);
    REQUIRE(vault.has_value());
    CHECK(open_vault_with(*vault, pair.secret) == bytes);
    for (std::size_t at = 0; at < vault->size(); at += at < 200 ? 1 : 977) {
        std::string changed = *vault;
        changed[at] = static_cast<char>(changed[at] ^ 1);
        CHECK_FALSE(open_vault_with(changed, pair.secret).has_value());
        CHECK_FALSE(open_vault_with(vault->substr(0, at), pair.secret).has_value());
    }
    CHECK_FALSE(open_vault_with(*vault + "x", pair.secret).has_value());
}

TEST_CASE("a target that fails says so, is tried again, and the taps go on", "[copies][backup]") {
    const Place place;
    const auto target = place.path() / "share";
    StoreThread kiosk{writing(place.data()), with_copies(BackupPlan{target, fresh_key_pair().open})};
    int saved = 0;
    kiosk.submit(one(1, 1), [&](const StoreThread::Outcome& outcome) { saved += outcome ? 1 : 0; });
    REQUIRE(soon([&] { return !failing_backup(place.data()).empty(); }));
    CHECK(failing_backup(place.data()) == "The folder " + target.string() + " is not there.");
    CHECK_FALSE(last_backup(place.data()).has_value());
    kiosk.submit(one(2, 1), [&](const StoreThread::Outcome& outcome) { saved += outcome ? 1 : 0; });
    REQUIRE(soon([&] { return kiosk.poll() > 0 || saved == 2; }));
    REQUIRE(soon([&] { return static_cast<void>(kiosk.poll()), saved == 2; }));
    fs::create_directory(target);
    REQUIRE(soon([&] { return last_backup(place.data()).has_value(); }));
    CHECK(soon([&] { return failing_backup(place.data()).empty(); }));  // noted after the backup itself
}
