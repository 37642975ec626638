// The two sets of colours: dark for the procedure room, light for bay and desk, and the contrast they must
// keep. A colour is never the only sign of anything; see icons.h for the shapes that go with it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace brimline::touch {

/// A colour as the drawing list wants it: red in the lowest byte, opaque.
using Colour = std::uint32_t;

/// 0xRRGGBB as a colour.
[[nodiscard]] constexpr Colour rgb(std::uint32_t hex) {
    return 0xFF000000U | ((hex & 0xFFU) << 16U) | (hex & 0xFF00U) | ((hex >> 16U) & 0xFFU);
}

/// Follows the room of the kiosk, not the hour.
enum class Theme { dark, light };

/// Every colour by what it means.
struct Palette {
    Colour bg, panel, control, chosen;  ///< grounds
    Colour text, text_2;                ///< words; text_2 is muted
    Colour line, hairline, rail;        ///< outline of what can be touched; divider; ground of the rail
    Colour action, action_ink, accent;  ///< the next action
    Colour stop, stop_tint, stop_fill, stop_ink;  ///< hold, high: octagon
    Colour look, look_tint;                       ///< review, medium: triangle
    Colour look_fill, look_ink;                   ///< solid amber and its ink, the same in both themes
    Colour know, know_tint;                       ///< low: circle with i
    Colour good, good_tint;                       ///< met, in band: tick in disc
    Colour fluid, fluid_ink;                      ///< syringe blocks
};

/// The colours of a theme.
[[nodiscard]] const Palette& palette(Theme theme);

/// Contrast of two colours by the formula of WCAG 2.2, from 1 to 21.
[[nodiscard]] double contrast(Colour a, Colour b);

/// The promises a palette breaks: text below 7:1, outlines below 3:1; empty when all are kept.
[[nodiscard]] std::vector<std::string> contrast_faults(const Palette& palette);

}  // namespace brimline::touch
