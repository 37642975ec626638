// The lock on a data folder: one Brimline at a time. It hangs on an open descriptor, so a crash leaves none
// behind. Inside the store only.
#pragma once
#include <filesystem>
#include <tl/expected.hpp>

#include "core/store/journal.h"
#include "core/store/small_file.h"

namespace brimline::store {

class FolderLock {
public:
    /// The only one in this folder; makes brimline.lock. Errors: already_open, disk.
    [[nodiscard]] static tl::expected<FolderLock, OpenFault> alone(const std::filesystem::path& folder);
    /// One reader among others; makes nothing, and without a lock file there is nothing to lock.
    [[nodiscard]] static tl::expected<FolderLock, OpenFault> reading(const std::filesystem::path& folder);
    /// From one reader to the only one. Errors: already_open when another reads.
    [[nodiscard]] tl::expected<void, OpenFault> become_alone();

    /// Nothing is locked: the folder is held by a kiosk, and its copy is read.
    [[nodiscard]] static FolderLock of_copy() {
        FolderLock lock{Descriptor{}};
        lock.copy_ = true;
        return lock;
    }
    [[nodiscard]] bool is_copy() const { return copy_; }

private:
    explicit FolderLock(Descriptor file) : file_{std::move(file)} {}
    Descriptor file_;
    bool copy_{false};
};

}  // namespace brimline::store
