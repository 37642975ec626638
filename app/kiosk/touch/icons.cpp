// Draws the icons of the house from circles, lines and polygons.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/pen.h"

namespace brimline::touch {

namespace {

/// The pen for one icon: its middle, half its size, the ink and the colour of marks on it.
struct Stamp {
    ImDrawList& ink;
    Point middle;
    float half;
    Colour colour;
    Colour mark;

    /// A point in units of half the size, from the middle.
    [[nodiscard]] ImVec2 at(float x, float y) const { return {middle.x + x * half, middle.y + y * half}; }
    [[nodiscard]] ImVec2 middle_point() const { return {middle.x, middle.y}; }
};

void octagon_with_bar(const Stamp& s) {
    for (int i = 0; i < 8; ++i) {
        const float angle = (static_cast<float>(i) + 0.5F) * std::numbers::pi_v<float> / 4;
        s.ink.PathLineTo(s.at(1.04F * std::cos(angle), 1.04F * std::sin(angle)));
    }
    s.ink.PathFillConvex(s.colour);
    s.ink.AddRectFilled(s.at(-0.56F, -0.16F), s.at(0.56F, 0.16F), s.mark, s.half * 0.12F);
}

void triangle_with_sign(const Stamp& s, Colour edge) {
    s.ink.AddTriangleFilled(s.at(0, -0.86F), s.at(1.02F, 0.84F), s.at(-1.02F, 0.84F), s.colour);
    if (edge != s.colour) {
        s.ink.AddTriangle(s.at(0, -0.86F), s.at(1.02F, 0.84F), s.at(-1.02F, 0.84F), edge, 2);
    }
    s.ink.AddRectFilled(s.at(-0.1F, -0.28F), s.at(0.1F, 0.3F), s.mark, s.half * 0.08F);
    s.ink.AddCircleFilled(s.at(0, 0.54F), std::max(1.5F, s.half * 0.12F), s.mark);
}

void circle_with_i(const Stamp& s) {
    s.ink.AddCircle(s.middle_point(), s.half * 0.92F, s.colour, 0, std::max(2.0F, s.half * 0.16F));
    s.ink.AddCircleFilled(s.at(0, -0.4F), std::max(1.5F, s.half * 0.12F), s.colour);
    s.ink.AddRectFilled(s.at(-0.09F, -0.12F), s.at(0.09F, 0.5F), s.colour, s.half * 0.08F);
}

void tick_line(const Stamp& s, Colour colour, float scale, float width) {
    const std::array<ImVec2, 3> points{s.at(-0.75F * scale, 0.05F * scale), s.at(-0.2F * scale, 0.6F * scale),
                                       s.at(0.8F * scale, -0.6F * scale)};
    s.ink.AddPolyline(points.data(), 3, colour, 0, width);
}

void erase_key(const Stamp& s) {
    const std::array<ImVec2, 5> body{s.at(-1, 0), s.at(-0.5F, -0.62F), s.at(0.95F, -0.62F),
                                     s.at(0.95F, 0.62F), s.at(-0.5F, 0.62F)};
    s.ink.AddPolyline(body.data(), 5, s.colour, ImDrawFlags_Closed, 3);
    s.ink.AddLine(s.at(-0.06F, -0.26F), s.at(0.46F, 0.26F), s.colour, 3);
    s.ink.AddLine(s.at(-0.06F, 0.26F), s.at(0.46F, -0.26F), s.colour, 3);
}

void chevron(const Stamp& s) {
    const std::array<ImVec2, 3> points{s.at(-0.4F, -0.8F), s.at(0.4F, 0), s.at(-0.4F, 0.8F)};
    s.ink.AddPolyline(points.data(), 3, s.colour, 0, 3);
}

Colour usual_ink(const Palette& colours, Icon which) {
    switch (which) {
        case Icon::stop:
            return colours.stop;
        case Icon::look:
            return colours.look_fill;
        case Icon::know:
            return colours.know;
        case Icon::good:
            return colours.good;
        case Icon::wedge:
            return colours.accent;
        case Icon::ring:
        case Icon::dash:
            return colours.line;
        case Icon::ring_dot:
            return colours.text_2;
        case Icon::none:
        case Icon::tick:
        case Icon::opens:
        case Icon::erase:
        case Icon::plus:
            return colours.text;
    }
    return colours.text;
}

Colour usual_mark(const Palette& colours, Icon which) {
    return which == Icon::look ? colours.look_ink : colours.panel;
}

}  // namespace

void icon(Glass& glass, Icon which, Point middle, float size) {
    const Palette& colours = glass.colours();
    icon(glass, which, middle, size, usual_ink(colours, which), usual_mark(colours, which));
}

void icon(Glass& glass, Icon which, Point middle, float size, Colour ink, Colour mark) {
    const Stamp s{glass.ink(), middle, size / 2, ink, mark};
    const float ring_width = std::max(2.0F, size * 0.11F);
    switch (which) {
        case Icon::none:
            break;
        case Icon::stop:
            octagon_with_bar(s);
            break;
        case Icon::look:
            triangle_with_sign(s, ink == glass.colours().look_fill ? glass.colours().look : ink);
            break;
        case Icon::know:
            circle_with_i(s);
            break;
        case Icon::tick:
            tick_line(s, ink, 1, std::max(3.0F, size * 0.16F));
            break;
        case Icon::good:
            s.ink.AddCircleFilled(s.middle_point(), s.half, ink);
            tick_line(s, mark, 0.62F, std::max(3.0F, size * 0.13F));
            break;
        case Icon::wedge:
            s.ink.AddTriangleFilled(s.at(-0.85F, -0.95F), s.at(0.85F, 0), s.at(-0.85F, 0.95F), ink);
            break;
        case Icon::ring:
            s.ink.AddCircle(s.middle_point(), s.half - ring_width / 2, ink, 0, ring_width);
            break;
        case Icon::ring_dot:
            s.ink.AddCircle(s.middle_point(), s.half - ring_width / 2, ink, 0, ring_width);
            s.ink.AddCircleFilled(s.middle_point(), s.half * 0.42F, ink);
            break;
        case Icon::dash:
            s.ink.AddLine(s.at(-0.8F, 0), s.at(0.8F, 0), ink, 3);
            break;
        case Icon::opens:
            chevron(s);
            break;
        case Icon::erase:
            erase_key(s);
            break;
        case Icon::plus:
            s.ink.AddRectFilled(s.at(-1, -0.11F), s.at(1, 0.11F), ink);
            s.ink.AddRectFilled(s.at(-0.11F, -1), s.at(0.11F, 1), ink);
            break;
    }
}

}  // namespace brimline::touch
