// Backup and restore: what was acknowledged comes back as it was, under a new kiosk; what is cut, changed,
// foreign or opened with another passphrase is refused, and nothing is overwritten (7-journal, Backup).
#include "core/store/backup.h"

#include <sys/stat.h>

#include "core/store/pins.h"
#include "core/store/vault.h"
#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;

namespace fs = std::filesystem;

namespace {

constexpr const char* secret = "correct horse battery";

/// Seven events in two cases, a person, a register row and a sealed record.
void fill(const fs::path& folder) {
    Journal journal = writing(folder);
    for (std::uint64_t i = 1; i <= 6; ++i) {
        put(journal, one(i, i % 2 == 0 ? 2 : 1, std::to_string(i)));
    }
    Batch batch = one(7, 1, "sealed");
    batch.people = {{.id = "mina", .name = "Mina", .pin_hash = hash_pin("246801"), .roles = {"nurse"}}};
    batch.balloons = {
        {case_of(1), "Quill", "HM-1", 5000, "2026-11-25", "2027-05-25", "2027-05-25", "in place", {}}};
    batch.seal = SealRequest{"R-1", case_of(1), 0, 4, "the record as it was read"};
    put(journal, batch);
}

BackupFault::Kind kind_of(const tl::expected<BackupContent, BackupFault>& outcome) {
    REQUIRE_FALSE(outcome);
    return outcome.error().kind;
}

struct Made {
    Place place;
    fs::path file{place.path() / "day.backup"};
    Made() {
        fill(place.data());
        REQUIRE(make_backup(place.data(), file, secret));
    }
};

}  // namespace

TEST_CASE("a backup comes back event by event, under a new kiosk id with its own key", "[backup]") {
    const Made made;
    const auto before = Journal::open(made.place.data(), Mode::read_only);
    const auto back = made.place.path() / "back";
    const auto content = restore_backup(made.file, back, secret);
    INFO((content ? std::string{} : content.error().say));
    REQUIRE(content);
    CHECK(content->events == 7);
    CHECK(content->sealed == 1);
    CHECK(verified(back).empty());
    auto restored = Journal::open(back, Mode::read_only);
    REQUIRE(restored);
    CHECK(restored->kiosk().id != before->kiosk().id);
    CHECK(restored->kiosk().public_key != before->kiosk().public_key);
    auto live = Journal::open(made.place.data(), Mode::read_only);
    const auto old = live->events().rows;
    const auto kept = restored->events(0, 0).rows;
    REQUIRE(kept.size() == old.size());
    for (std::size_t i = 0; i < old.size(); ++i) {
        CHECK(kept[i].hash == old[i].hash);
        CHECK(kept[i].kiosk_id == old[i].kiosk_id);
        CHECK(kept[i].seq == old[i].seq);
        CHECK(kept[i].payload == old[i].payload);
    }
    CHECK(restored->people().rows == live->people().rows);
    CHECK(restored->balloons().rows == live->balloons().rows);
    REQUIRE(restored->sealed().rows.size() == 1);
    CHECK(restored->sealed().rows[0].body == "the record as it was read");
}

TEST_CASE("the restored journal goes on where the cases stood, with numbers of its own", "[backup]") {
    const Made made;
    const auto back = made.place.path() / "back";
    REQUIRE(restore_backup(made.file, back, secret));
    {
        Journal journal = writing(back);
        const auto receipt = put(journal, one(8, 1, "after"));
        CHECK(receipt.seqs == std::vector<std::int64_t>{1});
        CHECK(receipt.case_seqs == std::vector<std::int64_t>{5});
    }
    CHECK(verified(back).empty());
}

TEST_CASE("a backup of a journal whose log is still beside the file has everything", "[backup]") {
    const Place place;
    leave_with_log(place.data(), 9);
    const auto content = make_backup(place.data(), place.path() / "b", secret);
    REQUIRE(content);
    CHECK(content->events == 9);
}

TEST_CASE("another passphrase, another file, a cut and a changed one are refused and restore nothing",
          "[backup]") {
    const Made made;
    const auto back = made.place.path() / "back";
    CHECK(kind_of(restore_backup(made.file, back, "another")) == BackupFault::Kind::passphrase);
    const auto whole = read_whole(made.file);
    const auto broken = made.place.path() / "broken";
    const auto refused = [&](const std::string& bytes) {
        write_whole(broken, bytes);
        return kind_of(restore_backup(broken, back, secret));
    };
    CHECK(refused("a letter to the clinic") == BackupFault::Kind::not_a_backup);
    CHECK(refused("") == BackupFault::Kind::not_a_backup);
    CHECK(refused(whole.substr(0, whole.size() - 1)) == BackupFault::Kind::damaged);
    CHECK(refused(whole.substr(0, whole.size() - 20)) == BackupFault::Kind::damaged);
    CHECK(refused(whole + "x") == BackupFault::Kind::damaged);
    auto later = whole;
    later[later.size() / 2] = static_cast<char>(later[later.size() / 2] ^ 1);
    const auto kind = refused(later);
    const bool told = kind == BackupFault::Kind::damaged || kind == BackupFault::Kind::passphrase;
    CHECK(told);
    auto newer = whole;
    newer[10] = 9;
    CHECK(refused(newer) == BackupFault::Kind::not_a_backup);
    CHECK_FALSE(fs::exists(back));
    CHECK_FALSE(fs::exists(back.string() + ".restoring"));
}

TEST_CASE("nothing is overwritten: a folder that holds something, a file that is no backup", "[backup]") {
    const Made made;
    CHECK(kind_of(restore_backup(made.file, made.place.data(), secret)) == BackupFault::Kind::not_empty);
    CHECK(verified(made.place.data()).empty());
    const auto letter = made.place.path() / "letter.txt";
    write_whole(letter, "dear colleague");
    CHECK_FALSE(make_backup(made.place.data(), letter, secret));
    CHECK(read_whole(letter) == "dear colleague");
    REQUIRE(make_backup(made.place.data(), made.file, secret));  // an earlier backup is replaced
    const auto empty = made.place.path() / "empty";
    fs::create_directory(empty);
    CHECK(restore_backup(made.file, empty, secret));
    CHECK(verified(empty).empty());
}

TEST_CASE("a damaged journal gives no backup that counts, and a missing one a sentence", "[backup]") {
    const Place place;
    fill(place.data());
    tamper(place.data(), "UPDATE journal SET payload = '{}' WHERE seq = 3");
    CHECK(kind_of(make_backup(place.data(), place.path() / "b", secret)) == BackupFault::Kind::damaged);
    CHECK_FALSE(fs::exists(place.path() / "b"));
    CHECK_FALSE(make_backup(place.path() / "nowhere", place.path() / "b", secret));
    CHECK_FALSE(make_backup(place.data(), place.path() / "b", ""));
}

TEST_CASE("a backup is for its owner alone and holds no clear text", "[backup]") {
    const Made made;
    struct stat about {};
    REQUIRE(::stat(made.file.c_str(), &about) == 0);
    CHECK((about.st_mode & 0777U) == 0600U);
    const auto bytes = read_whole(made.file);
    for (const char* word : {"SQLite", "Quill", "HM-1", "Mina", "the record as it was read"}) {
        CHECK(bytes.find(word) == std::string::npos);
    }
}

TEST_CASE("the last backup is noted beside the journal and read again", "[backup]") {
    const Place place;
    fill(place.data());
    CHECK_FALSE(last_backup(place.data()));
    const LastBackup made{"/media/stick/day one.backup", Instant::of_us(1'795'600'000'000'000), {7, {}}};
    REQUIRE(note_backup(place.data(), made) == 0);
    REQUIRE(note_backup(place.data(), made) == 0);
    const auto last = last_backup(place.data());
    REQUIRE(last);
    CHECK(last->file == made.file);
    CHECK(last->at == made.at);
    CHECK(last->head == made.head);
    CHECK(verified(place.data()).empty());
}

TEST_CASE("a vault gives back any length of bytes, chunk borders included (libsodium secretstream)",
          "[backup]") {
    for (const std::size_t length : {std::size_t{0}, std::size_t{1}, std::size_t{65535}, std::size_t{65536},
                                     std::size_t{65537}, std::size_t{131072}}) {
        const std::string bytes(length, 'b');
        const auto vault = lock_vault(bytes, secret);
        REQUIRE(vault);
        CHECK(open_vault(*vault, secret) == bytes);
    }
}
