// Judges the answers of one team pause against its checks.
#include "core/rules/pause.h"

#include <algorithm>
#include <cstdlib>

namespace brimline::rules {
namespace {

enum class Verdict : std::uint8_t { good, bad, missing };

Verdict verdict_on(const Check& check, PauseAnswer answer, bool may_not_apply) {
    switch (answer) {
        case PauseAnswer::yes:
            return check.good == "yes" ? Verdict::good : Verdict::bad;
        case PauseAnswer::no:
            return check.good == "no" ? Verdict::good : Verdict::bad;
        case PauseAnswer::not_applicable:
            return may_not_apply ? Verdict::good : Verdict::missing;
    }
    std::abort();  // no answer: a corrupted program must not go on
}

}  // namespace

PauseOutcome judge_pause(std::span<const Check> required,
                         const std::map<std::string, PauseAnswer, std::less<>>& answers, Roles present,
                         std::span<const std::string> may_not_apply) {
    PauseOutcome outcome;
    for (const Check& check : required) {
        const auto given = answers.find(check.id);
        const bool allowed =
            std::find(may_not_apply.begin(), may_not_apply.end(), check.id) != may_not_apply.end();
        const Verdict verdict =
            given == answers.end() ? Verdict::missing : verdict_on(check, given->second, allowed);
        if (verdict == Verdict::missing) {
            outcome.missing.push_back(check.id);
        } else if (verdict == Verdict::bad) {
            outcome.bad.push_back(check.id);
        }
    }
    for (const Role role : {Role::physician, Role::assistant, Role::sedation_provider}) {
        if (pause_roles.has(role) && !present.has(role)) {
            outcome.absent.push_back(role);
        }
    }
    outcome.complete = outcome.missing.empty() && outcome.bad.empty() && outcome.absent.empty();
    return outcome;
}

}  // namespace brimline::rules
