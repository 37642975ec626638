// Colours, type and pictures: contrast recomputed, sizes converted in one place, letters that are really
// there.
#include <filesystem>

#include "app/kiosk/touch/headless.h"
#include "app/kiosk/touch/palette.h"
#include "app/kiosk/touch/text.h"
#include "app/kiosk/touch/type.h"
#include "app/kiosk/touch/widgets.h"
#include "tests/catch.h"
#include "tests/source_folder.h"

using namespace brimline::touch;

namespace {

Words english() { return std::move(*Words::load(brimline::test::in_sources("/assets/words/en.json"))); }

}  // namespace

TEST_CASE("both palettes keep every promised contrast", "[touch][palette]") {
    CHECK(contrast_faults(palette(Theme::dark)) == std::vector<std::string>{});
    CHECK(contrast_faults(palette(Theme::light)) == std::vector<std::string>{});
}

TEST_CASE("contrast follows the published formula", "[touch][palette]") {
    CHECK(contrast(rgb(0xFFFFFF), rgb(0x000000)) == Approx(21.0));
    CHECK(contrast(rgb(0x777777), rgb(0xFFFFFF)) == Approx(4.48).margin(0.01));
    CHECK(contrast(palette(Theme::dark).text, palette(Theme::dark).bg) == Approx(17.8).margin(0.05));
    CHECK(contrast(palette(Theme::light).stop, palette(Theme::light).stop_tint) == Approx(6.4).margin(0.05));
}

TEST_CASE("a palette with weak text is named as faulty", "[touch][palette]") {
    Palette weak = palette(Theme::dark);
    weak.text_2 = weak.line;
    CHECK(contrast_faults(weak).size() == 4);
}

TEST_CASE("em becomes pixels by the measure of each face", "[touch][type]") {
    CHECK(imgui_pixels(Face::words, 20) == Approx(27.24F));
    CHECK(imgui_pixels(Face::numerals, 128) == Approx(155.52F));
}

TEST_CASE("a missing font file is named with its package", "[touch][type]") {
    ImFontAtlas atlas;
    const auto type = Type::load(atlas, 1, {.words = "/nowhere/Words.ttf"});
    REQUIRE_FALSE(type.has_value());
    CHECK(type.error() == "Font file /nowhere/Words.ttf is missing. Install the package fonts-noto-core.");
}

TEST_CASE("every letter that a name or a sentence may need is in the atlas", "[touch][type]") {
    ImFontAtlas atlas;
    const auto type = Type::load(atlas);
    REQUIRE(type.has_value());
    for (const ImWchar letter :
         std::initializer_list<ImWchar>{0x17B, 0x142, 0x159, 0x151, 0x15F, 0x219, 0x3A9, 0x436, 0x2019,
                                        0x2082, 0xB7, 0xD7, 0x2264, 0x2265, 0x2212, 0x2192, 0x2026}) {
        INFO("letter " << letter);
        CHECK(type->font(Face::words, step::note)->FindGlyphNoFallback(letter) != nullptr);
        CHECK(type->font(Face::words_bold, step::label)->FindGlyphNoFallback(letter) != nullptr);
    }
    CHECK(type->font(Face::numerals, step::far_view)->FindGlyphNoFallback('9') != nullptr);
}

TEST_CASE("digits are equally wide, so that columns stand", "[touch][type]") {
    ImFontAtlas atlas;
    const auto type = Type::load(atlas);
    REQUIRE(type.has_value());
    for (const Face face : {Face::words, Face::words_bold, Face::numerals, Face::keys}) {
        const float one = type->width(face, step::act, "1111");
        CHECK(type->width(face, step::act, "0000") == one);
        CHECK(type->width(face, step::act, "8888") == one);
    }
}

TEST_CASE("a painted panel has the palette's colours and a written picture reads back the same",
          "[touch][picture]") {
    const Words words = english();
    Headless glass{[](Glass& g) {
                       g.dress({Theme::dark, true, false});
                       fill(g, {0, 0, 1280, 800}, g.colours().bg);
                       fill(g, {100, 100, 50, 50}, g.colours().action);
                       numeral(g, "big", {300, 100, 500, 120}, "8", {.em = step::count});
                   },
                   words};
    const Picture picture = glass.picture();
    CHECK(picture.at(10, 10) == palette(Theme::dark).bg);
    CHECK(picture.at(100, 100) == palette(Theme::dark).action);
    CHECK(picture.at(149, 149) == palette(Theme::dark).action);
    CHECK(picture.at(150, 149) == palette(Theme::dark).bg);
    int lit = 0;
    for (const Colour pixel : picture.pixels) {
        lit += pixel == palette(Theme::dark).text ? 1 : 0;
    }
    CHECK(lit > 1500);
    const auto file = std::filesystem::temp_directory_path() / "brimline-touch-look.png";
    REQUIRE(write_png(picture, file.string()).has_value());
    CHECK(read_png(file.string())->pixels == picture.pixels);
    std::filesystem::remove(file);
    CHECK_FALSE(write_png(picture, "/nowhere/x.png").has_value());
}
