// The bed of the fill: case A brought to "ready to fill" by its script, and syringes by the finger and the
// foot.
#pragma once
#include "core/case/fill_view.h"
#include "tests/app/kiosk_bed.h"

namespace brimline::test {

inline KioskBed::Start ready_to_fill(std::vector<std::string> lines = {},
                                     std::string until = "2026-11-25T09:38:02+00:00") {
    return {.until = std::move(until), .scripts = {"case-a"}, .lines = std::move(lines)};
}

inline void open_fill(KioskBed& bed, const std::string& name = "A") {
    bed.kiosk->open("tomas", name, screens::Page::fill);
    bed.settle();
}

/// So many syringes, 21 s apart as on the reference day.
inline void fill(KioskBed& bed, int syringes) {
    for (int i = 0; i < syringes; ++i) {
        bed.pass(std::chrono::seconds{21});
        bed.tap("syringe-in");
    }
}

/// The same, with the physician's foot 2 s after each.
inline void fill_with_pedal(KioskBed& bed, int syringes) {
    for (int i = 0; i < syringes; ++i) {
        bed.pass(std::chrono::seconds{19});
        bed.tap("syringe-in");
        bed.pass(std::chrono::seconds{2});
        bed.glass->pedal(touch::Pedal::physician);
        bed.settle();
    }
}

}  // namespace brimline::test
