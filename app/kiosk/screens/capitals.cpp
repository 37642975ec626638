// Capital letters by the layout of the blocks Basic Latin, Latin-1 Supplement and Latin Extended-A of
// Unicode: in the first two a capital stands 0x20 before its letter, in the third the two are neighbours.
#include "app/kiosk/screens/capitals.h"

#include "app/kiosk/touch/text_draft.h"

namespace brimline::screens {
namespace {

constexpr unsigned two_bytes = 0xC0;
constexpr unsigned low_six = 0x3F;

bool between(unsigned code, unsigned from, unsigned to) { return code >= from && code <= to; }

/// The capital of a code point below U+0180.
unsigned capital(unsigned code) {
    if (between(code, 'a', 'z') || (between(code, 0xE0, 0xFE) && code != 0xF7)) {
        return code - 0x20;
    }
    const bool even_capital = between(code, 0x100, 0x137) || between(code, 0x14A, 0x177);
    const bool odd_capital = between(code, 0x139, 0x148) || between(code, 0x179, 0x17E);
    const bool without = code == 0x131 || code == 0x130 || code == 0x138;
    if (!without && ((even_capital && code % 2 == 1) || (odd_capital && code % 2 == 0))) {
        return code - 1;
    }
    return code;
}

std::string capital_letter(const std::string& letter) {
    if (letter.size() == 1) {
        return {static_cast<char>(capital(static_cast<unsigned char>(letter[0])))};
    }
    const auto lead = static_cast<unsigned char>(letter[0]);
    if (letter.size() != 2 || lead > 0xC5) {
        return letter;
    }
    const auto code = capital(((lead & 0x1FU) << 6U) | (static_cast<unsigned char>(letter[1]) & low_six));
    return {static_cast<char>(two_bytes | (code >> 6U)), static_cast<char>(0x80U | (code & low_six))};
}

}  // namespace

std::string in_capitals(std::string_view words) {
    std::string all;
    for (const auto& letter : touch::letters_of(words)) {
        all += capital_letter(letter);
    }
    return all;
}

std::string with_capital(std::string_view words) {
    std::string all;
    for (const auto& letter : touch::letters_of(words)) {
        all += all.empty() ? capital_letter(letter) : letter;
    }
    return all;
}

}  // namespace brimline::screens
