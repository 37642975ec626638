// Draws keypads, value boxes and PIN dots.
#include "app/kiosk/touch/keypad.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/pen.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

bool pad_key(Glass& glass, const std::string& name, Rect rect, PadKey key) {
    const Palette& c = glass.colours();
    const Touch touch = glass.touch({.name = name, .rect = rect, .hit = rect, .kind = Kind::key});
    fill(glass, rect, touch.pressed ? c.chosen : c.control, control_radius);
    outline(glass, rect, c.line, 2, control_radius);
    if (key == PadKey::erase) {
        icon(glass, Icon::erase, rect.middle(), 50);
    } else if (key == PadKey::point) {
        glass.ink().AddCircleFilled({rect.x + rect.w / 2, rect.y + rect.h / 2 + 12}, 5, c.text);
    } else {
        const TextStyle style{.em = step::glance, .align = Align::centre};
        key_numeral(glass, name + "/title", rect, fmt::format("{}", static_cast<int>(key)), style);
    }
    return touch.fired;
}

std::optional<PadKey> from_keyboard(const FrameInput& input, bool with_point) {
    for (const Stroke& stroke : input.typing) {
        if (stroke.key == Key::backspace) {
            return PadKey::erase;
        }
        if (stroke.character >= U'0' && stroke.character <= U'9') {
            return static_cast<PadKey>(stroke.character - U'0');
        }
        if (with_point && (stroke.character == U'.' || stroke.character == U',')) {
            return PadKey::point;
        }
    }
    return std::nullopt;
}

}  // namespace

std::optional<PadKey> keypad(Glass& glass, std::string_view name, Rect rect, bool with_point, float gap) {
    struct Place {
        PadKey key;
        const char* name;
        int column, row;
    };
    constexpr Place places[] = {
        {PadKey::d1, "1", 0, 0},        {PadKey::d2, "2", 1, 0}, {PadKey::d3, "3", 2, 0},
        {PadKey::d4, "4", 0, 1},        {PadKey::d5, "5", 1, 1}, {PadKey::d6, "6", 2, 1},
        {PadKey::d7, "7", 0, 2},        {PadKey::d8, "8", 1, 2}, {PadKey::d9, "9", 2, 2},
        {PadKey::point, "point", 0, 3}, {PadKey::d0, "0", 1, 3}, {PadKey::erase, "erase", 2, 3},
    };
    std::optional<PadKey> tapped = from_keyboard(glass.input(), with_point);
    for (const Place& place : places) {
        if (place.key == PadKey::point && !with_point) {
            continue;
        }
        const Rect where = cell(rect, 3, 4, place.column, place.row, gap);
        if (pad_key(glass, fmt::format("{}/{}", name, place.name), where, place.key)) {
            tapped = place.key;
        }
    }
    return tapped;
}

bool value_box(Glass& glass, std::string_view name, Rect rect, const ValueBox& shown) {
    const Palette& c = glass.colours();
    const std::string base{name};
    Touch touch;
    if (shown.touchable) {
        touch = glass.touch(
            {.name = base, .rect = rect, .hit = rect, .kind = Kind::key, .checked = shown.focused});
    }
    fill(glass, rect, c.bg, control_radius);
    const Colour edge = !shown.wrong.empty() ? c.stop : (shown.focused ? c.accent : c.line);
    outline(glass, rect, edge, shown.focused || !shown.wrong.empty() ? 4 : 2, control_radius);
    const std::string& label = shown.wrong.empty() ? shown.label : shown.wrong;
    const TextStyle label_style{.colour = shown.wrong.empty() ? c.text_2 : c.stop};
    if (shown.small) {
        text(glass, base + "/label", {rect.x + 14, rect.y + 4, rect.w - 20, 26}, label,
             {.colour = label_style.colour, .lines = 1});
        numeral(glass, base + "/value", {rect.x + 8, rect.y + 34, rect.w - 24, rect.h - 40}, shown.digits,
                {.em = step::glance, .align = Align::right});
        return touch.fired;
    }
    Rect room = rect.inset(20, 8);
    if (!shown.unit.empty()) {
        const float width = glass.type().width(Face::words, step::act, shown.unit) + 2;
        text(glass, base + "/unit", room.right_part(width), shown.unit,
             {.em = step::act, .colour = c.text_2, .align = Align::right, .lines = 1});
        room.w -= width + 14;
    }
    const Rect number = numeral(glass, base + "/value", room.right_part(room.w * 0.56F), shown.digits,
                                {.em = step::typed_large, .align = Align::right});
    if (!label.empty()) {
        const float end = shown.digits.empty() ? room.right() : number.x - 12;
        text(glass, base + "/label", {room.x, room.y, end - room.x, room.h}, label, label_style);
    }
    return touch.fired;
}

void pin_dots(Glass& glass, Rect rect, int typed, int length) {
    constexpr float widest = 58;
    constexpr float largest = 16;
    const float pitch = std::min(widest, rect.w / static_cast<float>(std::max(length, 1)));
    const float radius = std::min(largest, pitch * largest / 44);  // a narrow place takes smaller ones
    const float first = rect.x + rect.w / 2 - pitch * static_cast<float>(length - 1) / 2;
    for (int i = 0; i < length; ++i) {
        const Point middle{first + pitch * static_cast<float>(i), rect.y + rect.h / 2};
        if (i < typed) {
            glass.ink().AddCircleFilled({middle.x, middle.y}, radius, glass.colours().text);
        } else {
            icon(glass, Icon::ring, middle, 2 * radius + 3);
        }
    }
}

}  // namespace brimline::touch
