// Draws the keyboard page.
#include "app/kiosk/screens/letters.h"

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_corner.h"

namespace brimline::screens {

bool draw_letters(touch::Glass& glass, const Scene& scene, const std::string& label, touch::TextDraft& text,
                  touch::KeyboardState& keys, Asks& asks) {
    draw_case_strip(glass, scene, asks);
    text.take(glass.input().typing);
    const bool filling = over_fill(scene);
    touch::text_field(glass, "letters", {36, 112, filling ? 948.0F : 1208.0F, 152}, {.label = label}, text);
    touch::keyboard(glass, {16, 292, 1248, 496}, keys, text);
    const auto done = glass.words().say("place.letters-done");
    const auto corner = touch::layout_for(glass.size()).action;
    if (filling) {
        draw_syringe_in(glass, scene, corner, asks);
        return touch::button(glass, "letters-done", {1000, 156, 244, 108},
                             {.title = done, .look = touch::Look::filled, .em = touch::step::act});
    }
    const touch::Action shown{.command = "letters-done", .title = done, .look = touch::ActionLook::opens};
    return touch::action(glass, corner, shown) == touch::ActionTap::action;
}

}  // namespace brimline::screens
