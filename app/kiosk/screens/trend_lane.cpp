// Draws the lanes of the trend.
#include "app/kiosk/screens/trend_lane.h"

#include <algorithm>
#include <cmath>

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Point;
using touch::Rect;

/// A scale from `low` to `high`, upwards, with a little room at both ends.
struct Scale {
    float low, high;
    [[nodiscard]] float y(Rect place, int value) const {
        const float part = (static_cast<float>(value) - low) / (high - low);
        return place.bottom() - 10 - std::clamp(part, 0.0F, 1.0F) * (place.h - 20);
    }
};

template <class Low, class High, class Values>
Scale scale_of(const Values& values, float margin, Low low_of, High high_of) {
    if (values.empty()) {
        return {0, 1};
    }
    Scale scale{static_cast<float>(low_of(values.front())), static_cast<float>(high_of(values.front()))};
    for (const auto& one : values) {
        scale.low = std::min(scale.low, static_cast<float>(low_of(one)));
        scale.high = std::max(scale.high, static_cast<float>(high_of(one)));
    }
    return {scale.low - margin, scale.high + margin};
}

Scale spo2_scale(const TrendView& view) {
    int lowest = view.spo2_limit;
    for (const auto* lane : {&view.spo2, &view.airway}) {
        for (const auto& one : *lane) {
            lowest = std::min(lowest, one.value);
        }
    }
    return {static_cast<float>(lowest) - 4, 100};
}

/// A line in dashes: `dash` on, `gap` off.
void dashed_line(Glass& glass, Point from, Point to, touch::Colour colour, float dash, float gap) {
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    for (float at = 0; at < length; at += dash + gap) {
        const float a = at / length;
        const float b = std::min(1.0F, (at + dash) / length);
        touch::line(glass, {from.x + (to.x - from.x) * a, from.y + (to.y - from.y) * a},
                    {from.x + (to.x - from.x) * b, from.y + (to.y - from.y) * b}, colour, 3);
    }
}

void mark(Glass& glass, Point at, LaneStyle style, touch::Colour colour) {
    auto& ink = glass.ink();
    constexpr float r = 5;
    switch (style) {
        case LaneStyle::discs:
            ink.AddCircleFilled({at.x, at.y}, r, colour);
            break;
        case LaneStyle::squares:
            touch::fill(glass, {at.x - r, at.y - r, 2 * r, 2 * r}, colour);
            break;
        case LaneStyle::triangles:
            ink.AddTriangleFilled({at.x, at.y - r - 1}, {at.x + r + 1, at.y + r}, {at.x - r - 1, at.y + r},
                                  colour);
            break;
    }
}

void ring_if_corrected(Glass& glass, Point at, bool corrected) {
    if (corrected) {
        glass.ink().AddCircle({at.x, at.y}, 11, glass.colours().look, 0, 2);
    }
}

void draw_values(Glass& glass, Rect place, const TrendAxis& axis, const std::vector<TrendValue>& values,
                 const Scale& scale, LaneStyle style, touch::Colour colour) {
    const TrendValue* before = nullptr;
    for (const auto& one : values) {
        const Point at{axis.x(one.at), scale.y(place, one.value)};
        if (before != nullptr) {
            const Point from{axis.x(before->at), scale.y(place, before->value)};
            if (style == LaneStyle::discs) {
                touch::line(glass, from, at, colour, 3);
            } else {
                dashed_line(glass, from, at, colour, style == LaneStyle::squares ? 10 : 3, 5);
            }
        }
        mark(glass, at, style, colour);
        ring_if_corrected(glass, at, one.corrected);
        before = &one;
    }
}

}  // namespace

float TrendAxis::x_of(std::size_t index) const {
    if (sets_.size() < 2) {
        return room_.x + room_.w / 2;
    }
    return room_.x + room_.w * static_cast<float>(index) / static_cast<float>(sets_.size() - 1);
}

float TrendAxis::x(Instant t) const {
    if (sets_.empty() || t <= sets_.front()) {
        return x_of(0);
    }
    for (std::size_t i = 1; i < sets_.size(); ++i) {
        if (t <= sets_[i]) {
            const auto whole = static_cast<float>((sets_[i] - sets_[i - 1]).count());
            const auto part = static_cast<float>((t - sets_[i - 1]).count());
            return x_of(i - 1) + (x_of(i) - x_of(i - 1)) * (whole > 0 ? part / whole : 0);
        }
    }
    return x_of(sets_.size() - 1);
}

std::vector<std::size_t> TrendAxis::labelled() const {
    constexpr float least = 80;
    std::vector<std::size_t> shown;
    for (std::size_t i = sets_.size(); i > 0; --i) {  // from the last, which is read most
        if (shown.empty() || x_of(shown.back()) - x_of(i - 1) >= least) {
            shown.push_back(i - 1);
        }
    }
    return shown;
}

float spo2_limit_y(Rect place, const TrendView& view) { return spo2_scale(view).y(place, view.spo2_limit); }

void draw_spo2_lane(Glass& glass, Rect place, const TrendAxis& axis, const TrendView& view) {
    const auto& c = glass.colours();
    touch::fill(glass, place, c.bg, 6);
    const auto scale = spo2_scale(view);
    const float limit = scale.y(place, view.spo2_limit);
    dashed_line(glass, {place.x + 2, limit}, {place.right() - 2, limit}, c.look, 7, 5);
    draw_values(glass, place, axis, view.spo2, scale, LaneStyle::discs, c.fluid);
    for (const auto& one : view.airway) {
        touch::icon(glass, touch::Icon::look, {axis.x(one.at), scale.y(place, one.value)}, 20);
    }
}

void draw_value_lane(Glass& glass, Rect place, const TrendAxis& axis, const std::vector<TrendValue>& values,
                     LaneStyle style) {
    const auto& c = glass.colours();
    touch::fill(glass, place, c.bg, 6);
    const auto value = [](const TrendValue& v) { return v.value; };
    draw_values(glass, place, axis, values, scale_of(values, 10, value, value), style,
                style == LaneStyle::squares ? c.text : c.text_2);
}

void draw_pressure_lane(Glass& glass, Rect place, const TrendAxis& axis,
                        const std::vector<TrendPressure>& values) {
    const auto& c = glass.colours();
    touch::fill(glass, place, c.bg, 6);
    const auto scale = scale_of(
        values, 15, [](const TrendPressure& v) { return v.lower; },
        [](const TrendPressure& v) { return v.upper; });
    const TrendPressure* before = nullptr;
    for (const auto& one : values) {
        const float x = axis.x(one.at);
        const Point upper{x, scale.y(place, one.upper)};
        const Point lower{x, scale.y(place, one.lower)};
        touch::line(glass, upper, lower, c.text, 2);
        if (before != nullptr) {
            const float from = axis.x(before->at);
            touch::line(glass, {from, scale.y(place, before->upper)}, upper, c.text, 3);
            touch::line(glass, {from, scale.y(place, before->lower)}, lower, c.text, 3);
        }
        ring_if_corrected(glass, upper, one.corrected);
        before = &one;
    }
}

}  // namespace brimline::screens
