// Figures that follow from a case's state: volumes, counts, gates, due times, totals, dates. Worked out anew
// each time they are asked for, so that a correction reaches all of them. Rules and their sources stand in
// core/rules.
#pragma once
#include "core/case/state.h"
#include "core/clinic/policy.h"

namespace brimline {

enum class FillBand : std::uint8_t { below_band, in_band, above_band, above_ceiling };
constexpr auto names_of(FillBand) {
    return std::array<std::string_view, 4>{"below-band", "in-band", "above-band", "above-ceiling"};
}
enum class Stage : std::uint8_t {
    pre_visit,
    arrival,
    sedation,
    look,
    puncture,
    aspirate,
    out,
    place,
    fill,
    size,
    release,
    recovery,
    discharge,
    record
};
constexpr auto names_of(Stage) {
    return std::array<std::string_view, 14>{"pre-visit", "arrival",  "sedation",  "look",  "puncture",
                                            "aspirate",  "out",      "place",     "fill",  "size",
                                            "release",   "recovery", "discharge", "record"};
}
enum class CaseOutcome : std::uint8_t { completed, deferred, abandoned, converted };
constexpr auto names_of(CaseOutcome) {
    return std::array<std::string_view, 4>{"completed", "deferred", "abandoned", "converted"};
}

/// Counted volume of one device: deliveries, draw-backs, corrections, dye on top once something went in.
[[nodiscard]] Millilitres running_volume(const DeviceBlock& block);
/// The larger figure while taps wait for an answer: counted and every open question.
[[nodiscard]] Millilitres possible_volume(const DeviceBlock& block);
/// Whole deliveries (a part counts one), corrections included.
[[nodiscard]] int syringes_counted(const DeviceBlock& block);
/// All that was drawn back.
[[nodiscard]] Millilitres drawn_back(const DeviceBlock& block);
/// Syringes counted, and pedal presses, that happened up to a moment.
[[nodiscard]] int syringes_until(const DeviceBlock& block, Instant t);
[[nodiscard]] int presses_until(const DeviceBlock& block, Instant t);
[[nodiscard]] std::vector<const Question*> open_questions(const DeviceBlock& block);
/// The next free question id of the case ("q1", "q2", ...), proviso id ("p1", ...).
[[nodiscard]] std::string next_question_id(const CaseState& state);
[[nodiscard]] std::string next_proviso_id(const CaseState& state);

/// What the leaflet of the device in hand says, if the policy has its profile.
[[nodiscard]] const DeviceProfile* profile_of(const DeviceBlock& block, const Policy& policy);
/// What one full syringe holds: the mark it is filled to, else its size by plan, else profile, else policy.
[[nodiscard]] Millilitres nominal_syringe(const CaseState& state, const Policy& policy);
/// The lower of plan and profile; empty when neither says one.
[[nodiscard]] std::optional<Millilitres> ceiling_of(const CaseState& state, const Policy& policy);
struct Band {
    Millilitres low, high, aim;
};
/// The band as planned, else the profile's usual one.
[[nodiscard]] std::optional<Band> band_of(const CaseState& state, const Policy& policy);
[[nodiscard]] std::optional<FillBand> band_state(Millilitres v, const CaseState& state, const Policy& policy);

/// Volume after the first delivery over the time from first to last, stops taken out; mL/min, half up.
[[nodiscard]] std::optional<int> pace_ml_min(const DeviceBlock& block);
/// First and last delivery of a syringe or part; and the time stopped between them.
struct FillSpan {
    Instant first, last;
    Duration stopped{};
};
[[nodiscard]] std::optional<FillSpan> fill_span(const DeviceBlock& block);
/// The first moment at which taps and pedal part; empty when they do not.
[[nodiscard]] std::optional<Instant> parted_at(const DeviceBlock& block, Instant until, seconds window);

/// What the matter says against the count.
struct MatterReading {
    SalineMethod method{};
    bool judged{false}, agrees{false};
    std::optional<int> row_used, row_counted;          // row: numbers of syringes
    std::optional<std::int64_t> saline_tenths;         // closed tap: grams lost as mL, half up to a tenth
    std::optional<Millilitres> matter_ml, counted_ml;  // closed tap: with dye; running + drawn back
};
[[nodiscard]] std::optional<MatterReading> matter_reading(const CaseState& state, const Policy& policy);

[[nodiscard]] GateState gate_identity(const CaseState& state);
[[nodiscard]] GateState gate_go(const CaseState& state);
[[nodiscard]] GateState gate_position(const CaseState& state);
[[nodiscard]] GateState gate_read_back(const CaseState& state);
[[nodiscard]] std::optional<Stage> stage_of(const CaseState& state, const Zone& zone, Instant now);
[[nodiscard]] bool stage_reached(const CaseState& state, Stage stage);
[[nodiscard]] std::optional<CaseOutcome> outcome_of(const CaseState& state);
/// A balloon is in the patient by this record: released, or left inside at an abandon.
[[nodiscard]] std::optional<Instant> placed_at(const CaseState& state);

/// What came out at a removal: canister readings from the puncture on, changes of canister included, and
/// counted syringes. Juice that was sucked off before the puncture is not counted. Empty until a start is
/// read, or when nothing was read at all. Source: 8-practice rows 50 and 51.
[[nodiscard]] std::optional<Millilitres> recovered_at_removal(const CaseState& state);

/// The body weight in force and how it is known.
struct WeightInForce {
    Kilograms weight;
    WeightBasis basis{};
};
[[nodiscard]] std::optional<WeightInForce> weight_of(const CaseState& state);
[[nodiscard]] std::optional<Centimetres> height_of(const CaseState& state);

/// One drug's sum. `total` in `unit`; per kg as text, when the weight is known and the unit is a mass.
struct DoseTotal {
    std::string drug, unit;
    Decimal total;
    std::optional<std::string> per_kg;
    std::string per_kg_unit;
};
/// In order of first use; running infusions count up to `now`.
[[nodiscard]] std::vector<DoseTotal> dose_totals(const CaseState& state, Instant now);
/// The lowest SpO2 from sedation start on, airway events included (at the start of the event).
struct LowestSpo2 {
    int value{0};
    Instant at{};
};
[[nodiscard]] std::optional<LowestSpo2> lowest_spo2(const CaseState& state);
[[nodiscard]] std::optional<Instant> next_vitals_due(const CaseState& state, const Policy& policy);
/// The latest sedative or opioid, and the latest reversal, by the formulary's kinds (an unknown free drug is
/// a sedative).
[[nodiscard]] std::optional<Instant> last_sedative(const CaseState& state, const Policy& policy);
[[nodiscard]] std::optional<Instant> last_reversal(const CaseState& state, const Policy& policy);
[[nodiscard]] int total_of(const Score& score);
[[nodiscard]] std::optional<Instant> fit_since(const CaseState& state, const Policy& policy);
/// The last rating of nausea or pain.
[[nodiscard]] std::optional<int> last_rating(const CaseState& state, SymptomKind kind);
/// The ids of the discharge checks that are not met at `now`, in the policy's order.
[[nodiscard]] std::vector<std::string> unmet_checks(const CaseState& state, const Policy& policy,
                                                    Instant now);

struct CaseDates {
    std::optional<LocalDate> placed, due, latest, book_by, clear_through, full_through, soft_through;
    std::optional<Instant> no_driving_before;
    std::optional<LocalDate> call_first, call_second;
    bool dwell_by_default{false};  // the device is not known: the shortest dwell was taken
};
/// When a balloon placed on this day must be out: the shorter of the policy and the device's leaflet; with no
/// profile the shortest dwell of all that the policy knows (10-decisions F10, H9).
[[nodiscard]] LocalDate due_by(const Policy& policy, const DeviceProfile* profile, LocalDate placed);
[[nodiscard]] CaseDates dates_of(const CaseState& state, const Policy& policy, const Zone& zone);

/// Entries made while nobody was signed in that nobody was named for yet (10-decisions F7), in order.
[[nodiscard]] std::vector<Stamp> nameless(const CaseState& state);

/// The fill that a later entry starts from: no deliveries yet, or none open.
[[nodiscard]] bool entered_late(const Stamp& stamp, const Policy& policy);

}  // namespace brimline
