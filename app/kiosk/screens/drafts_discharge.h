// What is being chosen at Discharge before it is entered.
#pragma once
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/after.h"

namespace brimline::screens {

struct DischargeDrafts {
    bool card{false};  // the sheet of ways is for the card, else for the patient's sheet
    std::optional<Disposition> goes;
    /// Where the letters of the keyboard go.
    enum class Letters : std::uint8_t { none, words, name, phone };
    Letters letters{Letters::none};
    touch::TextDraft text{80};
    touch::KeyboardState keys{};
    std::string words;                      // beside where the patient goes
    std::string escort_name, escort_phone;  // of somebody who came
    std::string told;  // how the risks were told to somebody who leaves against advice: a key of the words
};

}  // namespace brimline::screens
