// One overload a statement, grouped by stage. Each answers what the statement becomes; holds and items follow
// from the state afterwards (causes.h). Not for use outside decide.
#pragma once
#include <algorithm>
#include <cstdlib>

#include "core/case/codec.h"
#include "core/case/decide.h"
#include "core/clinic/nearest.h"

namespace brimline::deciding {

/// The case, the command and the setting, together.
struct Scene {
    const CaseState& state;
    const Command& command;
    const Setting& setting;
    [[nodiscard]] Instant at() const { return command.at; }
    [[nodiscard]] Instant happened() const { return command.happened.value_or(command.at); }
    [[nodiscard]] bool by_has(Role role) const;
    [[nodiscard]] bool said_by_has(Role role) const;
};

[[nodiscard]] inline Outcome recorded(Event event) {
    return {{{std::move(event), {}, false, {}}}, {}, {}, {}};
}
[[nodiscard]] inline Outcome recorded(std::vector<NewEvent> events) {
    return {std::move(events), {}, {}, {}};
}
[[nodiscard]] inline Outcome refused(Refusal refusal) { return {{}, {}, std::move(refusal), {}}; }
/// Refused, and the try itself is recorded.
[[nodiscard]] Outcome refused_attempt(const Scene& scene, Refusal refusal,
                                      std::optional<std::string> raw = {});
/// Asked once whether an unusual value is right; nothing is recorded.
[[nodiscard]] Outcome implausible(std::string field, std::string say);
/// Refused because an id is not on a policy list; names the nearest.
[[nodiscard]] Refusal not_on_list(std::string_view what, std::string_view id,
                                  const std::vector<std::string>& ids);
/// Accepts, asks or refuses a typed number by its limits; empty = accepted.
[[nodiscard]] std::optional<Outcome> judged(const Scene& scene, std::string field, Decimal value,
                                            const Limits& limits, std::string_view unit);

/// The ids of a policy list, in order.
template <class T>
[[nodiscard]] std::vector<std::string> ids_of(const std::vector<T>& list) {
    std::vector<std::string> ids;
    for (const auto& item : list) {
        ids.push_back(item.id);
    }
    return ids;
}
[[nodiscard]] inline bool holds_id(const std::vector<std::string>& ids, std::string_view id) {
    return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// A reason as it is kept: one that is not on the list is "other" with these words. Source: 10-decisions C.
struct Reasoned {
    std::string reason;
    std::optional<std::string> words;
};
[[nodiscard]] Reasoned reasoned(const std::vector<ListItem>& list, const std::string& reason,
                                const std::optional<std::string>& words);
/// A lot in the place of a hospital number (10-decisions F20).
[[nodiscard]] std::optional<Refusal> bad_number(const Setting& setting,
                                                const std::optional<std::string>& number);
/// Refuses unless `second` is another person and both PINs were right.
[[nodiscard]] std::optional<Outcome> two_people(const Scene& scene, const std::string& second);

/// A statement that is recorded as it stands.
template <class T>
[[nodiscard]] Outcome decide_one(const Scene&, const T& says) {
    if constexpr (std::is_constructible_v<Event, T>) {
        return recorded(Event{says});
    } else {
        std::abort();  // a statement for the desk; is_desk_command tells them apart
    }
}

// Arrival
Outcome decide_one(const Scene&, const EnterRoom&);
Outcome decide_one(const Scene&, const Measure&);
Outcome decide_one(const Scene&, const Intake&);
Outcome decide_one(const Scene&, const Medicine&);
Outcome decide_one(const Scene&, const Answer&);
Outcome decide_one(const Scene&, const Airway&);
Outcome decide_one(const Scene&, const Unchanged&);
Outcome decide_one(const Scene&, const Consent&);
// Sedation
Outcome decide_one(const Scene&, const Vitals&);
Outcome decide_one(const Scene&, const Pause&);
Outcome decide_one(const Scene&, const Override&);
Outcome decide_one(const Scene&, const AnswerProviso&);
Outcome decide_one(const Scene&, const Dose&);
Outcome decide_one(const Scene&, const InfusionStart&);
Outcome decide_one(const Scene&, const InfusionStop&);
Outcome decide_one(const Scene&, const Oxygen&);
Outcome decide_one(const Scene&, const AirwayEventEnd&);
Outcome decide_one(const Scene&, const EmergencyEnd&);
Outcome decide_one(const Scene&, const HandOverRole&);
Outcome decide_one(const Scene&, const AcceptRole&);
Outcome decide_one(const Scene&, const WhoItWas&);
Outcome decide_one(const Scene&, const Seen&);
// Look and Place
Outcome decide_one(const Scene&, const Finding&);
Outcome decide_one(const Scene&, const Sample&);
Outcome decide_one(const Scene&, const NoGo&);
Outcome decide_one(const Scene&, const Device&);
Outcome decide_one(const Scene&, const Plan&);
Outcome decide_one(const Scene&, const Saline&);
Outcome decide_one(const Scene&, const Dye&);
// Fill and Size
Outcome decide_one(const Scene&, const SyringeIn&);
Outcome decide_one(const Scene&, const PartSyringe&);
Outcome decide_one(const Scene&, const DrawBack&);
Outcome decide_one(const Scene&, const DoubleTapWas&);
Outcome decide_one(const Scene&, const GoOnFilling&);
Outcome decide_one(const Scene&, const CountCheck&);
Outcome decide_one(const Scene&, const Matter&);
Outcome decide_one(const Scene&, const ReadBack&);
Outcome decide_one(const Scene&, const Explain&);
Outcome decide_one(const Scene&, const Correct&);
// Release to record
Outcome decide_one(const Scene&, const DeviceNotLeftIn&);
Outcome decide_one(const Scene&, const OfferHandover&);
Outcome decide_one(const Scene&, const AcceptHandover&);
Outcome decide_one(const Scene&, const Drink&);
Outcome decide_one(const Scene&, const Discharge&);
Outcome decide_one(const Scene&, const Abandon&);
Outcome decide_one(const Scene&, const Sign&);
Outcome decide_one(const Scene&, const Seal&);
// Removal
Outcome decide_one(const Scene&, const BalloonSeen&);
Outcome decide_one(const Scene&, const Canister&);
Outcome decide_one(const Scene&, const Puncture&);
Outcome decide_one(const Scene&, const Aspirated&);
Outcome decide_one(const Scene&, const Gas&);
Outcome decide_one(const Scene&, const Fluid&);
Outcome decide_one(const Scene&, const SeenEmpty&);
Outcome decide_one(const Scene&, const Grasp&);
Outcome decide_one(const Scene&, const Out&);
Outcome decide_one(const Scene&, const SecondLook&);
// Register, identity after the fact
Outcome decide_one(const Scene&, const PlacedElsewhere&);
Outcome decide_one(const Scene&, const Call&);
Outcome decide_one(const Scene&, const Flag&);
Outcome decide_one(const Scene&, const CloseEntry&);
Outcome decide_one(const Scene&, const LostToFollowUp&);
Outcome decide_one(const Scene&, const PatientChange&);
Outcome decide_one(const Scene&, const BelongsTo&);

}  // namespace brimline::deciding
