// The layout check: every promise about size, gaps, texts and order, tested on what one frame registered.
// It runs on every frame of the headless tests; a page that breaks a promise names the target or text.
#pragma once

#include <string>
#include <vector>

#include "app/kiosk/touch/registry.h"

namespace brimline::touch {

/// Every promise that the frame breaks, one sentence each; empty when the page is sound.
[[nodiscard]] std::vector<std::string> layout_faults(const Registry& frame);

/// True when the text writes a duration with a colon ("1:56 h", "75:10"); times of day are no durations.
[[nodiscard]] bool has_colon_duration(const std::string& text);

}  // namespace brimline::touch
