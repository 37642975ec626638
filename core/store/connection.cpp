// Opening the one connection with the settings that durability needs.
#include "core/store/connection.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>

#include "core/store/copies.h"
#include "core/store/mark.h"
#include "core/store/rows.h"
#include "core/store/schema.h"
#include "core/store/sign_key.h"

namespace brimline::store {
namespace {

namespace fs = std::filesystem;

OpenFault disk_fault(const std::string& what, const std::string& why) {
    return {OpenFault::Kind::disk, what + ": " + why + ".",
            "Check the disk, its space and who owns the folder."};
}

OpenFault fault_of(const Trouble& trouble) {
    const int kind = trouble.code & 0xff;
    if (kind == SQLITE_CORRUPT || kind == SQLITE_NOTADB || kind == SQLITE_FORMAT) {
        return {OpenFault::Kind::damaged, "The journal cannot be read: " + words_for(trouble) + ".",
                "Restore the newest backup into an empty folder, or call for help."};
    }
    if (kind == SQLITE_BUSY || kind == SQLITE_LOCKED) {
        return {OpenFault::Kind::already_open, "Another program has the journal open.", "Close it first."};
    }
    return disk_fault("The journal cannot be opened", words_for(trouble));
}

/// Runs `PRAGMA name=value` and checks that asking for it answers `want`.
bool set(Database& db, const std::string& name, const std::string& value, const std::string& want) {
    Statement change = db.prepare("PRAGMA " + name + "=" + value);
    return change.run() && db.first("PRAGMA " + name) == want;
}

bool set_for_both(Database& db) {
    return db.configure(SQLITE_DBCONFIG_DEFENSIVE, true) &&
           db.configure(SQLITE_DBCONFIG_TRUSTED_SCHEMA, false) &&
           set(db, "locking_mode", "EXCLUSIVE", "exclusive") && set(db, "cell_size_check", "ON", "1") &&
           set(db, "temp_store", "MEMORY", "2") && db.run("PRAGMA mmap_size=0");
}

bool set_for_writing(Database& db) {
    return set(db, "journal_mode", "WAL", "wal") && set(db, "synchronous", "FULL", "2") &&
           set(db, "foreign_keys", "ON", "1") && set(db, "recursive_triggers", "ON", "1") &&
           set(db, "trusted_schema", "OFF", "0") && set(db, "wal_autocheckpoint", "1000", "1000");
}

tl::expected<void, OpenFault> check_no_stray_journal(const fs::path& folder) {
    if (file_size_of(folder / "brimline.db-journal").value_or(0) > 0) {
        return tl::unexpected{OpenFault{OpenFault::Kind::damaged,
                                        "There is a file brimline.db-journal that Brimline never makes.",
                                        "Nothing was changed. Call for help before you remove it."}};
    }
    return {};
}

tl::expected<void, OpenFault> fill_new_file(const fs::path& path, const SignKey& key,
                                            const OpenOptions& options) {
    auto db = Database::open(uri_of(path, ""), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
    if (!db) {
        return tl::unexpected{fault_of(db.error())};
    }
    const Id16 id = SystemChance{}.id();
    const std::string begin =
        "PRAGMA synchronous=FULL; BEGIN; PRAGMA application_id=" + std::to_string(application_id) +
        "; PRAGMA user_version=" + std::to_string(schema_version) + ";";
    if (!db->run(begin.c_str()) || !db->run(schema_text().c_str())) {
        return tl::unexpected{fault_of(db->trouble())};
    }
    Statement row = db->prepare("INSERT INTO kiosk(n, id, name, sign_key) VALUES(1, ?, ?, ?)");
    row.bind(id).bind(std::string_view{options.kiosk_name}).bind(key.public_key());
    if (const auto put = row.run(); !put) {
        return tl::unexpected{fault_of(put.error())};
    }
    Statement first = db->prepare("INSERT INTO sign_key(kiosk, since_seq, public_key) VALUES(1, 0, ?)");
    first.bind(key.public_key());
    if (const auto put = first.run(); !put) {
        return tl::unexpected{fault_of(put.error())};
    }
    if (!db->run("COMMIT") || !set(*db, "journal_mode", "WAL", "wal")) {
        return tl::unexpected{fault_of(db->trouble())};
    }
    return {};
}

bool is_there(const fs::path& path) {
    struct stat about {};
    return ::lstat(path.c_str(), &about) == 0;
}

}  // namespace

std::string uri_of(const fs::path& path, const std::string& query) {
    std::string uri{"file:"};
    for (const char c : path.string()) {
        if (c == '%' || c == '?' || c == '#') {
            const auto byte = static_cast<std::uint8_t>(c);
            uri += "%" + hex({&byte, 1});
        } else {
            uri += c;
        }
    }
    return uri + query;
}

tl::expected<bool, OpenFault> holds_store(const fs::path& folder) {
    if (is_there(folder / file_name)) {
        return true;
    }
    const MarkRead mark = read_mark(folder);
    const Head* newest = mark.newest();
    const bool key = is_there(folder / key_name);
    if (!is_there(folder / log_name) && (newest != nullptr ? newest->seq == 0 : !key)) {
        return false;
    }
    return tl::unexpected{OpenFault{OpenFault::Kind::damaged,
                                    "The journal brimline.db is missing in a folder that held one.",
                                    "Restore the newest backup into an empty folder, or call for help."}};
}

tl::expected<void, OpenFault> must_hold_store(const fs::path& folder) {
    const auto there = is_there(folder) ? holds_store(folder) : false;
    if (!there) {
        return tl::unexpected{there.error()};
    }
    if (!*there) {
        return tl::unexpected{OpenFault{OpenFault::Kind::missing,
                                        "There is no journal in " + folder.string() + ".",
                                        "Check --data, or start the kiosk once."}};
    }
    return {};
}

bool log_has_content(const fs::path& folder) { return file_size_of(folder / log_name).value_or(0) > 0; }

tl::expected<FolderLock, OpenFault> lock_to_read(const fs::path& folder) {
    auto lock = FolderLock::reading(folder);
    const bool held = !lock && lock.error().kind == OpenFault::Kind::already_open;
    if (held && is_there(reading_folder(folder) / file_name)) {
        return FolderLock::of_copy();
    }
    return lock;
}

Copied copied_at(const fs::path& folder) {
    struct stat about {};
    const auto file = reading_folder(folder) / file_name;
    if (::stat(file.c_str(), &about) != 0) {
        return {};
    }
    return {Instant::of_us(about.st_mtim.tv_sec * 1'000'000 + about.st_mtim.tv_nsec / 1000), false};
}

bool is_current(Database& copy, const fs::path& live) {
    const MarkRead mark = read_mark(live);
    const auto head = read_head(copy);
    return head && (mark.newest() == nullptr || mark.newest()->seq <= head->seq);
}

tl::expected<Database, OpenFault> connect_reading(const fs::path& folder, FolderLock& lock) {
    if (const auto clean = check_no_stray_journal(folder); !clean) {
        return tl::unexpected{clean.error()};
    }
    const bool log = log_has_content(folder);
    if (log && (::access(folder.c_str(), W_OK) != 0 || ::access((folder / file_name).c_str(), W_OK) != 0)) {
        return tl::unexpected{
            OpenFault{OpenFault::Kind::disk,
                      "The newest events are still in brimline.db-wal, and SQLite reads that only "
                      "in a folder that may be written.",
                      "Copy the whole folder to a place where you may write, and read it there."}};
    }
    if (log) {
        if (const auto alone = lock.become_alone(); !alone) {
            return tl::unexpected{alone.error()};
        }
    }
    auto db = Database::open(uri_of(folder / file_name, log ? "?mode=rw" : "?immutable=1"),
                             log ? SQLITE_OPEN_READWRITE : SQLITE_OPEN_READONLY);
    if (!db) {
        return tl::unexpected{fault_of(db.error())};
    }
    if (!db->configure(SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true) || !set_for_both(*db) ||
        !set(*db, "query_only", "ON", "1")) {
        return tl::unexpected{fault_of(db->trouble())};
    }
    if (!db->first("SELECT count(*) FROM sqlite_schema")) {
        return tl::unexpected{fault_of(db->trouble())};
    }
    return std::move(*db);
}

tl::expected<Database, OpenFault> connect_writing(const fs::path& folder) {
    auto db = Database::open(uri_of(folder / file_name, "?mode=rw"), SQLITE_OPEN_READWRITE);
    if (!db) {
        return tl::unexpected{fault_of(db.error())};
    }
    if (!db->configure(SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true) || !set_for_both(*db) ||
        !set_for_writing(*db)) {
        return tl::unexpected{fault_of(db->trouble())};
    }
    return std::move(*db);
}

tl::expected<void, Trouble> settle_log(Database& db, const fs::path& folder) {
    if (!log_has_content(folder)) {
        return {};
    }
    int frames = 0;
    int moved = 0;
    const int code =
        sqlite3_wal_checkpoint_v2(db.handle(), nullptr, SQLITE_CHECKPOINT_TRUNCATE, &frames, &moved);
    if (code != SQLITE_OK) {
        return tl::unexpected{db.trouble()};
    }
    if (frames != moved) {
        return tl::unexpected{Trouble{SQLITE_BUSY, "the log was not moved whole"}};
    }
    // The empty log must reach the disk too: an old log beside the newer file would take pages back after a
    // power cut.
    if (const int wrong = sync_path(folder / log_name)) {
        return tl::unexpected{Trouble{SQLITE_IOERR, words_for_errno(wrong)}};
    }
    return {};
}

tl::expected<void, OpenFault> make_store(const fs::path& folder, const OpenOptions& options) {
    constexpr std::array leftovers{"brimline.new", "brimline.new-wal", "brimline.new-journal",
                                   "brimline.new-shm", key_name};
    for (const char* name : leftovers) {  // of a creation that was cut off: no event was ever there
        ::unlink((folder / name).c_str());
    }
    const SignKey key = SignKey::fresh();
    const fs::path fresh = folder / "brimline.new";
    if (const auto filled = fill_new_file(fresh, key, options); !filled) {
        return tl::unexpected{filled.error()};
    }
    ::chmod(fresh.c_str(), 0600);
    // This order lets the next start tell a cut-off creation (no brimline.db, a mark without events) from a
    // loss.
    int wrong = sync_path(fresh);
    wrong = wrong != 0 ? wrong : MarkFile::make(folder);
    wrong = wrong != 0 ? wrong : key.save(folder);
    wrong = wrong != 0 ? wrong : (::rename(fresh.c_str(), (folder / file_name).c_str()) == 0 ? 0 : errno);
    wrong = wrong != 0 ? wrong : sync_path(folder);
    if (wrong != 0) {
        return tl::unexpected{disk_fault("The data folder cannot be filled", words_for_errno(wrong))};
    }
    return {};
}

}  // namespace brimline::store
