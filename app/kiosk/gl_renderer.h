// Draws a Dear ImGui frame with OpenGL 3.3: one program, one font texture of 8 bits, one draw a command.
// The only file beside window.cpp that knows OpenGL.
#pragma once

#include <imgui.h>

#include <string>
#include <tl/expected.hpp>

namespace brimline::kiosk {

/// Where the page lies in the window, in pixels of the framebuffer.
struct Viewport {
    int x{0};
    int y{0};
    int width{1280};
    int height{800};
    int window_height{800};  ///< OpenGL counts rows from below
    float scale{1};          ///< framebuffer pixels for one pixel of the layout
};

/// Owns the OpenGL objects of a window whose context is current.
class GlRenderer {
public:
    /// Compiles the program and uploads the font atlas. Errors: the driver's own sentence.
    [[nodiscard]] static tl::expected<GlRenderer, std::string> create(ImFontAtlas& atlas, float scale);
    GlRenderer(GlRenderer&& other) noexcept;
    GlRenderer& operator=(GlRenderer&&) = delete;
    GlRenderer(const GlRenderer&) = delete;
    GlRenderer& operator=(const GlRenderer&) = delete;
    ~GlRenderer();

    /// Draws a frame; the window then swaps.
    void draw(const ImDrawData& frame, const Viewport& viewport) const;

private:
    GlRenderer() = default;
    void upload(ImFontAtlas& atlas, float scale);
    void describe_vertices();

    unsigned program_{0};
    unsigned vertices_{0};
    unsigned indices_{0};
    unsigned layout_{0};
    unsigned texture_{0};
    int size_place_{-1};
};

}  // namespace brimline::kiosk
