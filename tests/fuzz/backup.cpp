// Fuzzes the reader of backups: whatever the file holds is a backup or a sentence. A header that asks for the real work
// of the passphrase (half a second, 256 MiB) is left out, for the speed of the rest.
#include "core/store/backup.h"

#include <fstream>

#include "tests/fuzz/scratch_folder.h"
#include "tests/fuzz/targets.h"

void brimline::fuzz::backup(std::string_view bytes) {
    constexpr std::size_t of_magic = 10;
    constexpr std::size_t strength = of_magic + 1 + 16;  // magic, version, salt
    constexpr std::string_view moderate{"\x03\0\0\0\0\0\0\0", 8};
    if (bytes.substr(std::min(strength, bytes.size()), moderate.size()) == moderate) {
        return;
    }
    const auto file = scratch_folder() / "backup";
    std::ofstream{file, std::ios::binary | std::ios::trunc} << bytes;
    static_cast<void>(store::look_into_backup(file, "four plain words here"));
}

BRIMLINE_FUZZ_ENTRY(backup)
