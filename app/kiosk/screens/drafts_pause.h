// What is being said in a pause and typed at the door. A pause keeps its place when it is interrupted.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/sedation.h"

namespace brimline::screens {

/// One pause: who is there, and the answers that were said and are entered together with the last one.
struct PauseDraft {
    std::optional<Instant> started;
    std::optional<std::vector<std::string>> present;  // ids in the order of the page
    std::map<std::string, Answered> answers;
    std::size_t first{0};      // paging through the people
    bool looked_again{false};  // the matter, before leaving
};

struct RoomDrafts {
    std::map<PauseKind, PauseDraft> pauses;
    std::string day, month;  // as typed at the door
    bool in_month{false};
    bool again{false};    // asked once more after a day that did not match
    std::string monitor;  // six digits: the time that the monitor will show
};

}  // namespace brimline::screens
