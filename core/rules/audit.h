// The trail of one value: corrections are new entries that name the old one, with a reason; what stood before
// stays to be read. Source: after.md 9, audit-trail (21 CFR 11.10(e); "refused without a reason" is our
// rule).
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace brimline::rules {

/// One entry. `corrects` = number of the entry it corrects; empty = a first value.
struct TrailEntry {
    int number = 0;
    std::optional<int> corrects;
    int value = 0;
    std::string reason;
};
/// `effective`: the value that counts now, of the entry named last. `visible`: every value recorded, in
/// order; refused corrections leave none. `reason_missing`: a correction came without a reason.
/// `no_such_entry`: a correction named none.
struct Trail {
    std::optional<int> effective;
    std::vector<int> visible;
    bool reason_missing = false, no_such_entry = false;
};
[[nodiscard]] Trail audit_trail(std::span<const TrailEntry> entries);

}  // namespace brimline::rules
