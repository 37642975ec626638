// Keypads with 1-2-3 on top, the box that shows what is typed, and the dots of a PIN.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "app/kiosk/touch/geometry.h"
#include "app/kiosk/touch/number_draft.h"

namespace brimline::touch {

class Glass;

/// Twelve keys in four rows; without a point its place stays empty. Returns the key that was tapped.
/// Digits, point and backspace of a keyboard do the same.
std::optional<PadKey> keypad(Glass& glass, std::string_view name, Rect rect, bool with_point, float gap = 12);

/// What a value box shows.
struct ValueBox {
    std::string digits{};  ///< empty = nothing typed
    std::string unit{};    ///< fixed, outside the number
    std::string label{};   ///< left, or above when `small`
    std::string wrong{};   ///< a sentence: the outline turns red and it is shown in the label's place
    bool focused{false};
    bool small{false};      ///< label above, number 40 px: the boxes of the value pad
    bool touchable{false};  ///< a tap on it moves the typing here
};

/// The box of a typed value; true when it can be touched and was.
bool value_box(Glass& glass, std::string_view name, Rect rect, const ValueBox& shown);

/// The dots of a PIN: `typed` of `length` are filled. Digits are never shown.
void pin_dots(Glass& glass, Rect rect, int typed, int length);

}  // namespace brimline::touch
