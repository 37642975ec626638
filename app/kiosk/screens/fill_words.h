// How figures of the fill are worded: volumes, syringes, band.
#pragma once
#include "app/kiosk/touch/widgets.h"
#include "core/case/fill_view.h"

namespace brimline::screens {

/// "450 mL", "62.5 mL"; a negative volume with its minus sign.
[[nodiscard]] std::string ml_words(const touch::Glass& glass, Millilitres volume);
/// The number alone: "450".
[[nodiscard]] std::string ml_digits(const touch::Glass& glass, Millilitres volume);
/// "9 × 50 mL", "9 × 50 mL + 30 mL", "15 × 50 mL − 50 mL".
[[nodiscard]] std::string syringes_words(const touch::Glass& glass, const FillView& view);
/// "in band", "in band, on target", "above ceiling of 700"; empty without a plan.
[[nodiscard]] std::string standing_words(const touch::Glass& glass, const Standing& standing,
                                         const FillView& view);
/// "450 mL", or the span "450 to 500 mL" while a tap waits for an answer.
[[nodiscard]] std::string fill_volume_words(const touch::Glass& glass, const FillView& view);
/// What was typed as a volume; none while it is no number above 0.
[[nodiscard]] std::optional<Millilitres> typed_ml(const touch::NumberDraft& draft);
/// The draft that shows this volume first, so that the first key replaces it.
[[nodiscard]] touch::NumberDraft proposing(Millilitres volume);

}  // namespace brimline::screens
