// Follows the entries of one value.
#include "core/rules/audit.h"

#include <algorithm>

namespace brimline::rules {

Trail audit_trail(std::span<const TrailEntry> entries) {
    Trail trail;
    std::vector<int> recorded;
    for (const TrailEntry& entry : entries) {
        if (entry.corrects && entry.reason.find_first_not_of(' ') == std::string::npos) {
            trail.reason_missing = true;
            continue;
        }
        if (entry.corrects &&
            std::find(recorded.begin(), recorded.end(), *entry.corrects) == recorded.end()) {
            trail.no_such_entry = true;
            continue;
        }
        recorded.push_back(entry.number);
        trail.visible.push_back(entry.value);
        trail.effective = entry.value;
    }
    return trail;
}

}  // namespace brimline::rules
