// The inside of backups, shared by those made on demand and those the running kiosk makes. Inside the store
// only.
#pragma once
#include <optional>
#include <string>
#include <tl/expected.hpp>

#include "core/store/backup.h"
#include "core/store/sqlite.h"
#include "core/store/vault.h"

namespace brimline::store {

inline constexpr std::size_t most_backup_bytes = std::size_t{1}
                                                 << 34;  // 16 GiB: far above twenty years of a busy clinic

[[nodiscard]] BackupFault backup_fault(VaultFault vault);
/// Everything that verify checks of a journal, without its folder. Errors: the first finding.
[[nodiscard]] tl::expected<BackupContent, BackupFault> check_content(Database& db);
/// Writes beside the file, on disk and read back, and only then takes its name. Empty when done.
[[nodiscard]] std::optional<BackupFault> put_in_place(const std::filesystem::path& file,
                                                      const std::string& vault);

}  // namespace brimline::store
