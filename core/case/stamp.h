// Stamp: when, who and how, beside every event of a case.
#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "core/case/spec.h"

namespace brimline {

/// When, who and how, beside every event.
struct Stamp {
    std::int64_t seq{0};
    Instant at{}, happened{};
    std::int64_t tick_us{0};
    std::string boot;  // hex; ticks compare only within one boot
    std::string by;
    Role role{Role::kiosk};
    std::optional<std::string> said_by;
    How how{How::tap};
    bool script{false};
    bool practice{false};  // made in practice, of a patient who was real (10-decisions F9)
};

}  // namespace brimline
