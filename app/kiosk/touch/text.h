// Texts in slots: every text has a room, takes two lines or a smaller step when it is too long, and is
// recorded. A text that fits nowhere ends in an ellipsis, which the layout check reports.
#pragma once

#include <string_view>

#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/palette.h"
#include "app/kiosk/touch/type.h"

namespace brimline::touch {

class Glass;

enum class Align { left, centre, right };
enum class Stand { top, middle, bottom };

/// How a text looks. `colour` 0 means the usual text colour.
struct TextStyle {
    int em{step::note};
    Colour colour{0};
    bool bold{false};
    Align align{Align::left};
    Stand stand{Stand::middle};
    int lines{2};         ///< the most lines it may take
    bool may_cut{false};  ///< given names only
    int smallest{step::note};
};

/// Draws words in a slot; returns the rectangle of the letters.
Rect text(Glass& glass, std::string_view name, Rect room, std::string_view words,
          const TextStyle& style = {});

/// Draws a number of 28 px or more in the numeral face, on one line; returns the rectangle of the digits.
Rect numeral(Glass& glass, std::string_view name, Rect room, std::string_view digits, const TextStyle& style);
/// The same in the face of keys.
Rect key_numeral(Glass& glass, std::string_view name, Rect room, std::string_view digits,
                 const TextStyle& style);

/// A number with its unit on the same baseline, the unit in muted words; returns both together.
Rect figure(Glass& glass, std::string_view name, Rect room, std::string_view digits, std::string_view unit,
            int em, int unit_em);

}  // namespace brimline::touch
