// What is being typed on sizing and the read-back.
#pragma once
#include <optional>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/fill.h"

namespace brimline::screens {

struct SizeDrafts {
    std::optional<bool> gap, passes, wedged, blanching,
        distress;  // as tapped, until they are entered together
    std::optional<Position> position;
    bool not_in_body{false};  // No was said; where it lies is asked next
    touch::NumberDraft said = touch::NumberDraft{4, 1};
    bool confirmed{false};  // on its way; what came of it is shown next
    bool again{false};      // read back again after it had agreed
};

}  // namespace brimline::screens
