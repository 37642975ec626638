// Paints triangles with the top-left rule of graphics hardware and blends them as the window's renderer does.
#include "app/kiosk/touch/picture.h"

#include <algorithm>
#include <cmath>

namespace brimline::touch {

namespace {

/// A fixed-point grid of 1/256 pixel, as graphics hardware has, so that shared edges leave no gap.
using Fixed = std::int64_t;
constexpr Fixed one = 256;

struct Corner {
    Fixed x, y;
    float u, v;
    Colour colour;
};

struct Ink {
    float r, g, b, a;
};

Ink split(Colour c) {
    const auto part = [c](unsigned shift) { return static_cast<float>((c >> shift) & 0xFFU); };
    return {part(0), part(8), part(16), part(24)};
}

Fixed edge(const Corner& a, const Corner& b, Fixed x, Fixed y) {
    return (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
}

/// Pixels exactly on an edge belong to the triangle below or right of it.
bool owns_edge(const Corner& a, const Corner& b) {
    const bool top = a.y == b.y && b.x > a.x;
    const bool left = b.y < a.y;
    return top || left;
}

struct Texture {
    const unsigned char* alpha{nullptr};
    int width{0};
    int height{0};

    [[nodiscard]] float at(float u, float v) const {
        const int x = std::clamp(static_cast<int>(std::floor(u * static_cast<float>(width))), 0, width - 1);
        const int y = std::clamp(static_cast<int>(std::floor(v * static_cast<float>(height))), 0, height - 1);
        return static_cast<float>(alpha[y * width + x]) / 255.0F;
    }
};

struct Clip {
    int left, top, right, bottom;
};

Colour blended(Colour below, const Ink& ink) {
    const Ink ground = split(below);
    const float a = ink.a / 255.0F;
    const auto mix = [a](float over, float under) {
        return static_cast<Colour>(std::lround(over * a + under * (1 - a)));
    };
    return 0xFF000000U | (mix(ink.b, ground.b) << 16U) | (mix(ink.g, ground.g) << 8U) | mix(ink.r, ground.r);
}

/// One triangle being painted.
class Painter {
public:
    Painter(Picture& picture, Texture texture) : picture_{picture}, texture_{texture} {}

    void triangle(Corner a, Corner b, Corner c, const Clip& clip) {
        Fixed area = edge(a, b, c.x, c.y);
        if (area == 0) {
            return;
        }
        if (area < 0) {
            std::swap(b, c);
            area = -area;
        }
        const auto low = [](Fixed p, Fixed q, Fixed r) {
            return static_cast<int>(std::min({p, q, r}) / one) - 1;
        };
        const auto high = [](Fixed p, Fixed q, Fixed r) {
            return static_cast<int>(std::max({p, q, r}) / one) + 2;
        };
        const int left = std::max(clip.left, low(a.x, b.x, c.x));
        const int right = std::min(clip.right, high(a.x, b.x, c.x));
        const int top = std::max(clip.top, low(a.y, b.y, c.y));
        const int bottom = std::min(clip.bottom, high(a.y, b.y, c.y));
        const Fixed bias_a = owns_edge(b, c) ? 0 : -1;
        const Fixed bias_b = owns_edge(c, a) ? 0 : -1;
        const Fixed bias_c = owns_edge(a, b) ? 0 : -1;
        for (int y = top; y < bottom; ++y) {
            for (int x = left; x < right; ++x) {
                const Fixed px = x * one + one / 2;
                const Fixed py = y * one + one / 2;
                const Fixed wa = edge(b, c, px, py);
                const Fixed wb = edge(c, a, px, py);
                const Fixed wc = edge(a, b, px, py);
                if (wa + bias_a >= 0 && wb + bias_b >= 0 && wc + bias_c >= 0) {
                    shade(x, y, a, b, c, wa, wb, wc, area);
                }
            }
        }
    }

private:
    void shade(int x, int y, const Corner& a, const Corner& b, const Corner& c, Fixed wa, Fixed wb, Fixed wc,
               Fixed area) {
        const auto whole = static_cast<double>(area);
        const auto fa = static_cast<float>(static_cast<double>(wa) / whole);
        const auto fb = static_cast<float>(static_cast<double>(wb) / whole);
        const auto fc = static_cast<float>(static_cast<double>(wc) / whole);
        const Ink ia = split(a.colour);
        const Ink ib = split(b.colour);
        const Ink ic = split(c.colour);
        Ink ink{ia.r * fa + ib.r * fb + ic.r * fc, ia.g * fa + ib.g * fb + ic.g * fc,
                ia.b * fa + ib.b * fb + ic.b * fc, ia.a * fa + ib.a * fb + ic.a * fc};
        ink.a *= texture_.at(a.u * fa + b.u * fb + c.u * fc, a.v * fa + b.v * fb + c.v * fc);
        const std::size_t at = static_cast<std::size_t>(y) * static_cast<std::size_t>(picture_.width) +
                               static_cast<std::size_t>(x);
        picture_.pixels[at] = blended(picture_.pixels[at], ink);
    }

    Picture& picture_;
    Texture texture_;
};

Corner corner_of(const ImDrawVert& vertex, ImVec2 origin) {
    const auto snap = [](float value) {
        return static_cast<Fixed>(std::lround(value * static_cast<float>(one)));
    };
    return {snap(vertex.pos.x - origin.x), snap(vertex.pos.y - origin.y), vertex.uv.x, vertex.uv.y,
            vertex.col};
}

void paint_list(Painter& painter, const ImDrawList& list, const ImDrawData& frame, const Picture& picture) {
    for (const ImDrawCmd& command : list.CmdBuffer) {
        const Clip clip{std::max(0, static_cast<int>(command.ClipRect.x - frame.DisplayPos.x)),
                        std::max(0, static_cast<int>(command.ClipRect.y - frame.DisplayPos.y)),
                        std::min(picture.width, static_cast<int>(command.ClipRect.z - frame.DisplayPos.x)),
                        std::min(picture.height, static_cast<int>(command.ClipRect.w - frame.DisplayPos.y))};
        for (unsigned i = 0; i + 2 < command.ElemCount; i += 3) {
            const auto vertex = [&](unsigned which) {
                const auto index = static_cast<int>(command.IdxOffset + i + which);
                const auto at = static_cast<int>(list.IdxBuffer[index] + command.VtxOffset);
                return corner_of(list.VtxBuffer[at], frame.DisplayPos);
            };
            painter.triangle(vertex(0), vertex(1), vertex(2), clip);
        }
    }
}

}  // namespace

Picture paint(const ImDrawData& frame, const ImFontAtlas& atlas) {
    Picture picture;
    picture.width = static_cast<int>(frame.DisplaySize.x);
    picture.height = static_cast<int>(frame.DisplaySize.y);
    picture.pixels.assign(static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height),
                          rgb(0x000000));
    Painter painter{picture, Texture{atlas.TexPixelsAlpha8, atlas.TexWidth, atlas.TexHeight}};
    for (int i = 0; i < frame.CmdListsCount; ++i) {
        paint_list(painter, *frame.CmdLists[i], frame, picture);
    }
    return picture;
}

}  // namespace brimline::touch
