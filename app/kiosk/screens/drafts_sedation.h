// What is being typed on the sheets of Sedation: a dose, an airway event, an emergency, a change of a value.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/sedation.h"

namespace brimline::screens {

struct DoseDraft {
    std::string drug;  // id of the formulary; empty until chosen
    bool free{false};  // a drug that the formulary does not have, by its name
    touch::TextDraft name{40};
    bool keyboard{false};
    touch::KeyboardState keys{};
    std::optional<DoseUnit> unit;       // of a free drug
    std::optional<RateUnit> rate_unit;  // of an infusion
    touch::NumberDraft amount = touch::NumberDraft{5, 3};
    int back_min{0};       // given this long ago
    std::size_t first{0};  // paging through the drugs
    bool said{false};      // the command was said; what came of it decides what is shown
};

struct AirwayDraft {
    enum class Part : std::uint8_t { values, lower, times, tube };

    Part part{Part::values};
    std::optional<int> lowest;
    std::vector<std::string> actions;
    std::optional<int> oxygen;
    touch::NumberDraft digits = touch::NumberDraft{2, 1};  // a lower value, or the size of the tube
};

struct EmergencyDraft {
    std::string kind;
    touch::TextDraft measures{60};
    bool keyboard{false};
    touch::KeyboardState keys{};
};

struct ChangeDraft {
    std::int64_t entry{0};
    std::string field;
    touch::NumberDraft value = touch::NumberDraft{5, 3};
    std::string reason;
    std::size_t first{0};  // paging through the entries
    bool said{false};
};

struct SedationDrafts {
    DoseDraft dose;
    AirwayDraft airway;
    EmergencyDraft emergency;
    ChangeDraft change;
    touch::NumberDraft tube = touch::NumberDraft{2, 1};  // the size of the tube
    bool identity_not_said{false};                       // No at gate 1: nothing is recorded of it

    /// A sheet was left: what was typed is gone, but for what an emergency that still runs is told.
    void leave(bool keep_airway) {
        dose = {};
        change = {};
        identity_not_said = false;
        tube.clear();
        if (!keep_airway) {
            airway = {};
        }
    }
};

}  // namespace brimline::screens
