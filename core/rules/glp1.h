// Drugs that slow the stomach (GLP-1 receptor agonists): the liquid day and the days since the last dose.
// Source: before.md 2.
#pragma once
#include "core/rules/fasting.h"

namespace brimline::rules {

/// What raises the risk of a full stomach on such a drug. Source: before.md 2, glp1-elevated-risk.
struct Glp1Risk {
    bool escalating = false, higher_dose = false, weekly = false, symptoms = false, other_disorder = false;
    [[nodiscard]] bool elevated() const {
        return escalating || higher_dose || weekly || symptoms || other_disorder;
    }
};

/// The wait for a kind with the liquid day taken in: solids need the longer of the two, liquids stay.
[[nodiscard]] minutes fasting_required_on_glp1(Intake kind, const Glp1Risk& risk,
                                               const FastingPolicy& policy);
/// The longer of a wait and the liquid day, for a caller that has both as numbers.
[[nodiscard]] minutes with_liquid_day(minutes usual, minutes liquid_day, bool on_glp1);

/// Calendar days since the last dose, and whether the hold (0 = no rule) is met; met at exactly that many
/// days.
struct Glp1Hold {
    int days_since = 0;
    bool met = true;
    bool operator==(const Glp1Hold&) const = default;
};
[[nodiscard]] Glp1Hold glp1_hold(LocalDate last_dose, LocalDate procedure, int hold_days);

}  // namespace brimline::rules
