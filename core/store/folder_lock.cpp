// The lock that keeps a second program out of the folder.
#include "core/store/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>

#include <cerrno>

namespace brimline::store {
namespace {

OpenFault in_use() {
    return {OpenFault::Kind::already_open, "Brimline is already open on this tablet.",
            "Use the window that is open, or close it first."};
}

OpenFault refused(int number) {
    return {OpenFault::Kind::disk,
            "The lock of the data folder cannot be taken: " + words_for_errno(number) + ".",
            "Check who owns the folder, and the disk."};
}

}  // namespace

tl::expected<FolderLock, OpenFault> FolderLock::alone(const std::filesystem::path& folder) {
    auto file = open_file(folder / "brimline.lock", O_RDWR | O_CREAT);
    if (!file) {
        return tl::unexpected{refused(file.error())};
    }
    FolderLock lock{std::move(*file)};
    if (const auto taken = lock.become_alone(); !taken) {
        return tl::unexpected{taken.error()};
    }
    return lock;
}

tl::expected<FolderLock, OpenFault> FolderLock::reading(const std::filesystem::path& folder) {
    auto file = open_file(folder / "brimline.lock", O_RDONLY);
    if (!file) {
        if (file.error() == ENOENT) {
            return FolderLock{Descriptor{}};
        }
        return tl::unexpected{refused(file.error())};
    }
    if (::flock(file->get(), LOCK_SH | LOCK_NB) != 0) {
        return tl::unexpected{errno == EWOULDBLOCK ? in_use() : refused(errno)};
    }
    return FolderLock{std::move(*file)};
}

tl::expected<void, OpenFault> FolderLock::become_alone() {
    if (file_.is_open() && ::flock(file_.get(), LOCK_EX | LOCK_NB) != 0) {
        return tl::unexpected{errno == EWOULDBLOCK ? in_use() : refused(errno)};
    }
    return {};
}

}  // namespace brimline::store
