// What is being typed on Fill and its sheets.
#pragma once
#include "app/kiosk/touch/widgets.h"

namespace brimline::screens {

struct FillDrafts {};

}  // namespace brimline::screens
