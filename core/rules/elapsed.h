// Time that passed, by the clock that nobody sets. Source: after.md 8, elapsed-time.
#pragma once
#include "core/clinic/policy.h"

namespace brimline::rules {

/// One moment on both clocks.
struct TwoClocks {
    Instant wall;
    Duration monotonic{};
};
/// `passed`: by the monotonic clock, never negative. `wall`: what the wall clock claims, negative when it was
/// set back. `jumped`: the two differ by more than the limit; exactly the limit does not.
struct Passed {
    Duration passed{}, wall{};
    bool jumped = false;
};
[[nodiscard]] Passed passed_between(const TwoClocks& first, const TwoClocks& second, seconds jump_limit);

}  // namespace brimline::rules
