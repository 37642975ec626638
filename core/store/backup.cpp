// Making, reading and restoring backups.
#include "core/store/backup.h"

#include <fcntl.h>
#include <sodium.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>

#include "core/store/backup_inside.h"
#include "core/store/checks.h"
#include "core/store/connection.h"
#include "core/store/rows.h"

namespace brimline::store {
namespace {

namespace fs = std::filesystem;
using Kind = BackupFault::Kind;

constexpr std::string_view key_magic{"brimline backup key 1 "};

tl::unexpected<BackupFault> fault(Kind kind, std::string say, std::string next) {
    return tl::unexpected{BackupFault{kind, std::move(say), std::move(next)}};
}
tl::unexpected<BackupFault> disk_fault(const std::string& what, int number) {
    return fault(Kind::disk, what + ": " + words_for_errno(number) + ".",
                 "Check the disk, its space and its owner.");
}
tl::unexpected<BackupFault> fault_of(const OpenFault& open) {
    const bool busy = open.kind == OpenFault::Kind::already_open;
    const bool damaged = open.kind == OpenFault::Kind::damaged;
    return fault(busy ? Kind::in_use : damaged ? Kind::damaged : Kind::disk, open.say, open.next);
}
tl::unexpected<BackupFault> fault_of(VaultFault vault) { return tl::unexpected{backup_fault(vault)}; }

/// All pages of the journal as they stand, the log's included.
tl::expected<std::string, BackupFault> image_of(const fs::path& folder) {
    if (const auto there = must_hold_store(folder); !there) {
        return fault_of(there.error());
    }
    auto lock = FolderLock::reading(folder);
    if (!lock) {
        return fault_of(lock.error());
    }
    auto db = connect_reading(folder, *lock);
    if (!db) {
        return fault_of(db.error());
    }
    sqlite3_int64 size = 0;
    std::unique_ptr<unsigned char, decltype(&sqlite3_free)> image{
        sqlite3_serialize(db->handle(), "main", &size, 0), &sqlite3_free};
    if (!image) {
        return fault(Kind::disk, "The journal cannot be read whole: " + words_for(db->trouble()) + ".",
                     "Run brimline verify.");
    }
    return std::string{reinterpret_cast<const char*>(image.get()), static_cast<std::size_t>(size)};
}

/// An image as a database in memory; `image` must outlive it.
tl::expected<Database, BackupFault> in_memory(std::string& image) {
    constexpr std::size_t write_version =
        18;  // of the file's header; 2 = with a log, which memory has none of
    constexpr std::size_t read_version = 19;
    if (image.size() < 100) {
        return fault(Kind::damaged, "The backup holds no journal.", "Use another backup.");
    }
    image[write_version] = image[read_version] = 1;
    auto db = Database::open("file::memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_MEMORY);
    const auto size = static_cast<sqlite3_int64>(image.size());
    if (!db || sqlite3_deserialize(db->handle(), "main", reinterpret_cast<unsigned char*>(image.data()), size,
                                   size, SQLITE_DESERIALIZE_READONLY) != SQLITE_OK) {
        return fault(Kind::damaged, "The journal in the backup cannot be read.", "Use another backup.");
    }
    return std::move(*db);
}

tl::expected<std::string, BackupFault> opened(const fs::path& file, const BackupSecret& secret) {
    const auto bytes = read_file(file, most_backup_bytes);
    if (!bytes) {
        return disk_fault("The backup " + file.string() + " cannot be read", bytes.error());
    }
    const bool sealed = key_of_vault(*bytes).has_value();
    if (sealed && !secret.key) {
        return fault(Kind::passphrase,
                     "This backup was sealed to a key; a passphrase alone does not open it.",
                     "Name the key's file: --key FILE.");
    }
    auto image = sealed ? open_vault_with(*bytes, *secret.key) : open_vault(*bytes, secret.passphrase);
    if (!image) {
        return fault_of(image.error());
    }
    return std::move(*image);
}

bool is_empty_or_missing(const fs::path& folder) {
    std::error_code ignored;
    return !fs::exists(folder, ignored) ||
           (fs::is_directory(folder, ignored) && fs::is_empty(folder, ignored) && !ignored);
}

/// The tables of the old kiosk into the new one's; its own numbers move up by one, 1 is the new kiosk.
constexpr const char* copy_all = R"sql(
INSERT INTO kiosk SELECT n + 1, id, name, sign_key FROM old.kiosk ORDER BY n;
INSERT INTO journal SELECT kiosk + 1, seq, command, part, parts, case_id, case_seq, utc_us, tick_us, boot, person,
  role, policy, version, kind, payload, hash FROM old.journal ORDER BY kiosk DESC, seq;
INSERT INTO sealed SELECT number, case_id, addendum, through_case_seq, head, body, body_hash, kiosk + 1, signature
  FROM old.sealed;
INSERT INTO person SELECT * FROM old.person;
INSERT INTO person_role SELECT * FROM old.person_role;
INSERT INTO balloon SELECT * FROM old.balloon;
INSERT INTO projection SELECT name, kiosk + 1, through_seq, code_version FROM old.projection;
)sql";
constexpr const char* copy_keys = R"sql(
INSERT INTO sign_key SELECT kiosk + 1, since_seq, public_key FROM old.sign_key;
)sql";
constexpr const char* copy_first_keys = R"sql(
INSERT INTO sign_key SELECT n + 1, 0, sign_key FROM old.kiosk;
)sql";

std::optional<BackupFault> fill(const fs::path& folder, std::string& image) {
    auto db = connect_writing(folder);
    if (!db) {
        return fault_of(db.error()).value();
    }
    // Attached and filled by deserializing, so that the clear journal is in memory only.
    const auto size = static_cast<sqlite3_int64>(image.size());
    const bool attached =
        db->run("ATTACH ':memory:' AS old") &&
        sqlite3_deserialize(db->handle(), "old", reinterpret_cast<unsigned char*>(image.data()), size, size,
                            SQLITE_DESERIALIZE_READONLY) == SQLITE_OK;
    const bool copied =
        attached && db->run("BEGIN") && db->run(copy_all) &&
        db->run(db->first_number("PRAGMA old.user_version") == 1 ? copy_first_keys : copy_keys) &&
        db->run("COMMIT") && db->run("DETACH old") && settle_log(*db, folder);
    if (!copied) {
        return fault(Kind::disk, "The journal cannot be restored: " + words_for(db->trouble()) + ".",
                     "Check the disk and its space.")
            .value();
    }
    return std::nullopt;
}

/// A new folder beside the wanted one, filled and checked.
tl::expected<BackupContent, BackupFault> build(const fs::path& folder, std::string& image,
                                               const OpenOptions& options) {
    if (::mkdir(folder.c_str(), 0700) != 0) {
        return disk_fault("The folder cannot be made", errno);
    }
    if (const auto made = make_store(folder, options); !made) {
        return fault_of(made.error());
    }
    auto memory = in_memory(image);
    if (!memory) {
        return tl::unexpected{memory.error()};
    }
    auto content = check_content(*memory);
    if (!content) {
        return content;
    }
    if (auto wrong = fill(folder, image)) {
        return tl::unexpected{*wrong};
    }
    const int wrong = sync_path(folder);
    return wrong == 0
               ? content
               : tl::expected<BackupContent, BackupFault>{disk_fault("The folder is not on disk", wrong)};
}

}  // namespace

BackupFault backup_fault(VaultFault vault) {
    switch (vault) {
        case VaultFault::not_a_vault:
            return BackupFault{Kind::not_a_backup, "This is no Brimline backup.", "Check the file's name."};
        case VaultFault::newer:
            return BackupFault{Kind::not_a_backup, "A newer version of Brimline wrote this backup.",
                               "Restore it with that version."};
        case VaultFault::cut:
            return BackupFault{Kind::damaged, "The backup is cut off or changed.", "Use another backup."};
        case VaultFault::wrong_key:
            return BackupFault{Kind::passphrase,
                               "The passphrase does not open this backup, or the backup was changed.",
                               "Type the passphrase it was made with; if that is right, use another backup."};
        case VaultFault::memory:
            return BackupFault{Kind::disk,
                               "There is not enough memory for the passphrase (256 MiB are needed).",
                               "Close other programs."};
    }
    std::abort();
}

tl::expected<BackupContent, BackupFault> check_content(Database& db) {
    if (is_newer(db)) {
        return fault(Kind::not_a_backup, "A newer version of Brimline wrote the journal in this backup.",
                     "Restore it with that version.");
    }
    Report report;
    check_header(db, report);
    check_schema(db, report);
    check_file(db, Depth::full, report);
    check_numbers(db, report);
    check_commands(db, report);
    BackupContent content;
    content.events = check_chains(db, true, report).events;
    content.sealed = check_sealed(db, report);
    check_people(db, report);
    const auto findings = report.take();
    const auto kiosk = read_kiosk(db);
    const auto head = read_head(db);
    if (!findings.empty() || !kiosk || !head) {
        return fault(Kind::damaged,
                     findings.empty() ? "The journal in it cannot be read." : findings.front().sentence,
                     "Keep the folder as it is; run brimline verify, or use another backup.");
    }
    content.kiosk = *kiosk;
    content.head = *head;
    return content;
}

std::optional<BackupFault> put_in_place(const fs::path& file, const std::string& vault) {
    if (const auto old = read_file(file, most_backup_bytes); old && !looks_like_vault(*old)) {
        return fault(Kind::disk, "There is another file of this name.", "Choose another name.").value();
    }
    const fs::path part = file.string() + ".part";
    static_cast<void>(::unlink(part.c_str()));
    int wrong = write_new_file(part, vault, 0600);
    const auto back = wrong == 0 ? read_file(part, most_backup_bytes) : tl::unexpected{wrong};
    if (wrong == 0 && (!back || *back != vault)) {
        wrong = EIO;
    }
    if (wrong == 0 && ::rename(part.c_str(), file.c_str()) != 0) {
        wrong = errno;
    }
    if (wrong != 0) {
        static_cast<void>(::unlink(part.c_str()));
        return disk_fault("The backup cannot be written", wrong).value();
    }
    wrong = sync_path(fs::absolute(file).parent_path());
    return wrong == 0 ? std::nullopt
                      : std::optional{disk_fault("The backup cannot be written", wrong).value()};
}

tl::expected<BackupContent, BackupFault> make_backup(const fs::path& folder, const fs::path& file,
                                                     std::string_view passphrase) {
    if (passphrase.empty()) {
        return fault(Kind::passphrase, "A backup needs a passphrase.",
                     "Give one that is kept off the tablet.");
    }
    auto image = image_of(folder);
    if (!image) {
        return tl::unexpected{image.error()};
    }
    auto memory = in_memory(*image);
    auto content = memory ? check_content(*memory) : tl::unexpected{memory.error()};
    if (!content) {
        return content;
    }
    const auto vault = lock_vault(*image, passphrase);
    if (!vault) {
        return fault_of(vault.error());
    }
    const auto again = open_vault(*vault, passphrase);
    if (!again || *again != *image) {
        return fault(Kind::damaged, "The backup does not open again.",
                     "Try again; check the tablet's memory.");
    }
    if (auto wrong = put_in_place(file, *vault)) {
        return tl::unexpected{*wrong};
    }
    return content;
}

tl::expected<BackupContent, BackupFault> look_into_backup(const fs::path& file, const BackupSecret& secret) {
    auto image = opened(file, secret);
    if (!image) {
        return tl::unexpected{image.error()};
    }
    auto memory = in_memory(*image);
    return memory ? check_content(*memory) : tl::unexpected{memory.error()};
}

tl::expected<BackupContent, BackupFault> restore_backup(const fs::path& file, const fs::path& folder,
                                                        const BackupSecret& secret,
                                                        const OpenOptions& options) {
    if (!is_empty_or_missing(folder)) {
        return fault(Kind::not_empty,
                     "The folder " + folder.string() + " is not empty; nothing is ever overwritten.",
                     "Choose an empty folder.");
    }
    auto image = opened(file, secret);
    if (!image) {
        return tl::unexpected{image.error()};
    }
    const fs::path beside = fs::absolute(folder).lexically_normal().string() + ".restoring";
    std::error_code ignored;
    fs::remove_all(beside, ignored);  // left by a restore that was cut off
    fs::create_directories(beside.parent_path(), ignored);
    auto content = build(beside, *image, options);
    if (content && ::rename(beside.c_str(), fs::absolute(folder).lexically_normal().c_str()) != 0) {
        content = disk_fault("The folder cannot take its name", errno);
    }
    if (!content) {
        fs::remove_all(beside, ignored);
        return content;
    }
    if (const int wrong = sync_path(beside.parent_path())) {
        return disk_fault("The folder is not on disk", wrong);
    }
    return content;
}

tl::expected<Key32, BackupFault> make_backup_key(const fs::path& file, std::string_view passphrase) {
    if (passphrase.empty()) {
        return fault(Kind::passphrase, "A key needs a passphrase.", "Give one that is kept off the tablet.");
    }
    KeyPair pair = fresh_key_pair();
    std::string text = std::string{key_magic} + hex(pair.secret);
    const auto vault = lock_vault(text, passphrase);
    sodium_memzero(text.data(), text.size());
    sodium_memzero(pair.secret.data(), pair.secret.size());
    if (!vault) {
        return fault_of(vault.error());
    }
    if (const int wrong = write_new_file(file, *vault, 0600)) {
        return disk_fault("The key cannot be written", wrong);
    }
    return pair.open;
}

tl::expected<Key32, BackupFault> read_backup_key(const fs::path& file, std::string_view passphrase) {
    auto text = opened(file, passphrase);
    if (!text) {
        return tl::unexpected{text.error()};
    }
    const auto secret =
        text->rfind(key_magic, 0) == 0 ? hash_from_hex(text->substr(key_magic.size())) : std::nullopt;
    sodium_memzero(text->data(), text->size());
    if (!secret) {
        return fault(Kind::not_a_backup, "This file holds no key for backups.", "Check the file's name.");
    }
    return *secret;
}

std::optional<LastBackup> last_backup(const fs::path& folder) {
    constexpr std::size_t most = 4096;
    const auto text = read_file(folder / "backup" / "last", most);
    if (!text) {
        return std::nullopt;
    }
    LastBackup last;
    std::int64_t us = 0;
    std::array<char, 65> hash{};
    int name = 0;
    if (std::sscanf(text->c_str(), "%ld %ld %64s %n", &us, &last.head.seq, hash.data(), &name) != 3) {
        return std::nullopt;
    }
    last.at = Instant::of_us(us);
    last.head.hash = hash_from_hex(hash.data()).value_or(Hash32{});
    last.file = text->substr(static_cast<std::size_t>(name));
    return last;
}

int note_backup(const fs::path& folder, const LastBackup& made) {
    const auto where = folder / "backup";
    if (::mkdir(where.c_str(), 0700) != 0 && errno != EEXIST) {
        return errno;
    }
    const auto text = std::to_string(made.at.in_us()) + " " + std::to_string(made.head.seq) + " " +
                      hex(made.head.hash) + " " + made.file;
    const auto fresh = where / "last.new";
    static_cast<void>(::unlink(fresh.c_str()));
    const int wrong = write_new_file(fresh, text, 0600);
    if (wrong != 0) {
        return wrong;
    }
    return ::rename(fresh.c_str(), (where / "last").c_str()) == 0 ? sync_path(where) : errno;
}

}  // namespace brimline::store
