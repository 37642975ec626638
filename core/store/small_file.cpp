// Reading and writing of small files, synced.
#include "core/store/small_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <system_error>

namespace brimline::store {

Descriptor::~Descriptor() {
    if (fd_ >= 0) {
        ::close(fd_);
    }
}

tl::expected<Descriptor, int> open_file(const std::filesystem::path& path, int flags, unsigned mode) {
    const int fd = ::open(path.c_str(), flags | O_CLOEXEC, mode);
    if (fd < 0) {
        return tl::unexpected{errno};
    }
    return Descriptor{fd};
}

tl::expected<std::string, int> read_file(const std::filesystem::path& path, std::size_t most) {
    const auto file = open_file(path, O_RDONLY | O_NONBLOCK);  // a pipe of that name must not stop us
    if (!file) {
        return tl::unexpected{file.error()};
    }
    std::string text;
    std::array<char, 65536> block{};
    while (true) {
        const ssize_t n = ::read(file->get(), block.data(), block.size());
        if (n < 0 && errno == EINTR) {
            continue;
        }
        if (n < 0) {
            return tl::unexpected{errno};
        }
        if (n == 0) {
            return text;
        }
        if (text.size() + static_cast<std::size_t>(n) > most) {
            return tl::unexpected{EFBIG};
        }
        text.append(block.data(), static_cast<std::size_t>(n));
    }
}

int write_at(int fd, std::string_view bytes, std::int64_t offset) {
    while (!bytes.empty()) {
        const ssize_t n = ::pwrite(fd, bytes.data(), bytes.size(), offset);
        if (n < 0 && errno == EINTR) {
            continue;
        }
        if (n <= 0) {
            return n == 0 ? EIO : errno;
        }
        bytes.remove_prefix(static_cast<std::size_t>(n));
        offset += n;
    }
    return 0;
}

int write_new_file(const std::filesystem::path& path, std::string_view bytes, unsigned mode) {
    const auto file = open_file(path, O_WRONLY | O_CREAT | O_EXCL, mode);
    if (!file) {
        return file.error();
    }
    if (const int wrong = write_at(file->get(), bytes, 0)) {
        return wrong;
    }
    if (::fsync(file->get()) != 0) {
        return errno;
    }
    return sync_path(path.parent_path());
}

int sync_path(const std::filesystem::path& path) {
    const auto file = open_file(path.empty() ? std::filesystem::path{"."} : path, O_RDONLY);
    if (!file) {
        return file.error();
    }
    return ::fsync(file->get()) == 0 ? 0 : errno;
}

std::optional<std::int64_t> file_size_of(const std::filesystem::path& path) {
    struct stat about {};
    if (::stat(path.c_str(), &about) != 0) {
        return std::nullopt;
    }
    return about.st_size;
}

std::string words_for_errno(int number) { return std::generic_category().message(number); }

}  // namespace brimline::store
