// What is being typed on the sheet of vital signs.
#pragma once
#include "app/kiosk/touch/widgets.h"

namespace brimline::screens {

struct VitalsDrafts {};

}  // namespace brimline::screens
