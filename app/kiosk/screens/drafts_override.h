// What is being typed on the override of a hold.
#pragma once
#include <string>

#include "app/kiosk/touch/widgets.h"

namespace brimline::screens {

/// Words to the answer of a proviso.
struct ReviewDraft {
    std::string proviso;  // whose words these are
    bool keyboard{false};
    touch::TextDraft words{60};
    touch::KeyboardState keys{};
};

struct OverrideDraft {
    std::string hold;    // its code
    std::string reason;  // id of the policy's list
    std::string stage;   // of the proviso; empty = none
    touch::TextDraft condition{60}, words{60};
    bool condition_keyboard{false}, words_keyboard{false};
    touch::KeyboardState keys{};
    std::string pin;  // never shown, never kept beyond the check
    bool said{false};
};

}  // namespace brimline::screens
