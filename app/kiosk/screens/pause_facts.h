// What the record already knows beside a check of a pause, so that it is said aloud and not looked up.
#pragma once
#include <string>

#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

/// One line; empty where nothing is known or nothing may be shown.
[[nodiscard]] std::string pause_fact(const touch::Glass& glass, const Scene& scene, const std::string& check);

}  // namespace brimline::screens
