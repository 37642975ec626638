// Making and reading the signing key.
#include "core/store/sign_key.h"

#include <sodium.h>

#include <algorithm>
#include <cerrno>

#include "core/store/crypto_ready.h"
#include "core/store/encoding.h"
#include "core/store/journal.h"
#include "core/store/small_file.h"

namespace brimline::store {

SignKey::SignKey(const Seed& seed) {
    crypto_ready();
    crypto_sign_seed_keypair(public_.data(), secret_.data(), seed.data());
}

SignKey::~SignKey() { sodium_memzero(secret_.data(), secret_.size()); }

SignKey SignKey::fresh() {
    crypto_ready();
    Seed seed{};
    randombytes_buf(seed.data(), seed.size());
    SignKey key{seed};
    sodium_memzero(seed.data(), seed.size());
    return key;
}

tl::expected<SignKey, int> SignKey::load(const std::filesystem::path& folder, const char* name) {
    auto text = read_file(folder / name, 4096);
    if (!text) {
        return tl::unexpected{text.error()};
    }
    Seed seed{};
    if (text->size() != seed.size()) {
        return tl::unexpected{EINVAL};
    }
    std::copy(text->begin(), text->end(), seed.begin());
    SignKey key{seed};
    sodium_memzero(text->data(), text->size());
    sodium_memzero(seed.data(), seed.size());
    return key;
}

int SignKey::save(const std::filesystem::path& folder, const char* name) const {
    const std::string_view seed{reinterpret_cast<const char*>(secret_.data()), 32};
    return write_new_file(folder / name, seed, 0400);
}

Signature64 SignKey::sign(std::string_view bytes) const {
    Signature64 signature{};
    crypto_sign_detached(signature.data(), nullptr, reinterpret_cast<const unsigned char*>(bytes.data()),
                         bytes.size(), secret_.data());
    return signature;
}

std::string key_message(const Key32& old_key, const Key32& new_key) {
    Encoding encoding;
    encoding.field(std::string_view{"brimline key 1"});
    encoding.field(old_key);
    encoding.field(new_key);
    return encoding.bytes();
}

bool signature_holds(std::string_view bytes, const Signature64& signature, const Key32& public_key) {
    crypto_ready();
    return crypto_sign_verify_detached(signature.data(), reinterpret_cast<const unsigned char*>(bytes.data()),
                                       bytes.size(), public_key.data()) == 0;
}

}  // namespace brimline::store
