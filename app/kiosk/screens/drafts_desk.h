// What is being typed on the sign-in and the day list.
#pragma once
#include "app/kiosk/touch/widgets.h"

namespace brimline::screens {

struct DeskDrafts {};

}  // namespace brimline::screens
