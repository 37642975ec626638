// State of one case: what its events add up to. Nothing here is ever set but by evolve; figures that follow
// from it (running volume, totals, due times) are worked out in figures.h, so that a correction changes them
// all at once.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/case/event.h"

namespace brimline {

/// Something with its stamp.
template <class T>
struct Noted {
    Stamp stamp;
    T is;
};

enum class GateState : std::uint8_t { open, met, crossed };
constexpr auto names_of(GateState) { return std::array<std::string_view, 3>{"open", "met", "crossed"}; }

struct Hold {
    std::string code;
    HoldClass hold_class{};
    std::string say;
    Instant since{};
    std::optional<Instant> until, ended;
    std::optional<HoldEnd> ended_how;
    std::vector<Noted<Overridden>> overrides;
    [[nodiscard]] bool stands() const { return !ended.has_value(); }
};
struct Proviso {
    std::string id, hold;
    ProvisoSaid said;
    std::optional<Noted<AnswerProviso>> answer;
};
struct OpenItem {
    std::string code, say;
    std::optional<std::string> owner;
    std::optional<LocalDate> due;
    Instant opened{};
    std::optional<Instant> closed;
};

/// A tap too soon after another, kept beside the count until somebody answers.
struct Question {
    std::string id;
    Millilitres ml;
    Stamp stamp;
    std::optional<SecondOrSame> answer;
};
/// One change of the volume. `syringes` counts deliveries (a part counts one, a draw-back none).
struct Delivery {
    enum class Kind : std::uint8_t { syringe, part, drawn_back, correction, meanwhile } kind{};
    Stamp stamp;
    Millilitres ml;  // negative when fluid came out
    int syringes{0};
    bool while_stopped{false};
};
struct FillStop {
    Stamp stamp;
    StopReason reason{};
    std::optional<Instant> until;
};
/// One device from the moment it is opened: label, preparation, fill, sizing, detachment.
struct DeviceBlock {
    std::optional<Noted<DeviceOpened>> label;
    std::optional<Noted<Saline>> saline;
    std::vector<Noted<SalineAdded>> saline_added;
    std::optional<Noted<Dye>> dye;
    std::optional<Stamp> passed, position_seen, ready, off;
    std::vector<Delivery> deliveries;
    std::vector<Question> questions;
    std::vector<Stamp> presses;  // the physician's pedal during this fill
    std::vector<FillStop> stops;
    std::vector<Noted<CountsCompared>> checks;
    std::vector<Noted<Matter>> matters;
    std::vector<Noted<Sizing>> sizings;
    std::vector<Noted<ReadBackSaid>> read_backs;
    std::vector<Noted<Explain>> explained;
    std::optional<Noted<DeviceNotLeftIn>> not_left_in;
    bool position_crossed{false}, read_back_crossed{false};
    bool read_back_agreed{false};   // as it was said, and nothing went in or out since
    bool read_back_stands{false};   // agreed, and no correction has changed the count that it agreed with
    std::optional<Stamp> last_tap;  // of any kind, a question included
};
struct PauseHeld {
    std::vector<std::string> present;
    std::map<std::string, Answered> answers;
    Stamp first, last;
};
struct InfusionRun {
    Noted<InfusionStart> start;
    std::optional<Stamp> stop;
};
struct AirwayEpisode {
    Stamp start;
    std::optional<Instant> end;
    std::optional<int> lowest_spo2;
    std::vector<std::string> actions;
    std::optional<Stamp> values;  // the latest entry that filled something in
};
struct EmergencyEpisode {
    Stamp start;
    std::optional<Noted<EmergencyEnd>> end;
};
struct AddendumKept {
    Stamp stamp;
    std::string text;
};
/// A correction as the record shows it: what it was, what it is, who said so.
struct CorrectionKept {
    Stamp stamp;
    Corrected is;
};
/// One event as first written, and as it stands after corrections.
struct Kept {
    Recorded first, now;
    bool withdrawn{false};
};

struct CaseState {
    std::string id, name;
    CaseKind kind{};
    bool started_now{false};
    std::optional<std::string> practised;  // entered in practice, as this case there
    PatientKnown patient;
    std::optional<Instant> planned;
    std::optional<std::string> room, entry;
    std::optional<int> position;
    std::optional<Noted<Cancel>> cancelled;
    std::vector<Noted<Move>> moves;
    std::vector<Kept> history;
    std::int64_t chain_length{0};  // events of this case in the journal; history also holds received entries
    std::vector<CorrectionKept> corrections;
    std::vector<Noted<CountCorrected>> count_corrections;
    std::vector<Noted<Attempt>> attempts;

    // Arrival
    std::vector<Noted<EnteredRoom>> entered;
    std::optional<Noted<Identity>> identity;
    std::optional<Noted<Consent>> consent;
    std::optional<Noted<Allergies>> allergies;
    std::optional<Noted<Measure>> measure;
    std::optional<Noted<WeightKnown>> weight_known;
    std::vector<Noted<Intake>> intakes;
    std::vector<Noted<Medicine>> medicines;
    std::map<std::string, Noted<Answer>> answers;  // the latest of each check
    std::optional<Noted<Airway>> airway;
    std::optional<Noted<Escort>> escort;
    std::vector<Noted<Unchanged>> unchanged;

    // Pauses, sedation
    std::map<PauseKind, PauseHeld> pauses;
    std::optional<Noted<MonitorClock>> monitor_clock;
    std::optional<Stamp> sedation_start, sedation_end;
    std::vector<Noted<Dose>> doses;
    std::vector<InfusionRun> infusions;
    std::vector<Noted<Vitals>> vitals;  // in order of when they were taken
    std::vector<Noted<Depth>> depths;
    std::vector<Noted<Oxygen>> oxygen;
    std::vector<AirwayEpisode> airway_events;
    std::vector<EmergencyEpisode> emergencies;
    std::vector<Stamp> help_called;
    std::optional<Noted<AirwaySecured>> secured;
    std::optional<Stamp> freed;
    std::map<std::string, std::string> role_offered, role_holder;
    std::vector<std::string> seen;

    // Look
    std::optional<Stamp> scope_in, scope_out;
    std::vector<Noted<Finding>> findings;
    std::optional<Stamp> no_findings;
    std::vector<Noted<Sample>> samples;
    std::optional<Stamp> go;
    std::optional<Noted<NoGo>> no_go;

    // Place to Release
    std::optional<Noted<Plan>> plan;
    std::vector<DeviceBlock> devices{1};  // never empty; the last is the one in hand
    std::vector<Stamp> presses_outside;   // pedal presses outside a fill: listed, never counted
    std::vector<Noted<ValveDry>> valve_dry;
    std::vector<Noted<ValveNotDry>> valve_not_dry;
    std::optional<Noted<ReleaseLook>> release_look;
    std::optional<Noted<CatheterComplete>> catheter;
    std::optional<Stamp> left_room;
    bool identity_crossed{false}, go_crossed{false};

    // Removal
    std::vector<Noted<BalloonSeen>> balloon_seen;
    std::vector<Noted<Canister>> canister;  // in order of when they were read
    std::vector<Noted<Aspirated>> aspirated;
    std::vector<Noted<Fluid>> fluid;
    std::vector<Stamp> gas;
    std::optional<Stamp> puncture, seen_empty, grasp;
    std::optional<Noted<Out>> out;
    std::vector<Noted<SecondLook>> second_looks;
    std::optional<Noted<PlacedElsewhere>> elsewhere;

    // Recovery, discharge, record
    std::optional<Noted<OfferHandover>> offered;
    std::optional<Noted<AcceptHandover>> accepted;
    std::vector<Noted<Score>> scores;
    std::vector<Noted<Symptom>> symptoms;
    std::vector<Noted<Drink>> drinks;
    std::optional<Noted<Leaflet>> leaflet;
    std::optional<Noted<Card>> card;
    std::optional<Noted<Discharged>> discharged;
    std::optional<Noted<Abandon>> abandoned;
    std::map<Part, Stamp> signatures;
    std::optional<Noted<Sealed>> sealed;
    std::vector<AddendumKept> addenda;

    // Register: what the desk said of the entry that bears this case's name
    std::vector<Noted<Call>> calls;
    std::vector<Noted<Flag>> flags;
    std::vector<Noted<EntryClosed>> closings;
    std::vector<Noted<LostAgreed>> lost;
    std::vector<Noted<EntriesMoved>> belongs_to;
    std::vector<Noted<EntriesReceived>> received;
    std::vector<Noted<PatientNow>> patient_changes;

    std::vector<Hold> holds;
    std::vector<Proviso> provisos;
    std::vector<OpenItem> items;

    [[nodiscard]] const DeviceBlock& device() const { return devices.back(); }
    [[nodiscard]] DeviceBlock& device() { return devices.back(); }
    [[nodiscard]] const Hold* standing(std::string_view code) const;
    [[nodiscard]] bool has_open(std::string_view item) const;
    /// The entry with this number, as first written and as it stands; null when this case has none.
    [[nodiscard]] const Kept* kept(std::int64_t seq) const;
    /// Consent is given, or was not possible and a physician decided.
    [[nodiscard]] bool consent_settled() const;
    /// Two identifiers and consent: what gate "identity" asks for.
    [[nodiscard]] bool identity_settled() const;
    [[nodiscard]] bool scope_is_in() const {
        return scope_in && (!scope_out || scope_out->happened < scope_in->happened);
    }
    [[nodiscard]] bool under_sedation() const { return sedation_start && !sedation_end; }
};

/// Whether an entry goes along when what was entered here belongs to another patient: facts do; the booking,
/// what the core concluded, decisions about holds and signatures stay.
[[nodiscard]] bool moves_with_the_block(const Event& event);
/// The state after one more event. No rule and no refusal here: it happened.
void evolve(CaseState& state, const Recorded& recorded);
/// The state that these events add up to.
[[nodiscard]] CaseState fold(const std::vector<Recorded>& events);

}  // namespace brimline
