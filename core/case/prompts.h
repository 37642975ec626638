// Prompts: what the kiosk reminds of at a moment, most urgent first. A function of state, time and policy; never stored.
#pragma once
#include "core/case/decide.h"

namespace brimline {

enum class Priority : std::uint8_t { high, medium, low };
constexpr auto names_of(Priority) { return std::array<std::string_view, 3>{"high", "medium", "low"}; }

struct Prompt {
    std::string code;
    Priority priority{};
    std::string say;
    Instant since{};
};
/// While an airway event or another emergency is open only counts that differ are reminded of.
[[nodiscard]] std::vector<Prompt> prompts(const CaseState& state, Instant now, const Policy& policy);

}  // namespace brimline
