// How much room the disk has left for the journal.
#pragma once
#include <cstdint>
#include <filesystem>
#include <optional>

namespace brimline::store {

enum class Space {
    enough,
    low,   // under 200 MB: a warning
    none,  // under 50 MB: a hold before a new case
};

/// Bytes that this user may still write beside `folder`; empty when the system does not tell.
[[nodiscard]] std::optional<std::int64_t> free_bytes(const std::filesystem::path& folder);
[[nodiscard]] constexpr Space space_for(std::int64_t free_bytes) {
    constexpr std::int64_t megabyte = 1'000'000;
    return free_bytes < 50 * megabyte    ? Space::none
           : free_bytes < 200 * megabyte ? Space::low
                                         : Space::enough;
}

}  // namespace brimline::store
