// The bytes that are hashed and signed: every field with its length before it, so that no two different sets
// of fields give the same bytes. Inside the store only.
#pragma once
#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace brimline::store {

class Encoding {
public:
    void clear() { bytes_.clear(); }
    /// Length in four bytes, little-endian, then the bytes.
    void field(std::string_view text) {
        little<4>(text.size());
        bytes_.append(text);
    }
    void field(std::span<const std::uint8_t> bytes) {
        field(std::string_view{reinterpret_cast<const char*>(bytes.data()), bytes.size()});
    }
    /// A whole number as eight bytes, little-endian, with its length before it.
    void number(std::int64_t n) {
        little<4>(8);
        little<8>(static_cast<std::uint64_t>(n));
    }
    [[nodiscard]] const std::string& bytes() const { return bytes_; }

private:
    template <std::size_t places>
    void little(std::uint64_t n) {
        std::array<char, places> digits{};
        for (char& digit : digits) {
            digit = static_cast<char>(n & 255U);
            n >>= 8U;
        }
        bytes_.append(digits.data(), digits.size());
    }
    std::string bytes_;
};

}  // namespace brimline::store
