// Laying out plain text.
#include "core/record/text_layout.h"

#include <algorithm>

namespace brimline::record {
namespace {

constexpr std::size_t label_columns = 20;
constexpr std::string_view quiet = "   ";
constexpr std::string_view marked = "!! ";
constexpr std::string_view replacement = "\xEF\xBF\xBD";

/// The bytes of the character that begins a UTF-8 text; 1 for a stray byte.
std::size_t length_of_first(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t wanted = lead < 0x80U            ? 1
                               : (lead >> 5U) == 0x6U  ? 2
                               : (lead >> 4U) == 0xEU  ? 3
                               : (lead >> 3U) == 0x1EU ? 4
                                                       : 1;
    return std::min(wanted, text.size());
}

char32_t first_of(std::string_view text, std::size_t length) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    if (length == 1) {
        return byte(0);
    }
    char32_t value = byte(0) & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        value = (value << 6U) | (byte(i) & 0x3FU);
    }
    return value;
}

bool is_combining(char32_t c) { return c >= 0x300 && c <= 0x36F; }
/// Control codes, line and paragraph separators, and marks that turn the direction of text.
bool is_unsafe(char32_t c) {
    return c < 0x20 || (c >= 0x7F && c < 0xA0) || (c >= 0x200E && c <= 0x200F) ||
           (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

std::string padded(std::string_view text, std::size_t columns) {
    const auto width = columns_of(text);
    return std::string{text} + std::string(width < columns ? columns - width : 0, ' ');
}

/// As much of the text as fits in so many columns; at least one character.
std::string_view first_columns(std::string_view text, std::size_t columns) {
    std::size_t bytes = length_of_first(text);
    while (bytes < text.size()) {
        const auto next = bytes + length_of_first(text.substr(bytes));
        if (columns_of(text.substr(0, next)) > columns) {
            break;
        }
        bytes = next;
    }
    return text.substr(0, bytes);
}

std::string without_end_blanks(std::string text) {
    text.erase(text.find_last_not_of(' ') + 1);
    return text;
}

}  // namespace

std::size_t columns_of(std::string_view text) {
    std::size_t columns = 0;
    while (!text.empty()) {
        const auto length = length_of_first(text);
        columns += is_combining(first_of(text, length)) ? 0U : 1U;
        text.remove_prefix(length);
    }
    return columns;
}

std::string clean(std::string_view text) {
    std::string safe;
    while (!text.empty()) {
        const auto length = length_of_first(text);
        const auto c = first_of(text, length);
        if (c == '\n' || c == '\r' || c == '\t' || c == 0x2028 || c == 0x2029) {
            safe += ' ';
        } else if (is_unsafe(c)) {
            safe += replacement;
        } else {
            safe += text.substr(0, length);
        }
        text.remove_prefix(length);
    }
    return safe;
}

std::vector<std::string> wrapped(std::string_view text, std::size_t columns) {
    std::vector<std::string> lines;
    std::string line;
    const auto safe = clean(text);
    std::string_view rest = safe;
    while (!rest.empty()) {
        const auto end = std::min(rest.find(' '), rest.size());
        auto word = rest.substr(0, end);
        rest.remove_prefix(std::min(end + 1, rest.size()));
        if (!line.empty() && !word.empty() && columns_of(line) + 1 + columns_of(word) > columns) {
            lines.push_back(std::move(line));
            line.clear();
        }
        while (columns_of(word) > columns) {
            const auto part = first_columns(word, columns);
            lines.emplace_back(part);
            word.remove_prefix(part.size());
        }
        line += word.empty() ? "" : (line.empty() ? "" : " ") + std::string{word};
    }
    if (!line.empty() || lines.empty()) {
        lines.push_back(std::move(line));
    }
    return lines;
}

Block& Sheet::keep(Block::Kind kind, std::string_view text) {
    blocks_.push_back({});
    blocks_.back().kind = kind;
    blocks_.back().text = text;
    return blocks_.back();
}

void Sheet::figure(Figure which) { keep(Block::Kind::figure).figure = which; }

void Sheet::title(std::string_view text) {
    keep(Block::Kind::title, text);
    const auto safe = clean(text);
    text_ += safe + "\n" + std::string(page_columns, '=') + "\n";
}

void Sheet::section(std::string_view text) {
    keep(Block::Kind::section, text);
    const auto safe = clean(text);
    text_ += "\n" + safe + "\n" + std::string(page_columns, '-') + "\n";
}

void Sheet::field(std::string_view label, std::string_view value) { put(quiet, label, value); }

void Sheet::loud(std::string_view label, std::string_view value) { put(marked, label, value); }

void Sheet::put(std::string_view margin, std::string_view label, std::string_view value) {
    if (value.empty()) {
        return;
    }
    auto& block = keep(Block::Kind::field, value);
    block.label = label;
    block.loud = margin != quiet;
    const auto indent = margin.size() + label_columns;
    bool first = true;
    for (const auto& line : wrapped(value, page_columns - indent)) {
        const auto before =
            first ? std::string{margin} + padded(label, label_columns - 1) + " " : std::string(indent, ' ');
        text_ += without_end_blanks(before + line) + "\n";
        first = false;
    }
}

void Sheet::line(std::string_view text, std::size_t indent) {
    keep(Block::Kind::line, text);
    for (const auto& one : wrapped(text, page_columns - indent)) {
        text_ += without_end_blanks(std::string(indent, ' ') + one) + "\n";
    }
}

void Sheet::blank() {
    keep(Block::Kind::blank);
    text_ += "\n";
}

void Sheet::row(const Row& cells, const std::vector<std::size_t>& widths) {
    std::vector<std::vector<std::string>> columns;
    std::size_t height = 1;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        columns.push_back(wrapped(cells[i], widths[i]));
        height = std::max(height, columns.back().size());
    }
    for (std::size_t h = 0; h < height; ++h) {
        std::string line = " ";
        for (std::size_t i = 0; i < columns.size(); ++i) {
            line += "  " + padded(h < columns[i].size() ? columns[i][h] : "", widths[i]);
        }
        text_ += without_end_blanks(std::move(line)) + "\n";
    }
}

void Sheet::table(const Row& head, const std::vector<Row>& rows, const std::vector<std::size_t>& most) {
    auto& block = keep(Block::Kind::table);
    block.head = head;
    block.rows = rows;
    std::vector<std::size_t> widths;
    std::size_t used = 1;
    for (std::size_t i = 0; i < head.size(); ++i) {
        std::size_t width = columns_of(head[i]);
        for (const auto& cells : rows) {
            width = std::max(width, columns_of(cells[i]));
        }
        const bool last = i + 1 == head.size();
        const std::size_t rest = page_columns > used + 2 ? page_columns - used - 2 : 1;
        widths.push_back(last ? std::min(width, rest) : std::min(width, most[i]));
        used += 2 + widths.back();
    }
    row(head, widths);
    for (const auto& cells : rows) {
        row(cells, widths);
    }
}

}  // namespace brimline::record
