// Sealing and opening, chunk by chunk.
#include "core/store/vault.h"

#include <sodium.h>

#include <array>
#include <cstring>

#include "core/store/crypto_ready.h"

namespace brimline::store {
namespace {

constexpr std::string_view magic = "BRIMVAULT\n";
constexpr std::uint8_t version = 1;
constexpr std::size_t chunk = 65536;
constexpr std::size_t sealed_extra = crypto_secretstream_xchacha20poly1305_ABYTES;
constexpr std::size_t header_size =
    magic.size() + 1 + crypto_pwhash_SALTBYTES + 8 + 8 + crypto_secretstream_xchacha20poly1305_HEADERBYTES;

using Key = std::array<std::uint8_t, crypto_secretstream_xchacha20poly1305_KEYBYTES>;

/// A key that is wiped when it goes.
struct Secret {
    Key key{};
    Secret() = default;
    Secret(const Secret&) = delete;
    Secret& operator=(const Secret&) = delete;
    ~Secret() { sodium_memzero(key.data(), key.size()); }
};

const std::uint8_t* bytes_of(std::string_view text) {
    return reinterpret_cast<const std::uint8_t*>(text.data());
}
std::uint8_t* bytes_of(std::string& text) { return reinterpret_cast<std::uint8_t*>(text.data()); }

void put_number(std::string& out, std::uint64_t n) {
    for (int i = 0; i < 8; ++i) {
        out += static_cast<char>(static_cast<std::uint8_t>(n >> (8 * i)));
    }
}
std::uint64_t number_at(std::string_view text, std::size_t at) {
    std::uint64_t n = 0;
    for (std::size_t i = 0; i < 8; ++i) {
        n |= std::uint64_t{static_cast<std::uint8_t>(text[at + i])} << (8 * i);
    }
    return n;
}

bool make_key(Secret& secret, std::string_view passphrase, const std::uint8_t* salt, std::uint64_t ops,
              std::uint64_t memory) {
    return crypto_pwhash(secret.key.data(), secret.key.size(), passphrase.data(), passphrase.size(), salt,
                         ops, static_cast<std::size_t>(memory), crypto_pwhash_ALG_ARGON2ID13) == 0;
}

/// What the file says of its key, within what this program would ever have written.
struct Lock {
    const std::uint8_t* salt{};
    std::uint64_t ops{0}, memory{0};
    const std::uint8_t* header{};
};
tl::expected<Lock, VaultFault> read_lock(std::string_view vault) {
    if (!looks_like_vault(vault)) {
        return tl::unexpected{VaultFault::not_a_vault};
    }
    if (vault.size() <= magic.size() || static_cast<std::uint8_t>(vault[magic.size()]) != version) {
        return tl::unexpected{vault.size() <= magic.size() ? VaultFault::cut : VaultFault::newer};
    }
    if (vault.size() < header_size + sealed_extra) {
        return tl::unexpected{VaultFault::cut};
    }
    const std::size_t salt = magic.size() + 1;
    const std::size_t ops = salt + crypto_pwhash_SALTBYTES;
    const Lock lock{bytes_of(vault) + salt, number_at(vault, ops), number_at(vault, ops + 8),
                    bytes_of(vault) + ops + 16};
    // Other strengths are damage, and a gigantic one would be a way to stop the program.
    const bool ours =
        lock.ops == crypto_pwhash_OPSLIMIT_MODERATE && lock.memory == crypto_pwhash_MEMLIMIT_MODERATE;
    return ours ? tl::expected<Lock, VaultFault>{lock} : tl::unexpected{VaultFault::wrong_key};
}

}  // namespace

bool looks_like_vault(std::string_view bytes) { return bytes.substr(0, magic.size()) == magic; }

tl::expected<std::string, VaultFault> lock_vault(std::string_view bytes, std::string_view passphrase) {
    crypto_ready();
    std::string vault{magic};
    vault += static_cast<char>(version);
    std::array<std::uint8_t, crypto_pwhash_SALTBYTES> salt{};
    randombytes_buf(salt.data(), salt.size());
    vault.append(reinterpret_cast<const char*>(salt.data()), salt.size());
    put_number(vault, crypto_pwhash_OPSLIMIT_MODERATE);
    put_number(vault, crypto_pwhash_MEMLIMIT_MODERATE);
    Secret secret;
    if (!make_key(secret, passphrase, salt.data(), crypto_pwhash_OPSLIMIT_MODERATE,
                  crypto_pwhash_MEMLIMIT_MODERATE)) {
        return tl::unexpected{VaultFault::memory};
    }
    crypto_secretstream_xchacha20poly1305_state state{};
    std::array<std::uint8_t, crypto_secretstream_xchacha20poly1305_HEADERBYTES> header{};
    crypto_secretstream_xchacha20poly1305_init_push(&state, header.data(), secret.key.data());
    vault.append(reinterpret_cast<const char*>(header.data()), header.size());
    const std::string bound = vault;
    const auto push = [&](std::string_view part, std::string_view beside, unsigned char tag) {
        std::string sealed(part.size() + sealed_extra, '\0');
        crypto_secretstream_xchacha20poly1305_push(&state, bytes_of(sealed), nullptr, bytes_of(part),
                                                   part.size(), bytes_of(beside), beside.size(), tag);
        vault += sealed;
    };
    push({}, bound, 0);  // the header and the key alone, so that a wrong key is told from a changed file
    std::size_t at = 0;
    do {
        const auto part = bytes.substr(at, chunk);
        at += part.size();
        push(part, {}, at >= bytes.size() ? crypto_secretstream_xchacha20poly1305_TAG_FINAL : 0);
    } while (at < bytes.size());
    return vault;
}

tl::expected<std::string, VaultFault> open_vault(std::string_view vault, std::string_view passphrase) {
    crypto_ready();
    const auto lock = read_lock(vault);
    if (!lock) {
        return tl::unexpected{lock.error()};
    }
    Secret secret;
    if (!make_key(secret, passphrase, lock->salt, lock->ops, lock->memory)) {
        return tl::unexpected{VaultFault::memory};
    }
    crypto_secretstream_xchacha20poly1305_state state{};
    if (crypto_secretstream_xchacha20poly1305_init_pull(&state, lock->header, secret.key.data()) != 0) {
        return tl::unexpected{VaultFault::wrong_key};
    }
    std::string bytes;
    bytes.reserve(vault.size());
    std::size_t at = header_size;
    unsigned char tag = 0;
    const auto pull = [&](std::size_t length, std::string_view beside) {
        const auto part = vault.substr(at, length + sealed_extra);
        std::string open(part.size() > sealed_extra ? part.size() - sealed_extra : 0, '\0');
        const bool whole =
            part.size() >= sealed_extra &&
            crypto_secretstream_xchacha20poly1305_pull(&state, bytes_of(open), nullptr, &tag, bytes_of(part),
                                                       part.size(), bytes_of(beside), beside.size()) == 0;
        bytes += whole ? open : "";
        at += part.size();
        return whole;
    };
    if (!pull(0, vault.substr(0, header_size))) {
        return tl::unexpected{VaultFault::wrong_key};
    }
    while (at < vault.size() && tag != crypto_secretstream_xchacha20poly1305_TAG_FINAL) {
        if (!pull(chunk, {})) {
            return tl::unexpected{VaultFault::cut};
        }
    }
    const bool ended = tag == crypto_secretstream_xchacha20poly1305_TAG_FINAL && at == vault.size();
    return ended ? tl::expected<std::string, VaultFault>{std::move(bytes)} : tl::unexpected{VaultFault::cut};
}

}  // namespace brimline::store
