// The OpenGL calls of the kiosk: compile, upload, draw.
#include "app/kiosk/gl_renderer.h"

#include <glad/gl.h>

#include <array>
#include <cstddef>
#include <utility>

namespace brimline::kiosk {

namespace {

constexpr const char* vertex_source = R"(#version 330 core
layout(location = 0) in vec2 place;
layout(location = 1) in vec2 texel;
layout(location = 2) in vec4 colour;
uniform vec2 size;
out vec2 at;
out vec4 ink;
void main() {
    at = texel;
    ink = colour;
    gl_Position = vec4(place.x / size.x * 2.0 - 1.0, 1.0 - place.y / size.y * 2.0, 0.0, 1.0);
}
)";

constexpr const char* fragment_source = R"(#version 330 core
in vec2 at;
in vec4 ink;
uniform sampler2D letters;
out vec4 pixel;
void main() {
    pixel = vec4(ink.rgb, ink.a * texture(letters, at).r);
}
)";

tl::expected<unsigned, std::string> compile(unsigned kind, const char* source) {
    const unsigned shader = glCreateShader(kind);
    glShaderSource(shader, 1, &source, nullptr);
    glCompileShader(shader);
    int good = 0;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &good);
    if (good != 0) {
        return shader;
    }
    std::array<char, 512> log{};
    glGetShaderInfoLog(shader, static_cast<int>(log.size()), nullptr, log.data());
    glDeleteShader(shader);
    return tl::unexpected("OpenGL cannot compile: " + std::string{log.data()});
}

tl::expected<unsigned, std::string> link_program() {
    const auto vertex = compile(GL_VERTEX_SHADER, vertex_source);
    const auto fragment = compile(GL_FRAGMENT_SHADER, fragment_source);
    if (!vertex || !fragment) {
        return tl::unexpected(vertex ? fragment.error() : vertex.error());
    }
    const unsigned program = glCreateProgram();
    glAttachShader(program, *vertex);
    glAttachShader(program, *fragment);
    glLinkProgram(program);
    glDeleteShader(*vertex);
    glDeleteShader(*fragment);
    int good = 0;
    glGetProgramiv(program, GL_LINK_STATUS, &good);
    if (good == 0) {
        glDeleteProgram(program);
        return tl::unexpected(std::string{"OpenGL cannot link the program of the kiosk."});
    }
    return program;
}

const void* offset(std::size_t bytes) { return reinterpret_cast<const void*>(bytes); }

}  // namespace

tl::expected<GlRenderer, std::string> GlRenderer::create(ImFontAtlas& atlas, float scale) {
    const auto program = link_program();
    if (!program) {
        return tl::unexpected(program.error());
    }
    GlRenderer renderer;
    renderer.program_ = *program;
    renderer.size_place_ = glGetUniformLocation(*program, "size");
    glGenVertexArrays(1, &renderer.layout_);
    glGenBuffers(1, &renderer.vertices_);
    glGenBuffers(1, &renderer.indices_);
    renderer.describe_vertices();
    renderer.upload(atlas, scale);
    return renderer;
}

GlRenderer::GlRenderer(GlRenderer&& other) noexcept
    : program_{std::exchange(other.program_, 0U)},
      vertices_{std::exchange(other.vertices_, 0U)},
      indices_{std::exchange(other.indices_, 0U)},
      layout_{std::exchange(other.layout_, 0U)},
      texture_{std::exchange(other.texture_, 0U)},
      size_place_{other.size_place_} {}

GlRenderer::~GlRenderer() {
    if (program_ == 0) {
        return;
    }
    glDeleteProgram(program_);
    glDeleteVertexArrays(1, &layout_);
    glDeleteBuffers(1, &vertices_);
    glDeleteBuffers(1, &indices_);
    glDeleteTextures(1, &texture_);
}

void GlRenderer::describe_vertices() {
    constexpr int stride = sizeof(ImDrawVert);
    glBindVertexArray(layout_);
    glBindBuffer(GL_ARRAY_BUFFER, vertices_);
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices_);
    glEnableVertexAttribArray(0);
    glEnableVertexAttribArray(1);
    glEnableVertexAttribArray(2);
    glVertexAttribPointer(0, 2, GL_FLOAT, GL_FALSE, stride, offset(offsetof(ImDrawVert, pos)));
    glVertexAttribPointer(1, 2, GL_FLOAT, GL_FALSE, stride, offset(offsetof(ImDrawVert, uv)));
    glVertexAttribPointer(2, 4, GL_UNSIGNED_BYTE, GL_TRUE, stride, offset(offsetof(ImDrawVert, col)));
}

// Nearest while the page has its own size: every letter lies on whole pixels then, and it is the faster one.
void GlRenderer::upload(ImFontAtlas& atlas, float scale) {
    unsigned char* pixels = nullptr;
    int width = 0;
    int height = 0;
    atlas.GetTexDataAsAlpha8(&pixels, &width, &height);
    const int filter = scale == 1.0F ? GL_NEAREST : GL_LINEAR;
    glGenTextures(1, &texture_);
    glBindTexture(GL_TEXTURE_2D, texture_);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, filter);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, filter);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, width, height, 0, GL_RED, GL_UNSIGNED_BYTE, pixels);
    atlas.ClearTexData();
}

void GlRenderer::draw(const ImDrawData& frame, const Viewport& viewport) const {
    const int from_below = viewport.window_height - viewport.y - viewport.height;
    glDisable(GL_SCISSOR_TEST);
    glClearColor(0, 0, 0, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    glViewport(viewport.x, from_below, viewport.width, viewport.height);
    glEnable(GL_SCISSOR_TEST);
    glEnable(GL_BLEND);
    glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
    glUseProgram(program_);
    glUniform2f(size_place_, frame.DisplaySize.x, frame.DisplaySize.y);
    glBindTexture(GL_TEXTURE_2D, texture_);
    glBindVertexArray(layout_);
    for (int i = 0; i < frame.CmdListsCount; ++i) {
        const ImDrawList& list = *frame.CmdLists[i];
        glBufferData(GL_ARRAY_BUFFER, list.VtxBuffer.size_in_bytes(), list.VtxBuffer.Data, GL_STREAM_DRAW);
        glBufferData(GL_ELEMENT_ARRAY_BUFFER, list.IdxBuffer.size_in_bytes(), list.IdxBuffer.Data,
                     GL_STREAM_DRAW);
        for (const ImDrawCmd& command : list.CmdBuffer) {
            const ImVec4 clip = command.ClipRect;
            const auto in_pixels = [&](float value) { return static_cast<int>(value * viewport.scale); };
            const int width = in_pixels(clip.z) - in_pixels(clip.x);
            const int height = in_pixels(clip.w) - in_pixels(clip.y);
            if (width <= 0 || height <= 0) {
                continue;
            }
            glScissor(viewport.x + in_pixels(clip.x), from_below + viewport.height - in_pixels(clip.w), width,
                      height);
            constexpr unsigned index_type = sizeof(ImDrawIdx) == 2 ? GL_UNSIGNED_SHORT : GL_UNSIGNED_INT;
            glDrawElementsBaseVertex(GL_TRIANGLES, static_cast<int>(command.ElemCount), index_type,
                                     offset(command.IdxOffset * sizeof(ImDrawIdx)),
                                     static_cast<int>(command.VtxOffset));
        }
    }
}

}  // namespace brimline::kiosk
