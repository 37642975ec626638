// The corner of the fill: Syringe in on the page and under every sheet over it, and the foot of such a sheet.
#pragma once
#include "app/kiosk/screens/scene.h"
#include "core/case/fill_view.h"

namespace brimline::screens {

/// True from the first syringe until filling is done: the corner of every sheet stays Syringe in.
[[nodiscard]] bool over_fill(const Scene& scene);
/// Syringe in: acts on press, entered by the one present who counts.
void draw_syringe_in(touch::Glass& glass, const Scene& scene, touch::Rect corner, Asks& asks);
/// Enters a fact of the fill by the chosen person, or where that person may not, by the assistant present.
void tell_as_assistant(const Scene& scene, Statement says, Asks& asks, bool sure = false);
/// What the count beside a sheet's own action says.
[[nodiscard]] touch::SheetCount sheet_count(const touch::Glass& glass, const Scene& scene,
                                            const FillView& view);
/// The foot of a sheet over Fill: its own action, the count, Back and Syringe in. Back has closed the sheet
/// already when the tap is returned.
touch::SheetTap draw_sheet_foot(touch::Glass& glass, const Scene& scene,
                                const std::optional<touch::Action>& own, Asks& asks);

}  // namespace brimline::screens
