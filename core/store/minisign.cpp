// Laying out signature and key files of minisign.
#include "core/store/minisign.h"

#include <fmt/format.h>
#include <sodium.h>

#include "core/store/crypto_ready.h"

namespace brimline::store {
namespace {

std::string base64(std::string_view bytes) {
    std::string text(sodium_base64_encoded_len(bytes.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
    sodium_bin2base64(text.data(), text.size(), reinterpret_cast<const unsigned char*>(bytes.data()),
                      bytes.size(), sodium_base64_VARIANT_ORIGINAL);
    text.pop_back();  // the zero byte that the library counts
    return text;
}

template <class Bytes>
std::string_view view(const Bytes& bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

std::string key_id(const Key32& public_key) {
    const auto hash = blake2b(view(public_key));
    return std::string{view(hash).substr(0, 8)};
}

/// One line without anything that would end it.
std::string one_line(std::string_view text) {
    std::string line{text};
    for (char& c : line) {
        c = c == '\n' || c == '\r' ? ' ' : c;
    }
    return line;
}

}  // namespace

struct Digest::State {
    crypto_generichash_state inner;
};

Digest::Digest() : state_{std::make_unique<State>()} {
    crypto_ready();
    crypto_generichash_init(&state_->inner, nullptr, 0, Digest64{}.size());
}
Digest::Digest(Digest&&) noexcept = default;
Digest& Digest::operator=(Digest&&) noexcept = default;
Digest::~Digest() = default;

void Digest::add(std::string_view bytes) {
    crypto_generichash_update(&state_->inner, reinterpret_cast<const unsigned char*>(bytes.data()),
                              bytes.size());
}

Digest64 Digest::finish() {
    Digest64 digest{};
    crypto_generichash_final(&state_->inner, digest.data(), digest.size());
    return digest;
}

std::string minisign_key(const Key32& public_key) {
    return base64("Ed" + key_id(public_key) + std::string{view(public_key)});
}

std::string minisign_key_file(const Key32& public_key, std::string_view comment) {
    return fmt::format("untrusted comment: {}\n{}\n", one_line(comment), minisign_key(public_key));
}

std::optional<std::string> minisign_file(const Digest64& digest, const Key32& public_key,
                                         std::string_view trusted, const SignBytes& sign) {
    const auto line = one_line(trusted);
    const auto signature = sign(view(digest));
    const auto global = signature ? sign(std::string{view(*signature)} + line) : std::nullopt;
    if (!global) {
        return std::nullopt;
    }
    return fmt::format(
        "untrusted comment: signature by a Brimline kiosk; how to check it stands in verify.md\n{}\n"
        "trusted comment: {}\n{}\n",
        base64("ED" + key_id(public_key) + std::string{view(*signature)}), line, base64(view(*global)));
}

}  // namespace brimline::store
