// Draws cards and what stands in them.
#include "app/kiosk/touch/card.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

struct Coat {
    Colour ground, edge, note;
    float width;
    Icon icon;
};

Coat coat_of(const Palette& c, const Card& shown) {
    if (shown.taken) {
        return {c.chosen, c.text, c.text, 3, Icon::tick};
    }
    switch (shown.kind) {
        case CardKind::hold:
            return {c.stop_tint, c.stop, c.text, 3, Icon::stop};
        case CardKind::review:
        case CardKind::question:
            return {c.look_tint, c.look, c.text, 3, Icon::look};
        case CardKind::to_do:
            return {c.control, c.line, c.text, 2, Icon::ring};
        case CardKind::done:
            return {c.panel, c.line, c.text_2, 2, Icon::good};
        case CardKind::good:
            return {c.good_tint, c.good_tint, c.text, 0, Icon::good};
        case CardKind::plain:
            return {c.control, c.line, c.text_2, 2, Icon::none};
    }
    return {c.control, c.line, c.text_2, 2, Icon::none};
}

/// The lines below the title; the last one may wrap when there is room.
void draw_lines(Glass& glass, std::string_view name, Rect words, float top, const Card& shown,
                const Coat& coat) {
    constexpr float line_height = 30;
    int number = 0;
    float y = top;
    for (const std::string& line : shown.lines) {
        const bool last = &line == &shown.lines.back();
        const float height = last ? std::max(line_height, words.bottom() - y - 2) : line_height;
        const bool wraps = height >= 50 && glass.type().width(Face::words, step::note, line) > words.w;
        text(glass, fmt::format("{}/line-{}", name, ++number),
             {words.x, y, words.w, wraps ? height : line_height}, line,
             {.colour = coat.note, .lines = wraps ? 2 : 1});
        y += line_height;
    }
}

/// Title and lines in the middle of the room, icon at the left of both.
void draw_inside(Glass& glass, std::string_view name, Rect room, const Card& shown, const Coat& coat) {
    constexpr float icon_room = 44;
    constexpr float line_height = 30;
    const bool tall = shown.lines.size() >= 2 && room.h >= 130;
    Rect words = coat.icon == Icon::none ? room : room.right_part(room.w - icon_room);
    if (shown.opens) {
        icon(glass, Icon::opens, {room.right() - 6, room.y + room.h / 2}, 20);
        words.w -= 24;
    }
    const auto count = static_cast<float>(shown.lines.size());
    const bool two_lines = shown.title.find('\n') != std::string::npos ||
                           glass.type().width(Face::words_bold, step::body, shown.title) > words.w;
    const float title_height = std::min(words.h - count * line_height, two_lines ? 66.0F : 36.0F);
    const float spare = std::max(0.0F, (words.h - title_height - count * line_height) / 2);
    const Rect title{words.x, words.y + spare, words.w, title_height};
    const float beside = tall ? title.y + title.h / 2 : room.y + std::min(room.h, 88.0F) / 2;
    icon(glass, coat.icon, {room.x + 16, beside}, coat.icon == Icon::tick ? 24 : 32);
    text(glass, fmt::format("{}/title", name), title, shown.title,
         {.em = step::body, .bold = true, .lines = title_height >= 52 ? 2 : 1});
    if (tall) {
        words = {room.x + 4, words.y, room.w - 8 - (shown.opens ? 24.0F : 0.0F), words.h};  // below the icon
    }
    draw_lines(glass, name, words, title.bottom(), shown, coat);
}

void draw_ground(Glass& glass, Rect rect, const Coat& coat, bool pressed) {
    fill(glass, rect, pressed ? glass.colours().chosen : coat.ground, control_radius);
    if (coat.width > 0) {
        outline(glass, rect, coat.edge, coat.width, control_radius);
    }
}

}  // namespace

bool card(Glass& glass, std::string_view name, Rect rect, const Card& shown) {
    Touch touch;
    if (shown.opens || shown.taken || shown.kind == CardKind::to_do || shown.kind == CardKind::done) {
        touch = glass.touch({.name = std::string{name},
                             .rect = rect,
                             .hit = rect,
                             .kind = Kind::card,
                             .checked = shown.taken});
    }
    const Coat coat = coat_of(glass.colours(), shown);
    draw_ground(glass, rect, coat, touch.pressed);
    draw_inside(glass, name, rect.inset(20, 8), shown, coat);
    return touch.fired;
}

std::optional<std::size_t> card_with_ways(Glass& glass, std::string_view name, Rect rect, const Card& shown,
                                          const std::vector<Way>& ways, float way_height) {
    const Coat coat = coat_of(glass.colours(), shown);
    draw_ground(glass, rect, coat, false);
    const Rect inside = rect.inset(16, 8);
    draw_inside(glass, name, Rect{inside.x + 4, inside.y, inside.w + 4, inside.h - way_height - 8}, shown,
                coat);
    const Rect foot = inside.bottom_part(way_height);
    std::optional<std::size_t> tapped;
    for (std::size_t i = 0; i < ways.size(); ++i) {
        const Rect place = cell(foot, static_cast<int>(ways.size()), 1, static_cast<int>(i), 0, 8);
        const Button face{.title = ways[i].title, .note = ways[i].note, .look = ways[i].look, .bold = true};
        if (button(glass, ways[i].name, place, face)) {
            tapped = i;
        }
    }
    return tapped;
}

std::optional<Answer> card_with_answer(Glass& glass, std::string_view name, Rect rect, const Card& shown,
                                       const AnswerPair& pair, float pair_height) {
    const Coat coat = coat_of(glass.colours(), shown);
    draw_ground(glass, rect, coat, false);
    const Rect inside = rect.inset(16, 10);
    draw_inside(glass, name, Rect{inside.x + 4, inside.y, inside.w + 4, inside.h - pair_height - 4}, shown,
                coat);
    return answer_pair(glass, name, inside.bottom_part(pair_height), pair);
}

}  // namespace brimline::touch
