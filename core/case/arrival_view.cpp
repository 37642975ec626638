// What Arrival shows, from the state and the policy alone.
#include "core/case/arrival_view.h"

namespace brimline {

OverrideBy override_by(const CaseState& state, const PersonKnown* chosen) {
    if (chosen != nullptr && chosen->has(Role::physician)) {
        return OverrideBy::own_pin;
    }
    return state.scope_is_in() ? OverrideBy::said : OverrideBy::nobody;
}

bool may_be_overridden(const Hold& hold) {
    return hold.hold_class == HoldClass::absolute || hold.hold_class == HoldClass::relative;
}

}  // namespace brimline
