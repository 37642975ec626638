// The checks at opening and in verify.
#include "core/store/checks.h"

#include <sodium.h>

#include <algorithm>
#include <cerrno>
#include <sstream>

#include "core/store/connection.h"
#include "core/store/mark.h"
#include "core/store/rows.h"
#include "core/store/schema.h"
#include "core/store/seal.h"
#include "core/store/sign_key.h"

namespace brimline::store {
namespace {

void add_all(Report& report, const std::vector<Finding>& findings) {
    for (const Finding& finding : findings) {
        report.add(finding.what, finding.where, finding.sentence);
    }
}

/// SQLite tells several things at once, under a heading of its own: one sentence each.
void add_lines(Report& report, const std::string& lines) {
    std::istringstream all{lines};
    for (std::string line; std::getline(all, line);) {
        if (line.rfind("***", 0) != 0) {
            report.add("file", file_name, "brimline.db is damaged: " + line + ".");
        }
    }
}

std::string span_words(std::int64_t from, std::int64_t to) {
    return from == to ? "Number " + std::to_string(from) + " is missing"
                      : "Numbers " + std::to_string(from) + " to " + std::to_string(to) + " are missing";
}

}  // namespace

void Report::add(std::string what, std::string where, std::string sentence) {
    if (findings_.size() >= most) {
        ++left_out_;
        return;
    }
    findings_.push_back({std::move(what), std::move(where), std::move(sentence)});
}

std::string Report::name(const Id16& case_id) const {
    std::string name = case_name_ ? case_name_(case_id) : std::string{};
    return name.empty() ? hex(case_id).substr(0, 8) : name;
}

std::vector<Finding> Report::take() {
    if (left_out_ > 0) {
        findings_.push_back({"more", file_name, "And " + std::to_string(left_out_) + " more findings."});
        left_out_ = 0;
    }
    return std::move(findings_);
}

bool is_older(Database& db) {
    return db.first_number("PRAGMA user_version").value_or(schema_version) < schema_version;
}

bool is_newer(Database& db) { return db.first_number("PRAGMA user_version").value_or(0) > schema_version; }

void check_header(Database& db, Report& report) {
    if (db.first_number("PRAGMA application_id") != application_id) {
        report.add("header", file_name,
                   "brimline.db does not carry Brimline's mark: it is damaged or not a journal.");
    }
    const auto version = db.first_number("PRAGMA user_version");
    if (!version || *version < oldest_version) {
        report.add("header", file_name, "brimline.db names a version that never was.");
    }
}

void check_schema(Database& db, Report& report) {
    for (const std::string& sentence : schema_differences(db)) {
        report.add("schema", file_name, sentence);
    }
}

void check_file(Database& db, Depth depth, Report& report) {
    Statement rows = db.prepare(depth == Depth::full ? "PRAGMA integrity_check" : "PRAGMA quick_check");
    while (rows.next()) {
        const std::string line = rows.text(0).value_or("a line that cannot be read");
        if (line != "ok") {
            add_lines(report, line);
        }
    }
    if (!rows.done()) {
        report.add("file", file_name, "Checking the file broke off: " + words_for(rows.trouble()) + ".");
    }
    if (depth == Depth::quick) {
        return;
    }
    Statement strays = db.prepare("PRAGMA foreign_key_check");
    while (strays.next()) {
        const std::string table = strays.text(0).value_or("?");
        report.add("file", table, "A row of the table " + table + " points to a row that is not there.");
    }
}

void check_length(Database& db, const std::filesystem::path& folder, Report& report) {
    const auto pages = db.first_number("PRAGMA page_count");
    const auto page = db.first_number("PRAGMA page_size");
    const auto length = file_size_of(folder / file_name);
    if (!log_has_content(folder) && (!pages || !page || length != *pages * *page)) {
        report.add("file", file_name,
                   "brimline.db is not as long as it says: its end was cut off or added to.");
    }
}

void check_numbers(Database& db, Report& report) {
    Statement rows = db.prepare("SELECT kiosk, seq FROM journal ORDER BY kiosk, seq");
    std::int64_t kiosk = 0;
    std::int64_t last = 0;
    while (rows.next()) {
        const auto k = rows.integer(0);
        const auto seq = rows.integer(1);
        if (!k || !seq) {
            report.add("row", "journal", "An event's number cannot be read.");
            continue;
        }
        if (*k != kiosk) {
            kiosk = *k;
            last = 0;
        }
        if (*seq > last + 1) {
            report.add("missing-number", "kiosk " + std::to_string(kiosk),
                       span_words(last + 1, *seq - 1) + " in the journal.");
        } else if (*seq <= last) {
            report.add("order", "kiosk " + std::to_string(kiosk),
                       "Number " + std::to_string(*seq) + " stands in the wrong place.");
        }
        last = *seq;
    }
    if (!rows.done()) {
        report.add("read", "journal", "Reading the numbers broke off: " + words_for(rows.trouble()) + ".");
    }
}

void check_commands(Database& db, Report& report) {
    Statement rows = db.prepare(
        "SELECT min(seq), count(*), min(parts) FROM journal GROUP BY command "
        "HAVING count(*) <> min(parts) OR min(parts) <> max(parts) OR min(part) <> 0 OR max(part) <> "
        "max(parts) - 1 "
        "OR min(kiosk) <> max(kiosk) OR max(seq) - min(seq) + 1 <> count(*)");
    while (rows.next()) {
        const std::string seq = std::to_string(rows.integer(0).value_or(0));
        report.add("parts", "number " + seq,
                   "The command that begins with number " + seq +
                       " is not whole: " + std::to_string(rows.integer(1).value_or(0)) + " of " +
                       std::to_string(rows.integer(2).value_or(0)) + " parts are there or out of order.");
    }
    if (!rows.done()) {
        report.add("read", "journal", "Reading the commands broke off: " + words_for(rows.trouble()) + ".");
    }
}

void check_mark(Database& db, const std::filesystem::path& folder, Report& report, bool copy) {
    const auto head = read_head(db);
    if (!head) {
        report.add("read", "journal", "The end of the journal cannot be read.");
        return;
    }
    const MarkRead mark = read_mark(folder);
    if (mark.slots.empty() && head->seq > 0) {
        report.add(
            "mark", mark_name,
            std::string{"Acknowledged events may be missing: brimline.mark, which tells the last one, "} +
                (mark.there ? "cannot be read." : "is not there."));
    }
    for (const Head& slot : mark.slots) {
        if (slot.seq > head->seq && copy) {
            continue;
        }
        if (slot.seq > head->seq) {
            report.add("mark", "number " + std::to_string(slot.seq),
                       "Acknowledged events are missing: number " + std::to_string(slot.seq) +
                           " was acknowledged, and the journal ends at " + std::to_string(head->seq) + ".");
            continue;
        }
        Statement row = db.prepare("SELECT hash FROM journal WHERE kiosk = 1 AND seq = ?");
        row.bind(slot.seq);
        Hash32 hash{};
        const bool there = slot.seq == 0 || (row.next() && row.bytes(0, hash));
        if (!there || hash != slot.hash) {
            report.add("mark", "number " + std::to_string(slot.seq),
                       "Number " + std::to_string(slot.seq) + " is not the event that was acknowledged.");
        }
    }
}

void check_key(Database& db, const std::filesystem::path& folder, Report& report) {
    const auto kiosk = read_kiosk(db);
    if (!kiosk) {
        report.add("row", "kiosk", "The row that names this kiosk cannot be read.");
        return;
    }
    const auto keys = read_keys(db);
    add_all(report, keys.damage);
    Statement first = db.prepare(
        "SELECT count(*) FROM kiosk WHERE sign_key NOT IN (SELECT public_key FROM sign_key "
        "WHERE sign_key.kiosk = kiosk.n AND since_seq = 0)");
    if (!is_older(db) && !(first.next() && first.integer(0) == 0)) {
        report.add("key", "sign_key",
                   "The list of signing keys does not begin with the key made with the store.");
    }
    const auto next = SignKey::load(folder, next_key_name);
    if (next && next->public_key() == kiosk->public_key) {
        return;  // put in force and not yet under its name
    }
    const auto key = SignKey::load(folder);
    if (!key && (key.error() == EACCES || key.error() == EPERM)) {
        return;  // another user's copy is looked at: the key is not ours to read
    }
    if (!key) {
        report.add("key", key_name, "sign.key is missing or damaged: nothing can be sealed on this tablet.");
    } else if (key->public_key() != kiosk->public_key) {
        report.add("key", key_name, "sign.key is not the key of this kiosk.");
    }
}

std::int64_t check_sealed(Database& db, Report& report) {
    const Rows<SealedRow> sealed = read_sealed(db, std::nullopt);
    add_all(report, sealed.damage);
    for (const SealedRow& row : sealed.rows) {
        const auto kiosk = read_kiosk(db, row.kiosk);
        const auto head = read_hash(db, row.case_id, row.through_case_seq);
        if (!kiosk || !head) {
            report.add("seal", row.number,
                       "Record " + row.number + " is sealed over an event or by a kiosk that is not there.");
            continue;
        }
        switch (check_seal(row, read_key_of(db, row).value_or(kiosk->public_key), *head)) {
            case SealState::holds:
                break;
            case SealState::body_changed:
                report.add("seal", row.number, "Record " + row.number + " was changed after it was sealed.");
                break;
            case SealState::signature_wrong:
                report.add("seal", row.number, "The signature of record " + row.number + " does not hold.");
                break;
            case SealState::head_differs:
                report.add(
                    "seal", row.number,
                    "Record " + row.number + " was sealed over other events than the journal holds now.");
                break;
        }
    }
    Statement gaps = db.prepare(
        "SELECT case_id, count(*) FROM sealed GROUP BY case_id "
        "HAVING min(addendum) <> 0 OR max(addendum) <> count(*) - 1");
    while (gaps.next()) {
        Id16 id{};
        report.add("seal", gaps.bytes(0, id) ? hex(id) : "sealed",
                   "A sealed record or addendum of case " + report.name(id) + " is missing.");
    }
    return static_cast<std::int64_t>(sealed.rows.size());
}

void check_people(Database& db, Report& report) {
    const Rows<Person> people = read_people(db);
    add_all(report, people.damage);
    for (const Person& person : people.rows) {
        const bool has_form =
            person.pin_hash.size() < crypto_pwhash_STRBYTES &&
            crypto_pwhash_str_needs_rehash(person.pin_hash.c_str(), crypto_pwhash_OPSLIMIT_INTERACTIVE,
                                           crypto_pwhash_MEMLIMIT_INTERACTIVE) == 0;
        if (!has_form) {
            report.add("pin", person.id, "The PIN kept for " + person.id + " is damaged.");
        }
        if (person.fails < 0) {
            report.add("pin", person.id, "The count of wrong PINs of " + person.id + " is damaged.");
        }
    }
}

}  // namespace brimline::store
