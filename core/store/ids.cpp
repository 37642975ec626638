// Written forms of ids, hashes and signatures.
#include "core/store/ids.h"

#include <sodium.h>

#include <algorithm>

#include "core/store/crypto_ready.h"

namespace brimline::store {
namespace {

int digit_of(char c) {
    if (c >= '0' && c <= '9') {
        return c - '0';
    }
    if (c >= 'a' && c <= 'f') {
        return c - 'a' + 10;
    }
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

}  // namespace

std::string hex(std::span<const std::uint8_t> bytes) {
    constexpr std::string_view digits{"0123456789abcdef"};
    std::string text;
    text.reserve(bytes.size() * 2);
    for (const std::uint8_t byte : bytes) {
        text.push_back(digits[byte >> 4U]);
        text.push_back(digits[byte & 15U]);
    }
    return text;
}

bool unhex(std::string_view text, std::span<std::uint8_t> out) {
    if (text.size() != out.size() * 2) {
        return false;
    }
    for (std::size_t i = 0; i < out.size(); ++i) {
        const int high = digit_of(text[2 * i]);
        const int low = digit_of(text[2 * i + 1]);
        if (high < 0 || low < 0) {
            return false;
        }
        out[i] = static_cast<std::uint8_t>(high * 16 + low);
    }
    return true;
}

std::optional<Id16> id_from_hex(std::string_view text) {
    Id16 id{};
    return unhex(text, id) ? std::optional{id} : std::nullopt;
}

std::optional<Hash32> hash_from_hex(std::string_view text) {
    Hash32 hash{};
    return unhex(text, hash) ? std::optional{hash} : std::nullopt;
}

Hash32 blake2b(std::string_view bytes) {
    crypto_ready();
    Hash32 hash{};
    crypto_generichash(hash.data(), hash.size(), reinterpret_cast<const unsigned char*>(bytes.data()),
                       bytes.size(), nullptr, 0);
    return hash;
}

Id16 SystemChance::id() {
    crypto_ready();
    Id16 id{};
    randombytes_buf(id.data(), id.size());
    return id;
}

Id16 CountedChance::id() {
    ++last_;
    Id16 id{};
    for (std::size_t i = 0; i < 8; ++i) {
        id[15 - i] = static_cast<std::uint8_t>(last_ >> (8 * i));
    }
    return id;
}

}  // namespace brimline::store
