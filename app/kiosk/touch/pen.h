// The strokes all widgets are made of: panels, outlines, dashes, hatches and our own icons.
// Only lines, circles, polygons and rectangles of the drawing list; no picture file, no symbol font.
#pragma once

#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/palette.h"

namespace brimline::touch {

class Glass;

/// The icons, each with one meaning.
enum class Icon {
    none,
    stop,      ///< octagon with bar: hold, high
    look,      ///< triangle with !: review, medium
    know,      ///< circle with i: low
    tick,      ///< chosen, done
    good,      ///< tick in disc: met
    wedge,     ///< the current stage
    ring,      ///< to do
    ring_dot,  ///< the stage under way while another is open
    dash,      ///< deferred
    opens,     ///< chevron: leads to a page
    erase,     ///< takes back one character
    plus,
};

/// Corner radii of the house.
inline constexpr float panel_radius = 12;
inline constexpr float control_radius = 10;
inline constexpr float fill_action_radius = 14;

/// A filled rectangle.
void fill(Glass& glass, Rect rect, Colour colour, float radius = 0);
/// An outline that stays inside the rectangle.
void outline(Glass& glass, Rect rect, Colour colour, float width, float radius = 0);
/// A dashed outline inside the rectangle: pending, proposed, empty.
void dashed(Glass& glass, Rect rect, Colour colour, float width);
/// Diagonal stripes inside the rectangle.
void hatch(Glass& glass, Rect rect, Colour colour, float width, float pitch);
/// A straight line.
void line(Glass& glass, Point from, Point to, Colour colour, float width);
/// A flat panel, without an outline because it cannot be touched.
void panel(Glass& glass, Rect rect);
/// A covered value: hatched, with the word; never blank.
void covered(Glass& glass, const char* name, Rect rect);
/// The striped frame and the word of practice.
void practice_frame(Glass& glass);

/// An icon in its usual colours, `size` wide, around `middle`.
void icon(Glass& glass, Icon which, Point middle, float size);
/// An icon in one given ink with marks in `mark`.
void icon(Glass& glass, Icon which, Point middle, float size, Colour ink, Colour mark);

}  // namespace brimline::touch
