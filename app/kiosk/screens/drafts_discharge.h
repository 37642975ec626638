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
    std::string told;  // how the risks were told to somebody who leaves against advice: a key of the words
};

}  // namespace brimline::screens
