// Opening: one Brimline at a time, nothing touched before it was looked at, read-only when anything is wrong.
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>

#include "core/store/journal.h"
#include "core/store/mark.h"
#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;

namespace fs = std::filesystem;

namespace {

/// Opens for writing and requires that it stays read-only, takes nothing, and still reads.
void check_stays_read_only(const fs::path& folder, const std::string& why, std::size_t events) {
    auto journal = Journal::open(folder, Mode::read_write);
    REQUIRE(journal.has_value());
    CHECK(journal->read_only());
    INFO(journal->why_read_only());
    CHECK(journal->why_read_only().find(why) != std::string::npos);
    const auto refused = journal->append(one(99, 1));
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().kind == Failure::refused);
    CHECK(journal->events().rows.size() == events);
}

void fill(const fs::path& folder, int events) {
    Journal journal = writing(folder);
    for (int i = 1; i <= events; ++i) {
        put(journal, one(static_cast<std::uint64_t>(i), 1));
    }
}

}  // namespace

TEST_CASE("a second Brimline on the same folder is told so, in this process or another", "[opening]") {
    const Place place;
    const Journal journal = writing(place.data());
    for (const Mode mode : {Mode::read_write, Mode::read_only}) {
        const auto second = Journal::open(place.data(), mode);
        REQUIRE_FALSE(second.has_value());
        CHECK(second.error().kind == OpenFault::Kind::already_open);
        CHECK(second.error().say == "Brimline is already open on this tablet.");
        CHECK(in_child([&] {
                  const auto other = Journal::open(place.data(), mode);
                  return !other && other.error().kind == OpenFault::Kind::already_open ? 0 : 1;
              }) == 0);
    }
    CHECK(verified(place.data()) == "OPEN: Brimline is already open on this tablet.\n");
}

TEST_CASE("the lock goes with its process, however that ends", "[opening]") {
    const Place place;
    const int end = in_child([&] {
        const auto journal = Journal::open(place.data(), Mode::read_write);
        return ::raise(SIGKILL);
    });
    CHECK(end == -SIGKILL);
    fill(place.data(), 1);
}

TEST_CASE("two readers may look at a closed store together", "[opening]") {
    const Place place;
    fill(place.data(), 2);
    auto first = Journal::open(place.data(), Mode::read_only);
    auto second = Journal::open(place.data(), Mode::read_only);
    REQUIRE(first.has_value());
    REQUIRE(second.has_value());
    CHECK(second->events().rows.size() == 2);
    CHECK(Journal::open(place.data(), Mode::read_write).error().kind == OpenFault::Kind::already_open);
}

TEST_CASE("reading makes no folder and no journal", "[opening]") {
    const Place place;
    CHECK(Journal::open(place.data(), Mode::read_only).error().kind == OpenFault::Kind::missing);
    CHECK_FALSE(fs::exists(place.data()));
    fs::create_directory(place.data());
    CHECK(Journal::open(place.data(), Mode::read_only).error().kind == OpenFault::Kind::missing);
    CHECK(fs::is_empty(place.data()));
}

TEST_CASE("reading and verifying change no file, also with a log left by a crash", "[opening][verify]") {
    const Place place;
    leave_with_log(place.data(), 20);
    const auto before = picture(place.data());
    {
        auto journal = Journal::open(place.data(), Mode::read_only);
        REQUIRE(journal.has_value());
        CHECK(journal->damage().empty());
        CHECK(journal->events().rows.size() == 20);
        CHECK(journal->append(one(99, 1)).error().kind == Failure::refused);
        CHECK_FALSE(journal->keep_tries("mina", 1, std::nullopt).has_value());
        journal->idle();
        journal->close_day();
    }
    CHECK(verified(place.data()).empty());
    CHECK(picture(place.data()) == before);

    { const Journal folded = writing(place.data()); }
    CHECK_FALSE(fs::exists(place.data() / "brimline.db-wal"));
    const auto closed = picture(place.data());
    CHECK(verified(place.data()).empty());
    CHECK(picture(place.data()) == closed);
}

TEST_CASE("a file of a newer version is opened read-only and left alone", "[opening]") {
    const Place place;
    fill(place.data(), 3);
    REQUIRE(sql(place.data(), "PRAGMA user_version = 3").empty());
    const auto before = picture(place.data());
    check_stays_read_only(place.data(), "newer version", 3);
    CHECK(picture(place.data()) == before);
    CHECK(verified(place.data()).find("newer version") != std::string::npos);
}

TEST_CASE("a read-only folder is read without a trace", "[opening]") {
    const Place place;
    fill(place.data(), 3);
    const auto open_as_other = [&](Mode mode) {
        return in_child([&] {
            become_ordinary();
            auto journal = Journal::open(place.data(), mode);
            if (!journal) {
                return 10 + static_cast<int>(journal.error().kind);
            }
            return static_cast<int>(journal->events().rows.size());
        });
    };
    fs::permissions(place.data() / "brimline.db", fs::perms(0444));
    fs::permissions(place.data() / "brimline.mark", fs::perms(0444));
    fs::permissions(place.data() / "brimline.lock", fs::perms(0444));
    fs::permissions(place.data(), fs::perms(0555));
    const auto before = picture(place.data());
    CHECK(open_as_other(Mode::read_only) == 3);
    CHECK(open_as_other(Mode::read_write) == 10 + static_cast<int>(OpenFault::Kind::disk));
    CHECK(in_child([&] {
              become_ordinary();
              return verify(place.data()).value().findings.empty() ? 0 : 1;
          }) == 0);
    CHECK(picture(place.data()) == before);
}

TEST_CASE("a read-only folder with a log says what to do instead of showing half", "[opening]") {
    const Place place;
    leave_with_log(place.data(), 5);
    for (const auto& entry : fs::directory_iterator{place.data()}) {
        fs::permissions(entry.path(), fs::perms(0444));
    }
    fs::permissions(place.data(), fs::perms(0555));
    CHECK(in_child([&] {
              become_ordinary();
              const auto journal = Journal::open(place.data(), Mode::read_only);
              return !journal && journal.error().next.find("Copy the whole folder") == 0 ? 0 : 1;
          }) == 0);
}

TEST_CASE("a journal that is gone is not replaced by a new one", "[opening]") {
    const Place place;
    fill(place.data(), 2);
    fs::remove(place.data() / "brimline.db");
    for (const Mode mode : {Mode::read_write, Mode::read_only}) {
        const auto journal = Journal::open(place.data(), mode);
        REQUIRE_FALSE(journal.has_value());
        CHECK(journal.error().kind == OpenFault::Kind::damaged);
    }
    CHECK(verified(place.data()) == "The journal brimline.db is missing in a folder that held one.\n");
    fs::remove(place.data() / "brimline.mark");
    CHECK(Journal::open(place.data(), Mode::read_write).error().kind == OpenFault::Kind::damaged);
    CHECK_FALSE(fs::exists(place.data() / "brimline.db"));
}

TEST_CASE("a creation that was cut off anywhere is done anew", "[opening]") {
    const Place place;
    fs::create_directory(place.data());
    write_whole(place.data() / "brimline.new", "half a file");
    CHECK(writing(place.data()).head() == Head{});
    for (const std::string gone : {"brimline.db", "sign.key"}) {  // in the order backwards
        fs::remove(place.data() / "brimline.db");
        fs::remove(place.data() / gone);
        write_whole(place.data() / "brimline.new", "half a file");
        CHECK(writing(place.data()).head() == Head{});
        CHECK_FALSE(fs::exists(place.data() / "brimline.new"));
    }
    fill(place.data(), 1);
    CHECK(verified(place.data()).empty());
}

TEST_CASE("a store without events whose mark is gone gets a new mark", "[opening]") {
    const Place place;
    { const Journal journal = writing(place.data()); }
    fs::remove(place.data() / "brimline.mark");
    fill(place.data(), 1);
    CHECK(verified(place.data()).empty());
}

TEST_CASE("events without their mark, or with a mark that cannot be read, are read-only", "[opening][mark]") {
    const Place place;
    fill(place.data(), 3);
    const std::string mark = read_whole(place.data() / "brimline.mark");
    fs::remove(place.data() / "brimline.mark");
    check_stays_read_only(place.data(), "brimline.mark, which tells the last one, is not there", 3);
    write_whole(place.data() / "brimline.mark", std::string(1024, 'x'));
    check_stays_read_only(place.data(), "brimline.mark, which tells the last one, cannot be read", 3);
    write_whole(place.data() / "brimline.mark", mark);
    CHECK(verified(place.data()).empty());
}

TEST_CASE("a torn slot of the mark is passed over, and the next start writes it anew", "[opening][mark]") {
    const Place place;
    {
        Journal journal = writing(place.data());
        for (std::uint64_t i = 1; i <= 2; ++i) {  // two commands of two numbers each: 2 and 4 are marked
            Batch batch = one(i, 1);
            batch.events.push_back(event(1, "hold-raised"));
            put(journal, batch);
        }
    }
    const auto whole = read_mark(place.data());
    REQUIRE(whole.slots.size() == 2);
    REQUIRE(whole.slots[*whole.newest_place].seq == 4);
    std::string mark = read_whole(place.data() / "brimline.mark");
    mark.replace(*whole.newest_place * 512 + 20, 200, std::string(200, '\x5a'));
    write_whole(place.data() / "brimline.mark", mark);
    CHECK(verified(place.data()).empty());
    CHECK(read_mark(place.data()).newest()->seq == 2);
    { const Journal journal = writing(place.data()); }
    CHECK(read_mark(place.data()).newest()->seq == 4);
}

TEST_CASE("a store without its signing key, or with another's, is read-only", "[opening]") {
    const Place place;
    const Place other;
    fill(place.data(), 1);
    fill(other.data(), 1);
    fs::rename(place.data() / "sign.key", place.path() / "kept");
    check_stays_read_only(place.data(), "sign.key is missing", 1);
    fs::copy(other.data() / "sign.key", place.data() / "sign.key");
    check_stays_read_only(place.data(), "not the key of this kiosk", 1);
    fs::remove(place.data() / "sign.key");
    fs::rename(place.path() / "kept", place.data() / "sign.key");
    CHECK(verified(place.data()).empty());
}

TEST_CASE("a journal of SQLite's that Brimline never makes is not played back", "[opening]") {
    const Place place;
    fill(place.data(), 1);
    write_whole(place.data() / "brimline.db-journal", "something");
    const auto before = picture(place.data());
    CHECK(Journal::open(place.data(), Mode::read_write).error().kind == OpenFault::Kind::damaged);
    CHECK(verified(place.data()).find("brimline.db-journal") != std::string::npos);
    CHECK(picture(place.data()) == before);
}

TEST_CASE("a folder whose name holds every sign of a URI is opened all the same", "[opening]") {
    const Place place;
    const fs::path folder = place.path() / "a?b#c%20 d";
    fill(folder, 2);
    CHECK(fs::exists(folder / "brimline.db"));
    CHECK(verified(folder).empty());
    CHECK(Journal::open(folder, Mode::read_only)->events().rows.size() == 2);
}
