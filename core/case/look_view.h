// LookView: what was seen, what each finding weighs by policy, and where go and no-go stand.
#pragma once
#include "core/case/figures.h"

namespace brimline {

/// What one finding asks for. Source: core/rules/look.h.
enum class FindingWeight : std::uint8_t { plain, review, stopping };

/// A finding as it stands; of several of one kind the latest.
struct FindingSeen {
    Noted<Finding> entry;
    FindingWeight weight{};
};
[[nodiscard]] std::optional<FindingSeen> finding_seen(const CaseState& state, const Policy& policy,
                                                      std::string_view kind);
/// A finding of this kind as it would weigh, for what is being typed.
[[nodiscard]] FindingWeight weight_of_finding(const Finding& finding, const Policy& policy);

/// What the physician has said last.
enum class GoSaid : std::uint8_t { nothing, go, no_go };
[[nodiscard]] GoSaid go_said(const CaseState& state);
/// A stopping finding holds the case back, so that Go needs an override first.
[[nodiscard]] bool go_needs_override(const CaseState& state);

}  // namespace brimline
