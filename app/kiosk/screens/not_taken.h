// A set of vital signs that was not taken, with the reason: one tap for the airway, else words.
#pragma once
#include "app/kiosk/screens/drafts_vitals.h"
#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

/// The reasons, in place of the row that led here.
void draw_why_not(touch::Glass& glass, touch::Rect area, VitalsDrafts& drafts, Asks& asks);
/// The keyboard in place of the whole page while `drafts.worded`; without any word the set is still open.
void type_why_not(touch::Glass& glass, const Scene& scene, VitalsDrafts& drafts, Asks& asks);

}  // namespace brimline::screens
