// Parts that the pages which change the day's list share.
#pragma once
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {

/// A field and the keyboard on a desk page; true when Done was tapped.
bool draw_desk_letters(touch::Glass& glass, const Scene& scene, const std::string& label,
                       touch::TextDraft& text, touch::KeyboardState& keys);
/// A name for a case that no case has yet, beginning with these letters.
[[nodiscard]] std::string free_name(const Desk& desk, const std::string& letters);

}  // namespace brimline::screens
