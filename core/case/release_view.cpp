// What Release shows, worked out from the case.
#include "core/case/release_view.h"

namespace brimline {
namespace {

FactStanding valve(const CaseState& s) {
    const auto* dry = s.valve_dry.empty() ? nullptr : &s.valve_dry.back().stamp;
    const auto* drips = s.valve_not_dry.empty() ? nullptr : &s.valve_not_dry.back().stamp;
    if (drips != nullptr && (dry == nullptr || drips->seq > dry->seq)) {
        return {false, drips->happened};
    }
    return dry == nullptr ? FactStanding{} : FactStanding{true, dry->happened};
}

}  // namespace

FactStanding fact_of(const CaseState& s, ReleaseFact fact) {
    switch (fact) {
        case ReleaseFact::off: {
            const auto& off = s.device().off;
            return off ? FactStanding{true, off->happened} : FactStanding{};
        }
        case ReleaseFact::dry:
            return valve(s);
        case ReleaseFact::complete:
            return s.catheter ? FactStanding{s.catheter->is.complete, s.catheter->stamp.happened}
                              : FactStanding{};
        case ReleaseFact::position:
            return s.release_look
                       ? FactStanding{s.release_look->is.position_same, s.release_look->stamp.happened}
                       : FactStanding{};
        case ReleaseFact::bleeding:
            return s.release_look ? FactStanding{s.release_look->is.bleeding, s.release_look->stamp.happened}
                                  : FactStanding{};
    }
    return {};
}

std::vector<ReleaseFact> release_missing(const CaseState& s) {
    std::vector<ReleaseFact> missing;
    for (const auto fact : {ReleaseFact::off, ReleaseFact::dry, ReleaseFact::complete, ReleaseFact::position,
                            ReleaseFact::bleeding}) {
        const auto stands = fact_of(s, fact);
        if (!stands.yes || (fact == ReleaseFact::dry && !*stands.yes)) {
            missing.push_back(fact);
        }
    }
    return missing;
}

std::optional<ReleaseStep> release_step(const CaseState& s) {
    if (s.scope_is_in()) {
        return ReleaseStep::scope_out;
    }
    if (s.under_sedation()) {
        return ReleaseStep::end_sedation;
    }
    if (s.pauses.find(PauseKind::before_leaving) == s.pauses.end() && !s.left_room) {
        return ReleaseStep::pause;
    }
    return s.left_room ? std::nullopt : std::optional{ReleaseStep::leave_room};
}

bool release_asks_read_back(const CaseState& s) {
    return !s.device().off && gate_read_back(s) == GateState::open;
}

std::optional<ValveWatch> valve_watch(const CaseState& s, const Policy& policy) {
    const auto stands = valve(s);
    if (!stands.yes || *stands.yes) {
        return std::nullopt;
    }
    return ValveWatch{*stands.at, s.valve_not_dry.back().is.action, policy.fill.valve_dry};
}

BalloonCard balloon_card(const CaseState& s, const Policy& policy, const Zone& zone, Instant now) {
    const auto& block = s.device();
    CaseState shown = s;
    if (!placed_at(s) && !block.not_left_in) {
        Stamp stamp;
        stamp.happened = now;
        shown.device().off = stamp;
    }
    const auto dates = dates_of(shown, policy, zone);
    BalloonCard card{.placed = dates.placed,
                     .book_by = dates.book_by,
                     .due = dates.due,
                     .volume = running_volume(block),
                     .dye = std::nullopt,
                     .lot = "",
                     .serial = ""};
    if (block.dye && block.dye->is.ml) {
        card.dye = block.dye->is.ml;
    }
    if (block.label) {
        card.lot = block.label->is.lot.value_or("");
        card.serial = block.label->is.serial.value_or("");
    }
    return card;
}

}  // namespace brimline
