// The parts of Place, each drawn by a file of its own. Not for other files than those of Place.
#pragma once
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {

/// Column A: label, volume, saline and dye.
void draw_place_panels(touch::Glass& glass, const Scene& scene, PlaceDrafts& drafts);
/// Column B while numbers are typed, with its corner.
void draw_place_pad(touch::Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks);
/// The sheet of a typed label, in place of both columns.
void draw_label_typed(touch::Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks);
/// Column B while gate 3 asks, with its corner.
void draw_gate_position(touch::Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks);
/// The position as No and Yes; No is kept in the drafts alone, for it is no event.
void take_position(std::optional<touch::Answer> answer, const Scene& scene, PlaceDrafts& drafts, Asks& asks);

}  // namespace brimline::screens
