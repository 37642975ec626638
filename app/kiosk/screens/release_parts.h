// The parts of Release. Not for other files than those of Release.
#pragma once
#include "app/kiosk/screens/pages.h"
#include "core/case/release_view.h"

namespace brimline::screens {

/// The sheet of a valve that is not dry: the watch, what was done, the second look.
void draw_valve(touch::Glass& glass, const Scene& scene, ReleaseDrafts& drafts, Asks& asks);
/// The sheet of a device that was used and does not stay in.
void draw_not_left_in(touch::Glass& glass, const Scene& scene, ReleaseDrafts& drafts, Asks& asks);
/// Column B and the corner while gate 4 asks.
void draw_gate_release(touch::Glass& glass, const Scene& scene, Asks& asks);

}  // namespace brimline::screens
