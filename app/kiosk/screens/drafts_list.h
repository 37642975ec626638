// What is being chosen and typed to change the day's list: moving, cancelling, adding, starting now.
#pragma once
#include <array>
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/arrival.h"
#include "core/units/time.h"

namespace brimline::screens {

struct ListDrafts {
    std::string name;            // the case to move or cancel
    int shift_min{0};            // earlier or later than planned
    std::string room;            // where it moves; empty = stays
    std::string reason;          // a key of the words
    bool keyboard{false};        // another reason is typed
    touch::TextDraft words{80};  // in these words
    touch::KeyboardState keys{};
    std::size_t first{0};
};

/// A case being added: the fields of a patient and of the plan.
struct BookDraft {
    enum class Field : std::uint8_t { number, family, given, born };

    std::optional<Field> typing;  // the keyboard is open for it
    touch::KeyboardState keys{};
    std::array<touch::TextDraft, 4> texts{touch::TextDraft{12}, touch::TextDraft{40}, touch::TextDraft{40},
                                          touch::TextDraft{8}};
    std::optional<Sex> sex;
    std::optional<CaseKind> kind;
    std::string room;
    std::string time;  // four digits

    [[nodiscard]] const std::string& of(Field field) const {
        return texts[static_cast<std::size_t>(field)].text();
    }
};

/// An emergency start: the clock runs from the first tap.
struct StartDraft {
    std::optional<Instant> first_tap;
    std::optional<CaseKind> kind;
    bool unknown{false}, typing{false};
    touch::TextDraft name{40};
    touch::KeyboardState keys{};
    std::optional<int> weight;
};

}  // namespace brimline::screens
