// What Size rests on.
#include "core/case/size_view.h"

namespace brimline {

ReadBackBar read_back_bar(const CaseState& state, const PersonKnown* typing, std::string_view says) {
    if (state.device().matters.empty()) {
        return ReadBackBar::matter_first;
    }
    if (typing == nullptr || typing->has(Role::assistant)) {
        return ReadBackBar::assistant;
    }
    return typing->id == says && state.scope_is_in() ? ReadBackBar::same_person : ReadBackBar::none;
}

bool pedal_serves(const CaseState& state) {
    const auto pause = state.pauses.find(PauseKind::before_device);
    return pause != state.pauses.end() && pause->second.present.size() == 2;
}

std::optional<MatterLook> matter_look(const CaseState& state, const Policy& policy) {
    const auto& block = state.device();
    if (block.matters.empty()) {
        return std::nullopt;
    }
    MatterLook look;
    look.at = block.matters.back().stamp.happened;
    look.method = block.saline ? block.saline->is.method : SalineMethod::pair;
    if (const auto reading = matter_reading(state, policy)) {
        look.method = reading->method;
        look.judged = reading->judged;
        look.agrees = reading->judged && reading->agrees;
    }
    return look;
}

std::optional<AgreedBy> agreed_by(const CaseState& state, const Policy& policy) {
    const auto& block = state.device();
    if (!block.read_back_stands || block.read_backs.empty() || !block.read_backs.back().is.agreed) {
        return std::nullopt;
    }
    AgreedBy by{block.read_backs.back(), std::nullopt, std::nullopt, std::nullopt, false};
    if (!block.presses.empty()) {
        by.pedal = static_cast<int>(block.presses.size());
    }
    by.pair = block.saline && block.saline->is.method == SalineMethod::pair;
    if (const auto reading = matter_reading(state, policy)) {
        by.row = reading->row_used;
        by.scale = reading->matter_ml;
    }
    return by;
}

bool read_back_differs(const CaseState& state) {
    const auto& said = state.device().read_backs;
    return !said.empty() && !said.back().is.agreed && state.standing("count-differs") != nullptr;
}

}  // namespace brimline
