// The nearest known word to one that is not known, for "did you mean".
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace brimline {

/// Steps from one word to the other: a letter put in, left out, changed, or two neighbours swapped.
/// Units: steps. Words beyond 64 letters are compared by their first 64.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b);

/// The nearest word of the list; the first of several. Empty when none is near: more than 2 steps away and
/// more than a third of its letters. Case matters not.
[[nodiscard]] std::string nearest_id(std::string_view word, std::span<const std::string> list);
[[nodiscard]] std::string nearest_id(std::string_view word, std::span<const std::string_view> list);
[[nodiscard]] inline std::string nearest_id(std::string_view word, const std::vector<std::string>& list) {
    return nearest_id(word, std::span<const std::string>{list});
}
[[nodiscard]] inline std::string nearest_id(std::string_view word,
                                            const std::vector<std::string_view>& list) {
    return nearest_id(word, std::span<const std::string_view>{list});
}

/// ", did you mean \"x\"?" or nothing, to be put at the end of a sentence.
[[nodiscard]] std::string did_you_mean(std::string_view word, const std::vector<std::string>& list);

}  // namespace brimline
