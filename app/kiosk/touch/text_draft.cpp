// Adds and takes back whole letters of UTF-8.
#include "app/kiosk/touch/text_draft.h"

namespace brimline::touch {

namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

}  // namespace

std::vector<std::string> letters_of(std::string_view text) {
    std::vector<std::string> letters;
    for (const char c : text) {
        if (letters.empty() || !continues(c)) {
            letters.emplace_back();
        }
        letters.back().push_back(c);
    }
    return letters;
}

bool TextDraft::add(std::string_view letters) {
    for (const std::string& letter : letters_of(letters)) {
        if (this->letters() >= most_) {
            return false;
        }
        text_ += letter;
    }
    return true;
}

void TextDraft::erase() {
    while (!text_.empty() && continues(text_.back())) {
        text_.pop_back();
    }
    if (!text_.empty()) {
        text_.pop_back();
    }
}

bool TextDraft::take(const std::vector<Stroke>& typing) {
    bool entered = false;
    for (const Stroke& stroke : typing) {
        if (stroke.key == Key::backspace) {
            erase();
        } else if (stroke.key == Key::enter || stroke.key == Key::keypad_enter) {
            entered = true;
        } else if (stroke.character >= U' ' && stroke.character != U'\x7f') {
            std::string letter;
            append_utf8(letter, stroke.character);
            add(letter);
        }
    }
    return entered;
}

void TextDraft::set(std::string_view text) {
    text_.clear();
    add(text);
}

std::size_t TextDraft::letters() const {
    std::size_t count = 0;
    for (const char c : text_) {
        count += continues(c) ? 0U : 1U;
    }
    return count;
}

}  // namespace brimline::touch
