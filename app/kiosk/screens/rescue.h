// Rescue while nobody is signed in (10-decisions F7): Start now, vital signs and airway event open without a
// PIN; who it was is asked later.
#pragma once
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {

/// The three ways at the top of the sign-in, with what they lead to.
void draw_sign_in_strip(touch::Glass& glass, const touch::Layout& layout, const Scene& scene,
                        DeskDrafts& drafts, Asks& asks);
/// Whose vital signs or airway event it is, in the place of the names.
void draw_whose_rescue(touch::Glass& glass, touch::Rect area, const Scene& scene, DeskDrafts& drafts,
                       Asks& asks);
/// True where somebody may stay without being signed in; from elsewhere the way leads to the sign-in.
[[nodiscard]] bool open_without_pin(Page page, Sheet sheet);

}  // namespace brimline::screens
