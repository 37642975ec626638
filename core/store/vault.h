// A file of bytes locked away: by a passphrase (Argon2id makes the key), or to a public key whose other half
// is not on this tablet. Each 64 KiB is sealed in order, the last one is tagged, so that a cut, changed,
// reordered or lengthened file does not open. Inside the store only. Source: RFC 9106; libsodium's
// secretstream (XChaCha20-Poly1305) and sealed boxes (X25519).
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "core/store/ids.h"

namespace brimline::store {

enum class VaultFault { not_a_vault, newer, cut, wrong_key, memory };

/// Two halves of a key: what the public one locks only the secret one opens.
struct KeyPair {
    Key32 open{};    // public
    Key32 secret{};  // kept off the tablet
};
[[nodiscard]] KeyPair fresh_key_pair();
/// The public half that belongs to a secret one.
[[nodiscard]] Key32 public_half(const Key32& secret);

/// Header and sealed chunks of these bytes. Takes 256 MiB and about half a second. Errors: memory.
[[nodiscard]] tl::expected<std::string, VaultFault> lock_vault(std::string_view bytes,
                                                               std::string_view passphrase);
/// The bytes again. Errors: VaultFault; nothing of a vault that fails is given out.
[[nodiscard]] tl::expected<std::string, VaultFault> open_vault(std::string_view vault,
                                                               std::string_view passphrase);
/// As lock_vault, but to a public key: who locks it cannot open it any more. It was opened once and compared
/// before the key of its stream was wiped. Errors: wrong_key, when the public key is none or the vault did
/// not open again.
[[nodiscard]] tl::expected<std::string, VaultFault> lock_vault_to(std::string_view bytes, const Key32& open);
/// The bytes again, with the secret half. Errors: VaultFault.
[[nodiscard]] tl::expected<std::string, VaultFault> open_vault_with(std::string_view vault,
                                                                    const Key32& secret);
/// The public key that this vault was locked to; empty when a passphrase opens it, or it is no vault.
[[nodiscard]] std::optional<Key32> key_of_vault(std::string_view vault);
/// Whether these bytes begin as a vault does.
[[nodiscard]] bool looks_like_vault(std::string_view bytes);

}  // namespace brimline::store
