// Opens the one connection to brimline.db the way the journal needs it, for writing or for reading only, and
// makes the files of a new store. Inside the store only.
#pragma once
#include <filesystem>
#include <tl/expected.hpp>

#include "core/store/folder_lock.h"
#include "core/store/journal.h"
#include "core/store/sqlite.h"

namespace brimline::store {

inline constexpr const char* file_name = "brimline.db";
inline constexpr const char* log_name = "brimline.db-wal";

/// A `file:` URI with this query.
[[nodiscard]] std::string uri_of(const std::filesystem::path& path, const std::string& query);
/// True when brimline.db is there, false when the folder never held an event, so that a new store may be
/// made. Errors: damaged, when what lies there shows that a journal is missing.
[[nodiscard]] tl::expected<bool, OpenFault> holds_store(const std::filesystem::path& folder);
/// For reading: an error unless there is a journal. Errors: missing, damaged.
[[nodiscard]] tl::expected<void, OpenFault> must_hold_store(const std::filesystem::path& folder);
/// Whether the write-ahead log holds anything.
[[nodiscard]] bool log_has_content(const std::filesystem::path& folder);
/// The lock to read with; while a kiosk holds the folder and has made a copy, one that stands for the copy.
[[nodiscard]] tl::expected<FolderLock, OpenFault> lock_to_read(const std::filesystem::path& folder);
/// When the running kiosk of this folder made its copy.
[[nodiscard]] Copied copied_at(const std::filesystem::path& folder);
/// Whether this copy holds everything that the mark in `live` says was acknowledged.
[[nodiscard]] bool is_current(Database& copy, const std::filesystem::path& live);
/// A connection that changes no file, not even when it is closed. With a log in the folder it needs the lock
/// alone.
[[nodiscard]] tl::expected<Database, OpenFault> connect_reading(const std::filesystem::path& folder,
                                                                FolderLock& lock);
/// The connection that writes; every setting is asserted. The lock must be held alone.
[[nodiscard]] tl::expected<Database, OpenFault> connect_writing(const std::filesystem::path& folder);
/// Moves what the log holds into the file and empties the log, both on disk when it returns: what an earlier
/// process or connection left is then as good as acknowledged.
[[nodiscard]] tl::expected<void, Trouble> settle_log(Database& db, const std::filesystem::path& folder);
/// Makes the files of a new store; brimline.db appears last and whole. Errors: disk.
[[nodiscard]] tl::expected<void, OpenFault> make_store(const std::filesystem::path& folder,
                                                       const OpenOptions& options);

}  // namespace brimline::store
