// The scanner collector: a burst of six or more characters with gaps below 50 ms is a scan, all else is
// typing.
#include "app/kiosk/touch/scan.h"

#include <utility>

namespace brimline::touch {

void append_utf8(std::string& text, char32_t c) {
    const auto put = [&text](std::uint32_t byte) { text.push_back(static_cast<char>(byte)); };
    const std::uint32_t code = c;
    if (code < 0x80) {
        put(code);
    } else if (code < 0x800) {
        put(0xC0 | (code >> 6));
        put(0x80 | (code & 0x3F));
    } else if (code < 0x10000) {
        put(0xE0 | (code >> 12));
        put(0x80 | ((code >> 6) & 0x3F));
        put(0x80 | (code & 0x3F));
    } else {
        put(0xF0 | (code >> 18));
        put(0x80 | ((code >> 12) & 0x3F));
        put(0x80 | ((code >> 6) & 0x3F));
        put(0x80 | (code & 0x3F));
    }
}

bool ScanCollector::is_end(Key key) const {
    return key == Key::enter || key == Key::keypad_enter || key == Key::tab;
}

void ScanCollector::add(const Stroke& given) {
    Stroke stroke = given;
    if (stroke.key == Key::group_separator ||
        (stroke.key != Key::none && stroke.key == settings_.separator)) {
        stroke = {Key::none, U'\x1d', given.time};
    }
    if (!waiting_.empty() && stroke.time - waiting_.back().time >= settings_.longest_gap) {
        // An end key may come as late as the silence allows: some scanners pause before it.
        const bool late_end = is_end(stroke.key) && stroke.time - waiting_.back().time < settings_.silence;
        if (!late_end) {
            close();
        }
    }
    if (stroke.key == Key::none) {
        waiting_.push_back(stroke);
        return;
    }
    if (is_end(stroke.key) && waiting_.size() >= settings_.least) {
        finish_scan(stroke.time);
        return;
    }
    const bool second_end_key = is_end(stroke.key) && waiting_.empty() && scan_ended_ >= 0 &&
                                stroke.time - scan_ended_ < settings_.longest_gap;
    if (second_end_key) {
        return;  // CR and LF, or Tab and Enter: one scan, two end keys
    }
    close();
    typing_.push_back(stroke);
}

void ScanCollector::pass(Seconds now) {
    if (waiting_.empty()) {
        return;
    }
    const bool could_be_scan = waiting_.size() >= settings_.least;
    const Seconds patience = could_be_scan ? settings_.silence : settings_.longest_gap;
    if (now - waiting_.back().time >= patience) {
        close();
    }
}

Seconds ScanCollector::next_wake() const {
    if (waiting_.empty()) {
        return -1;
    }
    const bool could_be_scan = waiting_.size() >= settings_.least;
    return waiting_.back().time + (could_be_scan ? settings_.silence : settings_.longest_gap);
}

void ScanCollector::close() {
    if (waiting_.size() >= settings_.least) {
        finish_scan(waiting_.back().time);
        return;
    }
    for (const Stroke& stroke : waiting_) {
        if (stroke.character != U'\x1d') {  // nobody types a group separator
            typing_.push_back(stroke);
        }
    }
    waiting_.clear();
}

void ScanCollector::finish_scan(Seconds now) {
    std::string text;
    for (const Stroke& stroke : waiting_) {
        append_utf8(text, stroke.character);
    }
    scans_.push_back(std::move(text));
    waiting_.clear();
    scan_ended_ = now;
}

std::vector<std::string> ScanCollector::take_scans() { return std::exchange(scans_, {}); }

std::vector<Stroke> ScanCollector::take_typing() { return std::exchange(typing_, {}); }

}  // namespace brimline::touch
