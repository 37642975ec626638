// The drink kept, the checks before home, and the hours after.
#include "core/rules/discharge.h"

#include <algorithm>

namespace brimline::rules {

bool drink_kept(std::optional<Instant> last_drink, std::optional<Instant> last_vomit, Instant now,
                minutes keep) {
    const bool kept = last_drink && !(last_vomit && *last_vomit >= *last_drink);
    return kept && now - *last_drink >= keep;
}

bool rating_met(std::optional<int> rating, int most) { return rating && *rating <= most; }

std::vector<std::string> discharge_missing(const std::vector<std::string>& required,
                                           const std::set<std::string, std::less<>>& met,
                                           const DischargePolicy& policy) {
    std::vector<std::string> missing;
    std::copy_if(required.begin(), required.end(), std::back_inserter(missing), [&](const std::string& id) {
        return met.count(id) == 0 && (id != "drink" || policy.drink_required);
    });
    return missing;
}

Instant limits_until(Instant discharged, int hours) { return discharged + std::chrono::hours{hours}; }

Instant next_full_hour(Instant t, const Zone& zone) {
    const Duration into_hour = zone.local(t).of_day % std::chrono::hours{1};
    return into_hour == Duration{0} ? t : t + (std::chrono::hours{1} - into_hour);
}

}  // namespace brimline::rules
