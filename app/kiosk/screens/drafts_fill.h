// What is being typed on Fill and its sheets. Opening another sheet throws it away.
#pragma once
#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

struct FillDrafts {
    /// What a correction says really happened.
    enum class Happened : std::uint8_t { nothing, not_tapped, no_syringe, other_volume, no_press };

    Sheet sheet{Sheet::none};  // whose drafts these are
    bool said{false};          // this sheet's command was said; what came of it decides whether it closes
    touch::NumberDraft ml =
        touch::NumberDraft{3, 1};  // part syringe, draw back, other volume, pushed meanwhile
    touch::NumberDraft count = touch::NumberDraft{2, 0};  // the number the physician says
    touch::NumberDraft grams = touch::NumberDraft{4, 1};  // the bag on the scale
    bool keypad{false};                                   // the keypad of a sheet that has one on demand
    std::optional<Pushed> pushed;                         // the answer that was chosen, not yet said
    bool reasons{false};      // the physician's reason for leaving a volume above the ceiling
    std::optional<int> left;  // full syringes left on the table
    Happened happened{Happened::nothing};
    std::int64_t entry{0};            // the entry a correction names
    std::optional<Instant> missed;    // when the syringe that was not tapped went in
    std::optional<int> set_back_min;  // or set back with the chips
    std::size_t with{0};              // which of those present stands beside the one who enters
    std::optional<Evidence> evidence;
    std::size_t first{0};  // paging through the entries
};

}  // namespace brimline::screens
