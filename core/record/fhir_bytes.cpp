// SHA-1, UUIDs of names and base64, written from their RFCs.
#include "core/record/fhir_bytes.h"

#include <fmt/format.h>

#include <bit>

namespace brimline::fhir {
namespace {

using Words = std::array<std::uint32_t, 5>;
constexpr std::size_t block_bytes = 64;
constexpr std::size_t rounds_of_a_kind{20};

std::uint32_t word_at(std::string_view bytes, std::size_t at) {
    std::uint32_t word = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        word = (word << 8U) | static_cast<std::uint8_t>(bytes[at + i]);
    }
    return word;
}

std::uint32_t mixed(std::size_t round, const Words& h) {
    switch (round / rounds_of_a_kind) {
        case 0:
            return ((h[1] & h[2]) | (~h[1] & h[3])) + 0x5A827999U;
        case 1:
            return (h[1] ^ h[2] ^ h[3]) + 0x6ED9EBA1U;
        case 2:
            return ((h[1] & h[2]) | (h[1] & h[3]) | (h[2] & h[3])) + 0x8F1BBCDCU;
        default:
            return (h[1] ^ h[2] ^ h[3]) + 0xCA62C1D6U;
    }
}

void take_block(Words& sums, std::string_view block) {
    std::array<std::uint32_t, 80> w{};
    for (std::size_t t = 0; t < 16; ++t) {
        w[t] = word_at(block, t * 4);
    }
    for (std::size_t t = 16; t < w.size(); ++t) {
        w[t] = std::rotl(w[t - 3] ^ w[t - 8] ^ w[t - 14] ^ w[t - 16], 1);
    }
    Words h = sums;
    for (std::size_t t = 0; t < w.size(); ++t) {
        const std::uint32_t next = std::rotl(h[0], 5) + mixed(t, h) + h[4] + w[t];
        h = {next, h[0], std::rotl(h[1], 30), h[2], h[3]};
    }
    for (std::size_t i = 0; i < sums.size(); ++i) {
        sums[i] += h[i];
    }
}

/// The text with a one bit, zeros and its length in bits behind it, as whole blocks.
std::string padded(std::string_view bytes) {
    std::string all{bytes};
    all += '\x80';
    while (all.size() % block_bytes != block_bytes - 8) {
        all += '\0';
    }
    for (unsigned shift = 64; shift > 0; shift -= 8) {
        all += static_cast<char>((std::uint64_t{bytes.size()} * 8U) >> (shift - 8U) & 0xFFU);
    }
    return all;
}

std::array<std::uint8_t, 16> named(const std::array<std::uint8_t, 16>& name_space, std::string_view name) {
    std::string bytes{name_space.begin(), name_space.end()};
    const auto hash = sha1(bytes.append(name));
    std::array<std::uint8_t, 16> id{};
    std::copy_n(hash.begin(), id.size(), id.begin());
    id[6] = static_cast<std::uint8_t>((id[6] & 0x0FU) | 0x50U);  // version 5
    id[8] = static_cast<std::uint8_t>((id[8] & 0x3FU) | 0x80U);  // variant of RFC 9562
    return id;
}

}  // namespace

std::array<std::uint8_t, 20> sha1(std::string_view bytes) {
    Words sums{0x67452301U, 0xEFCDAB89U, 0x98BADCFEU, 0x10325476U, 0xC3D2E1F0U};
    const auto all = padded(bytes);
    for (std::size_t at = 0; at < all.size(); at += block_bytes) {
        take_block(sums, std::string_view{all}.substr(at, block_bytes));
    }
    std::array<std::uint8_t, 20> hash{};
    for (std::size_t i = 0; i < hash.size(); ++i) {
        hash[i] = static_cast<std::uint8_t>(sums[i / 4] >> (24U - 8U * (i % 4)));
    }
    return hash;
}

const std::array<std::uint8_t, 16>& url_names() {
    static constexpr std::array<std::uint8_t, 16> names{0x6b, 0xa7, 0xb8, 0x11, 0x9d, 0xad, 0x11, 0xd1,
                                                        0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8};
    return names;
}

const std::array<std::uint8_t, 16>& brimline_names() {
    static const auto names = named(url_names(), "urn:brimline");
    return names;
}

std::string uuid_of(const std::array<std::uint8_t, 16>& name_space, std::string_view name) {
    const auto id = named(name_space, name);
    std::string text;
    for (std::size_t i = 0; i < id.size(); ++i) {
        text += i == 4 || i == 6 || i == 8 || i == 10 ? "-" : "";
        text += fmt::format("{:02x}", id[i]);
    }
    return text;
}

std::string base64(std::string_view bytes) {
    static constexpr std::string_view letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        const auto byte = [&](std::size_t i) {
            return at + i < bytes.size() ? static_cast<std::uint8_t>(bytes[at + i]) : std::uint8_t{0};
        };
        const std::uint32_t three =
            (std::uint32_t{byte(0)} << 16U) | (std::uint32_t{byte(1)} << 8U) | byte(2);
        for (unsigned i = 0; i < 4; ++i) {
            text += at + i > bytes.size() ? '=' : letters[(three >> (18U - 6U * i)) & 0x3FU];
        }
    }
    return text;
}

}  // namespace brimline::fhir
