// Plain shapes of the glass: a point, a size, a rectangle, all in pixels of the 1280x800 or 800x1280 layout.
// No drawing and no input here, so that every other file of touch/ can include it.
#pragma once

#include <algorithm>

namespace brimline::touch {

/// A place on the glass.
struct Point {
    float x{0};
    float y{0};
    bool operator==(const Point&) const = default;
};

/// Width and height of the glass.
struct Size {
    float w{1280};
    float h{800};
    bool operator==(const Size&) const = default;
};

/// An upright rectangle; `right` and `bottom` are its outer edges.
struct Rect {
    float x{0};
    float y{0};
    float w{0};
    float h{0};

    bool operator==(const Rect&) const = default;
    /// The x of the right edge.
    [[nodiscard]] constexpr float right() const { return x + w; }
    /// The y of the lower edge.
    [[nodiscard]] constexpr float bottom() const { return y + h; }
    /// The middle, where a test's finger lands.
    [[nodiscard]] constexpr Point middle() const { return {x + w / 2, y + h / 2}; }
    /// True when the point lies in the rectangle; right and lower edge do not belong to it.
    [[nodiscard]] constexpr bool contains(Point p) const {
        return p.x >= x && p.x < right() && p.y >= y && p.y < bottom();
    }
    /// The same rectangle smaller by `by` on each side.
    [[nodiscard]] constexpr Rect inset(float by) const { return {x + by, y + by, w - 2 * by, h - 2 * by}; }
    /// The same rectangle smaller by `dx` left and right and by `dy` above and below.
    [[nodiscard]] constexpr Rect inset(float dx, float dy) const {
        return {x + dx, y + dy, w - 2 * dx, h - 2 * dy};
    }
    /// The left part, `width` wide.
    [[nodiscard]] constexpr Rect left_part(float width) const { return {x, y, width, h}; }
    /// The right part, `width` wide.
    [[nodiscard]] constexpr Rect right_part(float width) const { return {right() - width, y, width, h}; }
    /// The upper part, `height` high.
    [[nodiscard]] constexpr Rect top_part(float height) const { return {x, y, w, height}; }
    /// The lower part, `height` high.
    [[nodiscard]] constexpr Rect bottom_part(float height) const { return {x, bottom() - height, w, height}; }
};

/// Cell `column`, `row` of a grid of equal cells with `gap` between them.
[[nodiscard]] constexpr Rect cell(Rect area, int columns, int rows, int column, int row, float gap) {
    const float w = (area.w - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
    const float h = (area.h - gap * static_cast<float>(rows - 1)) / static_cast<float>(rows);
    return {area.x + static_cast<float>(column) * (w + gap), area.y + static_cast<float>(row) * (h + gap), w,
            h};
}

/// True when both rectangles share some area.
[[nodiscard]] constexpr bool overlap(Rect a, Rect b) {
    return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

/// The larger of the two distances between the edges of `a` and `b`; negative when they overlap.
[[nodiscard]] constexpr float gap_between(Rect a, Rect b) {
    const float across = std::max(a.x - b.right(), b.x - a.right());
    const float down = std::max(a.y - b.bottom(), b.y - a.bottom());
    return std::max(across, down);
}

}  // namespace brimline::touch
