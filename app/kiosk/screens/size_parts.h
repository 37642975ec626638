// The parts of Size. Not for other files than those of Size.
#pragma once
#include "app/kiosk/screens/pages.h"
#include "core/case/size_view.h"

namespace brimline::screens {

/// Column A before the read-back: two blocks of questions and the matter line, with every number covered.
void draw_sizing(touch::Glass& glass, const Scene& scene, SizeDrafts& drafts, Asks& asks);
/// Both columns after an equal read-back.
void draw_agreed(touch::Glass& glass, const Scene& scene, const AgreedBy& by, SizeDrafts& drafts, Asks& asks);
/// The line that page one of the record prints: "said 500, pedal 10, row 10".
[[nodiscard]] std::string page_one_words(const touch::Glass& glass, const AgreedBy& by);

}  // namespace brimline::screens
