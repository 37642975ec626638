// What is being typed on sizing and the read-back.
#pragma once
#include "app/kiosk/touch/widgets.h"

namespace brimline::screens {

struct SizeDrafts {};

}  // namespace brimline::screens
