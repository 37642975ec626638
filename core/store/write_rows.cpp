// Writing rows of every table inside a transaction.
#include "core/store/write_rows.h"

#include "core/store/rows.h"
#include "core/store/seal.h"

namespace brimline::store {

tl::unexpected<AppendFault> refused(const std::string& why) {
    return tl::unexpected{AppendFault{Failure::refused, "This was not written: " + why}};
}

tl::unexpected<AppendFault> pending(const Trouble& trouble) {
    return tl::unexpected{
        AppendFault{Failure::pending, "The tablet cannot save: " + words_for(trouble) + "."}};
}

tl::unexpected<AppendFault> fault_of(const Trouble& trouble) {
    const int kind = trouble.code & 0xff;
    if (kind == SQLITE_CONSTRAINT || kind == SQLITE_MISMATCH || kind == SQLITE_TOOBIG) {
        return refused(trouble.text + ".");
    }
    return pending(trouble);
}

Step ran(Statement& statement) {
    if (const auto run = statement.run(); !run) {
        return fault_of(run.error());
    }
    return {};
}

namespace {

/// Fills number, case number and previous hash from what the transaction sees.
Step place(Database& db, StoredEvent& event, Hash32& before) {
    Statement& last = db.cached("SELECT coalesce(max(seq), 0) FROM journal WHERE kiosk = 1");
    const auto seq = last.next() ? last.integer(0) : std::nullopt;
    if (!seq) {
        return pending(last.trouble());
    }
    last.reset();
    Statement& row =
        db.cached("SELECT case_seq, hash FROM journal WHERE case_id = ? ORDER BY case_seq DESC LIMIT 1");
    row.bind(event.case_id);
    std::int64_t case_seq = 0;
    before = Hash32{};
    if (row.next()) {
        case_seq = row.integer(0).value_or(0);
        if (!row.bytes(1, before)) {
            return pending(Trouble{SQLITE_CORRUPT, {}});
        }
    } else if (!row.done()) {
        return pending(row.trouble());
    }
    row.reset();
    event.seq = *seq + 1;
    event.case_seq = case_seq + 1;
    return {};
}

Step insert_event(Database& db, const StoredEvent& event) {
    Statement& row = db.cached(
        "INSERT INTO journal(kiosk, seq, command, part, parts, case_id, case_seq, utc_us, tick_us, boot, "
        "person, "
        "role, policy, version, kind, payload, hash) VALUES(1, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
        "?)");
    row.bind(event.seq).bind(event.command).bind(event.part).bind(event.parts).bind(event.case_id);
    row.bind(event.case_seq).bind(event.utc.in_us()).bind(event.tick_us).bind(event.boot);
    row.bind(std::string_view{event.person}).bind(std::string_view{event.role}).bind(event.policy);
    row.bind(event.version).bind(std::string_view{event.kind}).bind(std::string_view{event.payload});
    row.bind(event.hash);
    return ran(row);
}

Step write_roles(Database& db, const PersonChange& person) {
    Statement& clear = db.cached("DELETE FROM person_role WHERE person = ?");
    clear.bind(std::string_view{person.id});
    if (Step cleared = ran(clear); !cleared) {
        return cleared;
    }
    for (const std::string& role : person.roles) {
        Statement& row = db.cached("INSERT OR IGNORE INTO person_role(person, role) VALUES(?, ?)");
        row.bind(std::string_view{person.id}).bind(std::string_view{role});
        if (Step put = ran(row); !put) {
            return put;
        }
    }
    return {};
}

Step write_person(Database& db, const PersonChange& person) {
    const std::int64_t active = person.active ? 1 : 0;
    const std::int64_t one_time = person.one_time ? 1 : 0;
    if (person.pin_hash) {
        Statement& row = db.cached(
            "INSERT INTO person(id, name, pin, active, one_time) VALUES(?, ?, ?, ?, ?) ON CONFLICT(id) DO "
            "UPDATE SET "
            "name = excluded.name, pin = excluded.pin, active = excluded.active, one_time = "
            "excluded.one_time, "
            "fails = 0, locked_until_us = NULL");
        row.bind(std::string_view{person.id}).bind(std::string_view{person.name});
        row.bind(std::string_view{*person.pin_hash}).bind(active).bind(one_time);
        if (Step put = ran(row); !put) {
            return put;
        }
        return write_roles(db, person);
    }
    Statement& row = db.cached("UPDATE person SET name = ?, active = ?, one_time = ? WHERE id = ?");
    row.bind(std::string_view{person.name}).bind(active).bind(one_time).bind(std::string_view{person.id});
    if (Step put = ran(row); !put) {
        return put;
    }
    if (db.changes() != 1) {
        return refused("a new person needs a PIN.");
    }
    return write_roles(db, person);
}

Step write_balloon(Database& db, const BalloonRow& balloon) {
    Statement& row = db.cached(
        "INSERT INTO balloon(case_id, patient, hospital_no, volume_dml, placed, due, latest, state, "
        "out_case) "
        "VALUES(?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT(case_id) DO UPDATE SET patient = excluded.patient, "
        "hospital_no = excluded.hospital_no, volume_dml = excluded.volume_dml, placed = excluded.placed, "
        "due = excluded.due, latest = excluded.latest, state = excluded.state, out_case = excluded.out_case");
    row.bind(balloon.case_id)
        .bind(std::string_view{balloon.patient})
        .bind(std::string_view{balloon.hospital_no});
    row.bind(balloon.volume_dml).bind(std::string_view{balloon.placed}).bind(std::string_view{balloon.due});
    row.bind(std::string_view{balloon.latest}).bind(std::string_view{balloon.state});
    if (balloon.out_case) {
        row.bind(*balloon.out_case);
    } else {
        row.bind_null();
    }
    return ran(row);
}

Step note_projection(Database& db, std::int64_t through_seq, std::int64_t code) {
    Statement& row = db.cached(
        "INSERT INTO projection(name, kiosk, through_seq, code_version) VALUES('balloon', 1, ?, ?) "
        "ON CONFLICT(name, kiosk) DO UPDATE SET through_seq = excluded.through_seq, "
        "code_version = excluded.code_version");
    row.bind(through_seq).bind(code);
    return ran(row);
}

Step write_seal(Database& db, const SealRequest& seal, const SignKey* key) {
    Statement& sealed_event = db.cached("SELECT hash FROM journal WHERE case_id = ? AND case_seq = ?");
    sealed_event.bind(seal.case_id).bind(seal.through_case_seq);
    const bool there = sealed_event.next();
    if (!there && !sealed_event.done()) {
        return pending(sealed_event.trouble());  // the disk or memory failed: that says nothing of the event
    }
    Hash32 head{};
    if (!there || !sealed_event.bytes(0, head)) {
        return refused("a seal over an event that is not there.");
    }
    sealed_event.reset();
    if (key == nullptr) {
        return refused("sign.key is not there, so nothing can be sealed.");
    }
    const Hash32 body_hash = blake2b(seal.body);
    const Signature64 signature =
        key->sign(seal_message(seal.number, head, body_hash, seal.through_case_seq));
    Statement& row = db.cached(
        "INSERT INTO sealed(number, case_id, addendum, through_case_seq, head, body, body_hash, kiosk, "
        "signature) "
        "VALUES(?, ?, ?, ?, ?, ?, ?, 1, ?)");
    const std::span<const std::uint8_t> body{reinterpret_cast<const std::uint8_t*>(seal.body.data()),
                                             seal.body.size()};
    row.bind(std::string_view{seal.number})
        .bind(seal.case_id)
        .bind(seal.addendum)
        .bind(seal.through_case_seq);
    row.bind(head).bind(body).bind(body_hash).bind(signature);
    return ran(row);
}

Step write_key(Database& db, const Key32& key, std::int64_t since_seq) {
    Statement& row = db.cached("INSERT INTO sign_key(kiosk, since_seq, public_key) VALUES(1, ?, ?)");
    row.bind(since_seq).bind(key);
    return ran(row);
}

tl::expected<Receipt, AppendFault> write_events(Database& db, const Batch& batch, const Id16& kiosk_id,
                                                ChainHasher& hasher) {
    Receipt receipt;
    for (std::size_t part = 0; part < batch.events.size(); ++part) {
        StoredEvent event;
        static_cast<NewEvent&>(event) = batch.events[part];
        event.kiosk_id = kiosk_id;
        event.command = batch.command;
        event.part = static_cast<std::int64_t>(part);
        event.parts = static_cast<std::int64_t>(batch.events.size());
        Hash32 before{};
        if (const Step placed = place(db, event, before); !placed) {
            return tl::unexpected{placed.error()};
        }
        event.hash = hasher.of(before, event);
        if (const Step put = insert_event(db, event); !put) {
            return tl::unexpected{put.error()};
        }
        receipt.seqs.push_back(event.seq);
        receipt.case_seqs.push_back(event.case_seq);
        receipt.hash = event.hash;
    }
    return receipt;
}

Step write_beside(Database& db, const Batch& batch, const Receipt& receipt, const SignKey* key) {
    Step beside;
    for (auto person = batch.people.begin(); beside && person != batch.people.end(); ++person) {
        beside = write_person(db, *person);
    }
    for (auto balloon = batch.balloons.begin(); beside && balloon != batch.balloons.end(); ++balloon) {
        beside = write_balloon(db, *balloon);
    }
    if (beside && !batch.balloons.empty()) {
        beside = note_projection(db, receipt.seqs.back(), batch.balloon_code);
    }
    if (beside && batch.seal) {
        beside = write_seal(db, *batch.seal, key);
    }
    if (beside && batch.new_key) {
        beside = write_key(db, *batch.new_key, receipt.seqs.back());
    }
    return beside;
}

}  // namespace

tl::expected<Receipt, AppendFault> write_batch(Database& db, const Batch& batch, const Id16& kiosk_id,
                                               const SignKey* key, ChainHasher& hasher) {
    auto receipt = write_events(db, batch, kiosk_id, hasher);
    if (!receipt) {
        return receipt;
    }
    if (const Step beside = write_beside(db, batch, *receipt, key); !beside) {
        return tl::unexpected{beside.error()};
    }
    return receipt;
}

Step replace_balloons(Database& db, const std::vector<BalloonRow>& rows, std::int64_t code) {
    const auto head = read_head(db);
    if (!head) {
        return pending(db.trouble());
    }
    if (Step cleared = ran(db.cached("DELETE FROM balloon")); !cleared) {
        return cleared;
    }
    for (const BalloonRow& balloon : rows) {
        if (Step put = write_balloon(db, balloon); !put) {
            return put;
        }
    }
    return note_projection(db, head->seq, code);
}

}  // namespace brimline::store
