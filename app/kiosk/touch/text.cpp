// Breaks, shrinks, cuts, draws and records texts.
#include "app/kiosk/touch/text.h"

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "app/kiosk/touch/glass.h"

namespace brimline::touch {

namespace {

/// A text set in lines.
struct Setting {
    int em{0};
    std::vector<std::string> lines;
    bool cut{false};
};

/// The number of lines that a room of this height holds; the space between lines is a little tighter than the
/// face's.
float pitch(Face face, int em) {
    return std::round(static_cast<float>(em) * (face == Face::keys ? 1.215F : 1.24F));
}

/// Room that one line of capitals wants above the baseline and a little below it; digits have nothing below.
float line_ink(Face face, int em) {
    const bool only_digits = face == Face::numerals || face == Face::keys;
    return Type::capital_height(face, em) * (only_digits ? 1.0F : 1.25F);
}

bool is_joint(char c) { return c == ' ' || c == '-'; }

/// Breaks at spaces, after hyphens and at line ends; a word wider than the room stays whole and makes the
/// line too wide.
std::vector<std::string> broken(const Type& type, Face face, int em, std::string_view words, float room) {
    std::vector<std::string> lines(1);
    std::size_t at = 0;
    while (at < words.size()) {
        if (words[at] == '\n') {
            lines.emplace_back();
            ++at;
            continue;
        }
        std::size_t end = at;
        while (end < words.size() && !is_joint(words[end]) && words[end] != '\n') {
            ++end;
        }
        if (end < words.size() && words[end] == '-') {
            ++end;
        }
        std::size_t next = end;
        while (next < words.size() && words[next] == ' ') {
            ++next;
        }
        const std::string piece{words.substr(at, end - at)};
        if (!lines.back().empty() && type.width(face, em, lines.back() + piece) > room) {
            while (!lines.back().empty() && lines.back().back() == ' ') {
                lines.back().pop_back();
            }
            lines.emplace_back();
        }
        lines.back() += std::string{words.substr(at, next - at)};
        at = next > at ? next : at + 1;
    }
    for (std::string& line : lines) {
        while (!line.empty() && line.back() == ' ') {
            line.pop_back();
        }
    }
    return lines;
}

bool fits(const Type& type, Face face, const Setting& setting, Rect room, int most_lines) {
    const auto count = static_cast<float>(setting.lines.size());
    if (static_cast<int>(setting.lines.size()) > most_lines) {
        return false;
    }
    const float height = (count - 1) * pitch(face, setting.em) + line_ink(face, setting.em);
    if (height > room.h + 0.5F) {
        return false;
    }
    for (const std::string& line : setting.lines) {
        if (type.width(face, setting.em, line) > room.w + 0.5F) {
            return false;
        }
    }
    return true;
}

void drop_last_letter(std::string& text) {
    while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0U) == 0x80U) {
        text.pop_back();
    }
    if (!text.empty()) {
        text.pop_back();
    }
}

/// Keeps the lines that fit and ends the last of them with an ellipsis.
Setting cut(const Type& type, Face face, int em, std::string_view words, Rect room, int most_lines) {
    Setting setting{em, broken(type, face, em, words, room.w), true};
    const float spare = room.h - line_ink(face, em);
    const int lines_in_room = 1 + static_cast<int>(std::max(0.0F, spare) / pitch(face, em));
    const auto keep = static_cast<std::size_t>(std::max(1, std::min(most_lines, lines_in_room)));
    if (setting.lines.size() > keep) {
        setting.lines.resize(keep);
    }
    for (std::string& line : setting.lines) {
        const bool last = &line == &setting.lines.back();
        while (!line.empty() && type.width(face, em, line + (last ? "…" : "")) > room.w) {
            drop_last_letter(line);
        }
        line += last ? "…" : "";
    }
    return setting;
}

Setting set_words(const Type& type, Face face, std::string_view words, Rect room, const TextStyle& style) {
    for (int em = style.em;;) {
        Setting setting{em, broken(type, face, em, words, room.w), false};
        if (fits(type, face, setting, room, style.lines)) {
            return setting;
        }
        const int next = type.smaller(face, em);
        if (next == em || next < style.smallest) {
            return cut(type, face, em, words, room, style.lines);
        }
        em = next;
    }
}

float left_edge(Rect room, float width, Align align) {
    switch (align) {
        case Align::left:
            return room.x;
        case Align::centre:
            return std::round(room.x + (room.w - width) / 2);
        case Align::right:
            return room.right() - width;
    }
    return room.x;
}

float first_baseline(Rect room, float ink_height, float capital, Stand stand) {
    switch (stand) {
        case Stand::top:
            return room.y + capital;
        case Stand::middle:
            return std::round(room.y + (room.h - ink_height) / 2) + capital;
        case Stand::bottom:
            return room.bottom() - ink_height + capital;
    }
    return room.y;
}

void draw_line(Glass& glass, Face face, int em, Point baseline_left, std::string_view words, Colour colour) {
    const ImVec2 top_left{baseline_left.x, std::round(baseline_left.y - Type::ascent(face, em))};
    glass.ink().AddText(glass.type().font(face, em), Type::line_height(face, em), top_left, colour,
                        words.data(), words.data() + words.size());
}

Rect draw(Glass& glass, std::string_view name, Face face, Rect room, std::string_view words,
          const TextStyle& style) {
    const Type& type = glass.type();
    const Setting setting = set_words(type, face, words, room, style);
    const Colour colour = style.colour != 0 ? style.colour : glass.colours().text;
    const float capital = Type::capital_height(face, setting.em);
    const float step_down = pitch(face, setting.em);
    const float ink_height = static_cast<float>(setting.lines.size() - 1) * step_down + capital;
    float baseline = first_baseline(room, ink_height, capital, style.stand);
    Rect ink{room.right(), baseline - capital, 0, ink_height};
    float right = room.x;
    for (const std::string& line : setting.lines) {
        const float width = type.width(face, setting.em, line);
        const float x = left_edge(room, width, style.align);
        draw_line(glass, face, setting.em, {x, baseline}, line, colour);
        ink.x = std::min(ink.x, x);
        right = std::max(right, x + width);
        baseline += step_down;
    }
    ink.w = std::max(0.0F, right - ink.x);
    glass.registry().add(Slot{.name = std::string{name},
                              .rect = room,
                              .ink = ink,
                              .text = std::string{words},
                              .needed = type.width(face, style.em, words),
                              .lines = static_cast<int>(setting.lines.size()),
                              .asked_em = style.em,
                              .em = setting.em,
                              .cut = setting.cut,
                              .may_cut = style.may_cut});
    return ink;
}

}  // namespace

Rect text(Glass& glass, std::string_view name, Rect room, std::string_view words, const TextStyle& style) {
    return draw(glass, name, style.bold ? Face::words_bold : Face::words, room, words, style);
}

Rect numeral(Glass& glass, std::string_view name, Rect room, std::string_view digits,
             const TextStyle& style) {
    TextStyle one_line = style;
    one_line.lines = 1;
    one_line.smallest = std::max(style.smallest, step::act);
    return draw(glass, name, Face::numerals, room, digits, one_line);
}

Rect key_numeral(Glass& glass, std::string_view name, Rect room, std::string_view digits,
                 const TextStyle& style) {
    TextStyle one_line = style;
    one_line.lines = 1;
    one_line.smallest = std::max(style.smallest, step::act);
    return draw(glass, name, Face::keys, room, digits, one_line);
}

Rect figure(Glass& glass, std::string_view name, Rect room, std::string_view digits, std::string_view unit,
            int em, int unit_em) {
    const Rect number = numeral(glass, name, room, digits, {.em = em, .stand = Stand::top});
    const float gap = std::round(static_cast<float>(em) * 0.14F);
    const float unit_capital = Type::capital_height(Face::words_bold, unit_em);
    const Rect unit_room{number.right() + gap, number.bottom() - unit_capital,
                         room.right() - number.right() - gap, unit_capital * 1.3F};
    const std::string unit_name = std::string{name} + "/unit";
    const Rect after = text(
        glass, unit_name, unit_room, unit,
        {.em = unit_em, .colour = glass.colours().text_2, .bold = true, .stand = Stand::top, .lines = 1});
    return {number.x, number.y, after.right() - number.x, number.h};
}

}  // namespace brimline::touch
