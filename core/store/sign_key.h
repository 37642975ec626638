// This kiosk's signing key: sign.key (0400), 32 secret bytes made with the store. Inside the store only.
#pragma once
#include <filesystem>
#include <string_view>
#include <tl/expected.hpp>

#include "core/store/ids.h"

namespace brimline::store {

inline constexpr const char* key_name = "sign.key";
inline constexpr const char* next_key_name = "sign.key.next";  // made, and perhaps already in force

class SignKey {
public:
    /// A new key, not yet on disk.
    [[nodiscard]] static SignKey fresh();
    /// Errors: errno; EINVAL when the file is no key.
    [[nodiscard]] static tl::expected<SignKey, int> load(const std::filesystem::path& folder,
                                                         const char* name = key_name);
    SignKey(SignKey&&) noexcept = default;
    SignKey& operator=(SignKey&&) noexcept = default;
    SignKey(const SignKey&) = delete;
    SignKey& operator=(const SignKey&) = delete;
    ~SignKey();  // wipes the secret

    /// Writes it as a new file, on disk when it returns. Gives 0 or errno.
    [[nodiscard]] int save(const std::filesystem::path& folder, const char* name = key_name) const;
    [[nodiscard]] const Key32& public_key() const { return public_; }
    [[nodiscard]] Signature64 sign(std::string_view bytes) const;

private:
    using Seed = std::array<std::uint8_t, 32>;
    explicit SignKey(const Seed& seed);
    std::array<std::uint8_t, 64> secret_{};  // seed, then the public half
    Key32 public_{};
};

}  // namespace brimline::store
