// Column A of Place: what the label says, the volume that was said, how the saline is drawn.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/place_parts.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Pad = PlaceDrafts::Pad;

constexpr Rect label_panel{176, 104, 672, 240};
constexpr Rect volume_panel{176, 356, 672, 156};
constexpr Rect saline_panel{176, 524, 672, 140};

/// One part of the label: its name, how it stands, and the value.
void label_part(Glass& glass, const std::string& name, Rect place, const std::string& value,
                const std::optional<bool>& good, const std::string& good_key) {
    const auto& c = glass.colours();
    const auto& words = glass.words();
    const auto title = touch::text(glass, name, {place.x, place.y, place.w, 28}, words.say("place." + name),
                                   {.colour = c.text_2, .lines = 1});
    if (good) {
        const auto key = fmt::format("place.{}{}", good_key, *good ? "" : "-not");
        const float x = title.right() + 16;
        touch::text(glass, name + "/stands", {x, place.y, place.right() - x, 28}, words.say(key),
                    {.colour = *good ? c.good : c.stop, .bold = true, .lines = 1});
    }
    touch::text(glass, name + "/value", {place.x, place.y + 28, place.w, 36}, value.empty() ? "–" : value,
                {.em = touch::step::body, .bold = true, .lines = 1});
}

std::string range_words(const Glass& glass, const Scene& scene, const DeviceBlock& block) {
    const auto* profile = profile_of(block, scene.policy);
    if (profile == nullptr) {
        return glass.words().say("place.no-profile");
    }
    return glass.words().say("place.range-is", {{"least", ml_digits(glass, profile->least)},
                                                {"most", ml_words(glass, profile->ceiling)}});
}

void draw_read_label(Glass& glass, const Scene& scene, const DeviceBlock& block) {
    const auto& label = block.label->is;
    const auto stands =
        label_standing(label.lot, label.expiry, scene.desk, scene.policy, scene.zone.date_of(scene.now));
    const float x = label_panel.x + 20;
    const float second = x + 316;
    label_part(glass, "lot", {x, 148, 306, 64}, label.lot.value_or(""), stands.lot_free, "recall-free");
    label_part(glass, "serial", {second, 148, 306, 64}, label.serial.value_or(""), std::nullopt, "");
    label_part(glass, "expires", {x, 216, 306, 64}, label.expiry ? shown_date(glass, *label.expiry) : "",
               stands.in_date, "in-date");
    label_part(glass, "range", {second, 216, 306, 64}, range_words(glass, scene, block), std::nullopt, "");
    if (label.gtin) {
        touch::text(glass, "number", {x, 296, 420, 32},
                    glass.words().say("place.number-is", {{"n", *label.gtin}}),
                    {.colour = glass.colours().text_2, .lines = 1});
        touch::text(glass, "number/stands", {x + 420, 296, 212, 32}, glass.words().say("place.check-digit"),
                    {.colour = glass.colours().good, .bold = true, .align = touch::Align::right, .lines = 1});
    }
}

void draw_label(Glass& glass, const Scene& scene) {
    const auto& c = glass.colours();
    const auto& block = scene.ahead_state->device();
    touch::panel(glass, label_panel);
    touch::text(glass, "label-panel/title", {label_panel.x + 20, label_panel.y + 10, 300, 32},
                glass.words().say("place.device-label"), {.colour = c.text_2, .bold = true, .lines = 1});
    if (!block.label) {
        touch::text(glass, "label-panel/none", {label_panel.x + 20, 160, 632, 70},
                    glass.words().say("place.no-label"), {.em = touch::step::body});
        return;
    }
    const bool read = block.label->is.how != LabelHow::unreadable;
    const auto how = glass.words().say(fmt::format("place.how-{}", name_of(block.label->is.how)),
                                       {{"time", clock_text(block.label->stamp.happened, scene.zone)}});
    const auto ink = touch::text(glass, "label-panel/how", {label_panel.x + 340, label_panel.y + 10, 312, 32},
                                 how, {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    touch::icon(glass, read ? touch::Icon::good : touch::Icon::look, {ink.x - 22, label_panel.y + 26}, 26);
    if (read) {
        draw_read_label(glass, scene, block);
    } else {
        touch::text(glass, "label-panel/none", {label_panel.x + 20, 160, 632, 70},
                    glass.words().say("place.unreadable-open"), {.em = touch::step::body});
    }
}

/// The bar from 0 to a little above the ceiling: permitted range, band hatched, aim as a pointer.
class VolumeBar {
public:
    VolumeBar(Glass& glass, Rect bar, std::int64_t end_tenths) : glass_{glass}, bar_{bar}, end_{end_tenths} {}

    [[nodiscard]] float x(Millilitres ml) const {
        return bar_.x + bar_.w * static_cast<float>(ml.in_tenths()) / static_cast<float>(end_);
    }
    [[nodiscard]] Rect between(Millilitres from, Millilitres to) const {
        return {x(from), bar_.y, x(to) - x(from), bar_.h};
    }
    void number(const std::string& name, Millilitres at, const std::string& words, touch::Colour ink,
                bool bold) const {
        touch::text(glass_, name, {x(at) - 50, bar_.bottom() + 10, 100, 30}, words,
                    {.colour = ink, .bold = bold, .align = touch::Align::centre, .lines = 1});
    }

private:
    Glass& glass_;
    Rect bar_;
    std::int64_t end_;
};

void draw_band(Glass& glass, Rect bar_place, const Band& band, const std::optional<Millilitres>& ceiling) {
    const auto& c = glass.colours();
    const auto top = ceiling.value_or(band.high);
    const VolumeBar bar{glass, bar_place, top.in_tenths() + 500};
    touch::fill(glass, bar_place, c.bg, 6);
    touch::fill(glass, bar.between(band.low, top), c.control);
    touch::fill(glass, bar.between(band.low, band.high), c.good_tint);
    touch::hatch(glass, bar.between(band.low, band.high), c.good, 2, 9);
    touch::outline(glass, bar.between(band.low, band.high), c.good, 2);
    const float aim = bar.x(band.aim);
    glass.ink().AddTriangleFilled({aim - 9, bar_place.y - 16}, {aim + 9, bar_place.y - 16},
                                  {aim, bar_place.y - 2}, c.text);
    touch::text(glass, "volume/aim", {aim - 150, bar_place.y - 46, 300, 30},
                glass.words().say("place.target-is", {{"ml", ml_digits(glass, band.aim)}}),
                {.bold = true, .align = touch::Align::centre, .lines = 1});
    bar.number("volume/low", band.low, ml_digits(glass, band.low), c.text, true);
    bar.number("volume/high", band.high, ml_digits(glass, band.high), c.text, true);
    if (ceiling) {
        touch::fill(glass, {bar.x(*ceiling) - 2, bar_place.y - 8, 5, bar_place.h + 16}, c.stop);
        touch::text(glass, "volume/ceiling", {bar.x(*ceiling) - 38, bar_place.bottom() + 10, 76, 30},
                    ml_digits(glass, *ceiling),
                    {.colour = c.stop, .bold = true, .align = touch::Align::centre, .lines = 1});
    }
}

void draw_volume(Glass& glass, const Scene& scene, PlaceDrafts& drafts) {
    const auto& c = glass.colours();
    const auto& state = *scene.ahead_state;
    const auto touch =
        glass.touch({.name = "volume", .rect = volume_panel, .hit = volume_panel, .kind = touch::Kind::card});
    touch::fill(glass, volume_panel, touch.pressed ? c.chosen : c.panel, touch::panel_radius);
    touch::outline(glass, volume_panel, c.line, 2, touch::panel_radius);
    if (touch.fired) {
        drafts.open(Pad::volume);
    }
    const float x = volume_panel.x + 20;
    const auto title = state.plan ? glass.words().say("place.volume-said", {{"name", whose_word(scene)}})
                                  : glass.words().say("place.volume-not-said");
    touch::text(glass, "volume/title", {x, volume_panel.y + 8, 340, 32}, title,
                {.colour = c.text_2, .bold = true, .lines = 1});
    const auto ceiling = ceiling_of(state, scene.policy);
    if (ceiling) {
        touch::text(glass, "volume/ceiling-is", {x + 400, volume_panel.y + 8, 232, 32},
                    glass.words().say("place.ceiling-is", {{"ml", ml_words(glass, *ceiling)}}),
                    {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    }
    if (!state.plan) {
        touch::text(glass, "volume/none", {x, volume_panel.y + 48, 632, 90},
                    glass.words().say("place.tap-to-say"), {.em = touch::step::body});
        return;
    }
    draw_band(glass, {x + 4, volume_panel.y + 74, 616, 32}, *band_of(state, scene.policy), ceiling);
}

/// One button of the row, as wide as its words need in any language.
struct Way {
    const char* name;
    float width;
    Pad pad;
    bool chosen;
    std::string note;
};

std::vector<Way> ways_of(const Glass& glass, const Scene& scene) {
    const auto& block = scene.ahead_state->device();
    const auto& words = glass.words();
    const auto drawn = [&](SalineMethod m) { return block.saline && block.saline->is.method == m; };
    auto row = words.say("place.row-note");
    if (drawn(SalineMethod::row) && block.saline->is.laid_out) {
        const auto each =
            block.saline->is.filled_to.value_or(nominal_syringe(*scene.ahead_state, scene.policy));
        row = fmt::format("{} × {}", *block.saline->is.laid_out, ml_words(glass, each));
    }
    auto bag = words.say("place.closed-tap-note");
    if (drawn(SalineMethod::closed_tap) && block.saline->is.scale_g) {
        bag = words.say("unit.g", {{"n", block.saline->is.scale_g->text()}});
    }
    auto dye = words.say("place.dye-note");
    if (block.dye) {
        const auto& is = block.dye->is;
        dye = is.none == true || !is.ml ? words.say("place.no-dye") : ml_words(glass, *is.ml);
    }
    return {{"row", 146, Pad::row, drawn(SalineMethod::row), row},
            {"pair", 140, Pad::pair, drawn(SalineMethod::pair), words.say("place.pair-note")},
            {"closed-tap", 196, Pad::closed_tap, drawn(SalineMethod::closed_tap), bag},
            {"dye", 134, Pad::dye, block.dye.has_value(), dye}};
}

void draw_saline(Glass& glass, const Scene& scene, PlaceDrafts& drafts) {
    const auto& c = glass.colours();
    const auto& saline = scene.ahead_state->device().saline;
    touch::panel(glass, saline_panel);
    touch::text(glass, "saline-panel/title", {saline_panel.x + 20, saline_panel.y + 6, 300, 30},
                glass.words().say("place.saline-and-dye"), {.colour = c.text_2, .bold = true, .lines = 1});
    if (saline && saline->is.filled_to) {
        touch::text(glass, "saline-panel/to", {saline_panel.x + 250, saline_panel.y + 6, 402, 30},
                    glass.words().say("place.each-to-mark", {{"ml", ml_words(glass, *saline->is.filled_to)}}),
                    {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    }
    const Rect row{saline_panel.x + 16, saline_panel.y + 40, 640, 92};
    const bool pointed = drafts.pointed == PlaceStep::saline && !saline;
    const auto ways = ways_of(glass, scene);
    float x = row.x;
    for (const auto& way : ways) {
        const bool method = way.pad != Pad::dye;
        const auto rest = pointed && method ? touch::Look::accent : touch::Look::rest;
        const touch::Button face{.title = glass.words().say(fmt::format("place.{}", way.name)),
                                 .note = way.note,
                                 .look = way.chosen ? touch::Look::chosen : rest,
                                 .tick = false};
        if (touch::button(glass, way.name, {x, row.y, way.width, row.h}, face)) {
            drafts.open(way.pad);
        }
        x += way.width + 8;
    }
}

}  // namespace

void draw_place_panels(Glass& glass, const Scene& scene, PlaceDrafts& drafts) {
    draw_label(glass, scene);
    draw_volume(glass, scene, drafts);
    draw_saline(glass, scene, drafts);
}

}  // namespace brimline::screens
