// The kiosk's letters: which face, which sizes, and the one place where em becomes Dear ImGui's pixel size.
// All font code is in type.cpp. Words are Noto Sans; numerals of 28 px and up are B612; never both in one
// word.
#pragma once

#include <imgui.h>

#include <map>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>

namespace brimline::touch {

/// The four faces in use.
enum class Face { words, words_bold, numerals, keys };

/// The steps of the size scale, in em pixels; a text slot steps down this list.
namespace step {
inline constexpr int note = 20;
inline constexpr int body = 24;
inline constexpr int act = 28;
inline constexpr int strong = 32;
inline constexpr int glance = 40;
inline constexpr int label = 48;
inline constexpr int typed = 56;
inline constexpr int typed_large = 64;
inline constexpr int far = 76;
inline constexpr int score = 100;
inline constexpr int count = 128;
inline constexpr int far_view = 265;
}  // namespace step

/// Dear ImGui's pixel size (ascent + descent) of a face at an em size; nothing else converts.
[[nodiscard]] float imgui_pixels(Face face, float em);

/// Where the font files stand; Debian's places unless a test says otherwise.
struct FontFiles {
    std::string words{"/usr/share/fonts/truetype/noto/NotoSans-Regular.ttf"};
    std::string words_bold{"/usr/share/fonts/truetype/noto/NotoSans-Bold.ttf"};
    std::string keys{"/usr/share/fonts/opentype/b612/B612-Regular.otf"};
    std::string numerals{"/usr/share/fonts/opentype/b612/B612-Bold.otf"};
};

/// The loaded fonts of one atlas; each size is baked, none is scaled.
class Type {
public:
    /// Loads every face and size into `atlas`, baked for a screen `scale` times the layout's pixels.
    /// Errors: a sentence that names the missing file and the Debian package that brings it.
    [[nodiscard]] static tl::expected<Type, std::string> load(ImFontAtlas& atlas, float scale = 1,
                                                              const FontFiles& files = {});

    /// The font of a face at an em size; stops the program when that size was never baked.
    [[nodiscard]] ImFont* font(Face face, int em) const;
    /// True when this face was baked at this size.
    [[nodiscard]] bool has(Face face, int em) const;
    /// The next smaller baked size of a face, or `em` itself when there is none.
    [[nodiscard]] int smaller(Face face, int em) const;
    /// Width of one line of text in layout pixels.
    [[nodiscard]] float width(Face face, int em, std::string_view text) const;
    /// Height of a line, ascent and descent together, in layout pixels.
    [[nodiscard]] static float line_height(Face face, int em);
    /// Height of a capital or digit above the baseline, in layout pixels.
    [[nodiscard]] static float capital_height(Face face, int em);
    /// Distance from the top of a line to its baseline, in layout pixels.
    [[nodiscard]] static float ascent(Face face, int em);

private:
    std::map<std::pair<Face, int>, ImFont*> fonts_;
};

}  // namespace brimline::touch
