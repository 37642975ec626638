// Drawing the banners.
#include "app/kiosk/screens/banners.h"

#include "app/kiosk/touch/pen.h"
#include "app/kiosk/touch/text.h"

namespace brimline::screens {
namespace {

/// Between the columns and the foot, where no page writes.
touch::Rect place_of(const touch::Glass& glass, float wide, float upright) {
    constexpr float height = 27;
    return glass.size().h > glass.size().w ? touch::Rect{40, 862, upright, height}
                                           : touch::Rect{352, 665, wide, height};
}

}  // namespace

void draw_clock_banner(touch::Glass& glass) {
    const auto& c = glass.colours();
    const auto tag = place_of(glass, 320, 320);
    touch::fill(glass, tag, c.look_fill, 4);
    touch::text(glass, "set-clock", tag.inset(8, 0), glass.words().say("kiosk.set-clock"),
                {.colour = c.look_ink, .bold = true, .align = touch::Align::centre, .lines = 1});
}

void draw_reading_banner(touch::Glass& glass) {
    const auto& c = glass.colours();
    const auto tag = place_of(glass, 576, 720);
    touch::fill(glass, tag, c.stop_fill, 4);
    touch::text(glass, "reading-only", tag.inset(8, 0), glass.words().say("kiosk.reading-only"),
                {.colour = c.stop_ink, .bold = true, .align = touch::Align::centre, .lines = 1});
}

}  // namespace brimline::screens
