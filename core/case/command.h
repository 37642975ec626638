// Command: what somebody says to the kiosk, by tap, pedal, scan, key, from paper or as a line of a script.
// All statements that exist are listed here once; reading, deciding and the role table follow from the list.
#pragma once
#include <variant>

#include "core/case/said/registered.h"

namespace brimline {

using AnyStatement = std::variant<
    Book, Move, Cancel, StartNow, PatientChange, EnterRoom, Identity, Consent, Allergies, Measure, Intake,
    Medicine, Answer, Airway, Escort, Unchanged, Vitals, Pause, MonitorClock, Override, AnswerProviso,
    StartSedation, EndSedation, Dose, InfusionStart, InfusionStop, Depth, Oxygen, AirwayEvent, AirwayEventEnd,
    AirwaySecured, AirwayFreed, Emergency, EmergencyEnd, HelpCalled, HandOverRole, AcceptRole, WhoItWas, Seen,
    ScopeIn, ScopeOut, Finding, NoFindings, Sample, Go, NoGo, Device, Plan, Saline, SalineAdded, Dye,
    BalloonPassed, PositionSeen, ReadyToFill, SyringeIn, PartSyringe, DrawBack, SecondCount, DoubleTapWas,
    StopFilling, GoOnFilling, CountCheck, Matter, Sizing, ReadBack, Explain, Correct, DeviceOff, ValveDry,
    ValveNotDry, ReleaseLook, CatheterComplete, LeaveRoom, DeviceNotLeftIn, OfferHandover, AcceptHandover,
    Score, Symptom, Drink, Discharge, Leaflet, Card, Abandon, Sign, Seal, Addendum, BalloonSeen, Canister,
    Puncture, Aspirated, Gas, Fluid, SeenEmpty, Grasp, Out, SecondLook, PlacedElsewhere, Call, Flag,
    CloseEntry, LostToFollowUp, BelongsTo, AddPerson, SetPin, Recall, PersonLeft, Badge, WasReal>;

/// One of them. Its copies and its end are compiled once, in event.cpp.
struct Statement : AnyStatement {
    Statement();
    template <class T>
    requires(!std::is_base_of_v<AnyStatement, std::decay_t<T>> && std::is_constructible_v<AnyStatement, T>)
        Statement(T&& said)
        : AnyStatement(std::forward<T>(said)) {}  // implicit, as for events
    Statement(const Statement&);
    Statement(Statement&&) noexcept;
    Statement& operator=(const Statement&);
    Statement& operator=(Statement&&) noexcept;
    ~Statement();
};

/// A statement with its envelope.
struct Command {
    std::string by;                      // person id of who enters it
    std::optional<std::string> said_by;  // person id of whose word it is
    std::string case_name;               // empty for what belongs to no case
    Instant at{};                        // moment of entry
    std::optional<Instant> happened;     // when it took place, if not `at`
    How how{How::tap};
    bool sure{false};  // an implausible value is confirmed
    Statement says;
};

[[nodiscard]] const Spec& spec_of(const Statement& says);

}  // namespace brimline
