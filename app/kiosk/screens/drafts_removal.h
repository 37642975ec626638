// What is being typed on the pages of a removal: the balloon as it was seen, the canister, what came out.
#pragma once
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/removal.h"

namespace brimline::screens {

struct RemovalDrafts {
    /// What the pad of the canister enters.
    enum class Entry : std::uint8_t { reading, changed, syringe };
    /// What lies over a page of the removal.
    enum class Part : std::uint8_t { page, canister, second_look };
    /// Where the letters of the keyboard go.
    enum class Letters : std::uint8_t { none, why_differs, finding };

    Part part{Part::page};
    Letters letters{Letters::none};
    touch::TextDraft text{80};
    touch::KeyboardState keys{};

    Entry entry{Entry::reading};
    touch::NumberDraft ml = touch::NumberDraft{4, 1}, fresh = touch::NumberDraft{4, 1};
    bool in_fresh{false};

    std::string balloon;       // how it looks
    std::optional<bool> food;  // answered, and not yet entered with the look of the balloon
    std::optional<bool> empty_no;
    std::optional<bool> complete, kept;
    std::string finding, words;  // of the second look

    void clear_pad() {
        ml.clear();
        fresh.clear();
        in_fresh = false;
    }
};

}  // namespace brimline::screens
