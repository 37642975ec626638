// Who stands where on the kiosk: whose word is the physician's, who is on the chips, who may enter what.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/desk/desk.h"

namespace brimline::screens {

/// The physician whose word is entered: present at the last pause, else the first physician known.
[[nodiscard]] std::string physician_of(const CaseState* state, const Desk& desk);
/// Those for the chips: present at the last pause, else everybody; the chosen one is always among them.
[[nodiscard]] std::vector<std::string> chips_of(const CaseState* state, const Desk& desk,
                                                const std::string& chosen);
/// Who enters what only that role may: the chosen person, else the first of those present who has it.
[[nodiscard]] std::optional<std::string> holder_of(const CaseState* state, const Desk& desk,
                                                   const std::string& chosen, Role role);

}  // namespace brimline::screens
