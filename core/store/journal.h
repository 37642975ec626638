// The journal: every event of this tablet, append-only, in one SQLite file with a write-ahead log. One
// process, one connection, one thread at a time. Acknowledged means on disk; what fails its checks is opened
// read-only and nothing repairs itself. It never deletes, never vacuums, and knows nothing of what the events
// mean.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "core/store/event.h"
#include "core/store/finding.h"
#include "core/store/ids.h"

namespace brimline::store {

enum class Mode { read_write, read_only };

/// Why a data folder could not be opened at all.
struct OpenFault {
    enum class Kind {
        already_open,  // another process holds the lock
        missing,       // nothing there, and read-only was asked
        damaged,       // a part is missing or cannot be read
        disk,          // the system refused: permission, space, input or output
    };
    Kind kind{Kind::disk};
    std::string say, next;  // one plain sentence each
};

struct OpenOptions {
    std::string kiosk_name{"T1"};  // given to a new store only
};

struct Kiosk {
    Id16 id{};
    std::string name;
    Key32 public_key{};
    bool operator==(const Kiosk&) const = default;
};

/// What is read is the copy of a running kiosk, not its files.
struct Copied {
    Instant at{};         // when it was made
    bool current{false};  // nothing was acknowledged since
};

/// A key that a kiosk signs with from an entry on (0 = made with its store).
struct KeySince {
    std::int64_t kiosk{1}, since_seq{0};
    Key32 key{};
    bool operator==(const KeySince&) const = default;
};

/// A signing key that was made and is not in force yet: the old one vouches for it.
struct FreshKey {
    Key32 old_key{}, new_key{};
    Signature64 signature{};  // by the old key, over key_message()
};
[[nodiscard]] std::string key_message(const Key32& old_key, const Key32& new_key);

struct Head {
    std::int64_t seq{0};  // 0 = no event yet
    Hash32 hash{};
    bool operator==(const Head&) const = default;
};

/// What was read. With damage, `rows` holds what could still be read.
template <class Row>
struct Rows {
    std::vector<Row> rows;
    std::vector<Finding> damage;
};

class Journal {
public:
    /// Opens a data folder; with read_write makes it (0700) when it is not there. With read_only, while a
    /// kiosk holds the folder, the copy that it made: see copied(). Shape:  a newer version or failed checks
    /// give a journal that is read_only(), with why and damage() filled.
    ///         read_only changes no file, also after a crash.
    /// Errors: OpenFault; its sentence is for people.
    [[nodiscard]] static tl::expected<Journal, OpenFault> open(const std::filesystem::path& folder, Mode mode,
                                                               const OpenOptions& options = {});
    Journal(Journal&&) noexcept;
    Journal& operator=(Journal&&) noexcept;
    ~Journal();  // closes: folds the write-ahead log into the file

    [[nodiscard]] bool read_only() const;
    /// Why it takes nothing although read_write was asked, and what to do; empty otherwise.
    [[nodiscard]] const std::string& why_read_only() const;
    /// What the checks at opening found.
    [[nodiscard]] const std::vector<Finding>& damage() const;
    /// What is wrong beside the journal although every event is safe (the mark cannot be written); else
    /// empty.
    [[nodiscard]] const std::string& warning() const;
    [[nodiscard]] const std::filesystem::path& folder() const;
    [[nodiscard]] const Kiosk& kiosk() const;
    /// A kiosk by its local number: 1 is this one, others came with a restored backup. Empty when there is
    /// none.
    [[nodiscard]] std::optional<Kiosk> kiosk_numbered(std::int64_t n);

    /// Set when this is the copy of a running kiosk.
    [[nodiscard]] const std::optional<Copied>& copied() const;

    /// Writes one command whole. Durable when it returns a receipt; a command id that is there already is not
    /// written again (other events under the same id are refused).
    [[nodiscard]] tl::expected<Receipt, AppendFault> append(const Batch& batch);

    /// This kiosk's events after a number, in order; `kiosk` = 0 for those of all kiosks.
    [[nodiscard]] Rows<StoredEvent> events(std::int64_t after_seq = 0, std::int64_t kiosk = 1);
    /// The events of one case in its order.
    [[nodiscard]] Rows<StoredEvent> events_of(const Id16& case_id);
    /// This kiosk's last event. Empty when the disk does not answer.
    [[nodiscard]] std::optional<Head> head();
    [[nodiscard]] Rows<Person> people();
    [[nodiscard]] Rows<BalloonRow> balloons();
    /// Sealed records: of one case by addendum, or all by number.
    [[nodiscard]] Rows<SealedRow> sealed(const std::optional<Id16>& case_id = std::nullopt);
    /// The code version that made the register's rows; empty when there are none.
    [[nodiscard]] std::optional<std::int64_t> balloon_code();
    /// Drops the register's rows and writes these: a projection made anew from the events.
    [[nodiscard]] tl::expected<void, AppendFault> rebuild_balloons(const std::vector<BalloonRow>& rows,
                                                                   std::int64_t code);
    /// Keeps a person's wrong tries; on disk when it returns. The rules are in pins.h.
    [[nodiscard]] tl::expected<void, AppendFault> keep_tries(const std::string& person, std::int64_t fails,
                                                             std::optional<Instant> locked_until);

    /// Every key that signed here or came with a backup.
    [[nodiscard]] Rows<KeySince> keys();
    /// The key that signed a sealed record; empty when none of its kiosk's does.
    [[nodiscard]] std::optional<Key32> key_that_sealed(const SealedRow& row);
    /// Makes another signing key beside the present one. It is in force once a batch with its public half as
    /// `new_key` is on disk; a key that no batch took is thrown away at the next opening. Errors: a sentence.
    [[nodiscard]] tl::expected<FreshKey, std::string> fresh_key();
    /// Begins to copy every page into a new file (0600) that only this journal fills; an earlier copy under
    /// way is given up. What is appended meanwhile is in it. Errors: a sentence.
    [[nodiscard]] tl::expected<void, std::string> begin_copy(const std::filesystem::path& file);
    /// Copies so many pages more; true when the copy is whole and closed (not synced). Errors: a sentence;
    /// the copy is then given up.
    [[nodiscard]] tl::expected<bool, std::string> copy_some(int pages);

    /// Ed25519 with this kiosk's key. Empty when sign.key is not there.
    [[nodiscard]] std::optional<Signature64> sign(std::string_view bytes) const;

    /// Idle for some seconds, after a seal or the end of a case: moves the log into the file. Never an error:
    /// what the disk refuses now is met again, and told, at the next append.
    void idle();
    /// The day is closed: as idle(), and the log starts from nothing.
    void close_day();

private:
    struct Inside;
    explicit Journal(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> inside_;
};

/// Whether the signature is that key's over these bytes. Source: RFC 8032.
[[nodiscard]] bool signature_holds(std::string_view bytes, const Signature64& signature,
                                   const Key32& public_key);

}  // namespace brimline::store
