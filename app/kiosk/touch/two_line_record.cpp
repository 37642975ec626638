// Draws taps and pedal presses on one time axis.
#include "app/kiosk/touch/two_line_record.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/pen.h"
#include "app/kiosk/touch/text.h"

namespace brimline::touch {

namespace {

constexpr float bar_width = 8;
constexpr float bar_height = 36;

/// The time axis.
struct Axis {
    double first;
    double last;
    float left;
    float right;

    [[nodiscard]] float x(double at) const {
        const double span = last - first;
        const double part = span > 0 ? (at - first) / span : 0.5;
        return left + static_cast<float>(part) * (right - left);
    }
};

Axis axis_of(const TwoLineRecord& shown, float left, float right) {
    Axis axis{1e18, -1e18, left, right};
    for (const auto* beats : {&shown.taps, &shown.pedal}) {
        for (const Beat& beat : *beats) {
            axis.first = std::min(axis.first, beat.at);
            axis.last = std::max(axis.last, beat.at);
        }
    }
    return axis;
}

/// A dashed ring where a partner is missing.
void dashed_ring(Glass& glass, Point middle, Colour colour) {
    constexpr int parts = 8;
    constexpr float turn = 6.2831853F;
    for (int i = 0; i < parts; ++i) {
        const float start = turn * static_cast<float>(i) / parts;
        glass.ink().PathArcTo({middle.x, middle.y}, 12, start, start + turn / parts * 0.6F, 6);
        glass.ink().PathStroke(colour, 0, 3);
    }
}

void draw_bars(Glass& glass, const Axis& axis, const std::vector<Beat>& beats, float y, float other_y,
               Colour colour) {
    for (const Beat& beat : beats) {
        const float x = axis.x(beat.at);
        const Colour ink = beat.alone ? glass.colours().look : colour;
        fill(glass, {x - bar_width / 2, y - bar_height / 2, bar_width, bar_height}, ink, 2);
        if (beat.alone) {
            dashed_ring(glass, {x, other_y}, glass.colours().look);
        }
    }
}

/// Numbers between the lines, as many as have room.
void draw_numbers(Glass& glass, std::string_view name, const Axis& axis, const std::vector<Beat>& beats,
                  float y) {
    float free_from = axis.left - 40;
    for (std::size_t i = 0; i < beats.size(); ++i) {
        const float x = axis.x(beats[i].at);
        if (beats[i].label.empty() || x - 15 < free_from) {
            continue;
        }
        text(glass, fmt::format("{}/number-{}", name, i + 1), {x - 20, y - 12, 40, 24}, beats[i].label,
             {.colour = glass.colours().text_2, .align = Align::centre, .lines = 1});
        free_from = x + 17;
    }
}

}  // namespace

void two_line_record(Glass& glass, std::string_view name, Rect rect, const TwoLineRecord& shown) {
    const Palette& c = glass.colours();
    const std::string base{name};
    float left = rect.x + 16;
    const float middle = rect.y + rect.h / 2;
    const float above = middle - rect.h * 0.28F;
    const float below = middle + rect.h * 0.28F;
    if (!shown.taps_word.empty()) {
        const float words = std::max(glass.type().width(Face::words_bold, step::note, shown.taps_word),
                                     glass.type().width(Face::words_bold, step::note, shown.pedal_word));
        text(glass, base + "/taps", {rect.x, above - 14, words + 2, 28}, shown.taps_word,
             {.colour = c.text_2, .bold = true, .lines = 1});
        text(glass, base + "/pedal", {rect.x, below - 14, words + 2, 28}, shown.pedal_word,
             {.colour = c.text_2, .bold = true, .lines = 1});
        left = rect.x + words + 24;
    }
    if (shown.taps.empty() && shown.pedal.empty()) {
        return;
    }
    const Axis axis = axis_of(shown, left, rect.right() - 16);
    int number = 0;
    for (const StopSpan& stop : shown.stops) {
        const float from = axis.x(stop.from);
        const Rect block{from, rect.y, std::max(2.0F, axis.x(stop.to) - from), rect.h};
        fill(glass, block, c.control);
        const float word = glass.type().width(Face::words, step::note, stop.label) + 4;
        const float x = std::clamp(block.x + (block.w - word) / 2, rect.x, rect.right() - word);
        text(glass, fmt::format("{}/stop-{}", name, ++number), {x, rect.y + 2, word, 26}, stop.label,
             {.colour = c.text_2, .align = Align::centre, .lines = 1});
    }
    line(glass, {axis.left, above}, {axis.right, above}, c.line, 3);
    line(glass, {axis.left, below}, {axis.right, below}, c.line, 3);
    draw_bars(glass, axis, shown.taps, above, below, c.fluid);
    draw_bars(glass, axis, shown.pedal, below, above, c.text_2);
    draw_numbers(glass, name, axis, shown.taps, middle);
}

}  // namespace brimline::touch
