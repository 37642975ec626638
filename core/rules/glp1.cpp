// The liquid day and the days since the last dose of a drug that slows the stomach.
#include "core/rules/glp1.h"

#include <algorithm>

namespace brimline::rules {

minutes with_liquid_day(minutes usual, minutes liquid_day, bool on_glp1) {
    return on_glp1 ? std::max(usual, liquid_day) : usual;
}

minutes fasting_required_on_glp1(Intake kind, const Glp1Risk& risk, const FastingPolicy& policy) {
    const bool applies = is_solid(kind) && (policy.glp1_apply == "all" || risk.elevated());
    return with_liquid_day(fasting_required(kind, policy), policy.glp1_solids, applies);
}

Glp1Hold glp1_hold(LocalDate last_dose, LocalDate procedure, int hold_days) {
    const int days = days_between(last_dose, procedure);
    return {days, days >= hold_days};
}

}  // namespace brimline::rules
