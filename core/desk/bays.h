// The bays: who is in recovery, whose next vital signs come first, and who is on the way. Pure functions of
// the desk's state; coloured by lateness, never by patient.
#pragma once
#include <vector>

#include "core/case/recovery_view.h"
#include "core/desk/desk.h"

namespace brimline {

/// How late the next set is: far off, due within the policy's lead or now, or overdue by an interval.
enum class Lateness : std::uint8_t { none, due, overdue };

/// One patient in a bay, or coming to one.
struct BayPatient {
    const CaseState* state{};
    bool coming{false};          ///< not accepted yet
    std::optional<Instant> due;  ///< the next set
    Lateness lateness{};
    const Noted<Score>* score{};     ///< the last of any scale
    std::optional<Instant> fit;      ///< since when, if so
    std::optional<int> lowest_here;  ///< SpO2 since acceptance
    const Noted<Vitals>* last{};     ///< the last set that was taken
};
/// Those accepted and not yet gone, the next due first; then those who left the room or are offered.
[[nodiscard]] std::vector<BayPatient> bays_of(const Desk& desk, const Policy& policy, Instant now);

}  // namespace brimline
