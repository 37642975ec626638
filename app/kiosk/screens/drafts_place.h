// What is being typed on Place.
#pragma once
#include "app/kiosk/touch/widgets.h"

namespace brimline::screens {

struct PlaceDrafts {};

}  // namespace brimline::screens
