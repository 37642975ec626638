// Whose word is entered, in words.
#pragma once
#include <string>

#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

/// "Dr Varga"
[[nodiscard]] std::string whose_word(const Scene& scene);
/// "said by Dr Varga"
[[nodiscard]] std::string said_by_words(const touch::Glass& glass, const Scene& scene);

}  // namespace brimline::screens
