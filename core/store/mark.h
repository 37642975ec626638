// The mark beside the journal: number and hash of the last acknowledged events, so that a journal that lost
// its end is seen. Two slots of 512 bytes in turn; written after each commit without a sync, so never newer
// than the journal. Inside the store only.
#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "core/store/journal.h"
#include "core/store/small_file.h"

namespace brimline::store {

inline constexpr const char* mark_name = "brimline.mark";

/// What the mark file says. A torn or damaged slot is left out.
struct MarkRead {
    bool there{false};
    std::optional<std::size_t> newest_place;   // of the newest slot: 0 or 1
    std::vector<Head> slots;                   // valid ones
    [[nodiscard]] const Head* newest() const;  // null when there is none
};
[[nodiscard]] MarkRead read_mark(const std::filesystem::path& folder);

/// The mark of a store that is written to.
class MarkFile {
public:
    /// A fresh mark that says "no event yet", on disk when it returns. Gives 0 or errno.
    [[nodiscard]] static int make(const std::filesystem::path& folder);
    [[nodiscard]] static tl::expected<MarkFile, int> open(const std::filesystem::path& folder);
    /// Writes the older slot; the newer one stays until the next write, should this one be torn. Gives 0 or
    /// errno.
    [[nodiscard]] int write(const Head& head);

private:
    MarkFile(Descriptor file, std::size_t next) : file_{std::move(file)}, next_{next} {}
    Descriptor file_;
    std::size_t next_;  // the slot to be written: in turn, for a command may take two numbers and more
};

}  // namespace brimline::store
