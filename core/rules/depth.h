// Depth of sedation (MOAA/S) and the class of an airway event. Source: before.md 8.
#pragma once
#include <optional>
#include <string_view>

#include "core/rules/vitals.h"

namespace brimline::rules {

enum class Depth : std::uint8_t { minimal, moderate, deep, general_anaesthesia };
[[nodiscard]] std::string_view name_of(Depth depth);
/// 5 minimal, 4 to 2 moderate, 1 deep, 0 general anaesthesia. Errors: out-of-range outside 0 to 5.
[[nodiscard]] Expected<Depth> depth_of(int moaas);
/// Our wording of a step, printed beside the number. Shape: 0 to 5 (asserted).
[[nodiscard]] std::string_view moaas_words(int moaas);
/// The step that has this wording.
[[nodiscard]] std::optional<int> moaas_worded(std::string_view words);
/// 0 high, else medium, above the policy's step none. Source: before.md 8, depth-prompt.
[[nodiscard]] Priority depth_prompt(int moaas, int prompt_at_or_below);

enum class Desaturation : std::uint8_t { none, minor, prolonged, severe };
[[nodiscard]] std::string_view name_of(Desaturation d);
/// Lowest below 75 severe; below 90 for more than 60 s prolonged; up to 90 minor; above none. Exactly 60 s is
/// not prolonged, exactly 90 never. Source: before.md 8, desaturation-class (Br J Anaesth 2012;108:13-20).
[[nodiscard]] Desaturation desaturation(int lowest_spo2, Duration lasted);
/// More than 60 s. Source: before.md 8, apnoea-class.
[[nodiscard]] bool apnoea_prolonged(Duration lasted);

}  // namespace brimline::rules
