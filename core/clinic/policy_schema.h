// The schema of the clinic policy: each key, its unit, the range that is accepted and the member that it
// fills. Ranges are those of before.md and after.md (section 10 there); defaults stand in assets/policy
// alone. For the reader of policies, not for those who use one.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/clinic/policy.h"
#include "core/units/json_tree.h"

namespace brimline::schema {

using Words = std::vector<std::string>;

/// The member of a policy that a key fills.
template <class T>
using Member = T& (*)(Policy&);
using Where = std::variant<Member<int>, Member<bool>, Member<minutes>, Member<seconds>, Member<Decimal>,
                           Member<Millilitres>, Member<std::string>, Member<Words>, Member<std::vector<int>>,
                           Member<Limits>, Member<std::vector<Check>>, Member<std::vector<ListItem>>,
                           Member<std::vector<Drug>>, Member<std::vector<DeviceProfile>>,
                           Member<std::vector<SheetApproval>>>;

/// Both ends included.
struct Range {
    Decimal low, high;
};
struct Key {
    std::string_view name;       // "fasting.clear-fluid-min": what stands before the point is the file
    std::string_view unit;       // as written in the file: "min", "h", "mL" ...; "" = none
    std::optional<Range> range;  // of a number, of each number of a list, of the hard limits
    std::vector<std::string_view> allowed;  // words that a text or the items of a list may be; empty = free
    Where where;
};

/// Every key there is, in the order of the structs.
[[nodiscard]] const std::vector<Key>& keys();
/// "fasting.json" for "fasting.clear-fluid-min".
[[nodiscard]] std::string file_of(std::string_view key);

/// What is wrong with a value, as the end of a sentence; empty when nothing is.
using Wrong = std::optional<std::string>;

/// Reads one value into the policy. What is wrong names the value and what is allowed.
[[nodiscard]] Wrong read_value(const Key& key, const JsonNode& value, Policy& policy);
/// The value as canonical JSON: members in order of name, numbers exact and without trailing zeros.
[[nodiscard]] std::string write_value(const Key& key, const Policy& policy);

/// Reads and writes lists of checks, items, drugs, devices and approvals.
[[nodiscard]] Wrong read_list(const JsonNode& value, std::vector<Check>& into);
[[nodiscard]] Wrong read_list(const JsonNode& value, std::vector<ListItem>& into);
[[nodiscard]] Wrong read_list(const JsonNode& value, std::vector<Drug>& into);
[[nodiscard]] Wrong read_list(const JsonNode& value, std::vector<DeviceProfile>& into);
[[nodiscard]] Wrong read_list(const JsonNode& value, std::vector<SheetApproval>& into);
[[nodiscard]] std::string write_list(const std::vector<Check>& list);
[[nodiscard]] std::string write_list(const std::vector<ListItem>& list);
[[nodiscard]] std::string write_list(const std::vector<Drug>& list);
[[nodiscard]] std::string write_list(const std::vector<DeviceProfile>& list);
[[nodiscard]] std::string write_list(const std::vector<SheetApproval>& list);

/// Whether this may be an id: small letters, digits and single hyphens.
[[nodiscard]] bool id_good(std::string_view text);

/// Rules between keys: orders, sums, ids that must exist.
[[nodiscard]] std::vector<PolicyFault> cross_check(const Policy& policy);

}  // namespace brimline::schema
