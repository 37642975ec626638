// Fuzzes the data file: whatever lies in brimline.db is verified, opened and read, and stops nothing.
#include <fstream>

#include "core/store/journal.h"
#include "core/store/verify.h"
#include "tests/fuzz/scratch_folder.h"
#include "tests/fuzz/targets.h"

void brimline::fuzz::image(std::string_view bytes) {
    using namespace store;
    const auto folder = scratch_folder() / "data";
    std::filesystem::create_directories(folder);
    std::ofstream{folder / "brimline.db", std::ios::binary | std::ios::trunc} << bytes;
    static_cast<void>(verify(folder));
    auto journal = Journal::open(folder, Mode::read_only);
    if (!journal) {
        return;
    }
    static_cast<void>(journal->events(0, 0));
    static_cast<void>(journal->people());
    static_cast<void>(journal->balloons());
    static_cast<void>(journal->keys());
    for (const auto& row : journal->sealed().rows) {
        static_cast<void>(journal->key_that_sealed(row));
    }
}

BRIMLINE_FUZZ_ENTRY(image)
