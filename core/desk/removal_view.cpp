// What the pages of a removal show.
#include "core/desk/removal_view.h"

namespace brimline {
namespace {

std::optional<std::string> said_why(const CaseState& s, Explain::What what) {
    std::optional<std::string> why;
    for (const auto& block : s.devices) {
        for (const auto& said : block.explained) {
            why = said.is.what == what ? std::optional{said.is.reason} : why;
        }
    }
    return why;
}

std::optional<LocalDate> leak_since(const CaseState& removal, const Desk& desk, const Zone& zone) {
    const auto* placed = removal.entry ? desk.case_of_entry(*removal.entry) : &removal;
    if (placed == nullptr) {
        return std::nullopt;
    }
    for (const auto& flag : placed->flags) {
        if (flag.is.flag == "leak-suspected") {
            return zone.date_of(flag.stamp.happened);
        }
    }
    return std::nullopt;
}

}  // namespace

CanisterReadings canister_readings(const CaseState& s) {
    CanisterReadings all;
    for (const auto& reading : s.canister) {
        const auto& is = reading.is;
        const bool change = is.moment == CanisterMoment::change;
        all.now = change ? is.new_ml.value_or(Millilitres{}) : is.ml;
        all.at = reading.stamp.happened;
        const bool counts = s.puncture && reading.stamp.happened >= s.puncture->happened;
        if (!counts || is.moment == CanisterMoment::start) {
            all.before = all.now;
        } else {
            all.ended = true;
        }
    }
    all.ended = all.ended || !s.aspirated.empty();
    return all;
}

RemovalStep removal_step(const CaseState& s) {
    if (s.out) {
        return s.second_looks.empty() ? RemovalStep::second_look : RemovalStep::over;
    }
    if (s.grasp) {
        return RemovalStep::out;
    }
    return s.seen_empty ? RemovalStep::grasp : RemovalStep::seen_empty;
}

RemovalView removal_view(const CaseState& removal, const Desk& desk, const Policy& policy, const Zone& zone,
                         Instant now) {
    RemovalView view;
    view.figures = removal_figures(removal, desk, policy, zone);
    view.canister = canister_readings(removal);
    view.leak = leak_since(removal, desk, zone);
    view.differs = said_why(removal, Explain::What::recovered_differs);
    view.early = said_why(removal, Explain::What::early_removal);
    const auto state = view.figures.compared.state;
    const bool differs = state == rules::Recovered::less || state == rules::Recovered::more;
    view.why_differs = differs && !view.differs;
    view.why_early = view.figures.timing == rules::RemovalTiming::early && !view.early;
    if (view.figures.placement) {
        const auto day = zone.date_of(removal.out ? removal.out->stamp.happened : now);
        view.days_in = days_between(view.figures.placement->placed, day);
    }
    return view;
}

bool exchanging(const CaseState& s) {
    return s.kind == CaseKind::removal && s.out && (s.go || s.device().label);
}

}  // namespace brimline
