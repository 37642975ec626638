// Append: one command, one transaction, durable before it is acknowledged. A failed commit says nothing about
// the disk: the connection is given up, opened anew, and the command id looked for before it is tried once
// more.
#include <new>
#include <nlohmann/json.hpp>

#include "core/store/journal_inside.h"
#include "core/store/write_rows.h"

namespace brimline::store {
namespace {

/// What is wrong with the form of a batch, before the disk is asked; empty when nothing is.
std::string form_fault(const Batch& batch) {
    if (batch.events.empty()) {
        return "a command without an event.";
    }
    for (const NewEvent& event : batch.events) {
        if (event.kind.empty() || event.person.empty() || event.role.empty()) {
            return "an event without kind, person or role.";
        }
        if (event.tick_us < 0) {
            return "an event with a negative tick.";
        }
        if (!nlohmann::json::accept(event.payload)) {
            return "the payload of " + event.kind + " is not well-formed JSON.";
        }
    }
    return {};
}

/// The command as an earlier try left it; empty when it is not there.
tl::expected<std::optional<Receipt>, AppendFault> find(Database& db, const Batch& batch) {
    Statement& rows = db.cached(
        "SELECT seq, case_seq, parts, kind, payload, case_id, hash FROM journal WHERE command = ? "
        "ORDER BY part");
    rows.bind(batch.command);
    Receipt receipt{.already_there = true};
    bool same = true;
    while (rows.next()) {
        const std::size_t part = receipt.seqs.size();
        receipt.seqs.push_back(rows.integer(0).value_or(0));
        receipt.case_seqs.push_back(rows.integer(1).value_or(0));
        Id16 case_id{};
        same = same && part < batch.events.size() && rows.bytes(5, case_id) && rows.bytes(6, receipt.hash) &&
               rows.integer(2) == static_cast<std::int64_t>(batch.events.size()) &&
               rows.text(3) == batch.events[part].kind && rows.text(4) == batch.events[part].payload &&
               case_id == batch.events[part].case_id;
    }
    if (!rows.done()) {
        const Trouble trouble = rows.trouble();
        rows.reset();
        return pending(trouble);
    }
    rows.reset();
    if (receipt.seqs.empty()) {
        return std::optional<Receipt>{};
    }
    if (!same || receipt.seqs.size() != batch.events.size()) {
        return refused("its command id was used for other events.");
    }
    return std::optional{receipt};
}

/// The sentence, or nothing when there is no memory even for that.
std::string without_memory() {
    try {
        return "The tablet cannot save: there is not enough memory. Use paper; keep the count.";
    } catch (const std::bad_alloc&) {
        return {};
    }
}

/// Undoes a transaction whose change was refused. False when even that failed: the connection is then given
/// up.
bool undo(Database& db) {
    return sqlite3_get_autocommit(db.handle()) != 0 || db.cached("ROLLBACK").run().has_value();
}

}  // namespace

tl::expected<Receipt, AppendFault> Journal::Inside::attempt(const Batch& batch) {
    const auto found = find(*db, batch);
    if (!found) {
        return tl::unexpected{found.error()};
    }
    if (*found) {
        return **found;
    }
    if (const Step begun = ran(db->cached("BEGIN IMMEDIATE")); !begun) {
        return tl::unexpected{begun.error()};
    }
    auto receipt = write_batch(*db, batch, kiosk.id, key ? &*key : nullptr, hasher);
    if (!receipt) {
        if (receipt.error().kind == Failure::refused && !undo(*db)) {
            drop();
        }
        return receipt;
    }
    if (const Step committed = ran(db->cached("COMMIT")); !committed) {
        // Whatever the code says: after a failed commit only the file can tell.
        return tl::unexpected{AppendFault{Failure::pending, committed.error().say}};
    }
    return receipt;
}

tl::expected<Receipt, AppendFault> Journal::append(const Batch& batch) {
    try {
        return inside_->append(batch);
    } catch (const std::bad_alloc&) {
        inside_->drop();  // what it was doing is undone with the connection; the next try looks first
        return tl::unexpected{AppendFault{Failure::pending, without_memory()}};
    }
}

tl::expected<Receipt, AppendFault> Journal::Inside::append(const Batch& batch) {
    if (read_only) {
        return refused("the journal is open for reading only. " + why);
    }
    if (const std::string wrong = form_fault(batch); !wrong.empty()) {
        return refused(wrong);
    }
    std::string say;
    for (int tries = 0; tries < 2; ++tries) {
        if (const auto opened = ready(); !opened) {
            say = opened.error();
            break;
        }
        auto receipt = attempt(batch);
        if (receipt) {
            if (!receipt->already_there) {
                write_mark({receipt->seqs.back(), receipt->hash});
            }
            if (batch.new_key) {
                kiosk.public_key = *batch.new_key;
                settle_keys();
            }
            return receipt;
        }
        if (receipt.error().kind == Failure::refused) {
            return receipt;
        }
        say = receipt.error().say;
        drop();
    }
    return tl::unexpected{AppendFault{Failure::pending, say + " Use paper; keep the count."}};
}

template <class Change>
Step Journal::Inside::change_tables(Change change) {
    if (read_only) {
        return refused("the journal is open for reading only. " + why);
    }
    std::string say;
    for (int tries = 0; tries < 2; ++tries) {
        if (const auto opened = ready(); !opened) {
            say = opened.error();
            break;
        }
        Step done = ran(db->cached("BEGIN IMMEDIATE"));
        if (done) {
            done = change(*db);
        }
        if (done) {
            done = ran(db->cached("COMMIT"));
        }
        if (done) {
            return done;
        }
        if (done.error().kind == Failure::refused && undo(*db)) {
            return done;
        }
        say = done.error().say;
        drop();
    }
    return tl::unexpected{AppendFault{Failure::pending, say}};
}

tl::expected<void, AppendFault> Journal::keep_tries(const std::string& person, std::int64_t fails,
                                                    std::optional<Instant> locked_until) {
    return inside_->change_tables([&](Database& db) -> Step {
        Statement& row = db.cached("UPDATE person SET fails = ?, locked_until_us = ? WHERE id = ?");
        row.bind(fails);
        if (locked_until) {
            row.bind(locked_until->in_us());
        } else {
            row.bind_null();
        }
        row.bind(std::string_view{person});
        if (Step put = ran(row); !put) {
            return put;
        }
        return db.changes() == 1 ? Step{} : Step{refused("there is no such person.")};
    });
}

tl::expected<void, AppendFault> Journal::rebuild_balloons(const std::vector<BalloonRow>& rows,
                                                          std::int64_t code) {
    return inside_->change_tables([&](Database& db) { return replace_balloons(db, rows, code); });
}

}  // namespace brimline::store
