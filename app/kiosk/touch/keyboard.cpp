// Draws the keyboard and its field, and types into the draft.
#include "app/kiosk/touch/keyboard.h"

#include <fmt/format.h>

#include "app/kiosk/touch/button.h"
#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/pen.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

constexpr int columns = 10;
constexpr float gap = 12;

/// In the procedure room a key is as high as every target there.
float row_height_of(const Glass& glass) { return glass.dressed().in_room ? 88 : 83; }

bool letter_key(Glass& glass, const std::string& name, Rect rect, const std::string& letter) {
    const Palette& c = glass.colours();
    const Touch touch = glass.touch({.name = name, .rect = rect, .hit = rect, .kind = Kind::key});
    fill(glass, rect, touch.pressed ? c.chosen : c.panel, control_radius);
    outline(glass, rect, c.line, 2, control_radius);
    text(glass, name + "/title", rect.inset(4, 4), letter,
         {.em = step::strong, .align = Align::centre, .lines = 1});
    return touch.fired;
}

const char* row_key(const KeyboardState& state, int row) {
    constexpr const char* plain[] = {"keyboard.row-1", "keyboard.row-2", "keyboard.row-3"};
    constexpr const char* capitals[] = {"keyboard.row-1-shift", "keyboard.row-2-shift",
                                        "keyboard.row-3-shift"};
    constexpr const char* accents[] = {"keyboard.accents-1", "keyboard.accents-2", "keyboard.accents-3"};
    constexpr const char* accent_capitals[] = {"keyboard.accents-1-shift", "keyboard.accents-2-shift",
                                               "keyboard.accents-3-shift"};
    if (state.accents) {
        return (state.shift ? accent_capitals : accents)[row];
    }
    return (state.shift ? capitals : plain)[row];
}

void letter_rows(Glass& glass, Rect rect, KeyboardState& state, TextDraft& draft) {
    const float width = (rect.w - gap * (columns - 1)) / columns;
    const float row_height = row_height_of(glass);
    for (int row = 0; row < 4; ++row) {
        const auto letters =
            letters_of(glass.words().say(row == 0 ? "keyboard.digits" : row_key(state, row - 1)));
        for (std::size_t i = 0; i < letters.size() && i < columns; ++i) {
            const Rect where{rect.x + static_cast<float>(i) * (width + gap),
                             rect.y + static_cast<float>(row) * (row_height + gap), width, row_height};
            // Named by place and not by letter, so that Shift does not rename what a finger is on.
            if (letter_key(glass, fmt::format("letter/{}-{}", row, i + 1), where, letters[i])) {
                draft.add(letters[i]);
                state.shift = false;
            }
        }
    }
}

void foot_row(Glass& glass, Rect row, KeyboardState& state, TextDraft& draft) {
    const Words& words = glass.words();
    const Look shift = state.shift ? Look::chosen : Look::rest;
    const Look accents = state.accents ? Look::chosen : Look::rest;
    if (button(glass, "letter/shift", {row.x, row.y, 150, row.h},
               {.title = words.say("touch.shift"), .look = shift, .tick = false, .kind = Kind::key})) {
        state.shift = !state.shift;
    }
    if (button(glass, "letter/accents", {row.x + 162, row.y, 150, row.h},
               {.title = words.say("touch.accents"), .look = accents, .tick = false, .kind = Kind::key})) {
        state.accents = !state.accents;
    }
    if (button(glass, "letter/space", {row.x + 324, row.y, 296, row.h},
               {.title = words.say("touch.space"), .kind = Kind::key})) {
        draft.add(" ");
        state.shift = true;
    }
    const Rect erase{row.x + 632, row.y, 204, row.h};
    if (button(glass, "letter/erase", erase, {.title = "", .kind = Kind::key})) {
        draft.erase();
    }
    icon(glass, Icon::erase, erase.middle(), 52);
}

}  // namespace

void keyboard(Glass& glass, Rect rect, KeyboardState& state, TextDraft& draft) {
    fill(glass, {rect.x - 16, rect.y - 12, rect.w + 32, glass.size().h - rect.y + 12}, glass.colours().rail);
    letter_rows(glass, rect, state, draft);
    const float top = rect.y + 4 * (row_height_of(glass) + gap);
    foot_row(glass, {rect.x, top, rect.w, rect.bottom() - top}, state, draft);
}

void text_field(Glass& glass, std::string_view name, Rect rect, const TextField& shown,
                const TextDraft& draft) {
    const Palette& c = glass.colours();
    const std::string base{name};
    const Rect head = rect.top_part(40);
    const std::string used = fmt::format("{}", draft.letters());
    const std::string most = fmt::format("{}", draft.most_letters());
    text(glass, base + "/label", head.left_part(head.w - 240), shown.label,
         {.colour = c.text_2, .bold = true, .lines = 1});
    text(glass, base + "/letters", head.right_part(232),
         glass.words().say("touch.letters-used", {{"used", used}, {"most", most}}),
         {.colour = c.text_2, .align = Align::right, .lines = 1});
    const Rect box = rect.bottom_part(rect.h - 44);
    fill(glass, box, c.panel, control_radius);
    outline(glass, box, shown.focused ? c.accent : c.line, shown.focused ? 4 : 2, control_radius);
    const Rect room = box.inset(22, 10);
    const Rect letters = text(glass, base + "/text", room, draft.text(),
                              {.em = step::glance, .bold = true, .lines = 1});
    if (shown.focused) {
        const float x = draft.text().empty() ? room.x : letters.right() + 5;
        fill(glass, {x, box.y + box.h / 2 - 24, 4, 48}, c.accent);
    }
}

}  // namespace brimline::touch
