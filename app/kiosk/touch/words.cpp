// Reads language files, fills placeholders, chooses plural forms, and stretches words for layout tests.
#include "app/kiosk/touch/words.h"

#include <fmt/format.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <optional>
#include <sstream>

namespace brimline::touch {

namespace {

std::optional<Plural> plural_named(std::string_view name) {
    if (name == "one") {
        return Plural::one;
    }
    if (name == "few") {
        return Plural::few;
    }
    if (name == "many") {
        return Plural::many;
    }
    if (name == "other") {
        return Plural::other;
    }
    return std::nullopt;
}

Plural slavic_form(std::string_view language, long n) {
    const long last = n % 10;
    const long last_two = n % 100;
    const bool one = language == "pl" ? n == 1 : (last == 1 && last_two != 11);
    if (one) {
        return Plural::one;
    }
    const bool few = last >= 2 && last <= 4 && (last_two < 12 || last_two > 14);
    return few ? Plural::few : Plural::many;
}

/// Longer by two fifths, by repeating letters of the word itself, so that its script and face stay the same.
std::string longer(std::string_view word) {
    std::size_t letters = 0;
    for (const char c : word) {
        letters += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1U : 0U;
    }
    const std::size_t more = (letters * 2 + 4) / 5;
    std::string result{word};
    std::size_t at = 0;
    for (std::size_t i = 0; i < more && at < word.size(); ++i) {
        std::size_t next = at + 1;
        while (next < word.size() && (static_cast<unsigned char>(word[next]) & 0xC0U) == 0x80U) {
            ++next;
        }
        result.append(word.substr(at, next - at));
        at = next;
    }
    return result;
}

bool is_letter(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80U || (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
}

std::string stretch(std::string_view text) {
    std::string result;
    std::size_t at = 0;
    while (at < text.size()) {
        if (text[at] == '{') {
            const std::size_t close = std::min(text.find('}', at), text.size() - 1);
            result.append(text.substr(at, close - at + 1));
            at = close + 1;
            continue;
        }
        std::size_t end = at;
        while (end < text.size() && is_letter(text[end])) {
            ++end;
        }
        if (end == at) {
            result.push_back(text[at++]);
            continue;
        }
        const std::string_view word = text.substr(at, end - at);
        result.append(word.size() >= 2 ? longer(word) : std::string{word});
        at = end;
    }
    return result;
}

/// Units, signs and rows of keys are the same in every language, and the months have three letters in each,
/// so they do not grow.
bool grows(std::string_view key) {
    return !key.starts_with("unit.") && !key.starts_with("keyboard.") && !key.starts_with("date.month-");
}

}  // namespace

Plural plural_form(std::string_view language, long number) {
    const long n = number < 0 ? -number : number;
    if (language == "pl" || language == "ru" || language == "uk") {
        return slavic_form(language, n);
    }
    if (language == "cs" || language == "sk") {
        return n == 1 ? Plural::one : (n >= 2 && n <= 4 ? Plural::few : Plural::other);
    }
    if (language == "fr" || language == "pt") {
        return n <= 1 ? Plural::one : Plural::other;
    }
    return n == 1 ? Plural::one : Plural::other;
}

tl::expected<Words, std::string> Words::load(const std::string& file) {
    std::ifstream in{file};
    if (!in) {
        return tl::unexpected(fmt::format("Language file {} cannot be opened.", file));
    }
    std::stringstream text;
    text << in.rdbuf();
    return parse(text.str(), file);
}

tl::expected<Words, std::string> Words::parse(std::string_view text, const std::string& name) {
    const auto json = nlohmann::json::parse(text, nullptr, false);
    if (json.is_discarded() || !json.is_object()) {
        return tl::unexpected(fmt::format("Language file {} is not one JSON object.", name));
    }
    Words words;
    for (const auto& [key, value] : json.items()) {
        if (key == "language" && value.is_string()) {
            words.language_ = value.get<std::string>();
        } else if (value.is_string()) {
            words.texts_[key][Plural::other] = value.get<std::string>();
        } else if (value.is_object() && value.contains("other")) {
            for (const auto& [form, words_of_form] : value.items()) {
                const auto plural = plural_named(form);
                if (!plural || !words_of_form.is_string()) {
                    return tl::unexpected(fmt::format(
                        "Language file {}, key {}: \"{}\" is no plural form with a text.", name, key, form));
                }
                words.texts_[key][*plural] = words_of_form.get<std::string>();
            }
        } else {
            return tl::unexpected(
                fmt::format("Language file {}, key {}: a text, or plural forms with \"other\".", name, key));
        }
    }
    if (words.language_.size() != 2) {
        return tl::unexpected(fmt::format("Language file {}, key language: two letters are needed.", name));
    }
    return words;
}

std::string Words::say(std::string_view key, std::initializer_list<Named> values) const {
    const auto found = texts_.find(key);
    if (found == texts_.end()) {
        missing_.insert(fmt::format("no words for \"{}\"", key));
        return std::string{key};
    }
    return fill(key, found->second.at(Plural::other), values, nullptr);
}

std::string Words::count(std::string_view key, long number, std::initializer_list<Named> values) const {
    const auto found = texts_.find(key);
    if (found == texts_.end()) {
        missing_.insert(fmt::format("no words for \"{}\"", key));
        return std::string{key};
    }
    const auto form = found->second.find(plural_form(language_, number));
    const std::string& text = form != found->second.end() ? form->second : found->second.at(Plural::other);
    const std::string digits = fmt::format("{}", number);
    return fill(key, text, values, &digits);
}

std::string Words::fill(std::string_view key, std::string_view text, std::initializer_list<Named> values,
                        const std::string* number) const {
    std::string result;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t open = text.find('{', at);
        const std::size_t close = open == std::string_view::npos ? open : text.find('}', open);
        if (close == std::string_view::npos) {
            result.append(text.substr(at));
            break;
        }
        result.append(text.substr(at, open - at));
        const std::string_view name = text.substr(open + 1, close - open - 1);
        const Named* named = nullptr;
        for (const Named& value : values) {
            named = value.first == name ? &value : named;
        }
        if (named != nullptr) {
            result.append(named->second);
        } else if (name == "n" && number != nullptr) {
            result.append(*number);
        } else {
            missing_.insert(fmt::format("no value for {{{}}} in \"{}\"", name, key));
            result.append(text.substr(open, close - open + 1));
        }
        at = close + 1;
    }
    return result;
}

Words Words::stretched() const {
    Words result = *this;
    for (auto& [key, forms] : result.texts_) {
        if (!grows(key)) {
            continue;
        }
        for (auto& [form, text] : forms) {
            text = stretch(text);
        }
    }
    return result;
}

}  // namespace brimline::touch
