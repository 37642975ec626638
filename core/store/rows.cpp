// Reading rows of every table.
#include "core/store/rows.h"

#include "core/store/seal.h"

namespace brimline::store {
namespace {

bool put(std::int64_t& into, std::optional<std::int64_t> value) {
    into = value.value_or(0);
    return value.has_value();
}

Finding unreadable(const std::string& table, const std::string& which) {
    return {"row", table, "A row of the table " + table + " cannot be read" + which + "."};
}

Finding broken_off(const std::string& table, const Trouble& trouble) {
    return {"read", table, "Reading the table " + table + " broke off: " + words_for(trouble) + "."};
}

template <class Row, class Read>
Rows<Row> read_all(Statement& rows, const std::string& table, Read read) {
    Rows<Row> result;
    while (rows.next()) {
        Row row;
        if (read(rows, row)) {
            result.rows.push_back(std::move(row));
        } else {
            result.damage.push_back(unreadable(table, ""));
        }
    }
    if (!rows.done()) {
        result.damage.push_back(broken_off(table, rows.trouble()));
    }
    return result;
}

bool read_person(const Statement& row, Person& person) {
    std::int64_t active = 0;
    std::int64_t one_time = 0;
    std::int64_t until = 0;
    const bool locked = !row.is_null(4);
    const bool whole = row.text(0, person.id) && row.text(1, person.name) && row.text(2, person.pin_hash) &&
                       put(person.fails, row.integer(3)) && (!locked || put(until, row.integer(4))) &&
                       put(active, row.integer(5)) && put(one_time, row.integer(6));
    person.active = active != 0;
    person.one_time = one_time != 0;
    if (locked) {
        person.locked_until = Instant::of_us(until);
    }
    return whole;
}

bool read_balloon(const Statement& row, BalloonRow& balloon) {
    Id16 out{};
    const bool gone = !row.is_null(8);
    const bool whole =
        row.bytes(0, balloon.case_id) && row.text(1, balloon.patient) && row.text(2, balloon.hospital_no) &&
        put(balloon.volume_dml, row.integer(3)) && row.text(4, balloon.placed) && row.text(5, balloon.due) &&
        row.text(6, balloon.latest) && row.text(7, balloon.state) && (!gone || row.bytes(8, out));
    if (gone) {
        balloon.out_case = out;
    }
    return whole;
}

bool read_seal(const Statement& row, SealedRow& sealed) {
    return row.text(0, sealed.number) && row.bytes(1, sealed.case_id) &&
           put(sealed.addendum, row.integer(2)) && put(sealed.through_case_seq, row.integer(3)) &&
           row.bytes(4, sealed.head) && row.text(5, sealed.body) && row.bytes(6, sealed.body_hash) &&
           put(sealed.kiosk, row.integer(7)) && row.bytes(8, sealed.signature);
}

}  // namespace

KioskIds read_kiosk_ids(Database& db) {
    KioskIds ids;
    Statement rows = db.prepare("SELECT n, id FROM kiosk");
    while (rows.next()) {
        Id16 id{};
        if (rows.bytes(1, id)) {
            ids[rows.integer(0).value_or(0)] = id;
        }
    }
    return ids;
}

bool read_event(const Statement& row, const KioskIds& kiosks, StoredEvent& event) {
    std::int64_t utc = 0;
    const bool whole =
        put(event.kiosk, row.integer(0)) && put(event.seq, row.integer(1)) && row.bytes(2, event.command) &&
        put(event.part, row.integer(3)) && put(event.parts, row.integer(4)) && row.bytes(5, event.case_id) &&
        put(event.case_seq, row.integer(6)) && put(utc, row.integer(7)) &&
        put(event.tick_us, row.integer(8)) && row.bytes(9, event.boot) && row.text(10, event.person) &&
        row.text(11, event.role) && row.bytes(12, event.policy) && put(event.version, row.integer(13)) &&
        row.text(14, event.kind) && row.text(15, event.payload) && row.bytes(16, event.hash);
    event.utc = Instant::of_us(utc);
    const auto kiosk = kiosks.find(event.kiosk);
    event.kiosk_id = kiosk == kiosks.end() ? Id16{} : kiosk->second;
    return whole && kiosk != kiosks.end();
}

Rows<StoredEvent> read_events(Database& db, Statement& rows) {
    const KioskIds kiosks = read_kiosk_ids(db);
    Rows<StoredEvent> result;
    while (rows.next()) {
        StoredEvent event;
        if (read_event(rows, kiosks, event)) {
            result.rows.push_back(std::move(event));
        } else {
            result.damage.push_back(unreadable("journal", " (number " + std::to_string(event.seq) + ")"));
        }
    }
    if (!rows.done()) {
        result.damage.push_back(broken_off("journal", rows.trouble()));
    }
    return result;
}

Rows<Person> read_people(Database& db) {
    Statement rows =
        db.prepare("SELECT id, name, pin, fails, locked_until_us, active, one_time FROM person ORDER BY id");
    Rows<Person> people = read_all<Person>(rows, "person", read_person);
    for (Person& person : people.rows) {
        Statement roles = db.prepare("SELECT role FROM person_role WHERE person = ? ORDER BY role");
        roles.bind(std::string_view{person.id});
        while (roles.next()) {
            person.roles.push_back(roles.text(0).value_or(""));
        }
        if (!roles.done()) {
            people.damage.push_back(broken_off("person_role", roles.trouble()));
        }
    }
    return people;
}

Rows<BalloonRow> read_balloons(Database& db) {
    Statement rows = db.prepare(
        "SELECT case_id, patient, hospital_no, volume_dml, placed, due, latest, state, out_case FROM balloon "
        "ORDER BY due, case_id");
    return read_all<BalloonRow>(rows, "balloon", read_balloon);
}

Rows<SealedRow> read_sealed(Database& db, const std::optional<Id16>& case_id) {
    const std::string columns =
        "SELECT number, case_id, addendum, through_case_seq, head, CAST(body AS TEXT), body_hash, kiosk, "
        "signature "
        "FROM sealed ";
    Statement rows =
        db.prepare(columns + (case_id ? "WHERE case_id = ? ORDER BY addendum" : "ORDER BY number"));
    if (case_id) {
        rows.bind(*case_id);
    }
    return read_all<SealedRow>(rows, "sealed", read_seal);
}

namespace {

bool has_keys(Database& db) { return db.first_number("PRAGMA user_version").value_or(0) > 1; }

}  // namespace

Rows<KeySince> read_keys(Database& db) {
    Statement rows = db.prepare(
        has_keys(db) ? "SELECT kiosk, since_seq, public_key FROM sign_key ORDER BY kiosk, since_seq"
                     : "SELECT n, 0, sign_key FROM kiosk ORDER BY n");
    return read_all<KeySince>(rows, "sign_key", [](const Statement& row, KeySince& key) {
        return put(key.kiosk, row.integer(0)) && put(key.since_seq, row.integer(1)) && row.bytes(2, key.key);
    });
}

std::optional<Key32> read_key_of(Database& db, const SealedRow& row) {
    Statement event = db.prepare("SELECT kiosk, seq FROM journal WHERE case_id = ? AND case_seq = ?");
    event.bind(row.case_id).bind(row.through_case_seq);
    // An event of another kiosk says nothing of when this one sealed.
    const bool there = event.next();
    const bool own = there && event.integer(0) == row.kiosk;
    const std::int64_t through = own ? event.integer(1).value_or(0) : 0;
    const std::string message = seal_message(row.number, row.head, row.body_hash, row.through_case_seq);
    const auto keys = read_keys(db).rows;
    for (std::size_t i = 0; i < keys.size(); ++i) {
        const bool replaced = i + 1 < keys.size() && keys[i + 1].kiosk == keys[i].kiosk;
        const bool in_force = !replaced || keys[i + 1].since_seq > through;
        if (keys[i].kiosk == row.kiosk && in_force && signature_holds(message, row.signature, keys[i].key)) {
            return keys[i].key;
        }
    }
    return std::nullopt;
}

std::optional<Kiosk> read_kiosk(Database& db, std::int64_t n) {
    Statement row = db.prepare("SELECT id, name, sign_key FROM kiosk WHERE n = ?");
    row.bind(n);
    Kiosk kiosk;
    if (!row.next() || !row.bytes(0, kiosk.id) || !row.text(1, kiosk.name) ||
        !row.bytes(2, kiosk.public_key)) {
        return std::nullopt;
    }
    if (has_keys(db)) {
        Statement key =
            db.prepare("SELECT public_key FROM sign_key WHERE kiosk = ? ORDER BY since_seq DESC LIMIT 1");
        key.bind(n);
        if (!key.next() || !key.bytes(0, kiosk.public_key)) {
            return std::nullopt;
        }
    }
    return kiosk;
}

std::optional<Head> read_head(Database& db) {
    Statement row = db.prepare("SELECT seq, hash FROM journal WHERE kiosk = 1 ORDER BY seq DESC LIMIT 1");
    Head head;
    if (!row.next()) {
        return row.done() ? std::optional{head} : std::nullopt;
    }
    if (!put(head.seq, row.integer(0)) || !row.bytes(1, head.hash)) {
        return std::nullopt;
    }
    return head;
}

std::optional<Hash32> read_hash(Database& db, const Id16& case_id, std::int64_t case_seq) {
    Statement row = db.prepare("SELECT hash FROM journal WHERE case_id = ? AND case_seq = ?");
    row.bind(case_id).bind(case_seq);
    Hash32 hash{};
    return row.next() && row.bytes(0, hash) ? std::optional{hash} : std::nullopt;
}

}  // namespace brimline::store
