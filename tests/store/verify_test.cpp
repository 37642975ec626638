// Damage is loud: what was changed, removed or cut off after it was written is named, and no damage makes
// verify fail.
#include "core/store/verify.h"

#include <cstdlib>
#include <random>
#include <sstream>

#include "core/store/chain.h"
#include "core/store/pins.h"
#include "core/store/seal.h"
#include "tests/catch.h"
#include "tests/store/scratch.h"

using namespace brimline;
using namespace brimline::store;
using namespace brimline::store::scratch;

namespace fs = std::filesystem;

namespace {

/// Ten events in two cases, a person, a register row, and a sealed record with an addendum.
void fill(const fs::path& folder) {
    Journal journal = writing(folder);
    for (std::uint64_t i = 1; i <= 7; ++i) {
        put(journal, one(i, i % 2 == 0 ? 2 : 1, std::to_string(i)));
    }
    Batch batch = one(8, 1, "several");
    batch.events.push_back(event(1, "person-changed", "hash"));
    batch.people = {
        {.id = "mina", .name = "Mina", .pin_hash = hash_pin("246801"), .roles = {"assistant", "nurse"}}};
    batch.balloons = {
        {case_of(1), "Quill", "HM-1", 5000, "2026-11-25", "2027-05-25", "2027-05-25", "in-place", {}}};
    batch.seal = SealRequest{"R-1", case_of(1), 0, 5, "the record as it was read"};
    put(journal, batch);
    batch = one(9, 1, "addendum");
    batch.seal = SealRequest{"R-2", case_of(1), 1, 6, "a later word"};
    put(journal, batch);
}

/// Rewrites one event of case 1 and gives it the hash that fits: what someone would do who knows the format.
void forge(const fs::path& folder, std::int64_t seq) {
    StoredEvent event;
    Hash32 before{};
    {
        auto journal = Journal::open(folder, Mode::read_only);
        for (const StoredEvent& each : journal->events_of(case_of(1)).rows) {
            event = each;
            if (each.seq == seq) {
                break;
            }
            before = each.hash;
        }
    }
    event.payload = "{}";
    tamper(folder, "UPDATE journal SET payload = '{}', hash = x'" + hex(ChainHasher{}.of(before, event)) +
                       "' WHERE seq = " + std::to_string(seq));
}

bool says(const std::string& findings, const std::string& words) {
    INFO(findings);
    CHECK(findings.find(words) != std::string::npos);
    return findings.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a whole store has nothing to find, and verify says what it looked at", "[verify]") {
    const Place place;
    fill(place.data());
    const auto report = verify(place.data());
    REQUIRE(report.has_value());
    CHECK(report->findings.empty());
    CHECK(report->events == 10);
    CHECK(report->cases == 2);
    CHECK(report->sealed == 2);
}

TEST_CASE("any column of an event that was changed is found by its chain", "[verify][chain]") {
    const std::string change = GENERATE(
        "utc_us = utc_us + 1", "tick_us = 0", "boot = zeroblob(16)", "person = 'other'", "role = 'nurse'",
        "policy = zeroblob(32)", "version = 2", "kind = 'draw-back'", "payload = '{\"ml\":\"5\"}'",
        "payload = payload || ' '", "command = zeroblob(16)", "part = 0, parts = 7", "hash = zeroblob(32)");
    const Place place;
    fill(place.data());
    tamper(place.data(), "UPDATE journal SET " + change + " WHERE seq = 3");
    INFO(change);
    says(verified(place.data()), "Event 2 of case ca000000 (number 3");
}

TEST_CASE("an event that was taken from the middle is missing by number and by case", "[verify][chain]") {
    const Place place;
    fill(place.data());
    tamper(place.data(), "DELETE FROM journal WHERE seq = 4");
    const std::string found = verified(place.data());
    says(found, "Number 4 is missing in the journal.");
    says(found, "Event 2 of case ca000000 is missing.");
}

TEST_CASE("the last events cut off leave a whole chain, and the mark tells", "[verify][mark]") {
    const Place place;
    fill(place.data());
    tamper(place.data(), "DELETE FROM sealed WHERE number = 'R-2'; DELETE FROM journal WHERE seq = 10");
    CHECK(verified(place.data()) ==
          "Acknowledged events are missing: number 10 was acknowledged, and the journal ends at 9.\n");
}

TEST_CASE("a log that was deleted after events were acknowledged is found through the mark",
          "[verify][mark]") {
    const Place place;
    leave_with_log(place.data(), 12);
    fs::remove(place.data() / "brimline.db-wal");
    says(verified(place.data()), "Acknowledged events are missing: number 12 was acknowledged");
    auto journal = Journal::open(place.data(), Mode::read_write);
    REQUIRE(journal.has_value());
    CHECK(journal->read_only());
    CHECK(journal->why_read_only().find("Acknowledged events are missing") == 0);
}

TEST_CASE("a last event that was rewritten with its hash is not the one that was acknowledged",
          "[verify][mark]") {
    const Place place;
    fill(place.data());
    forge(place.data(), 10);
    CHECK(verified(place.data()) == "Number 10 is not the event that was acknowledged.\n");
}

TEST_CASE("an event rewritten with its hash breaks the chain behind it and the seal over it",
          "[verify][chain][seal]") {
    const Place place;
    fill(place.data());
    forge(place.data(), 8);
    CHECK(verified(place.data()) ==
          "Event 6 of case ca000000 (number 9, person-changed) was changed after it was written, or the "
          "event before "
          "it was.\nRecord R-1 was sealed over other events than the journal holds now.\n");
}

TEST_CASE("the hash of an event is BLAKE2b over what the design says, byte by byte", "[chain]") {
    const Place place;
    fill(place.data());
    auto journal = Journal::open(place.data(), Mode::read_only);
    const auto events = journal->events_of(case_of(2)).rows;
    REQUIRE(events.size() == 3);
    const StoredEvent& e = events[1];
    const auto number = [](std::int64_t n) {
        std::string bytes;
        for (unsigned shift = 0; shift < 64; shift += 8) {
            bytes += static_cast<char>(static_cast<std::uint64_t>(n) >> shift & 0xff);
        }
        return bytes;
    };
    const auto raw = [](std::span<const std::uint8_t> bytes) {
        return std::string{bytes.begin(), bytes.end()};
    };
    std::string all;
    for (const std::string& field :
         {std::string{"brimline event 1"}, raw(events[0].hash), raw(journal->kiosk().id), number(e.seq),
          raw(e.command), number(e.part), number(e.parts), raw(e.case_id), number(e.case_seq),
          number(e.utc.in_us()), number(e.tick_us), raw(e.boot), e.person, e.role, raw(e.policy),
          number(e.version), e.kind, e.payload}) {
        all += number(static_cast<std::int64_t>(field.size())).substr(0, 4) + field;
    }
    CHECK(hex(blake2b(all)) == hex(e.hash));
}

TEST_CASE("a command that lost a part is not whole", "[verify]") {
    const Place place;
    {
        Journal journal = writing(place.data());
        Batch batch = one(1, 1);
        batch.events.push_back(event(2, "hold-raised"));
        put(journal, batch);
    }
    tamper(place.data(), "DELETE FROM journal WHERE seq = 2");
    says(verified(place.data()), "The command that begins with number 1 is not whole: 1 of 2 parts");
}

TEST_CASE("a seal that was altered in any part is found", "[verify][seal]") {
    const std::string change =
        GENERATE("body = CAST('another record' AS BLOB)", "body_hash = zeroblob(32)",
                 "signature = zeroblob(64)", "head = zeroblob(32)", "through_case_seq = 3", "number = 'R-9'",
                 "addendum = 5", "case_id = zeroblob(16)");
    const Place place;
    fill(place.data());
    tamper(place.data(), "UPDATE sealed SET " + change + " WHERE number = 'R-1'");
    const std::string found = verified(place.data());
    INFO(change << "\n" << found);
    CHECK(found.find("ecord") != std::string::npos);
}

TEST_CASE("a body and its hash rewritten together fail at the signature", "[verify][seal]") {
    const Place place;
    fill(place.data());
    tamper(place.data(), "UPDATE sealed SET body = CAST('forged' AS BLOB), body_hash = x'" +
                             hex(blake2b("forged")) + "' WHERE number = 'R-1'");
    CHECK(verified(place.data()) == "The signature of record R-1 does not hold.\n");
}

TEST_CASE("a sealed record carries head, hash and signature that anyone can check", "[seal]") {
    const Place place;
    fill(place.data());
    auto journal = Journal::open(place.data(), Mode::read_only);
    const auto sealed = journal->sealed(case_of(1));
    REQUIRE(sealed.rows.size() == 2);
    const SealedRow& row = sealed.rows[0];
    CHECK(row.number == "R-1");
    CHECK(row.body == "the record as it was read");
    CHECK(row.body_hash == blake2b(row.body));
    CHECK(row.head == journal->events_of(case_of(1)).rows.at(4).hash);
    CHECK(signature_holds(seal_message(row.number, row.head, row.body_hash, row.through_case_seq),
                          row.signature, journal->kiosk().public_key));
    CHECK(journal->sealed().rows.size() == 2);
    CHECK(journal->sealed(case_of(2)).rows.empty());
}

TEST_CASE("a record is not sealed twice, nor over an event that is not there", "[seal]") {
    const Place place;
    fill(place.data());
    Journal journal = writing(place.data());
    for (const SealRequest& seal : {SealRequest{"R-1", case_of(2), 0, 1, "same number"},
                                    SealRequest{"R-3", case_of(1), 1, 1, "same addendum"},
                                    SealRequest{"R-3", case_of(2), 0, 99, "no such event"}}) {
        Batch batch = one(50, 2);
        batch.seal = seal;
        const auto refused = journal.append(batch);
        REQUIRE_FALSE(refused.has_value());
        CHECK(refused.error().kind == Failure::refused);
    }
    CHECK(journal.head()->seq == 10);
}

TEST_CASE("a schema that was changed is named", "[verify]") {
    const Place place;
    fill(place.data());
    REQUIRE(sql(place.data(),
                "DROP TRIGGER journal_no_delete; CREATE TABLE extra(a); "
                "DROP TRIGGER sealed_no_update; CREATE TRIGGER sealed_no_update BEFORE UPDATE ON sealed "
                "BEGIN SELECT 1; END")
                .empty());
    const std::string found = verified(place.data());
    says(found, "The trigger journal_no_delete is missing in brimline.db.");
    says(found, "The table extra in brimline.db was not made by Brimline.");
    says(found, "The trigger sealed_no_update in brimline.db is not as Brimline made it.");
    CHECK(Journal::open(place.data(), Mode::read_write)->read_only());
}

TEST_CASE("a file that is another application's is not taken for a journal", "[verify]") {
    const Place place;
    fill(place.data());
    REQUIRE(sql(place.data(), "PRAGMA application_id = 7").empty());
    says(verified(place.data()), "does not carry Brimline's mark");
    CHECK(Journal::open(place.data(), Mode::read_write)->read_only());
}

TEST_CASE("a PIN hash that was damaged is named without showing it", "[verify]") {
    const Place place;
    fill(place.data());
    REQUIRE(sql(place.data(), "UPDATE person SET pin = 'plain'").empty());
    CHECK(verified(place.data()) == "The PIN kept for mina is damaged.\n");
}

TEST_CASE("payloads that are no JSON are named even when their hash fits", "[verify]") {
    const Place place;
    fill(place.data());
    tamper(place.data(), "UPDATE journal SET payload = '{' WHERE seq = 2");
    says(verified(place.data()),
         "Event 1 of case ca000000 (number 2, syringe-in) does not hold well-formed JSON.");
}

TEST_CASE("the caller compares the tables with the events, and names the cases", "[verify]") {
    const Place place;
    fill(place.data());
    VerifyOptions options;
    options.case_name = [](const Id16& id) { return id == case_of(1) ? "A" : ""; };
    options.projections = [](const std::vector<StoredEvent>& events, const Tables& tables) {
        const std::string seen = std::to_string(events.size()) + " " + std::to_string(tables.people.size()) +
                                 " " + std::to_string(tables.balloons.size()) + " " +
                                 std::to_string(tables.sealed.size());
        return std::vector<Finding>{{"projection", "balloon", "Seen " + seen + "."}};
    };
    CHECK(verified(place.data(), options) == "Seen 10 1 1 2.\n");
    tamper(place.data(), "UPDATE journal SET kind = 'x' WHERE seq = 5");
    says(verified(place.data(), options), "Event 3 of case A (number 5, x) was changed");
}

TEST_CASE("files that are no database, cut short or empty are answered, not fallen over", "[verify]") {
    const Place place;
    fill(place.data());
    const std::string whole = read_whole(place.data() / "brimline.db");
    for (const std::size_t length : {std::size_t{0}, std::size_t{1}, std::size_t{50}, std::size_t{512},
                                     std::size_t{4096}, whole.size() / 2, whole.size() - 1}) {
        write_whole(place.data() / "brimline.db", whole.substr(0, length));
        INFO(length);
        CHECK_FALSE(verified(place.data()).empty());
        const auto journal = Journal::open(place.data(), Mode::read_write);
        CHECK((!journal || journal->read_only()));
    }
    write_whole(place.data() / "brimline.db", std::string(20000, 'x'));
    CHECK_FALSE(verified(place.data()).empty());
    write_whole(place.data() / "brimline.db", whole);
    CHECK(verified(place.data()).empty());
}
