// Sorting what waits for a signature, what is sealed and what is open.
#include "core/desk/signing.h"

#include <algorithm>

namespace brimline {
namespace {

constexpr std::array parts{Part::sedation, Part::nursing, Part::physician};

bool is_signed(const CaseState& s, Part part) { return s.signatures.find(part) != s.signatures.end(); }

CaseToSign waiting_for(const CaseState& s, const PersonKnown& person) {
    CaseToSign one;
    one.state = &s;
    for (const auto part : parts) {
        if (is_signed(s, part)) {
            continue;
        }
        if (person.has(signer_of(part)) && !one.part) {
            one.part = part;
        } else {
            one.open.push_back(part);
        }
    }
    one.seals = person.has(Role::physician) && one.open.empty();
    return one;
}

}  // namespace

std::vector<CaseToSign> cases_to_sign(const Desk& desk, std::string_view person) {
    std::vector<CaseToSign> list;
    const auto* who = desk.person(person);
    if (who == nullptr) {
        return list;
    }
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        if (state == nullptr || !state->discharged || state->sealed) {
            continue;
        }
        auto one = waiting_for(*state, *who);
        if (one.part || one.seals) {
            list.push_back(std::move(one));
        }
    }
    std::stable_sort(list.begin(), list.end(), [](const CaseToSign& a, const CaseToSign& b) {
        return a.state->discharged->stamp.happened < b.state->discharged->stamp.happened;
    });
    return list;
}

std::vector<const CaseState*> sealed_cases(const Desk& desk) {
    std::vector<const CaseState*> list;
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        if (state != nullptr && state->sealed) {
            list.push_back(state);
        }
    }
    std::stable_sort(list.begin(), list.end(), [](const CaseState* a, const CaseState* b) {
        return a->sealed->stamp.at > b->sealed->stamp.at;
    });
    return list;
}

std::vector<ListedItem> listed_items(const Desk& desk, std::string_view owner, bool done) {
    std::vector<ListedItem> list;
    for (const auto& name : desk.case_order) {
        const auto* state = desk.find_case(name);
        if (state == nullptr || state->cancelled) {
            continue;
        }
        for (const auto& item : state->items) {
            const bool mine = owner.empty() || (item.owner && *item.owner == owner);
            if (mine && item.closed.has_value() == done) {
                list.push_back({state, &item});
            }
        }
    }
    std::stable_sort(list.begin(), list.end(), [](const ListedItem& a, const ListedItem& b) {
        if (a.item->due.has_value() != b.item->due.has_value()) {
            return a.item->due.has_value();
        }
        return a.item->due && *a.item->due < *b.item->due;
    });
    return list;
}

}  // namespace brimline
