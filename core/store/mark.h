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
    /// Writes the slot of that event. Gives 0 or errno.
    [[nodiscard]] int write(const Head& head);

private:
    explicit MarkFile(Descriptor file) : file_{std::move(file)} {}
    Descriptor file_;
};

}  // namespace brimline::store
