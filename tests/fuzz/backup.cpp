// Fuzzes the reader of backups that are sealed to a key (those with a passphrase take half a second each to
// open, and share the stream), and the check of a journal that came out of one.
#include "core/store/backup.h"

#include <unistd.h>

#include <fstream>

#include "core/store/vault.h"
#include "tests/fuzz/scratch_folder.h"
#include "tests/fuzz/targets.h"

void brimline::fuzz::backup(std::string_view bytes) {
    using namespace store;
    static const auto pair = fresh_key_pair();
    static_cast<void>(key_of_vault(bytes));
    static_cast<void>(open_vault_with(bytes, pair.secret));
    // What follows the first byte, sealed properly: the reader of what is inside.
    const auto file = scratch_folder() / "backup";
    {
        const auto vault = lock_vault_to(bytes, pair.open);
        std::ofstream{file, std::ios::binary | std::ios::trunc} << vault.value();
    }
    static_cast<void>(look_into_backup(file, BackupSecret{pair.secret}));
}

BRIMLINE_FUZZ_ENTRY(backup)
