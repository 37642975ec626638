// Which warning lines the patient's sheet carries. Colour is a reason to look, never proof. Source: after.md
// 4.3 (10.1007/s11695-018-3205-0; PMID 14738690 on propofol and green urine).
#pragma once
#include "core/units/quantity.h"

namespace brimline::rules {

/// The line on blue or green urine: only when dye is in.
[[nodiscard]] constexpr bool coloured_urine_line(Millilitres dye) { return dye > Millilitres{}; }
/// The note for staff that propofol colours urine too: only where that line stands.
[[nodiscard]] constexpr bool propofol_note(Millilitres dye, bool propofol_given) {
    return coloured_urine_line(dye) && propofol_given;
}

}  // namespace brimline::rules
