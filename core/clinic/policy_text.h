// A policy that an earlier version of the program recorded: it lacks the keys that came later.
#pragma once
#include <string_view>

#include "core/clinic/policy.h"

namespace brimline {

/// As read_policy_text; a key that the text lacks keeps its value in `below`.
[[nodiscard]] tl::expected<Policy, std::vector<PolicyFault>> read_policy_text_over(std::string_view text,
                                                                                   const Policy& below);

}  // namespace brimline
