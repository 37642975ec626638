// The frame of desk pages: strip with title, clock and person, and the rail that leads from one to another.
#pragma once
#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

/// Light colours, ground and strip, for a page that needs the whole width.
void draw_desk_strip(touch::Glass& glass, const Scene& scene, const std::string& title,
                     const std::string& note);
/// The same with the rail; a tap on the rail is added to `asks`.
void draw_desk_frame(touch::Glass& glass, const Scene& scene, const std::string& title,
                     const std::string& note, Asks& asks);
/// Nothing more can be saved, and why: in the bar's one line where that fits, else where it stands.
[[nodiscard]] touch::Prompt cannot_save(const touch::Glass& glass, const Scene& scene);
/// The foot of a desk page: one line with its urgency; true when it was tapped.
bool draw_desk_prompt(touch::Glass& glass, const Scene& scene, const touch::Prompt& shown);

}  // namespace brimline::screens
