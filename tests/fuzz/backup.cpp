// Fuzzes the reader of backups: whatever the file holds is a backup or a sentence. A header that asks for the
// real work of the passphrase (half a second, 256 MiB) is left out, for the speed of the rest. The same
// bytes, sealed to a key as the kiosk seals its own backups, reach the reader of the journal that is inside.
#include "core/store/backup.h"

#include <fstream>

#include "core/store/vault.h"
#include "tests/fuzz/scratch_folder.h"
#include "tests/fuzz/targets.h"

namespace {

void as_file(const std::filesystem::path& file, std::string_view bytes) {
    std::ofstream{file, std::ios::binary | std::ios::trunc} << bytes;
}

void sealed(const std::filesystem::path& file, std::string_view bytes) {
    using namespace brimline::store;
    static const auto pair = fresh_key_pair();
    static_cast<void>(key_of_vault(bytes));
    static_cast<void>(open_vault_with(bytes, pair.secret));
    const auto vault = lock_vault_to(bytes, pair.open);
    as_file(file, vault.value());
    static_cast<void>(look_into_backup(file, BackupSecret{pair.secret}));
}

}  // namespace

void brimline::fuzz::backup(std::string_view bytes) {
    const auto file = scratch_folder() / "backup";
    sealed(file, bytes);
    constexpr std::size_t of_magic = 10;
    constexpr std::size_t strength = of_magic + 1 + 16;  // magic, version, salt
    constexpr std::string_view moderate{"\x03\0\0\0\0\0\0\0", 8};
    if (bytes.substr(std::min(strength, bytes.size()), moderate.size()) == moderate) {
        return;
    }
    as_file(file, bytes);
    static_cast<void>(store::look_into_backup(file, "four plain words here"));
}

BRIMLINE_FUZZ_ENTRY(backup)
