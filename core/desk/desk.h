// The desk: what all cases together add up to. People and their roles, the names of cases, the policy in
// force, lots under recall, numbers given to records. Folded from the same events as the cases.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "core/case/state.h"

namespace brimline {

struct PersonKnown {
    std::string id, name;
    std::vector<Role> roles;
    [[nodiscard]] bool has(Role role) const;
    [[nodiscard]] Roles set() const;
};

struct Desk {
    std::string kiosk_id;  // hex; its own events belong to no case
    std::map<std::string, PersonKnown> people;
    std::map<std::string, std::string> case_ids;  // name -> hex id
    std::map<std::string, CaseState> cases;       // by hex id
    std::vector<std::string> case_order;          // names in order of booking
    std::optional<PolicyAdopted> policy;
    std::vector<Recall> recalls;
    std::map<int, int> sealed_in_year;  // by the year in their numbers
    Instant last_at{};
    std::int64_t last_tick_us{0};
    std::string last_boot;
    std::int64_t last_seq{0};
    bool scripts_only{true};  // every event so far came from a script

    [[nodiscard]] const PersonKnown* person(std::string_view id) const;
    [[nodiscard]] const CaseState* find_case(std::string_view name) const;
    /// A person's name, or the id where nobody has it.
    [[nodiscard]] std::string name_of_person(std::string_view id) const;
};

/// The desk after one more event. `case_id` is the hex id of the chain the event stands in.
void evolve(Desk& desk, const std::string& case_id, const Recorded& recorded);

}  // namespace brimline
