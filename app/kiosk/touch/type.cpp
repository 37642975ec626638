// Loads the fonts with the FreeType builder and converts sizes. The figures of the faces were read from their
// tables: Noto Sans ascent 1.069, descent 0.293, capital 0.714 em; B612 ascent 0.965, descent 0.250, digit
// 0.758 em.
#include "app/kiosk/touch/type.h"

#include <fmt/format.h>
#include <imgui_freetype.h>

#include <array>
#include <cstdlib>
#include <filesystem>

namespace brimline::touch {

namespace {

struct Metrics {
    float ascent;
    float descent;
    float capital;
};

constexpr Metrics noto{1.069F, 0.293F, 0.714F};
constexpr Metrics b612{0.965F, 0.250F, 0.758F};

const Metrics& metrics(Face face) { return face == Face::words || face == Face::words_bold ? noto : b612; }

// Latin with Latin Extended-A and the Romanian commas, combining punctuation in use, Greek, Cyrillic.
constexpr std::array<ImWchar, 19> letters{0x20,   0x17F,  0x218,  0x21B,  0x386,  0x3CE,  0x400,
                                          0x45F,  0x490,  0x491,  0x2010, 0x2026, 0x2032, 0x2033,
                                          0x2080, 0x2089, 0x20AC, 0x20AC, 0};
constexpr std::array<ImWchar, 9> borrowed{0x2192, 0x2192, 0x2212, 0x2212, 0x2264, 0x2265, 0xD7, 0xD7, 0};
constexpr std::array<ImWchar, 9> codes{0x20, 0x7E, 0xB7, 0xB7, 0xD7, 0xD7, 0x2212, 0x2212, 0};
constexpr std::array<ImWchar, 11> digits{0x20,   0x20,   0x25,   0x25,   0x28, 0x3F,
                                         0x2013, 0x2013, 0x2212, 0x2212, 0};
constexpr std::array<ImWchar, 5> only_digits{0x30, 0x39, 0x2013, 0x2013, 0};

struct Cut {
    Face face;
    int em;
    const ImWchar* range;
};

// Every face and size that any screen may ask for.
constexpr std::array cuts{
    Cut{Face::words, step::note, letters.data()},
    Cut{Face::words, step::body, letters.data()},
    Cut{Face::words, step::act, letters.data()},
    Cut{Face::words, step::strong, letters.data()},
    Cut{Face::words, step::glance, letters.data()},
    Cut{Face::words_bold, step::note, letters.data()},
    Cut{Face::words_bold, step::body, letters.data()},
    Cut{Face::words_bold, step::act, letters.data()},
    Cut{Face::words_bold, step::strong, letters.data()},
    Cut{Face::words_bold, step::glance, letters.data()},
    Cut{Face::words_bold, step::label, letters.data()},
    Cut{Face::numerals, step::act, codes.data()},
    Cut{Face::numerals, step::strong, codes.data()},
    Cut{Face::numerals, step::glance, codes.data()},
    Cut{Face::numerals, step::label, digits.data()},
    Cut{Face::numerals, step::typed, digits.data()},
    Cut{Face::numerals, step::typed_large, digits.data()},
    Cut{Face::numerals, step::far, digits.data()},
    Cut{Face::numerals, step::score, digits.data()},
    Cut{Face::numerals, step::count, digits.data()},
    Cut{Face::numerals, step::far_view, only_digits.data()},
    Cut{Face::keys, step::strong, codes.data()},
    Cut{Face::keys, step::glance, codes.data()},
    Cut{Face::keys, step::act, codes.data()},
};

const std::string& file_of(Face face, const FontFiles& files) {
    switch (face) {
        case Face::words:
            return files.words;
        case Face::words_bold:
            return files.words_bold;
        case Face::numerals:
            return files.numerals;
        case Face::keys:
            return files.keys;
    }
    std::abort();
}

std::string missing_file(const FontFiles& files) {
    const std::array<std::pair<const std::string*, const char*>, 4> wanted{
        {{&files.words, "fonts-noto-core"},
         {&files.words_bold, "fonts-noto-core"},
         {&files.keys, "fonts-b612"},
         {&files.numerals, "fonts-b612"}}};
    for (const auto& [file, package] : wanted) {
        if (!std::filesystem::exists(*file)) {
            return fmt::format("Font file {} is missing. Install the package {}.", *file, package);
        }
    }
    return {};
}

void merge_borrowed(ImFontAtlas& atlas, Face face, float em, const FontFiles& files) {
    ImFontConfig config;
    config.MergeMode = true;
    const Face lender = face == Face::words ? Face::keys : Face::numerals;
    atlas.AddFontFromFileTTF(file_of(lender, files).c_str(), imgui_pixels(lender, em), &config,
                             borrowed.data());
}

}  // namespace

float imgui_pixels(Face face, float em) { return em * (metrics(face).ascent + metrics(face).descent); }

tl::expected<Type, std::string> Type::load(ImFontAtlas& atlas, float scale, const FontFiles& files) {
    if (std::string missing = missing_file(files); !missing.empty()) {
        return tl::unexpected(std::move(missing));
    }
    atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    atlas.Flags |= ImFontAtlasFlags_NoBakedLines | ImFontAtlasFlags_NoMouseCursors;
    atlas.TexDesiredWidth = 2048;
    Type type;
    for (const Cut& cut : cuts) {
        const float em = static_cast<float>(cut.em) * scale;
        const std::string& file = file_of(cut.face, files);
        ImFont* font = atlas.AddFontFromFileTTF(file.c_str(), imgui_pixels(cut.face, em), nullptr, cut.range);
        if (font == nullptr) {
            return tl::unexpected(fmt::format("Font file {} cannot be read as a font.", file));
        }
        if (cut.range == letters.data()) {
            merge_borrowed(atlas, cut.face, em, files);
        }
        type.fonts_.emplace(std::pair{cut.face, cut.em}, font);
    }
    if (!atlas.Build()) {
        return tl::unexpected(std::string{"The fonts could not be drawn into one picture."});
    }
    return type;
}

ImFont* Type::font(Face face, int em) const {
    const auto found = fonts_.find({face, em});
    if (found == fonts_.end()) {
        fmt::print(stderr, "type: face {} was never baked at {} px\n", static_cast<int>(face), em);
        std::abort();
    }
    return found->second;
}

bool Type::has(Face face, int em) const { return fonts_.contains({face, em}); }

int Type::smaller(Face face, int em) const {
    auto found = fonts_.lower_bound({face, em});
    if (found == fonts_.begin()) {
        return em;
    }
    --found;
    return found->first.first == face ? found->first.second : em;
}

float Type::width(Face face, int em, std::string_view text) const {
    const float pixels = imgui_pixels(face, static_cast<float>(em));
    const char* begin = text.data();
    return font(face, em)->CalcTextSizeA(pixels, 1.0e6F, 0, begin, begin + text.size()).x;
}

float Type::line_height(Face face, int em) { return imgui_pixels(face, static_cast<float>(em)); }

float Type::capital_height(Face face, int em) { return metrics(face).capital * static_cast<float>(em); }

float Type::ascent(Face face, int em) { return metrics(face).ascent * static_cast<float>(em); }

}  // namespace brimline::touch
