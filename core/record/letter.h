// The letter that goes with a record to the next clinic: whose balloon, what is in it, when it is due out,
// which files come along and how they are checked. Plain text, one page.
#pragma once
#include <string>
#include <vector>

#include "core/case/state.h"
#include "core/clinic/policy.h"
#include "core/desk/desk.h"
#include "core/units/time.h"

namespace brimline {

/// Shape: lines end with a line feed, none is longer than 100 columns. `key` is the line of the public key.
[[nodiscard]] std::string letter_text(const CaseState& state, const Desk& desk, const Policy& policy,
                                      const Zone& zone, const std::vector<std::string>& files,
                                      std::string_view key);

}  // namespace brimline
