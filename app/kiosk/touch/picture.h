// A picture of the glass without a window: triangles of the drawing list painted by hand, and PNG files.
// It serves tests, the screens that the demo writes on a machine without a display, and nothing else.
#pragma once

#include <imgui.h>

#include <cstdint>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "app/kiosk/touch/palette.h"

namespace brimline::touch {

/// Pixels, row by row from the top, each as a Colour.
struct Picture {
    int width{0};
    int height{0};
    std::vector<Colour> pixels{};

    /// The colour of one pixel; red in the lowest byte.
    [[nodiscard]] Colour at(int x, int y) const {
        return pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                      static_cast<std::size_t>(x)];
    }
};

/// Paints a frame as the window would: same triangles, same blending, the nearest texel.
[[nodiscard]] Picture paint(const ImDrawData& frame, const ImFontAtlas& atlas);

/// Writes a PNG file. Errors: a sentence that names the file.
[[nodiscard]] tl::expected<void, std::string> write_png(const Picture& picture, const std::string& file);

/// Reads a PNG file of 8-bit colours. Errors: a sentence that names the file.
[[nodiscard]] tl::expected<Picture, std::string> read_png(const std::string& file);

}  // namespace brimline::touch
