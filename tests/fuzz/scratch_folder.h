// A folder in memory for targets that read files; one a process.
#pragma once
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <string>

namespace brimline::fuzz {

inline const std::filesystem::path& scratch_folder() {
    struct Folder {
        std::filesystem::path path;
        Folder() {
            std::string pattern = std::filesystem::exists("/dev/shm") ? "/dev/shm/brimline-fuzz-XXXXXX"
                                                                      : "/tmp/brimline-fuzz-XXXXXX";
            path = ::mkdtemp(pattern.data()) == nullptr ? std::abort(), pattern : pattern;
        }
        ~Folder() {
            std::error_code ignored;
            std::filesystem::remove_all(path, ignored);
        }
        Folder(const Folder&) = delete;
        Folder& operator=(const Folder&) = delete;
    };
    static const Folder folder;
    return folder.path;
}

}  // namespace brimline::fuzz
