// Whether a team pause is complete. Source: before.md 6, pause-complete.
#pragma once
#include <map>
#include <span>
#include <string>
#include <vector>

#include "core/clinic/policy.h"

namespace brimline::rules {

enum class PauseAnswer : std::uint8_t { yes, no, not_applicable };
/// Complete when every required check is answered, none is bad, and every needed role is present.
struct PauseOutcome {
    bool complete = false;
    std::vector<std::string> missing;  // ids not answered, or "not applicable" where that is not allowed
    std::vector<std::string> bad;      // ids answered other than well: each is a hold
    std::vector<Role> absent;
    bool operator==(const PauseOutcome&) const = default;
};
/// Who must be there: physician, assistant and sedation provider.
inline constexpr Roles pause_roles{Role::assistant, Role::physician, Role::sedation_provider};

[[nodiscard]] PauseOutcome judge_pause(std::span<const Check> required,
                                       const std::map<std::string, PauseAnswer, std::less<>>& answers,
                                       Roles present, std::span<const std::string> may_not_apply = {});

}  // namespace brimline::rules
