// What is being typed on Look: one finding, one sample, a no-go.
#pragma once
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/units/time.h"

namespace brimline::screens {

struct LookDrafts {
    enum class Part : std::uint8_t { list, finding, sample, no_go };

    Part part{Part::list};
    std::string kind;                                    // the finding or sample in hand
    std::optional<int> size_tenths;                      // of a hernia, in tenths of a centimetre
    touch::NumberDraft size = touch::NumberDraft{2, 1};  // of any other finding, in centimetres
    std::string grade;
    touch::TextDraft words{60};
    bool keyboard{false};
    touch::KeyboardState keys{};
    std::size_t first{0};       // paging through the findings
    std::size_t pages_read{1};  // how far the list was shown
    std::string site, owner;    // of a sample
    std::optional<int> pieces;
    int weeks{0};              // until histology, or until the next look
    std::string reason;        // of a no-go
    touch::TextDraft lot{20};  // of the pack that goes back to stock
    bool lot_keyboard{false};
};

}  // namespace brimline::screens
