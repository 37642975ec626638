// What stands on every page: a clock that was set, a journal that can only be read.
#pragma once
#include "app/kiosk/touch/glass.h"

namespace brimline::screens {

/// The demo's clock is in force.
void draw_clock_banner(touch::Glass& glass);
/// Nothing is saved any more; in the same place, and it goes before the other.
void draw_reading_banner(touch::Glass& glass);

}  // namespace brimline::screens
