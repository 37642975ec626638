// Identifiers, hashes and signatures as fixed arrays of bytes, with their written form, and the port by which
// chance enters: the system's twin for the kiosk, a counted one for tests.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace brimline::store {

using Id16 = std::array<std::uint8_t, 16>;    // a kiosk, a case, a command or a boot
using Hash32 = std::array<std::uint8_t, 32>;  // BLAKE2b-256
using Key32 = std::array<std::uint8_t, 32>;   // Ed25519, the public half
using Signature64 = std::array<std::uint8_t, 64>;

/// Lower-case hexadecimal, two digits a byte.
[[nodiscard]] std::string hex(std::span<const std::uint8_t> bytes);
/// Fills `out` from hexadecimal of exactly its length. False when it is anything else; `out` is then
/// undefined.
[[nodiscard]] bool unhex(std::string_view text, std::span<std::uint8_t> out);
/// 32 hexadecimal digits as an id; empty when it is anything else.
[[nodiscard]] std::optional<Id16> id_from_hex(std::string_view text);
/// 64 hexadecimal digits as a hash; empty when it is anything else.
[[nodiscard]] std::optional<Hash32> hash_from_hex(std::string_view text);

/// BLAKE2b-256 of these bytes. Source: RFC 7693.
[[nodiscard]] Hash32 blake2b(std::string_view bytes);

/// Where random ids come from.
class Chance {
public:
    Chance() = default;
    Chance(const Chance&) = delete;
    Chance& operator=(const Chance&) = delete;
    virtual ~Chance() = default;
    [[nodiscard]] virtual Id16 id() = 0;
};

/// The kernel's randomness.
class SystemChance final : public Chance {
public:
    [[nodiscard]] Id16 id() override;
};

/// Ids 1, 2, 3 … after `from`: the same in every run.
class CountedChance final : public Chance {
public:
    explicit CountedChance(std::uint64_t from = 0) : last_{from} {}
    [[nodiscard]] Id16 id() override;

private:
    std::uint64_t last_;
};

}  // namespace brimline::store
