// Draws and judges buttons, answer pairs, steppers and rows.
#include "app/kiosk/touch/button.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

/// Ground, outline and inks of a button in one look.
struct Coat {
    Colour ground, edge, ink, note;
    float edge_width;
    Icon icon;
};

Coat coat_of(const Palette& c, Look look) {
    switch (look) {
        case Look::rest:
            return {c.control, c.line, c.text, c.text_2, 2, Icon::none};
        case Look::chosen:
            return {c.chosen, c.text, c.text, c.text, 3, Icon::tick};
        case Look::review:
            return {c.look_fill, c.look_ink, c.look_ink, c.look_ink, 3, Icon::look};
        case Look::stopping:
            return {c.stop_fill, c.stop, c.stop_ink, c.stop_ink, 3, Icon::stop};
        case Look::pending:
            return {c.control, c.text, c.text, c.text, 3, Icon::none};
        case Look::proposed:
            return {c.control, c.know, c.text, c.text, 3, Icon::none};
        case Look::filled:
            return {c.action, c.accent, c.action_ink, c.action_ink, 3, Icon::none};
        case Look::accent:
            return {c.control, c.accent, c.text, c.text, 3, Icon::none};
    }
    return {c.control, c.line, c.text, c.text_2, 2, Icon::none};
}

void draw_coat(Glass& glass, Rect rect, const Coat& coat, Look look, bool pressed) {
    const Colour ground = pressed ? glass.colours().chosen : coat.ground;
    fill(glass, rect, ground, control_radius);
    if (look == Look::pending || look == Look::proposed) {
        dashed(glass, rect, coat.edge, coat.edge_width);
    } else {
        outline(glass, rect, coat.edge, coat.edge_width, control_radius);
    }
}

void draw_mark(Glass& glass, Icon which, Point middle, Colour ink, Colour ground) {
    const float size = which == Icon::tick ? 22 : 26;
    icon(glass, which, middle, size, ink, ground);
}

void draw_title(Glass& glass, std::string_view name, Rect rect, const Button& shown, const Coat& coat) {
    const bool bold = shown.bold || shown.look == Look::chosen || shown.look == Look::review ||
                      shown.look == Look::stopping || shown.look == Look::filled;
    const bool marked = coat.icon != Icon::none && shown.tick && !shown.corner_tick;
    const float side = rect.w < 150 ? 6 : 12;
    Rect room = rect.inset(side, 6);
    if (!shown.note.empty()) {
        const float title = Type::line_height(Face::words, shown.em);
        const float line = Type::line_height(Face::words, step::note);
        const bool wraps = glass.type().width(Face::words, step::note, shown.note) > room.w &&
                           rect.h >= title + 2 * line + 8;
        const float note = wraps ? 2 * line : line;
        const float spare = std::max(0.0F, (rect.h - title - note) / 2);
        const Rect below{room.x, rect.bottom() - spare - note - 2, room.w, note};
        room = {room.x, rect.y + 6, room.w, below.y - rect.y - 6};
        text(glass, std::string{name} + "/note", below, shown.note,
             {.colour = coat.note, .align = Align::centre, .lines = wraps ? 2 : 1});
    }
    if (marked) {
        // The mark stands beside the words, both together in the middle.
        const float words = glass.type().width(bold ? Face::words_bold : Face::words, shown.em, shown.title);
        const float mark = 30;
        const float all = std::min(room.w, words + mark);
        const float left = room.x + (room.w - all) / 2;
        draw_mark(glass, coat.icon, {left + 11, room.y + room.h / 2}, coat.ink, coat.ground);
        room = {left + mark, room.y, all - mark + 1, room.h};
    }
    text(glass, std::string{name} + "/title", room, shown.title,
         {.em = shown.em, .colour = coat.ink, .bold = bold, .align = marked ? Align::left : Align::centre});
}

}  // namespace

bool button(Glass& glass, std::string_view name, Rect rect, const Button& shown) {
    Target target{
        .name = std::string{name}, .rect = rect, .hit = rect, .kind = shown.kind, .group = shown.group};
    target.enabled = shown.look != Look::pending;
    target.checked = shown.look == Look::chosen || shown.look == Look::review || shown.look == Look::stopping;
    const Touch touch = shown.watched ? glass.touch_watched(target) : glass.touch(target);
    const Coat coat = coat_of(glass.colours(), shown.look);
    draw_coat(glass, rect, coat, shown.look, touch.pressed);
    draw_title(glass, name, rect, shown, coat);
    if (shown.corner_tick && shown.look == Look::chosen) {
        icon(glass, Icon::tick, {rect.right() - 18, rect.y + 17}, 15);
    }
    return touch.fired;
}

bool value_key(Glass& glass, std::string_view name, Rect rect, std::string_view digits, bool chosen, int em) {
    const Touch touch = glass.touch(
        {.name = std::string{name}, .rect = rect, .hit = rect, .kind = Kind::key, .checked = chosen});
    const Look look = chosen ? Look::chosen : Look::rest;
    const Coat coat = coat_of(glass.colours(), look);
    draw_coat(glass, rect, coat, look, touch.pressed);
    const TextStyle style{.em = em, .colour = coat.ink, .align = Align::centre};
    const std::string slot = std::string{name} + "/title";
    if (chosen) {
        numeral(glass, slot, rect.inset(6, 6), digits, style);
        icon(glass, Icon::tick, {rect.right() - 18, rect.y + 17}, 15);
    } else {
        key_numeral(glass, slot, rect.inset(6, 6), digits, style);
    }
    return touch.fired;
}

std::optional<Answer> answer_pair(Glass& glass, std::string_view name, Rect rect, const AnswerPair& shown) {
    constexpr float gap = 18;
    const float width = (rect.w - gap) / 2;
    std::optional<Answer> tapped;
    for (const Answer answer : {Answer::no, Answer::yes}) {
        const bool yes = answer == Answer::yes;
        const bool given = shown.given == answer;
        Button face{.title = yes ? shown.yes_word : shown.no_word,
                    .note = yes ? shown.yes_note : shown.no_note};
        if (face.title.empty()) {
            face.title = glass.words().say(yes ? "touch.yes" : "touch.no");
        }
        face.look = !given ? Look::rest : (shown.bad == answer ? shown.bad_look : Look::chosen);
        face.kind = yes ? Kind::answer_yes : Kind::answer_no;
        face.watched = true;
        face.group = fmt::format("{}/{}", name, yes ? "yes" : "no");
        const Rect place{yes ? rect.right() - width : rect.x, rect.y, width, rect.h};
        if (button(glass, face.group, place, face) && !given) {
            tapped = answer;
        }
    }
    return tapped;
}

std::optional<int> stepper(Glass& glass, std::string_view name, Rect rect, const Stepper& shown) {
    const float key = std::max(glass.dressed().in_room ? 88.0F : 72.0F, rect.h);
    const std::string base{name};
    const bool down = button(glass, base + "/less", rect.left_part(key), {.title = "−", .em = step::glance});
    const bool up = button(glass, base + "/more", rect.right_part(key), {.title = "+", .em = step::glance});
    const Rect middle{rect.x + key + 8, rect.y, rect.w - 2 * key - 16, rect.h};
    const std::string digits = shown.value ? fmt::format("{}", *shown.value) : std::string{"–"};
    const Rect number_room = shown.unit.empty() ? middle : middle.top_part(middle.h - 28);
    numeral(glass, base + "/value", number_room, digits, {.em = step::label, .align = Align::centre});
    if (!shown.unit.empty()) {
        text(glass, base + "/unit", middle.bottom_part(28), shown.unit,
             {.colour = glass.colours().text_2, .align = Align::centre, .lines = 1});
    }
    if (!down && !up) {
        return std::nullopt;
    }
    const int wanted = shown.value ? *shown.value + (up ? shown.step : -shown.step) : shown.first;
    const int allowed = std::clamp(wanted, shown.least, shown.most);
    return shown.value == allowed ? std::nullopt : std::optional{allowed};
}

bool row(Glass& glass, std::string_view name, Rect rect, const Row& shown) {
    const Palette& c = glass.colours();
    const std::string base{name};
    const Touch touch =
        glass.touch({.name = base, .rect = rect, .hit = rect, .kind = Kind::row, .checked = shown.current});
    fill(glass, rect, touch.pressed ? c.chosen : c.panel, control_radius);
    outline(glass, rect, shown.current ? c.accent : c.line, shown.current ? 3 : 2, control_radius);
    Rect room = rect.inset(20, 10);
    if (!shown.time.empty()) {
        numeral(glass, base + "/time", room.left_part(92), shown.time, {.em = step::act});
        room = room.right_part(room.w - 104);
    }
    if (shown.opens) {
        icon(glass, Icon::opens, {rect.right() - 24, rect.y + rect.h / 2}, 22, c.line, c.panel);
        room.w -= 28;
    }
    if (!shown.state.empty()) {
        const Rect state = room.right_part(std::min(228.0F, room.w * 0.44F));
        icon(glass, shown.icon, {state.x + 16, state.y + state.h / 2}, shown.icon == Icon::look ? 34 : 28);
        text(glass, base + "/state", state.right_part(state.w - 44), shown.state,
             {.colour = shown.state_bold ? c.text : c.text_2, .bold = shown.state_bold});
        room.w -= state.w + 8;
    }
    const Rect title = shown.note.empty() ? room : room.top_part(room.h / 2);
    text(glass, base + "/title", title, shown.title, {.em = step::body, .bold = true, .lines = 1});
    if (!shown.note.empty()) {
        text(glass, base + "/note", room.bottom_part(room.h / 2), shown.note,
             {.colour = c.text_2, .lines = 1});
    }
    return touch.fired;
}

}  // namespace brimline::touch
