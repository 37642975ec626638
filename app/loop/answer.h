// Answers as JSON lines, as the script language lays them out.
#pragma once
#include "app/loop/loop.h"

namespace brimline {

/// One answer. `line` stands first when it is above 0.
[[nodiscard]] Json answer_json(const Reply& answer, int line);

}  // namespace brimline
