// Nausea and pain as one tap each, drinks with whether they were kept, and vomiting.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/recovery_parts.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr int worst = 10;

void draw_scale(Glass& glass, const Scene& scene, SymptomKind kind, Rect panel, Asks& asks) {
    const auto& words = glass.words();
    const auto name = std::string{name_of(kind)};
    touch::panel(glass, panel);
    const auto last = last_rating(*scene.ahead_state, kind);
    panel_head(
        glass, name + "/head", panel, words.say("symptoms." + name),
        last ? words.say("symptoms.last", {{"n", std::to_string(*last)}}) : words.say("symptoms.not-asked"));
    const Rect keys{panel.x + 16, panel.y + 48, panel.w - 32, panel.h - 64};
    for (int rating = 0; rating <= worst; ++rating) {
        const auto cell = touch::cell(keys, 6, 2, rating % 6, rating / 6, 8);
        if (touch::value_key(glass, fmt::format("{}/{}", name, rating), cell, std::to_string(rating), false,
                             touch::step::strong)) {
            asks.tell(Symptom{kind, rating, {}, {}});
        }
    }
}

void draw_drinks(Glass& glass, const Scene& scene, RecoveryDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const Rect panel{864, 104, 400, 340};
    touch::panel(glass, panel);
    const auto& drinks = scene.ahead_state->drinks;
    panel_head(glass, "drink/head", panel, words.say("symptoms.drink"),
               drinks.empty() ? std::string{}
                              : ml_words(glass, drinks.back().is.ml) + ", " +
                                    clock_text(drinks.back().stamp.happened, scene.zone));
    constexpr std::array amounts{50, 100, 150, 200};
    for (std::size_t i = 0; i < amounts.size(); ++i) {
        const bool chosen = drafts.drink_ml == amounts[i];
        const auto place = touch::cell({880, 152, 368, 88}, 4, 1, static_cast<int>(i), 0, 8);
        if (touch::value_key(glass, fmt::format("drink/{}", amounts[i]), place, std::to_string(amounts[i]),
                             chosen, touch::step::act)) {
            drafts.drink_ml = amounts[i];
        }
    }
    if (!drafts.drink_ml) {
        touch::text(glass, "drink/ask", {884, 252, 360, 60}, words.say("symptoms.how-much"),
                    {.colour = glass.colours().text_2});
        return;
    }
    const auto volume = Millilitres::of_tenths(*drafts.drink_ml * 10);
    touch::text(glass, "drink/kept-question", {884, 248, 360, 66},
                words.say("symptoms.kept", {{"ml", ml_words(glass, volume)}}),
                {.em = touch::step::body, .bold = true});
    if (const auto kept = touch::answer_pair(glass, "kept", {880, 324, 368, 104},
                                             {.bad = touch::Answer::no, .bad_look = touch::Look::review})) {
        asks.tell(Drink{volume, *kept == touch::Answer::yes});
        drafts.drink_ml.reset();
    }
}

/// Vomiting in one tap, with about how much where somebody saw it.
void draw_vomited(Glass& glass, Asks& asks) {
    const auto& words = glass.words();
    if (touch::button(
            glass, "vomited", {864, 456, 148, 92},
            {.title = words.say("symptoms.vomited"), .note = words.say("symptoms.one-tap"), .bold = true})) {
        asks.tell(Symptom{SymptomKind::vomiting, {}, {}, {}});
    }
    constexpr std::array amounts{50, 100, 200};
    for (std::size_t i = 0; i < amounts.size(); ++i) {
        if (touch::button(glass, fmt::format("vomited/{}", amounts[i]),
                          {1020 + 84 * static_cast<float>(i), 456, 76, 92},
                          {.title = std::to_string(amounts[i]), .note = words.say("unit.ml-alone")})) {
            asks.tell(Symptom{SymptomKind::vomiting, {}, Millilitres::of_tenths(amounts[i] * 10), {}});
        }
    }
}

}  // namespace

Asks draw_symptoms(Glass& glass, const Scene& scene, RecoveryDrafts& drafts) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    const auto& words = glass.words();
    draw_scale(glass, scene, SymptomKind::nausea, {176, 104, 672, 274}, asks);
    draw_scale(glass, scene, SymptomKind::pain, {176, 390, 672, 274}, asks);
    draw_drinks(glass, scene, drafts, asks);
    draw_vomited(glass, asks);
    if (touch::button(glass, "vomited-blood", {864, 560, 400, 92},
                      {.title = words.say("symptoms.vomited-blood"),
                       .note = words.say("symptoms.ends-fit"),
                       .bold = true})) {
        asks.tell(Symptom{SymptomKind::vomiting, {}, {}, true});
    }
    draw_case_prompt(glass, scene,
                     touch::Prompt{.urgency = touch::Urgency::low,
                                   .title = words.say("symptoms.each-tap"),
                                   .why = words.say("symptoms.again-is-new")},
                     asks);
    const touch::Action back{
        .command = "back-to-recovery", .title = words.say("symptoms.back"), .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, back) == touch::ActionTap::action) {
        asks.sheet = Sheet::none;
        drafts.drink_ml.reset();
    }
    return asks;
}

}  // namespace brimline::screens
