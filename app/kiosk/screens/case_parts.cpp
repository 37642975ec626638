// Drawing the parts that pages of a case share.
#include "app/kiosk/screens/case_parts.h"

#include <fmt/format.h>

#include <cstdlib>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_corner.h"

namespace brimline::screens {

using touch::Glass;
using touch::Rect;

void panel_head(Glass& glass, const std::string& name, Rect panel, const std::string& left,
                const std::string& right) {
    const auto& c = glass.colours();
    const float beside = glass.type().width(touch::Face::words, touch::step::note, right);
    const float split = right.empty() ? panel.w - 40 : panel.w - 52 - beside;
    const Rect room{panel.x + 20, panel.y + 8, split, 34};
    touch::text(glass, name, room, left, {.colour = c.text_2, .bold = true, .lines = 1});
    if (!right.empty()) {
        touch::text(glass, name + "/right",
                    {room.right() + 8, room.y, panel.right() - 20 - room.right() - 8, room.h}, right,
                    {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    }
}

void list_line(Glass& glass, const std::string& name, Rect line, const std::string& word,
               const std::string& value, float word_width) {
    touch::text(glass, name, line.left_part(word_width), word,
                {.colour = glass.colours().text_2, .lines = 1});
    touch::text(glass, name + "/value", line.right_part(line.w - word_width - 8), value,
                {.bold = true, .align = touch::Align::right, .lines = 1});
}

std::string seconds_words(int seconds) {
    return fmt::format("{}{}", seconds < 0 ? "−" : seconds > 0 ? "+" : "", std::abs(seconds));
}

bool chosen_may(const Scene& scene, Role role) {
    const auto* person = scene.ahead.person(scene.person);
    return person != nullptr && person->has(role);
}

std::optional<std::string> present_with(const Scene& scene, Role role) {
    if (chosen_may(scene, role)) {
        return scene.person;
    }
    for (const auto& id : scene.present) {
        const auto* person = scene.ahead.person(id);
        if (person != nullptr && person->has(role)) {
            return id;
        }
    }
    return std::nullopt;
}

void tell_as(const Scene& scene, Role role, Statement says, Asks& asks) {
    asks.say.push_back({std::move(says), {}, present_with(scene, role), {}, false, {}});
}

bool sheet_prompt(Glass& glass, const Scene& scene, const touch::Prompt& shown, Asks& asks) {
    const bool told = scene.waiting.late || !scene.broken.empty() ||
                      (scene.last && scene.last->result == Reply::Result::refused);
    if (told) {
        draw_case_prompt(glass, scene, std::nullopt, asks);
        return false;
    }
    auto bar = shown;
    bar.chips.push_back({"back", glass.words().say("touch.back")});
    const auto tap = touch::prompt_bar(glass, touch::layout_for(glass.size()).prompt, bar);
    return tap.chip == bar.chips.size() - 1;
}

void draw_foot_to_read(Glass& glass, const Scene& scene, const touch::Prompt& shown, Asks& asks) {
    if (over_fill(scene)) {
        if (draw_sheet_foot(glass, scene, std::nullopt, asks) == touch::SheetTap::back) {
            asks.sheet = Sheet::none;
        }
        return;
    }
    if (sheet_prompt(glass, scene, shown, asks)) {
        asks.sheet = Sheet::none;
    }
    const touch::Action back{.command = "back-to-page",
                             .title = glass.words().say("reviews.back"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, back) == touch::ActionTap::action) {
        asks.sheet = Sheet::none;
    }
}

void draw_gate_foot(touch::Glass& glass, const Scene& scene, const std::string& title, Asks& asks) {
    const auto& words = glass.words();
    const touch::Prompt prompt{
        .urgency = touch::Urgency::medium, .title = title, .why = words.say("place.gate-prompt-why")};
    draw_case_prompt(glass, scene, prompt, asks);
    const touch::Action back{.command = "go-back",
                             .title = words.say("place.go-back"),
                             .note = words.say("place.nothing-recorded"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, back) == touch::ActionTap::action) {
        asks.sheet = Sheet::none;
    }
}

void draw_was_real(touch::Glass& glass, touch::Rect rect, Asks& asks) {
    if (touch::button(glass, "was-real", rect,
                      {.title = glass.words().say("practice.was-real"),
                       .note = glass.words().say("practice.was-real-note"),
                       .bold = true})) {
        asks.turn = StoreTurn::was_real;
    }
}

}  // namespace brimline::screens
