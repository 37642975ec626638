// How drugs and amounts are worded on the glass.
#pragma once
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/sedation.h"
#include "core/clinic/policy.h"

namespace brimline::screens {

/// "Propofol"; a free drug by the name it was given.
[[nodiscard]] std::string drug_words(const Policy& policy, const std::string& id);
/// "mcg"
[[nodiscard]] std::string unit_words(const touch::Glass& glass, DoseUnit unit);
[[nodiscard]] std::string unit_words(const touch::Glass& glass, RateUnit unit);
/// "20 mg"
[[nodiscard]] std::string amount_words(const touch::Glass& glass, Decimal amount, DoseUnit unit);

}  // namespace brimline::screens
