// Draws the prompt bar and the sheet row.
#include "app/kiosk/touch/button.h"
#include "app/kiosk/touch/frame_parts.h"
#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

constexpr float chip_width = 96;

struct Coat {
    Colour ground, edge, title, why;
    float width;
    Icon icon;
};

Coat coat_of(const Palette& c, Urgency urgency) {
    switch (urgency) {
        case Urgency::high:
            return {c.stop_fill, c.stop, c.stop_ink, c.stop_ink, 3, Icon::stop};
        case Urgency::medium:
            return {c.look_tint, c.look, c.text, c.text, 2, Icon::look};
        case Urgency::low:
            return {c.panel, c.know, c.text, c.text, 2, Icon::know};
        case Urgency::none:
            return {c.bg, c.bg, c.text_2, c.text_2, 0, Icon::know};
    }
    return {c.bg, c.bg, c.text_2, c.text_2, 0, Icon::know};
}

void draw_icon(Glass& glass, const Coat& coat, Urgency urgency, Point middle) {
    const Palette& c = glass.colours();
    if (urgency == Urgency::high) {
        icon(glass, coat.icon, middle, 40, c.stop_ink, c.stop_fill);
    } else if (urgency == Urgency::none) {
        icon(glass, coat.icon, middle, 42, c.line, c.bg);
    } else {
        icon(glass, coat.icon, middle, 42);
    }
}

/// The title takes two lines when it must, and then the second line of the bar goes.
void draw_words(Glass& glass, Rect room, const Prompt& shown, const Coat& coat) {
    const bool quiet = shown.urgency == Urgency::none;
    const float width = glass.type().width(quiet ? Face::words : Face::words_bold, step::body, shown.title);
    const bool two_lines = width > room.w;
    if (two_lines || shown.why.empty()) {
        text(glass, "prompt/title", room, shown.title,
             {.em = step::body, .colour = coat.title, .bold = !quiet});
        return;
    }
    text(glass, "prompt/title", {room.x, room.y + 8, room.w, 32}, shown.title,
         {.em = step::body, .colour = coat.title, .bold = !quiet, .lines = 1});
    text(glass, "prompt/why", {room.x, room.y + 42, room.w, room.h - 44}, shown.why,
         {.colour = coat.why, .lines = 1});
}

}  // namespace

PromptTap prompt_bar(Glass& glass, Rect rect, const Prompt& shown) {
    const Coat coat = coat_of(glass.colours(), shown.urgency);
    float chips = shown.chips.empty() ? 0 : 4;
    for (const auto& chip : shown.chips) {
        chips += chip.width + 8;
    }
    const Rect touched = rect.left_part(rect.w - chips);
    PromptTap tap;
    Touch touch;
    if (shown.urgency != Urgency::none) {
        touch = glass.touch({.name = "prompt", .rect = touched, .hit = touched, .kind = Kind::prompt});
    }
    tap.bar = touch.fired;
    fill(glass, rect, touch.pressed ? glass.colours().chosen : coat.ground, control_radius);
    if (coat.width > 0) {
        outline(glass, rect, coat.edge, coat.width, control_radius);
    }
    draw_icon(glass, coat, shown.urgency, {rect.x + 44, rect.y + rect.h / 2});
    draw_words(glass, {rect.x + 84, rect.y + 6, touched.w - 96, rect.h - 12}, shown, coat);
    float left = touched.right() + 8;
    for (std::size_t i = 0; i < shown.chips.size(); ++i) {
        const Rect place{left, rect.y + 4, shown.chips[i].width, rect.h - 8};
        left += shown.chips[i].width + 8;
        if (button(glass, shown.chips[i].name, place,
                   {.title = shown.chips[i].title, .bold = true, .em = step::note})) {
            tap.chip = i;
        }
    }
    return tap;
}

SheetTap sheet_row(Glass& glass, const Layout& layout, const std::optional<Action>& own,
                   const SheetCount& count) {
    SheetTap tap = own && sheet_action(glass, layout.sheet_action, *own) ? SheetTap::action : SheetTap::none;
    const Rect rect = layout.sheet_count;
    const Coat coat = coat_of(glass.colours(), count.urgency);
    fill(glass, rect, coat.ground, control_radius);
    outline(glass, rect, coat.edge, coat.width, control_radius);
    draw_icon(glass, coat, count.urgency, {rect.x + 44, rect.y + rect.h / 2});
    const float right = count.with_back ? chip_width + 16 : 12;
    const Rect words{rect.x + 84, rect.y + 8, rect.w - 84 - right, rect.h - 16};
    text(glass, "sheet/count", words.top_part(40), count.title,
         {.em = step::body, .colour = coat.title, .bold = true, .lines = 1});
    text(glass, "sheet/note", words.bottom_part(40), count.note, {.colour = coat.why, .lines = 1});
    if (!count.with_back) {
        return tap;
    }
    const Rect back{rect.right() - 4 - chip_width, rect.y + 4, chip_width, rect.h - 8};
    const Button face{.title = glass.words().say("touch.back"), .bold = true, .em = step::note};
    return button(glass, "back", back, face) ? SheetTap::back : tap;
}

SheetTap sheet_row(Glass& glass, const Layout& layout, const Action& own, std::string_view count_title,
                   std::string_view count_note) {
    return sheet_row(glass, layout, std::optional{own},
                     SheetCount{.title = std::string{count_title}, .note = std::string{count_note}});
}

}  // namespace brimline::touch
