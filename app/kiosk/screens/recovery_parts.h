// The parts of Recovery. Not for other files than those of Recovery.
#pragma once
#include "app/kiosk/screens/pages.h"
#include "core/case/recovery_view.h"

namespace brimline::screens {

/// The hand-over: offered in the room, accepted in the bay.
[[nodiscard]] Asks draw_handover(touch::Glass& glass, const Scene& scene, RecoveryDrafts& drafts);
/// Both scores: parts tapped, parts proposed, saved together with nausea and pain.
[[nodiscard]] Asks draw_score(touch::Glass& glass, const Scene& scene, RecoveryDrafts& drafts);
/// Nausea and pain in one tap each, drinks, vomiting.
[[nodiscard]] Asks draw_symptoms(touch::Glass& glass, const Scene& scene, RecoveryDrafts& drafts);
/// The criteria of "fit" as lines with what is there of each.
void draw_fit(touch::Glass& glass, const Scene& scene, touch::Rect panel, const std::string& title);
/// "Fit since 10:40", or nothing.
[[nodiscard]] std::string fit_words(const touch::Glass& glass, const Scene& scene,
                                    const std::optional<Instant>& since);

}  // namespace brimline::screens
