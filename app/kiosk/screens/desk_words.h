// Words that the desk pages share: dates with their weekday, roles.
#pragma once
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/desk/desk.h"

namespace brimline::screens {

/// "25 Nov 2026" in the language of the glass.
[[nodiscard]] std::string shown_date(const touch::Glass& glass, LocalDate date);
/// "Wed 25 Nov 2026"
[[nodiscard]] std::string weekday_date(const touch::Glass& glass, Instant t, const Zone& zone);
/// "recovery nurse"; the first role of several.
[[nodiscard]] std::string role_words(const touch::Glass& glass, const PersonKnown& person);

}  // namespace brimline::screens
