// Appending and reading: what is acknowledged is there, whole, in order and once.
#include "core/store/journal.h"

#include <sys/stat.h>

#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;

namespace {

unsigned mode_of(const std::filesystem::path& path) {
    struct stat about {};
    REQUIRE(::stat(path.c_str(), &about) == 0);
    return about.st_mode & 0777U;
}

}  // namespace

TEST_CASE("a new folder belongs to its user alone and holds a whole store", "[journal]") {
    const Place place;
    const Journal journal = writing(place.data());
    CHECK(mode_of(place.data()) == 0700);
    CHECK(mode_of(place.data() / "brimline.db") == 0600);
    CHECK(mode_of(place.data() / "brimline.mark") == 0600);
    CHECK(mode_of(place.data() / "sign.key") == 0400);
    CHECK(journal.kiosk().name == "T1");
    CHECK(journal.kiosk().id != Id16{});
    CHECK(journal.damage().empty());
}

TEST_CASE("two stores have different kiosk ids and keys", "[journal]") {
    const Place a;
    const Place b;
    const Kiosk first = writing(a.data()).kiosk();
    const Kiosk second = writing(b.data()).kiosk();
    CHECK(first.id != second.id);
    CHECK(first.public_key != second.public_key);
}

TEST_CASE("an event comes back as it was given, numbered, also after closing", "[journal]") {
    const Place place;
    Batch batch = one(1, 1, "Lucía \\u0000 ok");
    batch.events.push_back(event(2, "hold-raised"));
    batch.events[0].utc = Instant::of_us(-5);
    Receipt receipt;
    {
        Journal journal = writing(place.data());
        receipt = put(journal, batch);
    }
    CHECK(receipt.seqs == std::vector<std::int64_t>{1, 2});
    CHECK(receipt.case_seqs == std::vector<std::int64_t>{1, 1});
    CHECK_FALSE(receipt.already_there);
    Journal journal = writing(place.data());
    const auto events = journal.events();
    REQUIRE(events.damage.empty());
    REQUIRE(events.rows.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        const StoredEvent& stored = events.rows[i];
        CHECK(static_cast<const NewEvent&>(stored) == batch.events[i]);
        CHECK(stored.command == batch.command);
        CHECK(stored.part == static_cast<std::int64_t>(i));
        CHECK(stored.parts == 2);
        CHECK(stored.kiosk == 1);
        CHECK(stored.kiosk_id == journal.kiosk().id);
    }
    CHECK(events.rows[1].hash == receipt.hash);
    CHECK(journal.head() == Head{2, receipt.hash});
}

TEST_CASE("events are numbered by kiosk and by case, and read after a number or of a case", "[journal]") {
    const Place place;
    Journal journal = writing(place.data());
    put(journal, one(1, 1));
    put(journal, one(2, 2));
    put(journal, one(3, 1));
    Batch own = one(4, 1);
    own.events[0].case_id = journal.kiosk().id;
    put(journal, own);
    const auto of_case = journal.events_of(case_of(1));
    REQUIRE(of_case.rows.size() == 2);
    CHECK(of_case.rows[1].seq == 3);
    CHECK(of_case.rows[1].case_seq == 2);
    const auto later = journal.events(2);
    REQUIRE(later.rows.size() == 2);
    CHECK(later.rows[0].seq == 3);
    CHECK(later.rows[1].case_id == journal.kiosk().id);
    CHECK(later.rows[1].case_seq == 1);
}

TEST_CASE("a command that is tried again is counted once", "[journal]") {
    const Place place;
    Journal journal = writing(place.data());
    Batch batch = one(1, 1, "a");
    batch.events.push_back(event(1, "hold-raised"));
    const Receipt first = put(journal, batch);
    put(journal, one(2, 1, "b"));
    const Receipt again = put(journal, batch);
    CHECK(again.already_there);
    CHECK(again.seqs == first.seqs);
    CHECK(again.case_seqs == first.case_seqs);
    CHECK(again.hash == first.hash);
    CHECK(journal.events().rows.size() == 3);
}

TEST_CASE("a command id is not taken for other events", "[journal]") {
    const Place place;
    Journal journal = writing(place.data());
    put(journal, one(1, 1, "a"));
    for (const Batch& other : {one(1, 1, "b"), one(1, 2, "a")}) {
        const auto refused = journal.append(other);
        REQUIRE_FALSE(refused.has_value());
        CHECK(refused.error().kind == Failure::refused);
    }
    Batch longer = one(1, 1, "a");
    longer.events.push_back(event(1, "hold-raised"));
    CHECK(journal.append(longer).error().kind == Failure::refused);
    CHECK(journal.events().rows.size() == 1);
}

TEST_CASE("what has not the form of an event is refused and leaves nothing", "[journal]") {
    const Place place;
    Journal journal = writing(place.data());
    std::vector<Batch> wrong(5, one(1, 1));
    wrong[0].events.clear();
    wrong[1].events[0].payload = "{\"ml\":";
    wrong[2].events[0].payload = "{\"a\":\"\xff\"}";
    wrong[3].events[0].tick_us = -1;
    wrong[4].events[0].kind.clear();
    for (const Batch& batch : wrong) {
        const auto refused = journal.append(batch);
        REQUIRE_FALSE(refused.has_value());
        CHECK(refused.error().kind == Failure::refused);
        CHECK(refused.error().say.find("This was not written: ") == 0);
    }
    CHECK(journal.events().rows.empty());
    CHECK(put(journal, one(1, 1)).seqs == std::vector<std::int64_t>{1});
}

TEST_CASE("a command whose last row is refused leaves none of its events", "[journal]") {
    const Place place;
    Journal journal = writing(place.data());
    Batch batch = one(1, 1);
    batch.events.push_back(event(1, "person-changed"));
    batch.people = {{.id = "noone", .name = "No PIN"}};
    const auto refused = journal.append(batch);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().kind == Failure::refused);
    CHECK(journal.events().rows.empty());
    CHECK(journal.people().rows.empty());
    CHECK(put(journal, one(2, 1)).seqs == std::vector<std::int64_t>{1});
}

TEST_CASE("the file itself refuses a gap, a repeat, an update and a deletion", "[journal]") {
    const Place place;
    {
        Journal journal = writing(place.data());
        put(journal, one(1, 1));
        put(journal, one(2, 1));
    }
    const std::string copy =
        "PRAGMA recursive_triggers=ON; INSERT OR REPLACE INTO journal SELECT kiosk, SEQ, randomblob(16), "
        "part, parts, "
        "case_id, CASESEQ, utc_us, tick_us, boot, person, role, policy, version, kind, payload, "
        "randomblob(32) "
        "FROM journal WHERE seq = 2";
    const auto with = [&](const std::string& seq, const std::string& case_seq) {
        std::string text = copy;
        text.replace(text.find("SEQ"), 3, seq);
        text.replace(text.find("CASESEQ"), 7, case_seq);
        return sql(place.data(), text);
    };
    CHECK(with("4", "3") == "journal: not the next number");
    CHECK(with("2", "3") == "journal: not the next number");
    CHECK(with("3", "4") == "journal: not the next number");
    CHECK(with("3", "2") == "journal: not the next number");
    CHECK(sql(place.data(), "UPDATE journal SET payload = '{}' WHERE seq = 1") == "journal: append only");
    CHECK(sql(place.data(), "DELETE FROM journal WHERE seq = 2") == "journal: append only");
    CHECK(with("'three'", "3").find("cannot store TEXT") != std::string::npos);
    CHECK(with("3", "3").empty());  // the next number is the one thing it takes
}

TEST_CASE("people are kept with their roles, and a new PIN clears the wrong tries", "[journal]") {
    const Place place;
    Journal journal = writing(place.data());
    Batch batch = one(1, 1);
    batch.people = {{.id = "mina",
                     .name = "Mina",
                     .pin_hash = "hash-1",
                     .roles = {"nurse", "assistant"},
                     .one_time = true}};
    put(journal, batch);
    REQUIRE(journal.keep_tries("mina", 2, Instant::of_us(77)).has_value());
    auto people = journal.people();
    REQUIRE(people.rows.size() == 1);
    CHECK(people.rows[0] ==
          Person{"mina", "Mina", "hash-1", {"assistant", "nurse"}, true, true, 2, Instant::of_us(77)});
    Batch renamed = one(2, 1);
    renamed.people = {{.id = "mina", .name = "Mina B", .roles = {"nurse"}, .active = false}};
    put(journal, renamed);
    people = journal.people();
    CHECK(people.rows[0] ==
          Person{"mina", "Mina B", "hash-1", {"nurse"}, false, false, 2, Instant::of_us(77)});
    Batch new_pin = one(3, 1);
    new_pin.people = {{.id = "mina", .name = "Mina B", .pin_hash = "hash-2", .roles = {"nurse"}}};
    put(journal, new_pin);
    CHECK(journal.people().rows[0] ==
          Person{"mina", "Mina B", "hash-2", {"nurse"}, true, false, 0, std::nullopt});
    CHECK(journal.keep_tries("nobody", 1, std::nullopt).error().kind == Failure::refused);
}

TEST_CASE("a register row is replaced by its case, and all of them can be made anew", "[journal]") {
    const Place place;
    Journal journal = writing(place.data());
    CHECK_FALSE(journal.balloon_code().has_value());
    BalloonRow row{case_of(1),   "Quill",      "HM-1",     5000, "2026-11-25",
                   "2027-05-25", "2027-05-25", "in-place", {}};
    Batch batch = one(1, 1);
    batch.balloons = {row};
    batch.balloon_code = 3;
    put(journal, batch);
    row.state = "removed";
    row.out_case = case_of(2);
    batch = one(2, 1);
    batch.balloons = {row};
    batch.balloon_code = 3;
    put(journal, batch);
    CHECK(journal.balloons().rows == std::vector<BalloonRow>{row});
    CHECK(journal.balloon_code() == 3);
    BalloonRow other = row;
    other.case_id = case_of(4);
    REQUIRE(journal.rebuild_balloons({other}, 4).has_value());
    CHECK(journal.balloons().rows == std::vector<BalloonRow>{other});
    CHECK(journal.balloon_code() == 4);
}
