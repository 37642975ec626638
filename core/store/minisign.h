// Detached signatures in the format of minisign, prehashed, so that a stock tool checks an exported file
// years later. Source: interchange.md section 4.1; Ed25519 RFC 8032, BLAKE2b RFC 7693.
#pragma once
#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "core/store/ids.h"

namespace brimline::store {

using Digest64 = std::array<std::uint8_t, 64>;

/// BLAKE2b-512 of what is added, piece by piece: a file of any size in little memory. The same as `b2sum`
/// prints.
class Digest {
public:
    Digest();
    Digest(Digest&&) noexcept;
    Digest& operator=(Digest&&) noexcept;
    ~Digest();
    void add(std::string_view bytes);
    /// What all pieces add up to. Nothing may be added after it.
    [[nodiscard]] Digest64 finish();

private:
    struct State;
    std::unique_ptr<State> state_;
};

/// The public key as one line of base64, "RW...": what `minisign -P` takes and what is printed on records.
/// Shape: 56 characters. Its id is the first eight bytes of BLAKE2b-256 of the key, so that no file keeps it.
[[nodiscard]] std::string minisign_key(const Key32& public_key);
/// The public key as the file that `minisign -p` takes.
[[nodiscard]] std::string minisign_key_file(const Key32& public_key, std::string_view comment);

/// Signs bytes with the kiosk's key; empty when there is none.
using SignBytes = std::function<std::optional<Signature64>(std::string_view)>;
/// The text of NAME.minisig for a file with this digest. `trusted` is one line; it is signed too.
/// Errors: empty when there is no key.
[[nodiscard]] std::optional<std::string> minisign_file(const Digest64& digest, const Key32& public_key,
                                                       std::string_view trusted, const SignBytes& sign);

}  // namespace brimline::store
