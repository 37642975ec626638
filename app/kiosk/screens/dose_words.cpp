// Words of drugs and amounts.
#include "app/kiosk/screens/dose_words.h"

#include <fmt/format.h>

#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/case_frame.h"

namespace brimline::screens {

std::string drug_words(const Policy& policy, const std::string& id) {
    const auto* drug = policy.drug(id);
    return drug == nullptr ? with_capital(id) : drug->words;
}

std::string unit_words(const touch::Glass& glass, DoseUnit unit) {
    return glass.words().say(fmt::format("unit.dose-{}", name_of(unit)));
}

std::string unit_words(const touch::Glass& glass, RateUnit unit) {
    return glass.words().say(unit == RateUnit::mg_h ? "unit.rate-mg-h" : "unit.rate-ml-h");
}

std::string amount_words(const touch::Glass& glass, Decimal amount, DoseUnit unit) {
    return decimal_words(glass, amount) + " " + unit_words(glass, unit);
}

}  // namespace brimline::screens
