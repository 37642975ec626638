// Reading the journal, signing, and the quiet work between commands.
#include "core/store/connection.h"
#include "core/store/journal_inside.h"
#include "core/store/rows.h"

namespace brimline::store {
namespace {

template <class Row>
Rows<Row> no_answer(const std::string& say) {
    return {{}, {{"disk", file_name, say}}};
}

}  // namespace

Rows<StoredEvent> Journal::events(std::int64_t after_seq, std::int64_t kiosk) {
    if (const auto ready = inside_->ready(); !ready) {
        return no_answer<StoredEvent>(ready.error());
    }
    Statement rows = inside_->db->prepare(
        std::string{select_events} + "WHERE j.seq > ? AND (? = 0 OR j.kiosk = ?) ORDER BY j.kiosk, j.seq");
    rows.bind(after_seq).bind(kiosk).bind(kiosk);
    return read_events(*inside_->db, rows);
}

Rows<StoredEvent> Journal::events_of(const Id16& case_id) {
    if (const auto ready = inside_->ready(); !ready) {
        return no_answer<StoredEvent>(ready.error());
    }
    Statement rows =
        inside_->db->prepare(std::string{select_events} + "WHERE j.case_id = ? ORDER BY j.case_seq");
    rows.bind(case_id);
    return read_events(*inside_->db, rows);
}

std::optional<Kiosk> Journal::kiosk_numbered(std::int64_t n) {
    return inside_->ready() ? read_kiosk(*inside_->db, n) : std::nullopt;
}

std::optional<Head> Journal::head() { return inside_->ready() ? read_head(*inside_->db) : std::nullopt; }

Rows<Person> Journal::people() {
    const auto ready = inside_->ready();
    return ready ? read_people(*inside_->db) : no_answer<Person>(ready.error());
}

Rows<BalloonRow> Journal::balloons() {
    const auto ready = inside_->ready();
    return ready ? read_balloons(*inside_->db) : no_answer<BalloonRow>(ready.error());
}

Rows<SealedRow> Journal::sealed(const std::optional<Id16>& case_id) {
    const auto ready = inside_->ready();
    return ready ? read_sealed(*inside_->db, case_id) : no_answer<SealedRow>(ready.error());
}

std::optional<std::int64_t> Journal::balloon_code() {
    if (!inside_->ready()) {
        return std::nullopt;
    }
    return inside_->db->first_number(
        "SELECT code_version FROM projection WHERE name = 'balloon' AND kiosk = 1");
}

Rows<KeySince> Journal::keys() {
    const auto ready = inside_->ready();
    return ready ? read_keys(*inside_->db) : no_answer<KeySince>(ready.error());
}

std::optional<Key32> Journal::key_that_sealed(const SealedRow& row) {
    return inside_->ready() ? read_key_of(*inside_->db, row) : std::nullopt;
}

tl::expected<void, std::string> Journal::begin_copy(const std::filesystem::path& file) {
    if (const auto ready = inside_->ready(); !ready) {
        return ready;
    }
    inside_->copy.reset();
    auto begun = PageCopy::begin(*inside_->db, file);
    if (!begun) {
        return tl::unexpected{begun.error()};
    }
    inside_->copy.emplace(std::move(*begun));
    return {};
}

tl::expected<bool, std::string> Journal::copy_some(int pages) {
    if (!inside_->copy) {
        return tl::unexpected{std::string{"The copy was given up: the disk was opened anew."}};
    }
    auto whole = inside_->copy->some(pages);
    if (!whole || *whole) {
        inside_->copy.reset();
    }
    return whole;
}

std::optional<Signature64> Journal::sign(std::string_view bytes) const {
    return inside_->key ? std::optional{inside_->key->sign(bytes)} : std::nullopt;
}

void Journal::Inside::checkpoint(int how) {
    if (read_only || !db) {
        return;
    }
    if (sqlite3_wal_checkpoint_v2(db->handle(), nullptr, how, nullptr, nullptr) != SQLITE_OK) {
        drop();
    }
}

void Journal::idle() { inside_->checkpoint(SQLITE_CHECKPOINT_PASSIVE); }

void Journal::close_day() { inside_->checkpoint(SQLITE_CHECKPOINT_TRUNCATE); }

}  // namespace brimline::store
