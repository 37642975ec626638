// What a run of the journal did to its files, step by step, so that any power cut in between can be rebuilt.
// Stands between SQLite and the system's files; the journal's own syncs by name are seen as well.
#pragma once
#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace brimline::store::faults {

struct Step {
    enum class Kind : std::uint8_t { write, truncate, sync, remove, acknowledged } kind{};
    std::string file{};  // its name without the folder; empty for an acknowledgement
    std::int64_t at{
        0};  // of a write; the new size of a truncation; how many commands are acknowledged by now
    std::string bytes{};
};

/// Files by name, as they lie on a disk.
using Image = std::map<std::string, std::string>;

/// While it lives every file that SQLite opens in this process goes through it.
class RecordedDisk {
public:
    RecordedDisk();
    ~RecordedDisk();
    RecordedDisk(const RecordedDisk&) = delete;
    RecordedDisk& operator=(const RecordedDisk&) = delete;
    /// A command was acknowledged; `mark` is the mark file's content by then (it is written past SQLite).
    void acknowledged(int commands, const std::string& mark);
    [[nodiscard]] std::vector<Step> take();
};

/// A sync past SQLite, by descriptor.
void note_sync(int fd);

}  // namespace brimline::store::faults
