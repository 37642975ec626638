// Prompts: what the kiosk reminds of at a moment, most urgent first. A function of state, time and policy;
// never stored.
#pragma once
#include "core/case/decide.h"
#include "core/rules/vitals.h"

namespace brimline {

struct Prompt {
    std::string code;
    rules::Priority priority{};
    std::string say;
    Instant since{};
};
/// While an airway event or another emergency is open only counts that differ are reminded of.
[[nodiscard]] std::vector<Prompt> prompts(const CaseState& state, Instant now, const Policy& policy);

}  // namespace brimline
