// What Place shows, from the state alone.
#include "core/case/place_view.h"

#include <algorithm>

#include "core/label/gs1.h"

namespace brimline {
namespace {

constexpr std::size_t gtin_digits = 14;
constexpr std::size_t expiry_digits = 6;
constexpr std::size_t read_digits = 4;

bool has_entry(const CaseState& state, PlaceStep step) {
    const auto& block = state.device();
    switch (step) {
        case PlaceStep::label:
            return block.label.has_value();
        case PlaceStep::volume:
            return state.plan.has_value();
        case PlaceStep::saline:
            return block.saline.has_value();
        case PlaceStep::dye:
            return block.dye.has_value();
        case PlaceStep::passed:
            return block.passed.has_value();
        case PlaceStep::position:
            return block.position_seen.has_value();
        case PlaceStep::ready:
            return block.ready.has_value();
    }
    return false;
}

std::string end_of(const std::string& text) {
    return text.size() < read_digits ? text : text.substr(text.size() - read_digits);
}

}  // namespace

std::vector<PlaceStep> place_missing(const CaseState& state) {
    std::vector<PlaceStep> missing;
    for (const auto step : {PlaceStep::label, PlaceStep::volume, PlaceStep::saline, PlaceStep::dye,
                            PlaceStep::passed, PlaceStep::position, PlaceStep::ready}) {
        if (!has_entry(state, step)) {
            missing.push_back(step);
        }
    }
    return missing;
}

LabelStanding label_standing(const std::optional<std::string>& lot, const std::optional<LocalDate>& expiry,
                             const Desk& desk, const Policy& policy, LocalDate today) {
    LabelStanding standing;
    if (expiry) {
        standing.in_date = !label_expired(*expiry, today);
    }
    if (lot) {
        const auto& listed = policy.recalled_lots;
        const bool by_policy = std::find(listed.begin(), listed.end(), *lot) != listed.end();
        const bool by_desk = std::any_of(desk.recalls.begin(), desk.recalls.end(),
                                         [&](const Recall& recall) { return recall.lot == *lot; });
        standing.lot_free = !by_policy && !by_desk;
    }
    return standing;
}

TypedLabelStanding typed_standing(const TypedLabel& typed, const std::string& read_aloud, LocalDate today) {
    TypedLabelStanding standing;
    if (typed.gtin.size() == gtin_digits) {
        standing.number_fits = gtin_check_good(typed.gtin);
    }
    if (typed.expiry && typed.expiry->size() == expiry_digits) {
        standing.expiry = label_date(*typed.expiry, today);
    }
    standing.expiry_wrong = typed.expiry && !typed.expiry->empty() && !standing.expiry;
    if (read_aloud.size() == read_digits) {
        standing.last_four_same =
            read_aloud == end_of(typed.serial && !typed.serial->empty() ? *typed.serial : typed.gtin);
    }
    return standing;
}

std::vector<Stamp> failed_scans(const CaseState& state) {
    const auto& label = state.device().label;
    std::vector<Stamp> failed;
    for (const auto& attempt : state.attempts) {
        const bool later = !label || attempt.stamp.seq > label->stamp.seq;
        if (attempt.is.code == "label-junk" && later) {
            failed.push_back(attempt.stamp);
        }
    }
    return failed;
}

bool fill_asks_position(const CaseState& state) {
    return gate_position(state) == GateState::open && state.device().deliveries.empty();
}

}  // namespace brimline
