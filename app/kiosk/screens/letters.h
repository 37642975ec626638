// The keyboard as a page part: one text field, typed with fingers or a real keyboard.
#pragma once
#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

/// Strip, field and keyboard in place of everything else; true when Done was tapped. Over Fill the corner
/// stays Syringe in and Done stands beside the field.
bool draw_letters(touch::Glass& glass, const Scene& scene, const std::string& label, touch::TextDraft& text,
                  touch::KeyboardState& keys, Asks& asks);

}  // namespace brimline::screens
