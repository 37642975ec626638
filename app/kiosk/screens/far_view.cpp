// The far view: name, running volume, syringe number and band, read across the room. A tap anywhere goes
// back, never counts, and says so; the pedal counts here too.
#include <fmt/format.h>

#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

void draw_figure(Glass& glass, const std::string& name, float x, float width, const std::string& word,
                 const std::string& value) {
    touch::text(glass, name, {x, 446, width, 40}, word,
                {.em = touch::step::act, .colour = glass.colours().text_2, .lines = 1});
    touch::text(glass, name + "/value", {x, 482, width, 106}, value,
                {.em = touch::step::label, .bold = true, .lines = 1});
}

void draw_volume(Glass& glass, const FillView& view) {
    const auto figure = touch::numeral(glass, "far/volume", {40, 112, 900, 300},
                                       ml_digits(glass, view.possible), {.em = touch::step::far_view});
    touch::text(glass, "far/unit", {figure.right() + 30, 290, 160, 104}, glass.words().say("unit.ml-alone"),
                {.em = touch::step::label, .colour = glass.colours().text_2, .bold = true, .lines = 1});
    const auto made = view.waiting_taps > 0 || view.unsaved_taps > 0 ? fill_volume_words(glass, view)
                                                                     : syringes_words(glass, view);
    touch::text(glass, "far/made", {900, 330, 340, 64}, made,
                {.em = touch::step::glance,
                 .colour = glass.colours().text_2,
                 .bold = true,
                 .align = touch::Align::right,
                 .lines = 1});
}

void draw_band(Glass& glass, const Scene& scene, const FillView& view) {
    const auto& c = glass.colours();
    const Rect box{40, 597, 1200, 94};
    const bool above = view.band == FillBand::above_ceiling;
    touch::outline(glass, box, above ? c.stop : c.line, 3, touch::panel_radius);
    touch::icon(glass,
                above                               ? touch::Icon::stop
                : view.band == FillBand::in_band    ? touch::Icon::good
                : view.band == FillBand::above_band ? touch::Icon::look
                                                    : touch::Icon::ring,
                {104, 644}, 50);
    const auto& state = *scene.ahead_state;
    const auto now = standing_words(glass, standing_of(view.possible, state, scene.policy), view);
    touch::text(glass, "far/band", {158, 601, 620, 86}, now,
                {.em = touch::step::label, .bold = true, .lines = 1});
    const auto next = standing_words(glass, standing_of(view.next_makes, state, scene.policy), view);
    touch::text(glass, "far/next", {790, 601, 430, 86},
                glass.words().say("far.next", {{"ml", ml_words(glass, view.next_makes)}, {"band", next}}),
                {.em = touch::step::act, .colour = c.text_2, .align = touch::Align::right});
}

std::string vitals_words(const Glass& glass, const Scene& scene) {
    const auto& sets = scene.ahead_state->vitals;
    for (auto set = sets.rbegin(); set != sets.rend(); ++set) {
        if (!set->is.not_taken) {
            return glass.words().say("handover.last-ago",
                                     {{"ago", duration_words(scene.now - set->stamp.happened)}});
        }
    }
    return "–";
}

}  // namespace

Asks draw_far_view(Glass& glass, const Scene& scene) {
    Asks asks;
    glass.dress({.theme = touch::Theme::dark, .in_room = true, .practice = scene.practice});
    const auto& c = glass.colours();
    const auto& words = glass.words();
    const Rect all{0, 0, glass.size().w, glass.size().h};
    if (glass.touch({.name = "far-view", .rect = all, .hit = all, .kind = touch::Kind::card}).fired) {
        asks.sheet = Sheet::none;
    }
    touch::fill(glass, all, c.bg);
    const auto view = fill_view(*scene.state, *scene.ahead_state, scene.policy, scene.now);
    const auto& patient = scene.ahead_state->patient;
    const auto given = patient.given_name ? ", " + *patient.given_name : std::string{};
    touch::text(glass, "far/name", {40, 36, 900, 66},
                in_capitals(patient.family_name.value_or(words.say("frame.unknown"))) + given,
                {.em = touch::step::label, .bold = true, .lines = 1, .may_cut = true});
    touch::numeral(glass, "far/clock", {960, 28, 280, 72}, clock_text(scene.now, scene.zone),
                   {.em = touch::step::typed_large, .align = touch::Align::right});
    draw_volume(glass, view);
    touch::line(glass, {40, 424}, {1240, 424}, c.hairline, 3);
    draw_figure(glass, "far/syringe", 40, 280, words.say("far.syringe"), std::to_string(view.syringes));
    if (view.planned && view.to_aim) {
        draw_figure(glass, "far/target", 340, 380,
                    words.say("fill.to-target", {{"ml", ml_words(glass, view.planned->aim)}}),
                    std::to_string(*view.to_aim));
    }
    draw_figure(glass, "far/vitals", 740, 500, words.say("far.vitals"), vitals_words(glass, scene));
    draw_band(glass, scene, view);
    touch::icon(glass, view.felt ? touch::Icon::good : touch::Icon::know, {62, 742}, 40);
    touch::text(glass, "far/foot", {96, 704, 1144, 76},
                words.say(view.felt ? "fill.felt" : "far.a-tap-goes-back"),
                {.em = touch::step::act, .colour = c.text_2});
    return asks;
}

}  // namespace brimline::screens
