// Small files and folders by plain system calls: read whole, write so that a crash leaves the old or the new,
// sync, lock. Never used on brimline.db while it is open: closing it here would drop SQLite's locks. Inside
// the store only.
#pragma once
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>

namespace brimline::store {

/// An owned file descriptor; -1 = none.
class Descriptor {
public:
    Descriptor() = default;
    explicit Descriptor(int fd) : fd_{fd} {}
    Descriptor(Descriptor&& other) noexcept : fd_{std::exchange(other.fd_, -1)} {}
    Descriptor& operator=(Descriptor&& other) noexcept {
        std::swap(fd_, other.fd_);
        return *this;
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor();
    [[nodiscard]] int get() const { return fd_; }
    [[nodiscard]] bool is_open() const { return fd_ >= 0; }

private:
    int fd_{-1};
};

/// Opens with O_CLOEXEC. Errors: errno.
[[nodiscard]] tl::expected<Descriptor, int> open_file(const std::filesystem::path& path, int flags,
                                                      unsigned mode = 0600);
/// The whole file, at most `most` bytes. Errors: errno; EFBIG when there is more.
[[nodiscard]] tl::expected<std::string, int> read_file(const std::filesystem::path& path, std::size_t most);
/// Writes all bytes at an offset. Gives 0 or errno.
[[nodiscard]] int write_at(int fd, std::string_view bytes, std::int64_t offset);
/// Makes a file that was not there, with these bytes, on disk with its name when it returns. Gives 0 or
/// errno.
[[nodiscard]] int write_new_file(const std::filesystem::path& path, std::string_view bytes, unsigned mode);
/// fsync of a file or a folder by name. Gives 0 or errno.
[[nodiscard]] int sync_path(const std::filesystem::path& path);
/// Size in bytes; empty when it is not there or cannot be asked.
[[nodiscard]] std::optional<std::int64_t> file_size_of(const std::filesystem::path& path);
/// Words for an errno: "No space left on device".
[[nodiscard]] std::string words_for_errno(int number);

}  // namespace brimline::store
