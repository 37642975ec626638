// Compares two clocks over one span of time.
#include "core/rules/elapsed.h"

#include <algorithm>

namespace brimline::rules {

Passed passed_between(const TwoClocks& first, const TwoClocks& second, seconds jump_limit) {
    const Duration monotonic = second.monotonic - first.monotonic;
    const Duration wall = second.wall - first.wall;
    const Duration apart = std::max(wall - monotonic, monotonic - wall);
    return {std::max(monotonic, Duration{0}), wall, apart > jump_limit};
}

}  // namespace brimline::rules
