// The days that a serotonergic medicine must have been stopped before dye.
#include "core/rules/dye.h"

namespace brimline::rules {

DyeCaution dye_caution(const Serotonergic& medicine, LocalDate on, const MedicinePolicy& policy) {
    DyeCaution caution;
    caution.needed_days = medicine.fluoxetine ? policy.fluoxetine_days : policy.serotonergic_days;
    if (medicine.last_dose) {
        caution.days_since = days_between(*medicine.last_dose, on);
    }
    caution.caution = !caution.days_since || *caution.days_since < caution.needed_days;
    return caution;
}

}  // namespace brimline::rules
