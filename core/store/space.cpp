// How much room the disk has left.
#include "core/store/space.h"

#include <sys/statvfs.h>

#include <limits>

namespace brimline::store {

std::optional<std::int64_t> free_bytes(const std::filesystem::path& folder) {
    struct statvfs about {};
    if (::statvfs(folder.c_str(), &about) != 0) {
        return std::nullopt;
    }
    constexpr auto most = static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());
    const std::uint64_t block = about.f_frsize == 0 ? 1 : about.f_frsize;
    const std::uint64_t blocks = about.f_bavail;
    return static_cast<std::int64_t>(blocks > most / block ? most : blocks * block);
}

}  // namespace brimline::store
