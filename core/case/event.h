// Event: a fact in the journal. What somebody states and is simply true once entered is kept as stated; what
// the core concludes from it (a hold raised, a count that differs, an open item) is an event of its own,
// written with it.
#pragma once
#include <map>
#include <variant>

#include "core/case/command.h"
#include "core/case/stamp.h"

namespace brimline {

enum class HoldClass : std::uint8_t { stop, absolute, relative, count, crossing, ceiling };
constexpr auto names_of(HoldClass) {
    return std::array<std::string_view, 6>{"stop", "absolute", "relative", "count", "crossing", "ceiling"};
}
enum class HoldEnd : std::uint8_t { time, resolved, overridden, plan_moved, explained };
constexpr auto names_of(HoldEnd) {
    return std::array<std::string_view, 5>{"time", "resolved", "override", "plan moved", "explained"};
}

/// A case came onto the list. `id` is the 32 hex digits by which the journal knows it, `name` what people
/// call it.
struct Booked {
    static constexpr Spec spec{"booked"};
    std::string id, name;
    CaseKind kind{};
    PatientKnown patient;
    std::optional<Instant> planned;
    std::optional<std::string> room, entry;
    bool started_now{false};
    std::optional<std::string> practised;  // the case of practice that this was, by its name there
    static void fields(auto& self, auto&& field) {
        field("id", self.id);
        field("name", self.name);
        field("kind", self.kind);
        field("patient", self.patient);
        field("planned", self.planned);
        field("room", self.room);
        field("entry", self.entry);
        field("started_now", self.started_now);
        field("practised", self.practised);
    }
    bool operator==(const Booked&) const = default;
};
/// Weight as known at an emergency start.
struct WeightKnown {
    static constexpr Spec spec{"weight-known"};
    Decimal weight_kg;
    WeightBasis weight_basis{};
    static void fields(auto& self, auto&& field) {
        field("weight_kg", self.weight_kg);
        field("weight_basis", self.weight_basis);
    }
    bool operator==(const WeightKnown&) const = default;
};
struct EnteredRoom {
    static constexpr Spec spec{"entered-room"};
    std::string room;
    DayMonth birth_day_month;
    bool match{false};
    static void fields(auto& self, auto&& field) {
        field("room", self.room);
        field("birth_day_month", self.birth_day_month);
        field("match", self.match);
    }
    bool operator==(const EnteredRoom&) const = default;
};
/// Something was tried and refused: a wrong PIN, scanner junk, a role that may not.
struct Attempt {
    static constexpr Spec spec{"attempt"};
    std::string what, code;
    std::optional<std::string> raw;
    static void fields(auto& self, auto&& field) {
        field("what", self.what);
        field("code", self.code);
        field("raw", self.raw);
    }
    bool operator==(const Attempt&) const = default;
};
struct HoldRaised {
    static constexpr Spec spec{"hold-raised"};
    std::string code;
    HoldClass hold_class{};
    std::string say;
    std::optional<Instant> until;  // the moment at which its cause ends by itself
    static void fields(auto& self, auto&& field) {
        field("code", self.code);
        field("class", self.hold_class);
        field("say", self.say);
        field("until", self.until);
    }
    bool operator==(const HoldRaised&) const = default;
};
struct HoldEnded {
    static constexpr Spec spec{"hold-ended"};
    std::string code;
    HoldEnd how{};
    static void fields(auto& self, auto&& field) {
        field("code", self.code);
        field("ended_how", self.how);
    }
    bool operator==(const HoldEnded&) const = default;
};
/// A physician's reasoned decision to go on. It ends the hold only when `ends` is true.
struct Overridden {
    static constexpr Spec spec{"overridden"};
    std::string hold, reason;
    std::optional<std::string> words, proviso_id;
    std::optional<ProvisoSaid> proviso;
    bool ends{false}, to_countersign{false};
    static void fields(auto& self, auto&& field) {
        field("hold", self.hold);
        field("reason", self.reason);
        field("words", self.words);
        field("proviso_id", self.proviso_id);
        field("proviso", self.proviso);
        field("ends", self.ends);
        field("to_countersign", self.to_countersign);
    }
    bool operator==(const Overridden&) const = default;
};
struct ItemOpened {
    static constexpr Spec spec{"item-opened"};
    std::string code, say;
    std::optional<std::string> owner;
    std::optional<LocalDate> due;
    static void fields(auto& self, auto&& field) {
        field("code", self.code);
        field("say", self.say);
        field("owner", self.owner);
        field("due", self.due);
    }
    bool operator==(const ItemOpened&) const = default;
};
struct ItemClosed {
    static constexpr Spec spec{"item-closed"};
    std::string code;
    static void fields(auto& self, auto&& field) { field("code", self.code); }
    bool operator==(const ItemClosed&) const = default;
};
/// One element of a device label: its identifier and value.
struct ElementRead {
    std::string ai, value;
    static void fields(auto& self, auto&& field) {
        field("ai", self.ai);
        field("value", self.value);
    }
    bool operator==(const ElementRead&) const = default;
};
enum class LabelHow : std::uint8_t { scan, typed, unreadable };
constexpr auto names_of(LabelHow) { return std::array<std::string_view, 3>{"scan", "typed", "unreadable"}; }
/// A device is opened. `again` adds to the label of the device that is already there.
struct DeviceOpened {
    static constexpr Spec spec{"device-opened"};
    LabelHow how{};
    std::optional<std::string> gtin, lot, serial, verified_by, raw;
    std::optional<LocalDate> expiry;
    std::vector<ElementRead> elements;
    bool again{false};
    static void fields(auto& self, auto&& field) {
        field("how_read", self.how);
        field("gtin", self.gtin);
        field("lot", self.lot);
        field("serial", self.serial);
        field("verified_by", self.verified_by);
        field("raw", self.raw);
        field("expiry", self.expiry);
        field("elements", self.elements);
        field("again", self.again);
    }
    bool operator==(const DeviceOpened&) const = default;
};
/// One full syringe went in; `ml` is its nominal size at that moment.
struct SyringeCounted {
    static constexpr Spec spec{"syringe-in"};
    Millilitres ml;
    static void fields(auto& self, auto&& field) { field("ml", self.ml); }
    bool operator==(const SyringeCounted&) const = default;
};
struct DoubleTapAsked {
    static constexpr Spec spec{"double-tap-asked"};
    std::string question;
    Millilitres ml;
    static void fields(auto& self, auto&& field) {
        field("question", self.question);
        field("ml", self.ml);
    }
    bool operator==(const DoubleTapAsked&) const = default;
};
/// Filling went on; `ml` and `syringes` are what was pushed meanwhile.
struct WentOn {
    static constexpr Spec spec{"went-on-filling"};
    Pushed pushed{};
    int syringes{0};
    Millilitres ml;
    static void fields(auto& self, auto&& field) {
        field("pushed_meanwhile", self.pushed);
        field("syringes", self.syringes);
        field("ml", self.ml);
    }
    bool operator==(const WentOn&) const = default;
};
/// The counts laid side by side. `parted_at` is the first moment at which taps and pedal part.
struct CountsCompared {
    static constexpr Spec spec{"counts-compared"};
    int said{0}, own{0};
    std::optional<int> pedal;
    bool agreed{false};
    std::optional<Instant> parted_at;
    static void fields(auto& self, auto&& field) {
        field("said", self.said);
        field("own", self.own);
        field("pedal", self.pedal);
        field("agreed", self.agreed);
        field("parted_at", self.parted_at);
    }
    bool operator==(const CountsCompared&) const = default;
};
struct ReadBackSaid {
    static constexpr Spec spec{"read-back"};
    Millilitres ml, counted;
    bool agreed{false}, from_pedal{false};
    static void fields(auto& self, auto&& field) {
        field("ml", self.ml);
        field("counted", self.counted);
        field("agreed", self.agreed);
        field("from_pedal", self.from_pedal);
    }
    bool operator==(const ReadBackSaid&) const = default;
};
/// An entry was corrected: the fields as they were and as they are now, as JSON text; the entry itself stays.
struct Corrected {
    static constexpr Spec spec{"corrected"};
    std::int64_t entry{0};
    std::string before, after, reason;
    std::optional<std::string> with;
    std::optional<Evidence> evidence;
    std::optional<Instant> happened_now;
    bool withdrawn{false};
    static void fields(auto& self, auto&& field) {
        field("entry", self.entry);
        field("before", self.before);
        field("after", self.after);
        field("reason", self.reason);
        field("with", self.with);
        field("evidence", self.evidence);
        field("happened_now", self.happened_now);
        field("withdrawn", self.withdrawn);
    }
    bool operator==(const Corrected&) const = default;
};
/// The count was corrected by millilitres: a syringe that was not tapped, or one tap too many.
struct CountCorrected {
    static constexpr Spec spec{"count-corrected"};
    Millilitres ml;
    int syringes{0};
    std::string reason;
    std::optional<std::string> with;
    std::optional<Evidence> evidence;
    static void fields(auto& self, auto&& field) {
        field("ml", self.ml);
        field("syringes", self.syringes);
        field("reason", self.reason);
        field("with", self.with);
        field("evidence", self.evidence);
    }
    bool operator==(const CountCorrected&) const = default;
};
/// The patient left our care; the checks that were not met at that moment are named.
struct Discharged {
    static constexpr Spec spec{"discharged"};
    Disposition disposition{};
    std::optional<std::string> with, words;
    std::vector<std::string> unmet;
    static void fields(auto& self, auto&& field) {
        field("disposition", self.disposition);
        field("with", self.with);
        field("words", self.words);
        field("unmet", self.unmet);
    }
    bool operator==(const Discharged&) const = default;
};
struct Signed {
    static constexpr Spec spec{"signed"};
    Part part{};
    std::string meaning;
    static void fields(auto& self, auto&& field) {
        field("part", self.part);
        field("meaning", self.meaning);
    }
    bool operator==(const Signed&) const = default;
};
/// `hash` is the BLAKE2b-256 of the record's body in hex; the signature over it stands in the store.
struct Sealed {
    static constexpr Spec spec{"sealed"};
    std::string number, hash;
    static void fields(auto& self, auto&& field) {
        field("number", self.number);
        field("hash", self.hash);
    }
    bool operator==(const Sealed&) const = default;
};
struct PersonAdded {
    static constexpr Spec spec{"person-added"};
    std::string id, name;
    std::vector<Role> roles;
    std::optional<std::string>
        pin_mark;  // changes when the kept hash of the PIN changes; tells nothing of the PIN
    static void fields(auto& self, auto&& field) {
        field("id", self.id);
        field("name", self.name);
        field("roles", self.roles);
        field("pin_mark", self.pin_mark);
    }
    bool operator==(const PersonAdded&) const = default;
};
struct PinSet {
    static constexpr Spec spec{"pin-set"};
    std::optional<std::string> pin_mark;
    static void fields(auto& self, auto&& field) { field("pin_mark", self.pin_mark); }
    bool operator==(const PinSet&) const = default;
};
/// The policy in force from here on, with its text.
struct PolicyAdopted {
    static constexpr Spec spec{"policy-adopted"};
    std::string hash, text;
    static void fields(auto& self, auto&& field) {
        field("hash", self.hash);
        field("text", self.text);
    }
    bool operator==(const PolicyAdopted&) const = default;
};
/// A backup was restored to a scratch folder and compared: how many events it held, and whether all were as
/// here.
struct Rehearsed {
    static constexpr Spec spec{"backup-rehearsed"};
    std::string file;
    int events{0};
    bool same{false};
    static void fields(auto& self, auto&& field) {
        field("file", self.file);
        field("events", self.events);
        field("same", self.same);
    }
    bool operator==(const Rehearsed&) const = default;
};
/// The kiosk signs with another key from here on; the old one vouches for it (Ed25519 over both). All in hex.
struct KeyRotated {
    static constexpr Spec spec{"key-rotated"};
    std::string old_key, new_key, signature;
    static void fields(auto& self, auto&& field) {
        field("old_key", self.old_key);
        field("new_key", self.new_key);
        field("signature", self.signature);
    }
    bool operator==(const KeyRotated&) const = default;
};
/// Where the running kiosk puts its backups, and the public key (hex) that seals them; an empty folder =
/// nowhere.
struct BackupPlanned {
    static constexpr Spec spec{"backup-planned"};
    std::string folder, key;
    static void fields(auto& self, auto&& field) {
        field("folder", self.folder);
        field("key", self.key);
    }
    bool operator==(const BackupPlanned&) const = default;
};
/// The wall clock moved against the tick by this much since the last entry.
struct ClockJump {
    static constexpr Spec spec{"clock-jump"};
    std::int64_t by_ms{0};
    static void fields(auto& self, auto&& field) { field("by_ms", self.by_ms); }
    bool operator==(const ClockJump&) const = default;
};

/// Who the patient is was completed or corrected; `second` agreed with a PIN of their own, after the seal.
struct PatientNow {
    static constexpr Spec spec{"patient"};
    PatientKnown to;
    std::string reason;
    std::optional<std::string> second;
    static void fields(auto& self, auto&& field) {
        PatientKnown::fields(self.to, field);
        field("reason", self.reason);
        field("second", self.second);
    }
    bool operator==(const PatientNow&) const = default;
};
/// What was entered here belongs to the patient of case `to`. With `whole` the entries stay (a sealed record
/// is left whole) and only the patient changes; else they count there and no longer here.
struct EntriesMoved {
    static constexpr Spec spec{"belongs-to"};
    std::string to, reason;
    bool whole{false};
    std::optional<std::string> second;
    static void fields(auto& self, auto&& field) {
        field("to", self.to);
        field("reason", self.reason);
        field("whole", self.whole);
        field("second", self.second);
    }
    bool operator==(const EntriesMoved&) const = default;
};
/// The other side of it: entries made in case `from`, each with its own stamp, as JSON text (moved_entries).
struct EntriesReceived {
    static constexpr Spec spec{"entries-received"};
    std::string from, entries;
    static void fields(auto& self, auto&& field) {
        field("from", self.from);
        field("entries", self.entries);
    }
    bool operator==(const EntriesReceived&) const = default;
};
/// An entry of the register ended, or goes on as transferred or declined. `verified` = a document, an image
/// or a physician's PIN stands behind it.
struct EntryClosed {
    static constexpr Spec spec{"entry-closed"};
    std::string entry;
    Closing outcome{};
    std::string known_from;
    std::optional<Proof> proof;
    std::optional<std::string> owner;
    std::optional<LocalDate> review;
    bool verified{false};
    static void fields(auto& self, auto&& field) {
        field("entry", self.entry);
        field("outcome", self.outcome);
        field("known_from", self.known_from);
        field("proof", self.proof);
        field("owner", self.owner);
        field("review", self.review);
        field("verified", self.verified);
    }
    bool operator==(const EntryClosed&) const = default;
};
/// Two people gave up the search for this patient.
struct LostAgreed {
    static constexpr Spec spec{"lost-to-follow-up"};
    std::string entry, second;
    static void fields(auto& self, auto&& field) {
        field("entry", self.entry);
        field("second", self.second);
    }
    bool operator==(const LostAgreed&) const = default;
};

using AnyEvent = std::variant<
    Booked, WeightKnown, Move, Cancel, PatientNow, EnteredRoom, Identity, Consent, Allergies, Measure, Intake,
    Medicine, Answer, Airway, Escort, Unchanged, Vitals, Pause, MonitorClock, Overridden, AnswerProviso,
    StartSedation, EndSedation, Dose, InfusionStart, InfusionStop, Depth, Oxygen, AirwayEvent, AirwayEventEnd,
    AirwaySecured, AirwayFreed, Emergency, EmergencyEnd, HelpCalled, HandOverRole, AcceptRole, WhoItWas, Seen,
    ScopeIn, ScopeOut, Finding, NoFindings, Sample, Go, NoGo, DeviceOpened, Plan, Saline, SalineAdded, Dye,
    BalloonPassed, PositionSeen, ReadyToFill, SyringeCounted, PartSyringe, DrawBack, SecondCount,
    DoubleTapAsked, DoubleTapWas, StopFilling, WentOn, CountsCompared, Matter, Sizing, ReadBackSaid, Explain,
    Corrected, CountCorrected, DeviceOff, ValveDry, ValveNotDry, ReleaseLook, CatheterComplete, LeaveRoom,
    DeviceNotLeftIn, OfferHandover, AcceptHandover, Score, Symptom, Drink, Discharged, Leaflet, Card, Abandon,
    Signed, Sealed, Addendum, BalloonSeen, Canister, Puncture, Aspirated, Gas, Fluid, SeenEmpty, Grasp, Out,
    SecondLook, PlacedElsewhere, Call, Flag, EntryClosed, LostAgreed, EntriesMoved, EntriesReceived,
    PersonAdded, PinSet, PolicyAdopted, Recall, Attempt, HoldRaised, HoldEnded, ItemOpened, ItemClosed,
    ClockJump, Rehearsed, PersonLeft, KeyRotated, BackupPlanned, Badge>;

/// One of them. Its copies and its end are compiled once, in event.cpp, not wherever an event passes through.
struct Event : AnyEvent {
    Event();
    template <class T>
    requires(!std::is_base_of_v<AnyEvent, std::decay_t<T>> && std::is_constructible_v<AnyEvent, T>)
        Event(T&& fact)
        : AnyEvent(std::forward<T>(fact)) {}  // implicit, so that a fact stands where an event is asked
    Event(const Event&);
    Event(Event&&) noexcept;
    Event& operator=(const Event&);
    Event& operator=(Event&&) noexcept;
    ~Event();
};

[[nodiscard]] std::string_view kind_of(const Event& event);

/// An event as it stands in the journal.
struct Recorded {
    Recorded();
    Recorded(Stamp when, Event what);
    Recorded(const Recorded&);
    Recorded(Recorded&&) noexcept;
    Recorded& operator=(const Recorded&);
    Recorded& operator=(Recorded&&) noexcept;
    ~Recorded();
    Stamp stamp;
    Event event;
};

}  // namespace brimline
