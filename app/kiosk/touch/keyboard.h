// The keyboard on the screen and the field it types into. Its letters come from the language file, so that a
// Greek or Cyrillic kiosk needs no code. A real keyboard types into the same field; a scanner never does.
#pragma once

#include <string>
#include <string_view>

#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/text_draft.h"

namespace brimline::touch {

class Glass;

/// Which set of letters the keyboard shows.
struct KeyboardState {
    bool shift{true};     ///< capital letters; ends by itself after one letter
    bool accents{false};  ///< the second set of letters
};

/// The keyboard: four rows of ten, and Shift, accents, space, erase below, in `rect` (1248x380 on the page).
/// The room at the right of the last row is left to the page's action.
void keyboard(Glass& glass, Rect rect, KeyboardState& state, TextDraft& draft);

/// What a text field shows.
struct TextField {
    std::string label;
    bool focused{true};
};

/// The field, with its label above and "9 of 60 letters" at the right.
void text_field(Glass& glass, std::string_view name, Rect rect, const TextField& shown,
                const TextDraft& draft);

}  // namespace brimline::touch
