// What each key of the keypad does to the number typed so far.
#include "app/kiosk/touch/number_draft.h"

#include <utility>

namespace brimline::touch {

void NumberDraft::propose(std::string text) {
    text_ = std::move(text);
    proposed_ = true;
}

bool NumberDraft::press(PadKey key) {
    if (std::exchange(proposed_, false)) {
        text_.clear();
        if (key == PadKey::erase) {
            return true;
        }
    }
    const std::size_t point = text_.find('.');
    if (key == PadKey::erase) {
        if (text_.empty()) {
            return false;
        }
        text_.pop_back();
        return true;
    }
    if (key == PadKey::point) {
        if (decimals_ == 0 || point != std::string::npos) {
            return false;
        }
        text_ += text_.empty() ? "0." : ".";
        return true;
    }
    const char digit = static_cast<char>('0' + static_cast<int>(key));
    if (point != std::string::npos) {
        if (static_cast<int>(text_.size() - point - 1) >= decimals_) {
            return false;
        }
        text_ += digit;
        return true;
    }
    if (text_ == "0") {
        text_ = digit;  // 05 is 5; 0.5 needs the point
        return true;
    }
    if (static_cast<int>(text_.size()) >= digits_) {
        return false;
    }
    text_ += digit;
    return true;
}

std::string NumberDraft::shown(const std::string& decimal_mark) const {
    const std::size_t point = text_.find('.');
    return point == std::string::npos ? text_
                                      : text_.substr(0, point) + decimal_mark + text_.substr(point + 1);
}

std::optional<long> NumberDraft::in_tenths() const {
    if (text_.empty()) {
        return std::nullopt;
    }
    const std::size_t point = text_.find('.');
    long value = 0;
    for (const char c : text_.substr(0, point)) {
        value = value * 10 + (c - '0');
    }
    const bool has_tenth = point != std::string::npos && point + 1 < text_.size();
    return value * 10 + (has_tenth ? text_[point + 1] - '0' : 0);
}

std::optional<long> NumberDraft::whole() const {
    const auto tenths = in_tenths();
    return tenths && *tenths % 10 == 0 ? std::optional{*tenths / 10} : std::nullopt;
}

}  // namespace brimline::touch
