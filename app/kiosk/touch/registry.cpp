// Finds targets and texts of a frame by name and by place.
#include "app/kiosk/touch/registry.h"

#include <algorithm>
#include <cmath>

namespace brimline::touch {

namespace {

constexpr float half_gap = 9;  // the widest gap in use is 18 px, between No and Yes

float distance(Rect r, Point p) {
    const float dx = std::max({r.x - p.x, 0.0F, p.x - r.right()});
    const float dy = std::max({r.y - p.y, 0.0F, p.y - r.bottom()});
    return std::hypot(dx, dy);
}

}  // namespace

void Registry::clear(const FrameTraits& traits) {
    traits_ = traits;
    targets_.clear();
    slots_.clear();
}

const Target* Registry::find(std::string_view name) const {
    const auto found =
        std::find_if(targets_.begin(), targets_.end(), [&](const Target& t) { return t.name == name; });
    return found == targets_.end() ? nullptr : &*found;
}

const Slot* Registry::find_slot(std::string_view name) const {
    const auto found =
        std::find_if(slots_.begin(), slots_.end(), [&](const Slot& s) { return s.name == name; });
    return found == slots_.end() ? nullptr : &*found;
}

const Target* Registry::at(Point at) const {
    const Target* nearest = nullptr;
    float least = half_gap;
    // The last one drawn lies on top; the layout check forbids overlaps, so this only matters for a broken
    // page.
    for (auto target = targets_.rbegin(); target != targets_.rend(); ++target) {
        if (target->hit.contains(at)) {
            return &*target;
        }
        const float away = distance(target->hit, at);
        if (away < least) {
            least = away;
            nearest = &*target;
        }
    }
    return nearest;
}

}  // namespace brimline::touch
