// What was seen at Look: what stops the case, what the physician looks at again. Source: before.md 10.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/clinic/policy.h"

namespace brimline::rules {

/// `grade` of oesophagitis ("A" to "D"), `size_cm` of a hernia; empty where not said.
struct Seen {
    std::string id;
    std::optional<std::string> grade;
    std::optional<Decimal> size_cm;
};
/// Ids in the order seen. `unmeasured`: a grade or size was not said and would decide (also listed as
/// review).
struct LookOutcome {
    std::vector<std::string> stopping, review, unmeasured;
    [[nodiscard]] bool stop() const { return !stopping.empty(); }
    bool operator==(const LookOutcome&) const = default;
};
/// Larger than the ceiling; the ceiling itself is allowed. Source: before.md 10, hernia-ceiling.
[[nodiscard]] bool hernia_stops(Decimal size_cm, Decimal ceiling_cm);
[[nodiscard]] LookOutcome judge_look(std::span<const Seen> findings, const LookPolicy& policy);

}  // namespace brimline::rules
