// SedationView: what the value pad, the dose sheet, the airway sheet and the trend show. Figures only, each
// with its minute; nothing here is filled in for anybody.
#pragma once
#include "core/case/figures.h"

namespace brimline {

/// The dose entered last that may be offered as one tap: never a reversal drug.
struct DoseAgain {
    std::string drug;
    Decimal amount;
    DoseUnit unit{};
    std::optional<std::string> route;
    bool free{false};
};
[[nodiscard]] std::optional<DoseAgain> dose_again(const CaseState& state, const Policy& policy);

/// The unit of a drug's ampoule, in which its doses are typed.
[[nodiscard]] DoseUnit unit_of(const Drug& drug);
/// A typed amount in other words; empty where there is nothing to say.
struct AmountSaid {
    std::optional<Decimal> in_mg;       ///< of an amount in micrograms
    std::optional<std::string> per_kg;  ///< in the typed unit, two decimals, three below 0.1
};
/// Source: core/rules/dose.h, per_kg_text. A volume has neither.
[[nodiscard]] AmountSaid amount_said(Decimal amount, DoseUnit unit, const CaseState& state);

/// Infusions that have not been stopped, in order of their start.
[[nodiscard]] std::vector<const InfusionRun*> running_infusions(const CaseState& state);

/// The airway event that has not ended, else none.
[[nodiscard]] const AirwayEpisode* open_airway_event(const CaseState& state);
/// The one whose sheet is shown: the open one, else the last one while its values may still follow unmarked.
[[nodiscard]] const AirwayEpisode* airway_event_in_hand(const CaseState& state, const Policy& policy,
                                                        Instant now);
/// The entry that ended this event; empty while it is open.
[[nodiscard]] std::optional<std::int64_t> entry_that_ended(const CaseState& state,
                                                           const AirwayEpisode& episode);
[[nodiscard]] const EmergencyEpisode* open_emergency(const CaseState& state);
/// Deliveries of a fill that happened after a moment.
[[nodiscard]] int syringes_after(const CaseState& state, Instant t);

/// How old a figure is: up to one interval it is shown plain, up to two framed, then a dash with its minute.
enum class FigureAge : std::uint8_t { plain, framed, gone };
[[nodiscard]] FigureAge age_of_figure(Instant taken, Instant now, seconds interval);

/// Starting now would cross gate 1: identity and consent.
[[nodiscard]] bool start_asks_identity(const CaseState& state);

/// How long a figure stays plain: the interval that holds now, in the room or in recovery.
[[nodiscard]] seconds interval_of_sets(const CaseState& state, const Policy& policy);

/// A typed value that a correction may change: a set of vital signs, a dose, depth, oxygen.
struct ChangeableEntry {
    std::int64_t seq{0};
    Instant at{};
    const Event* event{};
};
/// Newest first; withdrawn ones and sets that were not taken are left out.
[[nodiscard]] std::vector<ChangeableEntry> changeable_entries(const CaseState& state);

// The trend

struct TrendValue {
    Instant at{};
    int value{0};
    bool corrected{false};
};
struct TrendPressure {
    Instant at{};
    int upper{0}, lower{0};
    bool corrected{false};
};
struct TrendView {
    std::vector<TrendValue> spo2, hr, rr;
    std::vector<TrendPressure> pressure;
    std::vector<TrendValue> airway;  ///< lowest of each airway event, at its start
    std::vector<Instant> sets;       ///< when each set was taken, in order
    int spo2_limit{0};               ///< the highest value that still makes a reminder, by policy
};
[[nodiscard]] TrendView trend_view(const CaseState& state, const Policy& policy);

/// One line of what happened in the sedation.
struct SedationMoment {
    enum class What : std::uint8_t {
        start,
        airway_event,
        airway_ended,
        secured,
        scope_in,
        scope_out,
        emergency,
        emergency_ended,
        help,
        end
    } what{};
    Instant at{};
    const AirwayEpisode* episode{};  ///< of an airway event
};
constexpr auto names_of(SedationMoment::What) {
    return std::array<std::string_view, 10>{"start",    "airway-event", "airway-ended", "secured",
                                            "scope-in", "scope-out",    "emergency",    "emergency-ended",
                                            "help",     "end"};
}
/// In order of when they happened.
[[nodiscard]] std::vector<SedationMoment> sedation_moments(const CaseState& state);

}  // namespace brimline
