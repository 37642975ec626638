// Draws panels, outlines, dashes, hatches and the practice frame.
#include "app/kiosk/touch/pen.h"

#include <cmath>

#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

ImVec2 at(float x, float y) { return {x, y}; }

/// Dashes along one straight edge, beginning and ending with a dash.
void dashed_line(Glass& glass, Point from, Point to, Colour colour, float width) {
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    constexpr float dash = 12;
    constexpr float space = 7;
    const float steps = std::max(1.0F, std::floor((length - dash) / (dash + space) + 0.5F));
    const float period = steps > 0 ? (length - dash) / steps : length;
    const float ux = (to.x - from.x) / length;
    const float uy = (to.y - from.y) / length;
    for (int i = 0; i <= static_cast<int>(steps); ++i) {
        const float start = static_cast<float>(i) * period;
        line(glass, {from.x + ux * start, from.y + uy * start},
             {from.x + ux * (start + dash), from.y + uy * (start + dash)}, colour, width);
    }
}

}  // namespace

void fill(Glass& glass, Rect r, Colour colour, float radius) {
    glass.ink().AddRectFilled(at(r.x, r.y), at(r.right(), r.bottom()), colour, radius);
}

void outline(Glass& glass, Rect r, Colour colour, float width, float radius) {
    const float half = width / 2;
    // AddRect shifts by half a pixel of its own; a ring of four sides drawn as a closed path does not.
    glass.ink().PathRect(at(r.x + half, r.y + half), at(r.right() - half, r.bottom() - half),
                         std::max(0.0F, radius - half));
    glass.ink().PathStroke(colour, ImDrawFlags_Closed, width);
}

void dashed(Glass& glass, Rect rect, Colour colour, float width) {
    const Rect r = rect.inset(width / 2);
    dashed_line(glass, {r.x, r.y}, {r.right(), r.y}, colour, width);
    dashed_line(glass, {r.right(), r.y}, {r.right(), r.bottom()}, colour, width);
    dashed_line(glass, {r.right(), r.bottom()}, {r.x, r.bottom()}, colour, width);
    dashed_line(glass, {r.x, r.bottom()}, {r.x, r.y}, colour, width);
}

void hatch(Glass& glass, Rect r, Colour colour, float width, float pitch) {
    glass.ink().PushClipRect(at(r.x, r.y), at(r.right(), r.bottom()), true);
    const float first = std::floor((r.x + r.y) / pitch) * pitch;
    for (float sum = first; sum < r.right() + r.bottom() + pitch; sum += pitch) {
        line(glass, {sum - r.y + width, r.y - width}, {sum - r.bottom() - width, r.bottom() + width}, colour,
             width);
    }
    glass.ink().PopClipRect();
}

void line(Glass& glass, Point from, Point to, Colour colour, float width) {
    glass.ink().PathLineTo(at(from.x, from.y));
    glass.ink().PathLineTo(at(to.x, to.y));
    glass.ink().PathStroke(colour, 0, width);
}

void panel(Glass& glass, Rect rect) { fill(glass, rect, glass.colours().panel, panel_radius); }

void covered(Glass& glass, const char* name, Rect rect) {
    const Palette& colours = glass.colours();
    fill(glass, rect, colours.bg);
    hatch(glass, rect, colours.line, 3, 12);
    const std::string said = glass.words().say("touch.covered");
    const float width = std::min(rect.w - 8, glass.type().width(Face::words, step::note, said) + 12);
    const Rect word = rect.inset((rect.w - width) / 2, std::max(0.0F, (rect.h - 36) / 2));
    fill(glass, word, colours.bg, 4);
    text(glass, name, word.inset(2, 0), said, {.colour = colours.text_2, .align = Align::centre, .lines = 1});
}

void practice_frame(Glass& glass) {
    const Palette& colours = glass.colours();
    constexpr float thick = 7;
    const Size size = glass.size();
    const Rect sides[] = {{0, 0, size.w, thick},
                          {0, size.h - thick, size.w, thick},
                          {0, thick, thick, size.h - 2 * thick},
                          {size.w - thick, thick, thick, size.h - 2 * thick}};
    for (const Rect side : sides) {
        fill(glass, side, colours.bg);
        hatch(glass, side, colours.text, 7, 20);
    }
    const std::string said = glass.words().say("touch.practice");
    const float width = glass.type().width(Face::words_bold, step::note, said) + 36;
    // Landscape: left of the allergy box and over the end of the name. Portrait: in the middle.
    const bool portrait = size.h > size.w;
    const Rect tag{portrait ? (size.w - width) / 2 : 392 - width, 0, width, 34};
    fill(glass, tag, colours.text);
    text(glass, "practice", tag.inset(4, 2), said,
         {.colour = colours.bg, .bold = true, .align = Align::centre, .lines = 1});
}

}  // namespace brimline::touch
