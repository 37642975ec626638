// Choosing among those who are here.
#include "app/kiosk/screens/kiosk_people.h"

#include <algorithm>

namespace brimline::screens {

std::string physician_of(const CaseState* state, const Desk& desk) {
    if (state != nullptr) {
        for (const auto& [which, held] : state->pauses) {
            for (const auto& id : held.present) {
                const auto* person = desk.person(id);
                if (person != nullptr && person->has(Role::physician)) {
                    return id;
                }
            }
        }
    }
    return desk.first_with(Role::physician).value_or("");
}

std::vector<std::string> chips_of(const CaseState* state, const Desk& desk, const std::string& chosen) {
    std::vector<std::string> ids;
    if (chosen.empty()) {
        return ids;  // nobody is signed in: a chip would be a way round the PIN
    }
    if (state != nullptr && !state->pauses.empty()) {
        ids = state->pauses.rbegin()->second.present;
    } else {
        for (const auto& [id, person] : desk.people) {
            ids.push_back(id);
        }
    }
    if (state != nullptr && state->offered &&
        std::find(ids.begin(), ids.end(), state->offered->is.to) == ids.end()) {
        ids.insert(ids.begin(), state->offered->is.to);  // who takes over enters from now on
    }
    std::erase_if(ids, [&](const auto& id) {
        const auto* person = desk.person(id);
        return person != nullptr && !person->active;
    });
    constexpr std::size_t most = 4;
    if (ids.size() > most) {
        ids.resize(most);
    }
    if (std::find(ids.begin(), ids.end(), chosen) == ids.end() && !chosen.empty()) {
        if (ids.size() == most) {
            ids.pop_back();
        }
        ids.push_back(chosen);
    }
    return ids;
}

std::optional<std::string> holder_of(const CaseState* state, const Desk& desk, const std::string& chosen,
                                     Role role) {
    const auto has = [&](const std::string& id) {
        const auto* person = desk.person(id);
        return person != nullptr && person->has(role);
    };
    if (has(chosen)) {
        return chosen;
    }
    for (const auto& id : chips_of(state, desk, chosen)) {
        if (has(id)) {
            return id;
        }
    }
    return std::nullopt;
}

}  // namespace brimline::screens
