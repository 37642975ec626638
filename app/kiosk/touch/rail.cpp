// Draws the ground of a page, both rails and the person chips.
#include <fmt/format.h>

#include "app/kiosk/touch/button.h"
#include "app/kiosk/touch/frame_parts.h"
#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

Icon icon_of(const Stage& stage) {
    switch (stage.state) {
        case StageState::done:
            return stage.on_screen ? Icon::wedge : Icon::tick;
        case StageState::on_screen:
            return Icon::wedge;
        case StageState::ahead:
            return stage.on_screen ? Icon::wedge : Icon::ring;
        case StageState::under_way:
            return stage.on_screen ? Icon::wedge : Icon::ring_dot;
        case StageState::hold:
            return Icon::stop;
        case StageState::deferred:
            return Icon::dash;
    }
    return Icon::ring;
}

bool shown_now(const Stage& stage) { return stage.on_screen || stage.state == StageState::on_screen; }

/// The row on screen: lifted ground and an accent bar at the outer edge.
void mark_row(Glass& glass, const Layout& layout, Rect row) {
    const Palette& c = glass.colours();
    fill(glass, row, glass.dressed().theme == Theme::dark ? c.control : c.panel);
    const bool at_right = layout.rail.x > layout.size.w / 2;
    fill(glass, at_right ? row.right_part(6) : row.left_part(6), c.accent);
}

void stage_row(Glass& glass, const Layout& layout, Rect row, std::size_t index, const Stage& stage) {
    const Palette& c = glass.colours();
    const bool now = shown_now(stage);
    if (now) {
        mark_row(glass, layout, row.inset(0, 1));
    }
    const Icon which = icon_of(stage);
    const float size = which == Icon::stop ? 26 : (which == Icon::ring || which == Icon::ring_dot ? 21 : 22);
    icon(glass, which, {row.x + 30, row.y + row.h / 2}, size);
    text(glass, fmt::format("rail/{}", index + 1), {row.x + 52, row.y + 2, row.w - 56, row.h - 4}, stage.name,
         {.colour = now ? c.text : c.text_2, .bold = now, .lines = 1});
}

void stage_segments(Glass& glass, const Layout& layout, const std::vector<Stage>& stages) {
    const Palette& c = glass.colours();
    const Rect rail = layout.rail;
    const float pitch = 35;
    const float first = rail.right() - 8 - pitch * static_cast<float>(stages.size());
    for (std::size_t i = 0; i < stages.size(); ++i) {
        const Rect box{first + pitch * static_cast<float>(i), rail.y + 29, 31, 22};
        if (shown_now(stages[i])) {
            icon(glass, icon_of(stages[i]), {rail.x + 30, rail.y + 40}, 22);
            text(glass, fmt::format("rail/{}", i + 1), {rail.x + 52, rail.y + 8, first - rail.x - 60, 64},
                 stages[i].name, {.em = step::body, .bold = true, .lines = 1});
            fill(glass, box.inset(0, -4), c.accent, 4);
        } else if (stages[i].state == StageState::done) {
            fill(glass, box, c.text_2, 4);
            icon(glass, Icon::tick, box.middle(), 14, c.panel, c.panel);
        } else {
            outline(glass, box, stages[i].state == StageState::hold ? c.stop : c.line, 2, 4);
        }
    }
}

}  // namespace

void page_ground(Glass& glass, const Layout& layout) {
    const Palette& c = glass.colours();
    fill(glass, {0, 0, layout.size.w, layout.size.h}, c.bg);
    fill(glass, layout.foot, c.panel);
    fill(glass, {layout.foot.x, layout.foot.y - 1, layout.foot.w, 2}, c.hairline);
}

bool stage_rail(Glass& glass, const Layout& layout, const std::vector<Stage>& stages) {
    const Rect rail = layout.rail;
    const Rect ground = layout.portrait ? Rect{0, rail.y, layout.size.w, rail.h}
                                        : Rect{rail.x, layout.strip.bottom() + 1, rail.w, layout.size.h};
    const Touch touch = glass.touch({.name = "rail", .rect = rail, .hit = rail, .kind = Kind::rail});
    fill(glass, ground, touch.pressed ? glass.colours().chosen : glass.colours().rail);
    if (layout.portrait) {
        stage_segments(glass, layout, stages);
        return touch.fired;
    }
    const float height = stages.size() > 9 ? 55.0F : 61.0F;
    for (std::size_t i = 0; i < stages.size(); ++i) {
        stage_row(glass, layout, {rail.x, rail.y + height * static_cast<float>(i), rail.w, height}, i,
                  stages[i]);
    }
    return touch.fired;
}

std::optional<std::size_t> desk_rail(Glass& glass, const Layout& layout, const std::vector<std::string>& rows,
                                     std::size_t chosen) {
    const Palette& c = glass.colours();
    fill(glass, {layout.rail.x, layout.strip.bottom() + 1, layout.rail.w, layout.size.h}, c.rail);
    std::optional<std::size_t> tapped;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const float pitch = rows.size() > 7 ? 86.0F : rows.size() > 6 ? 98.0F : 104.0F;
        const Rect row{layout.rail.x, 104 + pitch * static_cast<float>(i), layout.rail.w, pitch - 8};
        const std::string name = fmt::format("desk/{}", i + 1);
        const Touch touch =
            glass.touch({.name = name, .rect = row, .hit = row, .kind = Kind::rail, .checked = i == chosen});
        if (i == chosen) {
            mark_row(glass, layout, row);
        } else if (touch.pressed) {
            fill(glass, row, c.chosen);
        }
        text(glass, name + "/title", row.inset(24, 8).left_part(row.w - 32), rows[i],
             {.em = step::body, .colour = i == chosen ? c.text : c.text_2, .bold = i == chosen});
        tapped = touch.fired && i != chosen ? std::optional{i} : tapped;
    }
    return tapped;
}

std::optional<std::size_t> person_chips(Glass& glass, const Layout& layout,
                                        const std::vector<Person>& people) {
    std::optional<std::size_t> tapped;
    const std::size_t room = layout.portrait ? 3 : layout.chips.size();
    for (std::size_t i = 0; i < people.size() && i < room; ++i) {
        const Person& person = people[i];
        const bool fired = button(glass, "person/" + person.id, layout.chips[i],
                                  {.title = person.initials,
                                   .look = person.chosen ? Look::chosen : Look::rest,
                                   .tick = false,
                                   .kind = Kind::chip});
        tapped = fired && !person.chosen ? std::optional{i} : tapped;
    }
    return tapped;
}

}  // namespace brimline::touch
