// Capital letters for surnames and first letters, for the Latin letters that the faces hold.
#pragma once
#include <string>
#include <string_view>

namespace brimline::screens {

/// "ŻÓŁTEK" of "Żółtek"; letters without a capital of their own stay as they are.
[[nodiscard]] std::string in_capitals(std::string_view words);
/// "Latex" of "latex".
[[nodiscard]] std::string with_capital(std::string_view words);

}  // namespace brimline::screens
