// The airway secured by a tube without an airway event: its size on the pad, and the corner that says it is
// in, or free again. Over Fill the corner stays Syringe in.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

bool tube_is_in(const CaseState& state) { return state.secured && !state.freed; }

void draw_standing(Glass& glass, const Scene& scene) {
    const auto& state = *scene.ahead_state;
    const auto& words = glass.words();
    const Rect panel{176, 104, 672, 560};
    touch::panel(glass, panel);
    panel_head(glass, "tube/head", panel, words.say("tube.head"));
    const auto line = [&](int row, const char* name, const std::string& value) {
        list_line(glass, fmt::format("tube/{}", name), {196, 156 + 48 * static_cast<float>(row), 632, 44},
                  words.say(fmt::format("tube.{}", name)), value, 300);
    };
    line(0, "secured",
         state.secured ? clock_text(state.secured->stamp.happened, scene.zone, true) : std::string{"–"});
    line(1, "size", state.secured ? state.secured->is.tube.text : std::string{"–"});
    line(2, "freed", state.freed ? clock_text(state.freed->happened, scene.zone, true) : std::string{"–"});
    touch::text(glass, "tube/note", {196, 320, 632, 80}, words.say("tube.note"),
                {.colour = glass.colours().text_2, .lines = 3});
}

std::optional<touch::Action> own_action(const Glass& glass, const Scene& scene,
                                        const SedationDrafts& drafts) {
    const auto& words = glass.words();
    if (tube_is_in(*scene.ahead_state)) {
        return touch::Action{.command = "airway-freed", .title = words.say("tube.is-freed")};
    }
    if (drafts.tube.empty()) {
        return std::nullopt;
    }
    return touch::Action{
        .command = "airway-secured",
        .title = words.say("airway.secured-enter"),
        .note = words.say("tube.of-size", {{"mm", drafts.tube.shown(words.decimal_mark())}})};
}

void tell(const Scene& scene, SedationDrafts& drafts, Asks& asks) {
    if (tube_is_in(*scene.ahead_state)) {
        tell_as(scene, Role::sedation_provider, AirwayFreed{}, asks);
    } else {
        tell_as(scene, Role::sedation_provider, AirwaySecured{Loose{drafts.tube.text()}}, asks);
    }
    drafts.tube.clear();
    asks.sheet = Sheet::none;
}

}  // namespace

Asks draw_tube(Glass& glass, const Scene& scene, SedationDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    draw_case_frame_bare(glass, scene, asks);
    draw_standing(glass, scene);
    if (!tube_is_in(*scene.ahead_state)) {
        (void)touch::value_box(glass, "tube/box", {864, 104, 400, 80},
                               {.digits = drafts.tube.shown(words.decimal_mark()),
                                .unit = words.say("unit.mm"),
                                .label = words.say("airway.tube"),
                                .focused = true});
        if (const auto key = touch::keypad(glass, "pad", {864, 192, 400, 472}, true, 8)) {
            (void)drafts.tube.press(*key);
        }
    }
    const auto own = own_action(glass, scene, drafts);
    if (over_fill(scene)) {
        if (draw_sheet_foot(glass, scene, own, asks) == touch::SheetTap::action) {
            tell(scene, drafts, asks);
        }
        return asks;
    }
    if (sheet_prompt(glass, scene, {.urgency = touch::Urgency::low, .title = words.say("tube.prompt")},
                     asks)) {
        asks.sheet = Sheet::none;
    }
    if (!own) {
        quiet_corner(glass, words.say("tube.type-size"));
    } else if (touch::action(glass, touch::layout_for(glass.size()).action, *own) ==
               touch::ActionTap::action) {
        tell(scene, drafts, asks);
    }
    return asks;
}

}  // namespace brimline::screens
