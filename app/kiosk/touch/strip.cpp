// Draws the two strips: the patient's and the desk's.
#include <fmt/format.h>

#include "app/kiosk/touch/button.h"
#include "app/kiosk/touch/frame_parts.h"
#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

/// Where the parts of the strip stand on a page.
struct Places {
    Rect name, allergy, clock, vitals, airway;
    std::array<Rect, 3> figures;
};

constexpr Places wide{.name = {20, 0, 352, 88},
                      .allergy = {384, 12, 204, 64},
                      .clock = {1140, 0, 124, 88},
                      .vitals = {944, 8, 88, 72},
                      .airway = {1044, 8, 88, 72},
                      .figures = {{{600, 0, 122, 88}, {730, 0, 106, 88}, {844, 0, 96, 88}}}};
constexpr Places tall{.name = {20, 0, 560, 88},
                      .allergy = {16, 96, 200, 64},
                      .clock = {600, 0, 184, 88},
                      .vitals = {592, 92, 92, 72},
                      .airway = {692, 92, 92, 72},
                      .figures = {{{232, 84, 120, 88}, {360, 84, 114, 88}, {482, 84, 106, 88}}}};

/// Drawn 64 or 72 px high, felt over the whole strip.
Rect felt(Rect rect, const Layout& layout) {
    return layout.portrait ? Rect{rect.x, 88, rect.w, 88} : Rect{rect.x, 0, rect.w, 88};
}

void draw_ground(Glass& glass, const Layout& layout) {
    fill(glass, layout.strip, glass.colours().panel);
    fill(glass, {0, layout.strip.bottom() - 1, layout.size.w, 2}, glass.colours().hairline);
}

bool draw_name(Glass& glass, Rect rect, const Strip& shown) {
    const Palette& c = glass.colours();
    const Rect hit{0, 0, rect.right(), 88};
    const Rect drawn = hit.top_part(84);  // the rail begins at 92
    const Touch touch = glass.touch({.name = "patient", .rect = drawn, .hit = hit, .kind = Kind::strip});
    const Rect line{rect.x, 14, rect.w, 36};
    const Rect surname = text(glass, "patient/surname", line, shown.surname + ",",
                              {.em = step::act, .bold = true, .lines = 1});
    const float x = surname.right() + 8;
    text(glass, "patient/given", {x, line.y, std::max(24.0F, line.right() - x), line.h}, shown.given,
         {.em = step::act, .bold = true, .lines = 1, .may_cut = true});
    const Rect below{rect.x, 50, rect.w, 28};
    if (shown.born_covered) {
        const Rect block{below.x, below.y - 2, 150, 32};
        covered(glass, "patient/born", block);
        text(glass, "patient/number", {block.right() + 12, below.y, below.w - 162, below.h}, shown.number,
             {.colour = c.text_2, .lines = 1});
    } else {
        text(glass, "patient/born", below, shown.born + (shown.number.empty() ? "" : " · " + shown.number),
             {.colour = c.text_2, .lines = 1});
    }
    return touch.fired;
}

bool draw_allergy(Glass& glass, Rect rect, const Layout& layout, const Strip& shown) {
    const Palette& c = glass.colours();
    const Touch touch =
        glass.touch({.name = "allergy", .rect = rect, .hit = felt(rect, layout), .kind = Kind::strip});
    Colour ink = c.text;
    Icon which = Icon::tick;
    if (shown.allergy == AllergyState::known) {
        fill(glass, rect, c.look_fill, control_radius);
        ink = c.look_ink;
        which = Icon::look;
    } else if (shown.allergy == AllergyState::not_asked) {
        fill(glass, rect, c.stop_fill, control_radius);
        ink = c.stop_ink;
        which = Icon::stop;
    } else {
        outline(glass, rect, c.line, 2, control_radius);
    }
    const bool known = shown.allergy == AllergyState::known;
    const Point middle{rect.x + (which == Icon::tick ? 24.0F : 30.0F), rect.y + rect.h / 2};
    const bool asked = which != Icon::stop;
    icon(glass, which, asked ? middle : Point{rect.x + 22, middle.y},
         which == Icon::look ? 36
         : asked             ? 22
                             : 28,
         ink, known ? c.look_fill : c.stop_fill);
    const float left = which == Icon::look ? 58 : 42;
    const Rect room{rect.x + left, rect.y + 2, rect.w - left - 6, rect.h - 4};
    // Where the words need two lines the label above them goes: the allergy itself is never cut.
    const bool two_lines = glass.type().width(Face::words_bold, step::note, shown.allergy_text) > room.w;
    if (!two_lines) {
        text(glass, "allergy/label", room.top_part(30), glass.words().say("touch.allergy"),
             {.colour = ink, .lines = 1});
    }
    text(glass, "allergy/text", two_lines ? room : room.bottom_part(32), shown.allergy_text,
         {.em = step::body, .colour = ink, .bold = true, .lines = two_lines ? 2 : 1});
    return touch.fired;
}

void draw_figure(Glass& glass, Rect rect, std::size_t index, const StripFigure& shown) {
    const Palette& c = glass.colours();
    const std::string base = fmt::format("strip/figure-{}", index + 1);
    Rect value{rect.x, rect.y + 14, rect.w, 36};
    value.w -= shown.due ? 34 : 0;
    const Rect ink = text(glass, base, value, shown.value,
                          {.em = step::act, .colour = shown.due ? c.look : c.text, .bold = true, .lines = 1});
    if (shown.due) {
        icon(glass, Icon::look, {ink.right() + 20, value.y + 18}, 26);
    }
    text(glass, base + "/label", {rect.x, rect.y + 50, rect.w, 28}, shown.label,
         {.colour = c.text_2, .lines = 1});
}

void draw_clock(Glass& glass, Rect rect, std::string_view clock, std::string_view person) {
    numeral(glass, "clock", {rect.x, 14, rect.w, 36}, clock, {.em = step::act, .align = Align::right});
    text(glass, "person", {rect.x, 50, rect.w, 28}, person,
         {.colour = glass.colours().text_2, .align = Align::right, .lines = 1, .may_cut = true});
}

/// With a `place` the button is watched: it takes no touch for 0.8 s after its command has changed.
bool strip_button(Glass& glass, std::string_view name, Rect rect, Rect hit, const std::string& title,
                  std::string_view place = {}) {
    const Palette& c = glass.colours();
    const Target target{.name = std::string{name},
                        .rect = rect,
                        .hit = hit,
                        .kind = Kind::button,
                        .group = std::string{place}};
    const Touch touch = place.empty() ? glass.touch(target) : glass.touch_watched(target);
    fill(glass, rect, touch.pressed ? c.chosen : c.control, control_radius);
    outline(glass, rect, c.line, 2, control_radius);
    text(glass, std::string{name} + "/title", rect.inset(4, 4), title,
         {.bold = true, .align = Align::centre});
    return touch.fired;
}

}  // namespace

StripTap patient_strip(Glass& glass, const Layout& layout, const Strip& shown) {
    const Places& places = layout.portrait ? tall : wide;
    StripTap tap = StripTap::none;
    draw_ground(glass, layout);
    tap = draw_name(glass, places.name, shown) ? StripTap::patient : tap;
    tap = draw_allergy(glass, places.allergy, layout, shown) ? StripTap::allergy : tap;
    for (std::size_t i = 0; i < shown.figures.size(); ++i) {
        if (shown.figures[i]) {
            draw_figure(glass, places.figures[i], i, *shown.figures[i]);
        }
    }
    if (shown.with_buttons) {
        const Rect vitals = places.vitals;
        const Rect airway = places.airway;
        tap = strip_button(glass, "vitals", vitals, felt(vitals, layout), shown.vitals_title)
                  ? StripTap::vitals
                  : tap;
        tap = strip_button(glass, shown.airway_command, airway, felt(airway, layout), shown.airway_title,
                           "airway")
                  ? StripTap::airway
                  : tap;
    }
    draw_clock(glass, places.clock, shown.clock, shown.person);
    return tap;
}

std::optional<std::size_t> desk_strip(Glass& glass, const Layout& layout, std::string_view title,
                                      std::string_view note, std::string_view clock, std::string_view person,
                                      const std::vector<StripButton>& buttons) {
    draw_ground(glass, layout);
    constexpr float width = 124;
    constexpr float gap = 8;
    const float clock_width = 200;
    const float right = layout.size.w - 16 - clock_width;
    const float left = right - static_cast<float>(buttons.size()) * (width + gap);
    const Rect room{20, 0, (buttons.empty() ? right : left) - 36, 88};
    text(glass, "title", {room.x, 14, room.w, 36}, title, {.em = step::act, .bold = true, .lines = 1});
    text(glass, "title/note", {room.x, 50, room.w, 28}, note, {.colour = glass.colours().text_2, .lines = 1});
    std::optional<std::size_t> tapped;
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        const Rect place{left + static_cast<float>(i) * (width + gap), 8, width, 72};
        if (strip_button(glass, buttons[i].name, place, {place.x, 0, place.w, 88}, buttons[i].title)) {
            tapped = i;
        }
    }
    draw_clock(glass, {layout.size.w - 16 - clock_width, 0, clock_width, 88}, clock, person);
    return tapped;
}

}  // namespace brimline::touch
