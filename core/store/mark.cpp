// Writing and reading the two slots of the mark.
#include "core/store/mark.h"

#include <fcntl.h>
#include <sodium.h>
#include <unistd.h>

#include <algorithm>
#include <array>

#include "core/store/crypto_ready.h"

namespace brimline::store {
namespace {

constexpr std::size_t slot_size = 512;
constexpr std::size_t digest_size = 16;
constexpr std::string_view magic{"BRIMMARK"};
using Digest = std::array<unsigned char, digest_size>;

Digest digest_of(std::string_view bytes) {
    crypto_ready();
    Digest digest{};
    crypto_generichash(digest.data(), digest.size(), reinterpret_cast<const unsigned char*>(bytes.data()),
                       bytes.size(), nullptr, 0);
    return digest;
}

/// magic, number in eight bytes little-endian, hash, zeros, and BLAKE2b-128 of all that.
std::string slot_of(const Head& head) {
    std::string slot{magic};
    auto number = static_cast<std::uint64_t>(head.seq);
    for (int i = 0; i < 8; ++i) {
        slot.push_back(static_cast<char>(number & 255U));
        number >>= 8U;
    }
    slot.append(head.hash.begin(), head.hash.end());
    slot.resize(slot_size - digest_size, '\0');
    const Digest digest = digest_of(slot);
    slot.append(digest.begin(), digest.end());
    return slot;
}

std::optional<Head> head_of(std::string_view slot) {
    const std::string_view body = slot.substr(0, slot_size - digest_size);
    const Digest digest = digest_of(body);
    const bool whole = std::equal(digest.begin(), digest.end(), slot.begin() + (slot_size - digest_size),
                                  [](unsigned char a, char b) { return a == static_cast<unsigned char>(b); });
    if (!whole || body.substr(0, magic.size()) != magic) {
        return std::nullopt;
    }
    std::uint64_t number = 0;
    for (std::size_t i = 8; i-- > 0;) {
        number = (number << 8U) | static_cast<unsigned char>(body[magic.size() + i]);
    }
    Head head{static_cast<std::int64_t>(number), {}};
    std::copy_n(body.begin() + static_cast<std::ptrdiff_t>(magic.size()) + 8, head.hash.size(),
                head.hash.begin());
    return head;
}

}  // namespace

const Head* MarkRead::newest() const {
    const auto last = std::max_element(slots.begin(), slots.end(),
                                       [](const Head& a, const Head& b) { return a.seq < b.seq; });
    return last == slots.end() ? nullptr : &*last;
}

MarkRead read_mark(const std::filesystem::path& folder) {
    MarkRead mark;
    const auto text = read_file(folder / mark_name, 64 * slot_size);
    mark.there = text.has_value() || file_size_of(folder / mark_name).has_value();
    if (!text) {
        return mark;
    }
    for (std::size_t i = 0; i < 2 && text->size() >= (i + 1) * slot_size; ++i) {
        if (const auto head = head_of(std::string_view{*text}.substr(i * slot_size, slot_size))) {
            if (!mark.newest_place || head->seq >= mark.newest()->seq) {
                mark.newest_place = i;
            }
            mark.slots.push_back(*head);
        }
    }
    return mark;
}

int MarkFile::make(const std::filesystem::path& folder) {
    ::unlink((folder / mark_name).c_str());
    return write_new_file(folder / mark_name, slot_of(Head{}) + std::string(slot_size, '\0'), 0600);
}

tl::expected<MarkFile, int> MarkFile::open(const std::filesystem::path& folder) {
    auto file = open_file(folder / mark_name, O_RDWR);
    if (!file) {
        return tl::unexpected{file.error()};
    }
    return MarkFile{std::move(*file), read_mark(folder).newest_place == std::size_t{0} ? std::size_t{1} : 0};
}

int MarkFile::write(const Head& head) {
    const int wrong = write_at(file_.get(), slot_of(head), static_cast<std::int64_t>(next_ * slot_size));
    next_ = wrong == 0 ? 1 - next_ : next_;
    return wrong;
}

}  // namespace brimline::store
