// Draws the gauge from the bottom up.
#include "app/kiosk/touch/gauge.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/pen.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

/// Turns tenths of a millilitre into a height on the glass.
struct Scale {
    Rect tube;
    float top_tenths;

    [[nodiscard]] float y(int tenths) const {
        return tube.bottom() - tube.h * static_cast<float>(tenths) / top_tenths;
    }
};

std::string millilitres(int tenths) { return fmt::format("{}", tenths / 10); }

void label(Glass& glass, const std::string& name, float x, float y, float right, const std::string& words,
           Colour colour, bool bold) {
    text(glass, name, {x, y - 14, right - x, 28}, words, {.colour = colour, .bold = bold, .lines = 1});
}

void draw_block(Glass& glass, const Scale& scale, const Block& block, std::size_t index) {
    const Palette& c = glass.colours();
    const float top = scale.y(block.to_tenths);
    const float bottom = scale.y(block.from_tenths);
    const Rect box{scale.tube.x + 5, top + 2, scale.tube.w - 10, bottom - top - 4};
    Colour ink = c.text;
    switch (block.look) {
        case BlockLook::counted:
            fill(glass, box, c.fluid, 4);
            ink = c.fluid_ink;
            break;
        case BlockLook::above:
            fill(glass, box, c.stop_fill, 4);
            ink = c.stop_ink;
            break;
        case BlockLook::waiting:
            fill(glass, box, c.bg, 4);
            dashed(glass, box, c.look, 3);
            ink = c.look;
            break;
        case BlockLook::unsaved:
            fill(glass, box, c.bg, 4);
            dashed(glass, box, c.stop, 3);
            ink = c.stop;
            break;
        case BlockLook::proposed:
            dashed(glass, box, c.fluid, 3);
            break;
        case BlockLook::corrected:
            fill(glass, box, c.bg, 4);
            hatch(glass, box, c.line, 3, 12);
            outline(glass, box, c.line, 2, 4);
            break;
    }
    if (block.look == BlockLook::corrected) {
        const Rect plate{box.x + box.w / 2 - 24, box.y + 2, 48, box.h - 4};
        fill(glass, plate, c.bg);
    }
    // The figure is 20 px, so a block thinner than that lets it stand out above and below.
    const float spare = std::max(0.0F, 20 - box.h);
    text(glass, fmt::format("gauge/block-{}", index + 1), box.inset(2, -spare / 2), block.label,
         {.colour = ink, .bold = true, .align = Align::centre, .lines = 1});
}

void draw_band(Glass& glass, const Scale& scale, const Gauge& shown) {
    if (!shown.band_from_tenths || !shown.band_to_tenths) {
        return;
    }
    const Palette& c = glass.colours();
    const float top = scale.y(*shown.band_to_tenths);
    const Rect band{scale.tube.x - 6, top, scale.tube.w + 12, scale.y(*shown.band_from_tenths) - top};
    fill(glass, band, c.good_tint);
    hatch(glass, band, c.good, 2, 16);
}

/// Figures beside the tube. Where two would touch, the one of the plain scale gives way, then the band's.
class Figures {
public:
    Figures(Glass& glass, const Scale& scale, float right) : glass_{glass}, scale_{scale}, right_{right} {}

    [[nodiscard]] bool is_free(float y) const {
        return std::none_of(taken_.begin(), taken_.end(),
                            [y](float other) { return std::abs(other - y) < 23; });
    }
    void mark(float y, Colour colour, float width) {
        const float x = scale_.tube.right();
        line(glass_, {x, y}, {x + (width > 2 ? 14.0F : 8.0F), y}, colour, width);
    }
    void put(const std::string& name, float y, float indent, const std::string& words, Colour colour,
             bool bold) {
        label(glass_, name, scale_.tube.right() + 20 + indent, y, right_, words, colour, bold);
        taken_.push_back(y);
    }

private:
    Glass& glass_;
    const Scale& scale_;
    float right_;
    std::vector<float> taken_;
};

void draw_ceiling(Glass& glass, const Scale& scale, const Gauge& shown, Figures& figures) {
    const Palette& c = glass.colours();
    const float y = scale.y(shown.ceiling_tenths);
    fill(glass, {scale.tube.x - 8, y - 2.5F, scale.tube.w + 16, 5}, c.stop);
    icon(glass, Icon::stop, {scale.tube.right() + 30, y}, 20);
    figures.put("gauge/ceiling", y, 26, millilitres(shown.ceiling_tenths), c.stop, true);
}

void draw_target(Glass& glass, const Scale& scale, const Gauge& shown, Figures& figures) {
    if (!shown.target_tenths) {
        return;
    }
    const Palette& c = glass.colours();
    const float y = scale.y(*shown.target_tenths);
    const float x = scale.tube.right() + 9;
    glass.ink().AddTriangleFilled({x, y}, {x + 13, y - 9}, {x + 13, y + 9}, c.text);
    const bool on_edge = shown.target_tenths == shown.band_from_tenths;
    if (on_edge) {
        figures.put("gauge/band-from", y, 8, millilitres(*shown.band_from_tenths), c.good, true);
        figures.put("gauge/target", y + 24, 8, shown.target_word, c.text, true);
    } else {
        // Close to the ceiling the word gives way downwards; the pointer stays where the target is.
        const float beside = figures.is_free(y) ? y : scale.y(shown.ceiling_tenths) + 24;
        figures.put("gauge/target", beside, 8, shown.target_word, c.text, true);
    }
}

void draw_band_figures(Glass& glass, const Scale& scale, const Gauge& shown, Figures& figures) {
    const Palette& c = glass.colours();
    const auto edge = [&](const char* name, std::optional<int> tenths, float nudge) {
        if (!tenths || tenths == shown.target_tenths) {
            return;
        }
        const float y = scale.y(*tenths);
        figures.mark(y, c.good, 3);
        if (figures.is_free(y)) {
            figures.put(name, y, 0, millilitres(*tenths), c.good, true);
        } else if (figures.is_free(y + nudge)) {
            figures.put(name, y + nudge, 0, millilitres(*tenths), c.good, true);
        }
    };
    edge("gauge/band-to", shown.band_to_tenths, -12);
    edge("gauge/band-from", shown.band_from_tenths, 12);
}

}  // namespace

void gauge(Glass& glass, Rect rect, const Gauge& shown) {
    const Palette& c = glass.colours();
    panel(glass, rect);
    const Rect tube{rect.x + 18, rect.y + 22, 108, rect.h - 44};
    const Scale scale{tube.inset(0, 2), static_cast<float>(shown.ceiling_tenths + 500)};
    fill(glass, tube, c.bg, 8);
    draw_band(glass, scale, shown);
    outline(glass, tube, c.line, 2, 8);
    for (std::size_t i = 0; i < shown.blocks.size(); ++i) {
        draw_block(glass, scale, shown.blocks[i], i);
    }
    Figures figures{glass, scale, rect.right() - 6};
    draw_ceiling(glass, scale, shown, figures);
    draw_target(glass, scale, shown, figures);
    draw_band_figures(glass, scale, shown, figures);
    const int step = std::max(1, shown.scale_step_tenths);
    for (int tenths = 0; tenths < shown.ceiling_tenths; tenths += step) {
        const float y = scale.y(tenths);
        if (figures.is_free(y)) {
            figures.mark(y, c.line, 2);
            figures.put(fmt::format("gauge/{}", tenths / 10), y, 0, millilitres(tenths), c.text_2, false);
        }
    }
}

}  // namespace brimline::touch
