// The signing key, its replacement, and who may read the files.
#include <sys/stat.h>
#include <unistd.h>

#include "core/store/journal.h"
#include "core/store/verify.h"
#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;

namespace fs = std::filesystem;

namespace {

Batch seal(std::uint64_t command, int case_number, const std::string& number) {
    Batch batch = one(command, case_number);
    batch.seal = SealRequest{number, case_of(case_number), 0, 1, "the record"};
    return batch;
}

/// Replaces the key in one batch; the old and the new one.
FreshKey rotate(Journal& journal, std::uint64_t command) {
    const auto fresh = journal.fresh_key();
    REQUIRE(fresh.has_value());
    Batch batch = one(command, 9, "key");
    batch.new_key = fresh->new_key;
    put(journal, batch);
    return *fresh;
}

unsigned mode_of(const fs::path& path) {
    struct stat about {};
    REQUIRE(::lstat(path.c_str(), &about) == 0);
    return about.st_mode & 0777U;
}

}  // namespace

TEST_CASE("a replaced key still checks what it sealed, and the new one seals from then on", "[keys]") {
    const Place place;
    FreshKey fresh;
    {
        Journal journal = writing(place.data());
        put(journal, seal(1, 1, "R-1"));
        fresh = rotate(journal, 2);
        CHECK(journal.kiosk().public_key == fresh.new_key);
        CHECK(signature_holds(key_message(fresh.old_key, fresh.new_key), fresh.signature, fresh.old_key));
        put(journal, seal(3, 2, "R-2"));
    }
    Journal journal = writing(place.data());
    const auto keys = journal.keys().rows;
    REQUIRE(keys.size() == 2);
    CHECK(keys[0] == KeySince{1, 0, fresh.old_key});
    CHECK(keys[1] == KeySince{1, 2, fresh.new_key});
    const auto sealed = journal.sealed().rows;
    CHECK(journal.key_that_sealed(sealed[0]) == fresh.old_key);
    CHECK(journal.key_that_sealed(sealed[1]) == fresh.new_key);
    { const Journal closed = std::move(journal); }
    CHECK(verified(place.data()).empty());
    CHECK(mode_of(place.data() / "sign.key") == 0400);
    CHECK_FALSE(fs::exists(place.data() / "sign.key.next"));
}

TEST_CASE("a key that was replaced seals nothing any more", "[keys]") {
    const Place place;
    const auto old_key = [&] {
        Journal journal = writing(place.data());
        put(journal, one(1, 1));
        return read_whole(place.data() / "sign.key");
    }();
    {
        Journal journal = writing(place.data());
        rotate(journal, 2);
        put(journal, seal(3, 2, "R-2"));
    }
    fs::permissions(place.data() / "sign.key", fs::perms(0600));
    write_whole(place.data() / "sign.key", old_key);
    CHECK(verified(place.data()) == "sign.key is not the key of this kiosk.\n");
    CHECK(Journal::open(place.data(), Mode::read_write)->read_only());
}

TEST_CASE("cut off between the batch and the name the new key is in force; before the batch it never was",
          "[keys]") {
    const Place place;
    { const Journal made = writing(place.data()); }
    const auto first = read_whole(place.data() / "sign.key");
    CHECK(in_child([&] {
              auto journal = Journal::open(place.data(), Mode::read_write);
              return journal && journal->fresh_key() ? (::_exit(7), 0) : 1;
          }) == 7);
    REQUIRE(fs::exists(place.data() / "sign.key.next"));
    CHECK(verified(place.data()).empty());
    {
        Journal journal = writing(place.data());
        CHECK_FALSE(fs::exists(place.data() / "sign.key.next"));
        rotate(journal, 1);
    }
    fs::rename(place.data() / "sign.key",
               place.data() / "sign.key.next");  // as if the name was not given yet
    write_whole(place.data() / "sign.key", first);
    CHECK(verified(place.data()).empty());
    {
        Journal journal = writing(place.data());
        put(journal, seal(2, 3, "R-3"));
    }
    CHECK(verified(place.data()).empty());
    CHECK_FALSE(fs::exists(place.data() / "sign.key.next"));
}

TEST_CASE("the list of keys is part of what verify reads", "[keys]") {
    const Place place;
    {
        Journal journal = writing(place.data());
        put(journal, seal(1, 1, "R-1"));
    }
    REQUIRE(sql(place.data(), "UPDATE sign_key SET public_key = zeroblob(32)") == "sign_key: append only");
    REQUIRE(sql(place.data(), "DELETE FROM sign_key") == "sign_key: append only");
    REQUIRE(sql(place.data(), "INSERT INTO sign_key VALUES(1, 1, zeroblob(32))").empty());
    CHECK(verified(place.data()).find("sign.key is not the key of this kiosk.") != std::string::npos);
}

TEST_CASE("files are their owner's alone, whatever the umask", "[keys][modes]") {
    const Place place;
    const mode_t before = ::umask(0);
    {
        Journal journal = writing(place.data());
        put(journal, one(1, 1));
        for (const auto& entry : fs::directory_iterator{place.data()}) {
            INFO(entry.path().filename());
            CHECK(mode_of(entry.path()) == (entry.path().filename() == "sign.key" ? 0400U : 0600U));
        }
        rotate(journal, 2);
    }
    CHECK(mode_of(place.data()) == 0700);
    CHECK(mode_of(place.data() / "sign.key") == 0400);
    ::umask(before);
}
