// Cautions on dye (methylene blue) in the fill: they concern the dye, never the case. Source: before.md 11.
#pragma once
#include <optional>

#include "core/clinic/policy.h"

namespace brimline::rules {

/// One serotonergic medicine; `last_dose` empty = still taken.
struct Serotonergic {
    bool fluoxetine = false;
    std::optional<LocalDate> last_dose;
};
/// `caution`: the physician confirms, or no dye. Cleared at exactly the needed days.
struct DyeCaution {
    std::optional<int> days_since;
    int needed_days = 0;
    bool caution = false;
    bool operator==(const DyeCaution&) const = default;
};
[[nodiscard]] DyeCaution dye_caution(const Serotonergic& medicine, LocalDate on,
                                     const MedicinePolicy& policy);
/// No dye at all with G6PD deficiency or pregnancy; the case goes on without.
[[nodiscard]] constexpr bool dye_held(bool g6pd_deficiency, bool pregnant) {
    return g6pd_deficiency || pregnant;
}

}  // namespace brimline::rules
