// Backup and restore of a whole data folder: one encrypted file, verified before it counts. The clear journal
// is never on any disk but the kiosk's own. Restoring makes a new kiosk (new id, new key) that keeps
// everything the old one wrote; so both may go on without two journals of one name.
#pragma once
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "core/store/finding.h"
#include "core/store/journal.h"

namespace brimline::store {

struct BackupFault {
    enum class Kind {
        passphrase,    // missing, or not the one it was made with (a changed file looks the same)
        not_a_backup,  // another file, or one of a newer version
        damaged,       // cut, changed, or the journal in it fails its checks
        not_empty,     // the folder to restore into holds something
        in_use,        // the kiosk is running
        disk,
    };
    Kind kind{Kind::disk};
    std::string say, next;  // one plain sentence each
};

/// What a backup holds.
struct BackupContent {
    Kiosk kiosk;  // the one that made it
    Head head;    // its last event
    std::int64_t events{0}, sealed{0};
};

/// What opens a backup: its passphrase, or the secret half of the key that it was sealed to.
struct BackupSecret {
    std::string passphrase{};
    std::optional<Key32> key{};
    BackupSecret(std::string_view words) : passphrase{words} {}  // implicit: a passphrase is the usual case
    BackupSecret(const char* words) : passphrase{words} {}
    BackupSecret(const std::string& words) : passphrase{words} {}
    explicit BackupSecret(const Key32& secret) : key{secret} {}
};

/// A new key pair for backups: `file` (0600, kept off the tablet) holds the secret half under a passphrase.
/// Gives the public half. Errors: BackupFault; an existing file is never replaced.
[[nodiscard]] tl::expected<Key32, BackupFault> make_backup_key(const std::filesystem::path& file,
                                                               std::string_view passphrase);
/// The secret half in such a file. Errors: BackupFault.
[[nodiscard]] tl::expected<Key32, BackupFault> read_backup_key(const std::filesystem::path& file,
                                                               std::string_view passphrase);

/// Copies the journal as it stands into `file` (0600). Shape: an earlier Brimline backup of that name is
/// replaced, any other file is not; what is there in the end was read back and checked. Errors: BackupFault;
/// `file` is then as it was.
[[nodiscard]] tl::expected<BackupContent, BackupFault> make_backup(const std::filesystem::path& folder,
                                                                   const std::filesystem::path& file,
                                                                   std::string_view passphrase);
/// What a backup holds, all of it decrypted and checked. Errors: BackupFault.
[[nodiscard]] tl::expected<BackupContent, BackupFault> look_into_backup(const std::filesystem::path& file,
                                                                        const BackupSecret& secret);
/// Restores into a folder that is empty or not there; with a fault it is left as it was.
[[nodiscard]] tl::expected<BackupContent, BackupFault> restore_backup(const std::filesystem::path& file,
                                                                      const std::filesystem::path& folder,
                                                                      const BackupSecret& secret,
                                                                      const OpenOptions& options = {});
/// When and where the last backup of this folder was made; empty when none is known.
struct LastBackup {
    std::string file;
    Instant at;
    Head head;
};
[[nodiscard]] std::optional<LastBackup> last_backup(const std::filesystem::path& folder);
/// Notes it beside the journal (backup/last). Gives 0 or errno.
[[nodiscard]] int note_backup(const std::filesystem::path& folder, const LastBackup& made);

}  // namespace brimline::store
