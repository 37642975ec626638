// A bed for tests: commands as script lines on a desk in memory, decided and folded without a store.
#pragma once
#include <string>
#include <vector>

#include "core/case/decide.h"
#include "core/case/prompts.h"
#include "tests/core/policy_files.h"

namespace brimline::test {

class Bed {
public:
    explicit Bed(Policy policy);
    /// Says one line of the script language and folds what it becomes. A PIN is right when it is "123456".
    Outcome say(const std::string& line);
    Outcome say(const Command& command);
    /// The same, at a clock time of the bed's day (2026-11-25) in UTC: at("09:41:12",
    /// R"("by":"tomas","do":"go")").
    Outcome at(const std::string& time, const std::string& fields);
    /// Lets time alone do what it does until then.
    void pass_to(const std::string& time);
    [[nodiscard]] const CaseState& state(const std::string& name = "A") const;
    [[nodiscard]] const Policy& policy() const { return policy_; }
    [[nodiscard]] const Zone& zone() const { return zone_; }
    [[nodiscard]] std::vector<std::string> standing(const std::string& name = "A") const;  // codes of holds
    [[nodiscard]] std::vector<std::string> open_items(const std::string& name = "A") const;
    [[nodiscard]] std::vector<std::string> prompt_codes(const std::string& time,
                                                        const std::string& name = "A") const;
    /// The journal number that the last say() gave to its first event.
    [[nodiscard]] std::int64_t last_seq() const { return first_of_last_; }
    Desk desk;

private:
    void fold(const std::vector<NewEvent>& events, const Command& command, Role role,
              const std::string& case_id);
    Policy policy_;
    Zone zone_;
    std::int64_t first_of_last_{0};
    int cases_{0};
};

/// A bed with the demo's people and case A booked for 09:30.
[[nodiscard]] Bed bed_with_case(Policy policy = demo_policy());
/// The same, up to "ready to fill" at 09:37:50 with every gate met, plan 500 to 600, aim 500, ceiling 700.
[[nodiscard]] Bed bed_ready_to_fill(Policy policy = demo_policy());
[[nodiscard]] Instant time_of(const std::string& clock);

}  // namespace brimline::test
