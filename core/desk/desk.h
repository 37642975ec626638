// The desk: what all cases together add up to. People and their roles, the names of cases, the policy in
// force, lots under recall, numbers given to records. Folded from the same events as the cases.
#pragma once
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "core/case/state.h"
#include "core/clinic/policy.h"

namespace brimline {

struct PersonKnown {
    std::string id, name;
    std::vector<Role> roles;
    bool active{true};  // false = left; the name stays on what they entered
    std::string badge;  // what a scanner reads from it; empty = none
    [[nodiscard]] bool has(Role role) const;
    [[nodiscard]] Roles set() const;
};

/// A policy from the entry on that put it in force.
struct PolicySince {
    std::int64_t seq{0};
    std::string text;
    std::shared_ptr<const Policy>
        policy;  // read only once there is more than one; null when it cannot be read
};

struct Desk {
    std::string kiosk_id;                       // hex; its own events belong to no case
    std::set<std::string> other_kiosks;         // whose events came with a restored backup
    std::optional<Noted<Rehearsed>> rehearsed;  // the last trial of a backup
    std::optional<BackupPlanned> backup_plan;   // where the running kiosk puts backups
    std::map<std::string, PersonKnown> people;
    std::map<std::string, std::string> case_ids;  // name -> hex id
    std::map<std::string, CaseState> cases;       // by hex id
    std::vector<std::string> case_order;          // names in order of booking
    std::map<std::string, std::vector<std::string>>
        removals;  // name of a case -> removals booked for its entry
    std::optional<PolicyAdopted> policy;
    std::vector<PolicySince> policies;  // all that were in force, in order
    std::vector<Recall> recalls;
    std::map<int, int> sealed_in_year;  // by the year in their numbers
    Instant last_at{};
    std::int64_t last_tick_us{0};
    std::string last_boot;
    std::int64_t last_seq{0};
    bool scripts_only{true};  // every event so far came from a script

    [[nodiscard]] const PersonKnown* person(std::string_view id) const;
    [[nodiscard]] const CaseState* find_case(std::string_view name) const;
    /// The case that an entry of the register stands for, "A" and "A/2" alike; null when there is none.
    [[nodiscard]] const CaseState* case_of_entry(std::string_view entry) const;
    /// The policy in force at an entry of the journal; `current` where only one was ever recorded.
    [[nodiscard]] const Policy& policy_at(std::int64_t seq, const Policy& current) const;
    /// Whose badge a scanner read; null when it is nobody's who is here.
    [[nodiscard]] const PersonKnown* with_badge(std::string_view badge) const;
    /// Somebody with this role, the first by id; empty when there is nobody.
    [[nodiscard]] std::optional<std::string> first_with(Role role) const;
    /// A person's name, or the id where nobody has it.
    [[nodiscard]] std::string name_of_person(std::string_view id) const;
};

/// The name of the case that an entry stands for: "A" of "A" and of "A/2".
[[nodiscard]] std::string_view case_part(std::string_view entry);
/// The desk after one more event. `case_id` is the hex id of the chain the event stands in.
void evolve(Desk& desk, const std::string& case_id, const Recorded& recorded);

}  // namespace brimline
