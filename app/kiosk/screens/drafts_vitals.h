// What is being typed on the sheet of vital signs. Nothing is filled in beforehand.
#pragma once
#include <array>
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"

namespace brimline::screens {

/// The boxes in which digits are typed, in the order in which the typing moves on.
enum class VitalsBox : std::uint8_t { hr, systolic, diastolic, spo2, rr, oxygen, etco2 };

struct VitalsDrafts {
    std::array<std::string, 7> typed{};                    // digits, by box
    touch::NumberDraft litres = touch::NumberDraft{2, 1};  // of oxygen: the one box with a decimal
    std::optional<int> depth;
    std::optional<VitalsBox> box{VitalsBox::hr};
    bool why_not{false};  // why the set was not taken is being asked
    bool worded{false};   // and is typed in words
    touch::TextDraft why{60};
    touch::KeyboardState keys{};
    touch::Seconds last_key{0};  // a pause ends a short value
    bool said{false};            // the set was said; what came of it decides whether the sheet closes

    [[nodiscard]] std::string& of(VitalsBox which) { return typed[static_cast<std::size_t>(which)]; }
    [[nodiscard]] const std::string& of(VitalsBox which) const {
        return typed[static_cast<std::size_t>(which)];
    }
};

}  // namespace brimline::screens
