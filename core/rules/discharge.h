// Going home: the drink kept, the checks, and how long nobody drives. Source: after.md 3.
#pragma once
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/clinic/policy.h"

namespace brimline::rules {

/// A drink this long ago or longer and no vomiting at or after it.
[[nodiscard]] bool drink_kept(std::optional<Instant> last_drink, std::optional<Instant> last_vomit,
                              Instant now, minutes keep);
/// At or below the policy's rating; not asked is not met.
[[nodiscard]] bool rating_met(std::optional<int> rating, int most);

/// Ids of the policy's list that are not met, in its order. "Ready" = none.
/// Shape: `met` holds the ids that are; a check that the policy does not require is not asked for.
[[nodiscard]] std::vector<std::string> discharge_missing(const std::vector<std::string>& required,
                                                         const std::set<std::string, std::less<>>& met,
                                                         const DischargePolicy& policy);

/// Real hours from going home; across a clock change the local time shifts. Source: after.md 3,
/// after-sedation-limits.
[[nodiscard]] Instant limits_until(Instant discharged, int hours);
/// The first full local hour at or after, as printed on the sheet.
[[nodiscard]] Instant next_full_hour(Instant t, const Zone& zone);

}  // namespace brimline::rules
