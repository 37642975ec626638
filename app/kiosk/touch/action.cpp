// Draws the action in its four looks, low and tall.
#include "app/kiosk/touch/action.h"

#include <algorithm>

#include "app/kiosk/touch/button.h"
#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

constexpr float go_on_width = 142;
constexpr float go_on_gap = 18;
constexpr float tall = 200;

struct Coat {
    Colour ground, edge, ink;
    float width;
};

Coat coat_of(const Palette& c, ActionLook look) {
    switch (look) {
        case ActionLook::ready:
            return {c.action, c.accent, c.action_ink, 3};
        case ActionLook::next_missing:
            return {c.bg, c.accent, c.text, 3};
        case ActionLook::question:
            return {c.bg, c.line, c.text, 2};
        case ActionLook::opens:
            return {c.panel, c.line, c.text, 2};
    }
    return {c.action, c.accent, c.action_ink, 3};
}

void draw_ground(Glass& glass, Rect rect, const Action& shown, const Coat& coat, bool pressed) {
    const bool is_tall = rect.h >= tall;
    const float radius = is_tall ? fill_action_radius : control_radius;
    fill(glass, rect, pressed ? glass.colours().chosen : coat.ground, radius);
    if (shown.pending) {
        dashed(glass, rect, coat.edge, 3);
    } else {
        outline(glass, rect, coat.edge, is_tall ? 4 : coat.width, radius);
    }
}

void draw_warning(Glass& glass, std::string_view slot, Rect box, const std::string& words) {
    const Palette& c = glass.colours();
    fill(glass, box, c.stop_fill, 8);
    outline(glass, box, c.stop_ink, 2, 8);
    icon(glass, Icon::stop, {box.x + 28, box.y + box.h / 2}, 28, c.stop_ink, c.stop_fill);
    text(glass, slot, {box.x + 52, box.y + 4, box.w - 60, box.h - 8}, words,
         {.colour = c.stop_ink, .bold = true});
}

void draw_tall(Glass& glass, Rect rect, const Action& shown, Colour ink) {
    const bool warned = !shown.warning.empty();
    const Rect room = rect.inset(20, 16);
    const float middle = rect.y + rect.h / 2;
    const float up = warned ? 30 : 0;
    const std::string base = shown.command;
    text(glass, base + "/title", {room.x, middle - 78 - up, room.w, 60 + up}, shown.title,
         {.em = step::label, .colour = ink, .bold = true, .align = Align::centre});
    text(glass, base + "/note", {room.x, middle + 2 - up, room.w, 40}, shown.note,
         {.em = step::act, .colour = ink, .align = Align::centre, .lines = 1});
    if (warned) {
        draw_warning(glass, base + "/warning", {rect.x + 16, middle + 38, rect.w - 32, 72}, shown.warning);
        text(glass, base + "/more", {room.x, middle + 118, room.w, 44}, shown.more,
             {.colour = ink, .align = Align::centre});
    } else {
        text(glass, base + "/more", {room.x, middle + 46, room.w, 40}, shown.more,
             {.em = step::body, .colour = ink, .align = Align::centre, .lines = 1});
    }
}

void draw_low(Glass& glass, Rect rect, const Action& shown, Colour ink) {
    Rect room = rect.inset(16, 8);
    const std::string base = shown.command;
    if (shown.look == ActionLook::question) {
        icon(glass, Icon::ring, {rect.x + 36, rect.y + rect.h / 2}, 26);
        room = room.right_part(room.w - 40);
    }
    if (!shown.warning.empty()) {
        const Rect box = room.bottom_part(44);
        draw_warning(glass, base + "/warning", box, shown.warning);
        room.h -= 48;
        text(glass, base + "/title", room, shown.title,
             {.em = step::body, .colour = ink, .bold = true, .align = Align::centre, .lines = 1});
        return;
    }
    std::string note = shown.note;
    if (!shown.more.empty()) {
        note += note.empty() ? shown.more : ", " + shown.more;
    }
    const Rect title = note.empty() ? room : Rect{room.x, room.y, room.w, room.h - 30};
    text(glass, base + "/title", title, shown.title,
         {.em = step::act,
          .colour = ink,
          .bold = true,
          .align = Align::centre,
          .lines = note.empty() ? 2 : 1,
          .smallest = step::note});
    if (!note.empty()) {
        const Colour muted = shown.look == ActionLook::ready ? ink : glass.colours().text_2;
        text(glass, base + "/note", room.bottom_part(30), note,
             {.colour = muted, .align = Align::centre, .lines = 1});
    }
}

bool draw_action(Glass& glass, Rect rect, const Action& shown, const Target& target) {
    const Touch touch = glass.touch_watched(target);
    const Coat coat = coat_of(glass.colours(), shown.look);
    draw_ground(glass, rect, shown, coat, touch.pressed);
    const Colour ink = touch.pressed ? glass.colours().text : coat.ink;
    if (rect.h >= tall) {
        draw_tall(glass, rect, shown, ink);
    } else {
        draw_low(glass, rect, shown, ink);
    }
    return touch.fired;
}

}  // namespace

ActionTap action(Glass& glass, Rect corner, const Action& shown, const std::optional<GoOn>& go_on) {
    ActionTap tap = ActionTap::none;
    Rect rect = corner;
    if (go_on) {
        rect = corner.right_part(corner.w - go_on_width - go_on_gap);
        Button face{.title = go_on->title, .note = go_on->note, .bold = true, .kind = Kind::go_on};
        face.watched = true;
        face.group = "go-on";
        tap = button(glass, "go-on", corner.left_part(go_on_width), face) ? ActionTap::go_on : tap;
    }
    const bool fired = draw_action(glass, rect, shown,
                                   {.name = shown.command,
                                    .rect = rect,
                                    .hit = rect,
                                    .kind = Kind::action,
                                    .group = "corner",
                                    .acts_on_press = shown.acts_on_press});
    return fired ? ActionTap::action : tap;
}

bool sheet_action(Glass& glass, Rect rect, const Action& shown) {
    return draw_action(
        glass, rect, shown,
        {.name = shown.command, .rect = rect, .hit = rect, .kind = Kind::button, .group = "sheet"});
}

}  // namespace brimline::touch
