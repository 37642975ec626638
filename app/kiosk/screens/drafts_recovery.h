// What is being typed at the hand-over and in Recovery.
#pragma once
#include <array>
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/after.h"

namespace brimline::screens {

/// A score being answered; nothing is answered beforehand. A proposed part is kept apart from a tapped one.
struct ScoreDraft {
    Scale scale{Scale::aldrete};
    std::array<std::optional<int>, 5> tapped{};
    std::optional<int> nausea, pain;
    int set_back_min{0};  // when it was: now, or this many minutes ago
};

struct RecoveryDrafts {
    std::string to;    // who is to take over; nobody until chosen
    std::string born;  // four digits, day and month, as the patient says them
    IdentityBy by{IdentityBy::patient};
    ScoreDraft score;
    std::optional<int> drink_ml;  // offered, until it is said whether it was kept
};

}  // namespace brimline::screens
