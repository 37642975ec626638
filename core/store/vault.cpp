// Sealing and opening, chunk by chunk.
#include "core/store/vault.h"

#include <sodium.h>

#include <array>
#include <cstring>

#include "core/store/crypto_ready.h"

namespace brimline::store {
namespace {

constexpr std::string_view magic = "BRIMVAULT\n";
constexpr std::uint8_t by_passphrase = 1;
constexpr std::uint8_t to_public_key = 2;
constexpr std::size_t chunk = 65536;
constexpr std::size_t sealed_extra = crypto_secretstream_xchacha20poly1305_ABYTES;
constexpr std::size_t stream_header = crypto_secretstream_xchacha20poly1305_HEADERBYTES;
constexpr std::size_t header_size = magic.size() + 1 + crypto_pwhash_SALTBYTES + 8 + 8 + stream_header;
constexpr std::size_t box_size = crypto_box_SEALBYTES + crypto_secretstream_xchacha20poly1305_KEYBYTES;
constexpr std::size_t key_header_size =
    magic.size() + 1 + crypto_box_PUBLICKEYBYTES + box_size + stream_header;

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

/// The byte after the magic; 0 when the file ends before it.
std::uint8_t kind_of(std::string_view vault) {
    return vault.size() > magic.size() ? static_cast<std::uint8_t>(vault[magic.size()]) : std::uint8_t{0};
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
    const auto kind = kind_of(vault);
    if (kind != by_passphrase) {
        return tl::unexpected{kind == 0               ? VaultFault::cut
                              : kind == to_public_key ? VaultFault::wrong_key
                                                      : VaultFault::newer};
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

/// The stream's own header and its sealed chunks after the header so far, which the first of them binds.
void append_stream(std::string& vault, std::string_view bytes, const Secret& secret) {
    crypto_secretstream_xchacha20poly1305_state state{};
    std::array<std::uint8_t, stream_header> header{};
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
}

/// What append_stream put behind a header of `size` bytes.
tl::expected<std::string, VaultFault> read_stream(std::string_view vault, std::size_t size,
                                                  const Secret& secret) {
    crypto_secretstream_xchacha20poly1305_state state{};
    if (crypto_secretstream_xchacha20poly1305_init_pull(&state, bytes_of(vault) + size - stream_header,
                                                        secret.key.data()) != 0) {
        return tl::unexpected{VaultFault::wrong_key};
    }
    std::string bytes;
    bytes.reserve(vault.size());
    std::size_t at = size;
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
    if (!pull(0, vault.substr(0, size))) {
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

}  // namespace

bool looks_like_vault(std::string_view bytes) { return bytes.substr(0, magic.size()) == magic; }

KeyPair fresh_key_pair() {
    crypto_ready();
    KeyPair pair;
    crypto_box_keypair(pair.open.data(), pair.secret.data());
    return pair;
}

Key32 public_half(const Key32& secret) {
    crypto_ready();
    Key32 open{};
    static_cast<void>(crypto_scalarmult_base(open.data(), secret.data()));
    return open;
}

std::optional<Key32> key_of_vault(std::string_view vault) {
    if (!looks_like_vault(vault) || kind_of(vault) != to_public_key || vault.size() < key_header_size) {
        return std::nullopt;
    }
    Key32 open{};
    std::memcpy(open.data(), vault.data() + magic.size() + 1, open.size());
    return open;
}

tl::expected<std::string, VaultFault> lock_vault(std::string_view bytes, std::string_view passphrase) {
    crypto_ready();
    std::string vault{magic};
    vault += static_cast<char>(by_passphrase);
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
    append_stream(vault, bytes, secret);
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
    return read_stream(vault, header_size, secret);
}

tl::expected<std::string, VaultFault> lock_vault_to(std::string_view bytes, const Key32& open) {
    crypto_ready();
    Secret secret;
    crypto_secretstream_xchacha20poly1305_keygen(secret.key.data());
    std::array<std::uint8_t, box_size> box{};
    if (crypto_box_seal(box.data(), secret.key.data(), secret.key.size(), open.data()) != 0) {
        return tl::unexpected{VaultFault::wrong_key};
    }
    std::string vault{magic};
    vault += static_cast<char>(to_public_key);
    vault.append(reinterpret_cast<const char*>(open.data()), open.size());
    vault.append(reinterpret_cast<const char*>(box.data()), box.size());
    append_stream(vault, bytes, secret);
    const auto again = read_stream(vault, key_header_size, secret);
    if (!again || *again != bytes) {
        return tl::unexpected{VaultFault::wrong_key};
    }
    return vault;
}

tl::expected<std::string, VaultFault> open_vault_with(std::string_view vault, const Key32& secret) {
    crypto_ready();
    const auto open = key_of_vault(vault);
    if (!open) {
        const bool other = !looks_like_vault(vault);
        return tl::unexpected{other                             ? VaultFault::not_a_vault
                              : kind_of(vault) == by_passphrase ? VaultFault::wrong_key
                              : kind_of(vault) > to_public_key  ? VaultFault::newer
                                                                : VaultFault::cut};
    }
    Secret stream;
    const auto* box = bytes_of(vault) + magic.size() + 1 + open->size();
    if (*open != public_half(secret) ||
        crypto_box_seal_open(stream.key.data(), box, box_size, open->data(), secret.data()) != 0) {
        return tl::unexpected{VaultFault::wrong_key};
    }
    return read_stream(vault, key_header_size, stream);
}

}  // namespace brimline::store
