// What is being answered on Release before it is entered, and what is typed on its sheets.
#pragma once
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/units/time.h"

namespace brimline::screens {

struct ReleaseDrafts {
    std::optional<bool> position_same, bleeding;  // entered together, once both are said
    bool off_no{false};                           // No to the catheter: nothing is recorded of it
    std::optional<Instant> dry_from;              // the valve was said dry; the look under view runs
    std::string done;    // what was done about a valve that drips: a key of the words
    std::string reason;  // why a device is not left in
    touch::NumberDraft out = touch::NumberDraft{4, 1};
};

}  // namespace brimline::screens
