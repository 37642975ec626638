// The schema as text, and comparing a file with it.
#include "core/store/schema.h"

#include <map>

namespace brimline::store {
namespace {

// kiosk: n=1 is this kiosk, others arrive by exchange. sealed, balloon, person: what they mean is in event.h.
// balloon and projection can be dropped and rebuilt; changes of a person are also events, never the PIN.
constexpr const char* version_1 = R"sql(
CREATE TABLE kiosk(n INTEGER PRIMARY KEY, id BLOB NOT NULL UNIQUE CHECK(length(id)=16), name TEXT NOT NULL,
  sign_key BLOB NOT NULL CHECK(length(sign_key)=32)) STRICT;
CREATE TABLE journal(
  kiosk INTEGER NOT NULL REFERENCES kiosk(n), seq INTEGER NOT NULL CHECK(seq>=1),
  command BLOB NOT NULL CHECK(length(command)=16),
  part INTEGER NOT NULL CHECK(part>=0 AND part<parts), parts INTEGER NOT NULL,
  case_id BLOB NOT NULL CHECK(length(case_id)=16), case_seq INTEGER NOT NULL CHECK(case_seq>=1),
  utc_us INTEGER NOT NULL, tick_us INTEGER NOT NULL CHECK(tick_us>=0),
  boot BLOB NOT NULL CHECK(length(boot)=16),
  person TEXT NOT NULL, role TEXT NOT NULL, policy BLOB NOT NULL CHECK(length(policy)=32),
  version INTEGER NOT NULL,
  kind TEXT NOT NULL, payload TEXT NOT NULL, hash BLOB NOT NULL UNIQUE CHECK(length(hash)=32),
  PRIMARY KEY(kiosk, seq), UNIQUE(case_id, case_seq), UNIQUE(command, part)) STRICT, WITHOUT ROWID;
CREATE TRIGGER journal_next BEFORE INSERT ON journal
  WHEN NEW.seq <> 1 + coalesce((SELECT max(seq) FROM journal WHERE kiosk=NEW.kiosk), 0)
    OR NEW.case_seq <> 1 + coalesce((SELECT max(case_seq) FROM journal WHERE case_id=NEW.case_id), 0)
  BEGIN SELECT RAISE(ABORT, 'journal: not the next number'); END;
CREATE TRIGGER journal_no_update BEFORE UPDATE ON journal
  BEGIN SELECT RAISE(ABORT, 'journal: append only'); END;
CREATE TRIGGER journal_no_delete BEFORE DELETE ON journal
  BEGIN SELECT RAISE(ABORT, 'journal: append only'); END;
CREATE TABLE sealed(number TEXT PRIMARY KEY, case_id BLOB NOT NULL, addendum INTEGER NOT NULL,
  through_case_seq INTEGER NOT NULL, head BLOB NOT NULL, body BLOB NOT NULL, body_hash BLOB NOT NULL,
  kiosk INTEGER NOT NULL REFERENCES kiosk(n), signature BLOB NOT NULL CHECK(length(signature)=64),
  UNIQUE(case_id, addendum)) STRICT, WITHOUT ROWID;
CREATE TRIGGER sealed_no_update BEFORE UPDATE ON sealed
  BEGIN SELECT RAISE(ABORT, 'sealed: append only'); END;
CREATE TRIGGER sealed_no_delete BEFORE DELETE ON sealed
  BEGIN SELECT RAISE(ABORT, 'sealed: append only'); END;
CREATE TABLE person(id TEXT PRIMARY KEY, name TEXT NOT NULL, pin TEXT NOT NULL,
  fails INTEGER NOT NULL DEFAULT 0, locked_until_us INTEGER,
  active INTEGER NOT NULL DEFAULT 1, one_time INTEGER NOT NULL DEFAULT 0) STRICT, WITHOUT ROWID;
CREATE TABLE person_role(person TEXT NOT NULL REFERENCES person(id), role TEXT NOT NULL,
  PRIMARY KEY(person, role)) STRICT, WITHOUT ROWID;
CREATE TABLE balloon(case_id BLOB PRIMARY KEY, patient TEXT NOT NULL, hospital_no TEXT NOT NULL,
  volume_dml INTEGER NOT NULL, placed TEXT NOT NULL, due TEXT NOT NULL, latest TEXT NOT NULL,
  state TEXT NOT NULL, out_case BLOB) STRICT, WITHOUT ROWID;
CREATE INDEX balloon_due ON balloon(state, due);
CREATE TABLE projection(name TEXT, kiosk INTEGER, through_seq INTEGER NOT NULL, code_version INTEGER NOT NULL,
  PRIMARY KEY(name, kiosk)) STRICT;
)sql";

// Version 2: every key that a kiosk signed with, from the entry on that put it in force (0 = made with the
// store). The kiosk's own row keeps the first. A key that was replaced still checks the seals made while it
// was in force.
constexpr const char* version_2 = R"sql(
CREATE TABLE sign_key(kiosk INTEGER NOT NULL REFERENCES kiosk(n), since_seq INTEGER NOT NULL CHECK(since_seq>=0),
  public_key BLOB NOT NULL CHECK(length(public_key)=32), PRIMARY KEY(kiosk, since_seq)) STRICT, WITHOUT ROWID;
CREATE TRIGGER sign_key_no_update BEFORE UPDATE ON sign_key
  BEGIN SELECT RAISE(ABORT, 'sign_key: append only'); END;
CREATE TRIGGER sign_key_no_delete BEFORE DELETE ON sign_key
  BEGIN SELECT RAISE(ABORT, 'sign_key: append only'); END;
)sql";

using Parts = std::map<std::string, std::string>;  // "table journal" -> its text

std::optional<Parts> parts_of(Database& db) {
    Parts parts;
    Statement rows =
        db.prepare("SELECT type, name, tbl_name, coalesce(sql, 'made by SQLite') FROM sqlite_schema");
    while (rows.next()) {
        const auto type = rows.text(0);
        const auto name = rows.text(1);
        if (!type || !name || !rows.text(2) || !rows.text(3)) {
            return std::nullopt;
        }
        parts[*type + " " + *name] = *rows.text(2) + ": " + *rows.text(3);
    }
    if (!rows.done()) {
        return std::nullopt;
    }
    return parts;
}

std::optional<Parts> expected_parts(std::int64_t version) {
    auto memory =
        Database::open("file::memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY);
    if (!memory || !memory->run(schema_text(version).c_str())) {
        return std::nullopt;
    }
    return parts_of(*memory);
}

}  // namespace

std::string schema_text(std::int64_t version) {
    std::string text{version_1};
    text += version < 2 ? "" : version_2;
    return text;
}

std::string migration_to_2() {
    std::string text{version_2};
    text +=
        "INSERT INTO sign_key(kiosk, since_seq, public_key) SELECT n, 0, sign_key FROM kiosk;"
        "PRAGMA user_version=2;";
    return text;
}

std::vector<std::string> schema_differences(Database& db) {
    const auto wanted = expected_parts(db.first_number("PRAGMA user_version").value_or(schema_version));
    const auto there = parts_of(db);
    if (!wanted || !there) {
        return {"The list of tables in brimline.db cannot be read."};
    }
    std::vector<std::string> sentences;
    for (const auto& [name, text] : *wanted) {
        const auto found = there->find(name);
        if (found == there->end()) {
            sentences.push_back("The " + name + " is missing in brimline.db.");
        } else if (found->second != text) {
            sentences.push_back("The " + name + " in brimline.db is not as Brimline made it.");
        }
    }
    for (const auto& [name, text] : *there) {
        if (!wanted->contains(name)) {
            sentences.push_back("The " + name + " in brimline.db was not made by Brimline.");
        }
    }
    return sentences;
}

}  // namespace brimline::store
