// The parts of Discharge. Not for other files than those of Discharge.
#pragma once
#include "app/kiosk/screens/pages.h"
#include "core/case/discharge_view.h"

namespace brimline::screens {

/// Column A: the patient's sheet, as it will be printed.
void draw_home_sheet(touch::Glass& glass, const Scene& scene);
/// Column B and the corner while a paper is given, the escort is asked for, or it is said where to.
void draw_given(touch::Glass& glass, const Scene& scene, DischargeDrafts& drafts, Asks& asks);
void draw_escort_here(touch::Glass& glass, const Scene& scene, DischargeDrafts& drafts, Asks& asks);
void draw_goes(touch::Glass& glass, const Scene& scene, DischargeDrafts& drafts, Asks& asks);
/// "Home with Jon Quill"
[[nodiscard]] std::string goes_words(const touch::Glass& glass, const Scene& scene, Disposition where);
/// Enters that the patient leaves, as chosen.
void tell_discharge(const touch::Glass& glass, const Scene& scene, const DischargeDrafts& drafts, Asks& asks);

}  // namespace brimline::screens
