// A file of bytes locked with a passphrase: Argon2id makes the key, each 64 KiB is sealed in order, the last
// one is tagged, so that a cut, changed, reordered or lengthened file does not open. Inside the store only.
// Source: RFC 9106; libsodium's secretstream (XChaCha20-Poly1305).
#pragma once
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace brimline::store {

enum class VaultFault { not_a_vault, newer, cut, wrong_key, memory };

/// Header and sealed chunks of these bytes. Takes 256 MiB and about half a second. Errors: memory.
[[nodiscard]] tl::expected<std::string, VaultFault> lock_vault(std::string_view bytes,
                                                               std::string_view passphrase);
/// The bytes again. Errors: VaultFault; nothing of a vault that fails is given out.
[[nodiscard]] tl::expected<std::string, VaultFault> open_vault(std::string_view vault,
                                                               std::string_view passphrase);
/// Whether these bytes begin as a vault does.
[[nodiscard]] bool looks_like_vault(std::string_view bytes);

}  // namespace brimline::store
