// One function a page: what it shows follows from the scene, what was asked comes back.
#pragma once
#include "app/kiosk/screens/drafts.h"
#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

/// The frame around every page of a case: strip, rail, chips, prompt bar. Adds what was asked to `asks`.
void draw_case_frame(touch::Glass& glass, const Scene& scene, Asks& asks);

[[nodiscard]] Asks draw_sign_in(touch::Glass& glass, const Scene& scene, DeskDrafts& drafts);
[[nodiscard]] Asks draw_day_list(touch::Glass& glass, const Scene& scene, DeskDrafts& drafts);
[[nodiscard]] Asks draw_place(touch::Glass& glass, const Scene& scene, PlaceDrafts& drafts);
[[nodiscard]] Asks draw_fill(touch::Glass& glass, const Scene& scene, FillDrafts& drafts);
[[nodiscard]] Asks draw_size(touch::Glass& glass, const Scene& scene, SizeDrafts& drafts);
/// Five boxes and strips of one-tap keys, over any page of a case.
[[nodiscard]] Asks draw_vitals(touch::Glass& glass, const Scene& scene, VitalsDrafts& drafts);
/// The stage sheet: every page that exists, and the way back to the list.
[[nodiscard]] Asks draw_stages(touch::Glass& glass, const Scene& scene);

}  // namespace brimline::screens
