// The language on the glass: the words file that a kiosk reads when it starts.
#pragma once
#include <string>
#include <tl/expected.hpp>

#include "app/kiosk/touch/words.h"

namespace brimline::kiosk {

/// The words of a language (two letters), English where nobody has written them in it yet. Errors: a sentence
/// that names the file and what is wrong with it.
[[nodiscard]] tl::expected<touch::Words, std::string> words_of_glass(const std::string& language);

}  // namespace brimline::kiosk
