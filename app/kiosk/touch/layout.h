// Where the fixed parts of a page stand: strip, rail, chips, columns A and B, prompt, action, sheet row.
// A left-handed kiosk mirrors them about the vertical axis; texts, strip and the order of No and Yes do not
// mirror.
#pragma once

#include <array>

#include "app/kiosk/touch/geometry.h"

namespace brimline::touch {

/// The rectangles of a page.
struct Layout {
    Size size{};
    bool portrait{false};
    Rect strip, rail, column_a, column_b, prompt, action, fill_action, sheet_action, sheet_count;
    Rect foot;                    ///< ground under prompt and action
    std::array<Rect, 4> chips{};  ///< three in portrait
};

/// The landscape page of 1280x800.
[[nodiscard]] Layout landscape(bool left_handed = false);
/// The portrait page of 800x1280.
[[nodiscard]] Layout portrait(bool left_handed = false);
/// The page that fits a glass of this size.
[[nodiscard]] Layout layout_for(Size size, bool left_handed = false);
/// The same rectangle on the other side of a page `width` wide.
[[nodiscard]] Rect mirrored(Rect rect, float width);

}  // namespace brimline::touch
