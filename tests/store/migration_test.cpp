// From version 1 to version 2, on the reference day as version 1 kept it.
#include <sys/stat.h>

#include "core/store/backup.h"
#include "core/store/schema.h"
#include "core/store/verify.h"
#include "tests/catch.h"
#include "tests/source_folder.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;
using brimline::test::in_sources;

namespace fs = std::filesystem;

namespace {

constexpr std::size_t events_of_day = 460;

void lay_out(const fs::path& folder) {
    fs::create_directory(folder);
    for (const char* name : {"brimline.db", "brimline.mark", "sign.key"}) {
        fs::copy(in_sources(std::string{"/tests/fixtures/store-version-1/"} + name), folder / name);
    }
    fs::permissions(folder / "sign.key", fs::perms::owner_read);
}

std::int64_t version_of(const fs::path& file) {
    auto db = Database::open("file:" + file.string() + "?immutable=1", SQLITE_OPEN_READONLY);
    return db ? db->first_number("PRAGMA user_version").value_or(-1) : -1;
}

}  // namespace

TEST_CASE("a store of version 1 is read and verified as it is, and nothing in it changes", "[migration]") {
    const Place place;
    lay_out(place.data());
    const auto before = picture(place.data());
    CHECK(verified(place.data()).empty());
    {
        auto journal = Journal::open(place.data(), Mode::read_only);
        REQUIRE(journal.has_value());
        CHECK(journal->damage().empty());
        CHECK(journal->events().rows.size() == events_of_day);
        CHECK(journal->keys().rows.size() == 1);
        CHECK(journal->key_that_sealed(journal->sealed().rows.front()).has_value());
    }
    CHECK(picture(place.data()) == before);
}

TEST_CASE("opened for writing it becomes version 2, after a copy that was checked", "[migration]") {
    const Place place;
    lay_out(place.data());
    const auto old = read_whole(place.data() / "brimline.db");
    std::vector<StoredEvent> before;
    {
        auto journal = Journal::open(place.data(), Mode::read_only);
        before = journal->events().rows;
    }
    {
        Journal journal = writing(place.data());
        CHECK(journal.events().rows == before);
        CHECK(journal.keys().rows.size() == 1);
        put(journal, one(1, 1));
    }
    CHECK(version_of(place.data() / "brimline.db") == schema_version);
    CHECK(verified(place.data()).empty());
    const auto kept = place.data() / "backup" / "before-version-2.db";
    CHECK(version_of(kept) == 1);
    CHECK(fs::file_size(kept) == old.size());
    CHECK((fs::status(kept).permissions() & fs::perms::all) == fs::perms(0600));
}

TEST_CASE("when the copy before it cannot be made nothing is migrated, and the store can be read",
          "[migration]") {
    const Place place;
    lay_out(place.data());
    write_whole(place.data() / "backup", "a file where the folder should be");
    auto journal = Journal::open(place.data(), Mode::read_write);
    REQUIRE(journal.has_value());
    CHECK(journal->read_only());
    CHECK(journal->why_read_only().find("of an earlier version, and the copy before its migration failed") !=
          std::string::npos);
    CHECK(journal->events().rows.size() == events_of_day);
    CHECK(version_of(place.data() / "brimline.db") == 1);
}

TEST_CASE("a backup of version 1 comes back as version 2", "[migration][backup]") {
    const Place place;
    lay_out(place.data());
    REQUIRE(make_backup(place.data(), place.path() / "b", "four plain words here"));
    const auto back = place.path() / "back";
    const auto content = restore_backup(place.path() / "b", back, "four plain words here");
    REQUIRE(content.has_value());
    CHECK(content->events == static_cast<std::int64_t>(events_of_day));
    CHECK(verified(back).empty());
    CHECK(version_of(back / "brimline.db") == schema_version);
}
