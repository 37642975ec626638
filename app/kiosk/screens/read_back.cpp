// After an equal read-back: the two numbers with their names, what stands behind them, and page one's line.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/size_parts.h"
#include "app/kiosk/screens/whose_word.h"
#include "core/case/fill_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

void number_panel(Glass& glass, const std::string& name, Rect place, const std::string& title, Millilitres ml,
                  const std::string& note) {
    const auto& c = glass.colours();
    touch::panel(glass, place);
    touch::text(glass, name + "/title", {place.x + 20, place.y + 10, place.w - 30, 32}, title,
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::figure(glass, name + "/ml", {place.x + 20, place.y + 46, place.w - 40, 80}, ml_digits(glass, ml),
                  glass.words().say("unit.ml-alone"), touch::step::far, touch::step::act);
    touch::text(glass, name + "/note", {place.x + 20, place.y + 128, place.w - 30, 40}, note,
                {.colour = c.text_2, .lines = 1});
}

void draw_numbers(Glass& glass, const Scene& scene, const FillView& view, const AgreedBy& by) {
    const auto& words = glass.words();
    const auto& said = by.read_back;
    number_panel(glass, "counted", {176, 104, 330, 176}, words.say("size.counted-by-taps"), said.is.counted,
                 syringes_words(glass, view));
    const auto who = said.is.from_pedal ? words.say("size.from-pedal")
                                        : words.say("size.entered-covered",
                                                    {{"name", short_name(scene.ahead, said.stamp.by)}});
    number_panel(glass, "said", {518, 104, 330, 176},
                 words.say("size.said-by", {{"name", whose_word(scene)}}), said.is.ml, who);
}

void draw_equal(Glass& glass, const Scene& scene, const AgreedBy& by) {
    const auto stands = standing_of(by.read_back.is.counted, *scene.state, scene.policy);
    auto line = glass.words().say("size.confirmed-at",
                                  {{"time", clock_text(by.read_back.stamp.happened, scene.zone, true)}});
    if (stands.band) {
        line += " · " + glass.words().say(fmt::format("size.{}", name_of(*stands.band)));
    }
    touch::card(glass, "equal", {176, 292, 672, 92},
                {.kind = touch::CardKind::good,
                 .title = glass.words().say("size.equal", {{"ml", ml_words(glass, by.read_back.is.counted)}}),
                 .lines = {line}});
}

struct Line {
    std::string words, value;
};

Line matter_line(const Glass& glass, const Scene& scene, const AgreedBy& by) {
    const auto& words = glass.words();
    const auto look = matter_look(*scene.state, scene.policy);
    const auto time = look ? clock_text(look->at, scene.zone, true) : std::string{};
    if (by.pair) {
        return {words.say("size.matter"), words.say("size.no-third-witness")};
    }
    if (by.row) {
        return {words.say("size.row-at", {{"time", time}}), words.count("size.row-used", *by.row)};
    }
    if (by.scale) {
        return {words.say("size.scale-at", {{"time", time}}), ml_words(glass, *by.scale)};
    }
    return {words.say("size.matter"), words.say("size.not-looked-at")};
}

std::string checks_words(const Glass& glass, const Scene& scene) {
    std::string all;
    for (const auto& check : scene.state->device().checks) {
        if (!check.is.agreed) {
            continue;
        }
        all += all.empty() ? "" : " · ";
        all += glass.words().say("size.check-agreed",
                                 {{"n", std::to_string(check.is.own)},
                                  {"time", clock_text(check.stamp.happened, scene.zone, true)}});
    }
    return all.empty() ? glass.words().say("size.no-check") : all;
}

std::string dye_words(const Glass& glass, const DeviceBlock& block) {
    if (!block.dye || !block.dye->is.ml) {
        return glass.words().say("size.no-dye");
    }
    const auto& dye = block.dye->is;
    return glass.words().say(dye.in_first_syringe == true ? "size.dye-in-1" : "size.dye-on-top",
                             {{"ml", ml_words(glass, *dye.ml)}});
}

std::string sizing_words(const Glass& glass, const DeviceBlock& block) {
    const auto& words = glass.words();
    if (block.sizings.empty()) {
        return words.say("size.not-answered");
    }
    const auto& is = block.sizings.back().is;
    const bool good =
        is.gap && is.passes && is.not_wedged && is.no_blanching && is.position == Position::body;
    return words.say(good ? "size.sizing-good" : "size.sizing-not-all");
}

void draw_behind(Glass& glass, const Scene& scene, const AgreedBy& by) {
    const auto& c = glass.colours();
    const auto& block = scene.state->device();
    const Rect place{176, 396, 672, 268};
    touch::panel(glass, place);
    touch::text(glass, "behind/title", {196, 402, 600, 34}, glass.words().say("size.behind"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    const auto pedal =
        by.pedal ? glass.words().count("size.presses", *by.pedal) : glass.words().say("size.no-pedal");
    const Line lines[] = {matter_line(glass, scene, by),
                          {glass.words().say("size.count-checks"), checks_words(glass, scene)},
                          {glass.words().say("size.pedal-of", {{"name", whose_word(scene)}}), pedal},
                          {glass.words().say("size.dye"), dye_words(glass, block)},
                          {glass.words().say("size.sizing"), sizing_words(glass, block)}};
    float y = 440;
    int number = 0;
    for (const auto& line : lines) {
        const auto name = fmt::format("behind/{}", ++number);
        touch::text(glass, name, {196, y, 220, 42}, line.words, {.colour = c.text_2});
        touch::text(glass, name + "/value", {420, y, 408, 42}, line.value,
                    {.bold = true, .align = touch::Align::right});
        y += 44;
    }
}

void draw_page_one(Glass& glass, const AgreedBy& by) {
    const auto& c = glass.colours();
    const Rect place{864, 104, 400, 176};
    touch::panel(glass, place);
    touch::text(glass, "page-one/title", {884, 114, 360, 32}, glass.words().say("size.on-page-one"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(glass, "page-one/agreed", {884, 150, 360, 30}, glass.words().say("size.agreed-by"),
                {.colour = c.text_2, .lines = 1});
    touch::text(glass, "page-one/line", {884, 184, 360, 90}, page_one_words(glass, by),
                {.em = touch::step::body, .bold = true, .stand = touch::Stand::top, .lines = 3});
}

}  // namespace

std::string page_one_words(const Glass& glass, const AgreedBy& by) {
    const auto& words = glass.words();
    auto line = words.say("size.page-said", {{"ml", ml_digits(glass, by.read_back.is.ml)}});
    if (by.pedal) {
        line += words.say("size.page-pedal", {{"n", std::to_string(*by.pedal)}});
    }
    if (by.row) {
        line += words.say("size.page-row", {{"n", std::to_string(*by.row)}});
    } else if (by.scale) {
        line += words.say("size.page-scale", {{"ml", ml_digits(glass, *by.scale)}});
    } else if (by.pair) {
        line += words.say("size.page-pair");
    }
    return line;
}

void draw_agreed(Glass& glass, const Scene& scene, const AgreedBy& by, SizeDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const auto view = fill_view(*scene.state, *scene.ahead_state, scene.policy, scene.now);
    draw_numbers(glass, scene, view, by);
    draw_equal(glass, scene, by);
    draw_behind(glass, scene, by);
    draw_page_one(glass, by);
    if (touch::button(
            glass, "read-back-again", {864, 476, 400, 88},
            {.title = words.say("size.again"), .note = words.say("size.both-stay"), .bold = true})) {
        drafts.again = true;
    }
    if (touch::button(glass, "correct", {864, 576, 400, 88},
                      {.title = words.say("size.correct"), .bold = true})) {
        asks.page = Page::fill;
        asks.sheet = Sheet::correct;
    }
    draw_case_prompt(
        glass, scene,
        touch::Prompt{.urgency = touch::Urgency::low,
                      .title = words.say("size.gate-met"),
                      .why = words.say("size.two-names", {{"time", clock_text(by.read_back.stamp.happened,
                                                                              scene.zone, true)}})},
        asks);
    const touch::Action list{.command = "to-release",
                             .title = words.say("size.to-release"),
                             .note = words.say("size.volume-confirmed"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, list) == touch::ActionTap::action) {
        asks.page = Page::release;
    }
}

}  // namespace brimline::screens
