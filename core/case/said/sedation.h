// What is said of sedation: pauses, vital signs, doses, depth, oxygen, airway, emergencies, roles handed
// over.
#pragma once
#include <map>
#include <variant>
#include <vector>

#include "core/case/said/arrival.h"

namespace brimline {

enum class PauseKind : std::uint8_t { before_sedation, before_device, before_leaving };
constexpr auto names_of(PauseKind) {
    return std::array<std::string_view, 3>{"before-sedation", "before-device", "before-leaving"};
}
enum class DoseUnit : std::uint8_t { mg, ug, ml };
constexpr auto names_of(DoseUnit) { return std::array<std::string_view, 3>{"mg", "ug", "mL"}; }
enum class RateUnit : std::uint8_t { mg_h, ml_h };
constexpr auto names_of(RateUnit) { return std::array<std::string_view, 2>{"mg/h", "mL/h"}; }

/// One word or several.
struct Words {
    std::vector<std::string> list;
    bool operator==(const Words&) const = default;
};

struct Vitals {
    static constexpr Spec spec{"vitals", any_clinical};
    std::optional<int> hr, systolic, diastolic, spo2, rr, etco2;
    std::optional<std::string> not_taken;
    static void fields(auto& self, auto&& field) {
        field("hr", self.hr);
        field("systolic", self.systolic);
        field("diastolic", self.diastolic);
        field("spo2", self.spo2);
        field("rr", self.rr);
        field("etco2", self.etco2);
        field("not_taken", self.not_taken);
    }
    bool operator==(const Vitals&) const = default;
};
struct Pause {
    static constexpr Spec spec{"pause", any_clinical};
    PauseKind which{};
    std::vector<std::string> present;
    std::map<std::string, Answered> answers;
    static void fields(auto& self, auto&& field) {
        field("which", self.which);
        field("present", self.present);
        field("answers", self.answers);
    }
    bool operator==(const Pause&) const = default;
};
struct MonitorClock {
    static constexpr Spec spec{"monitor-clock", any_clinical};
    int offset_s{0};
    static void fields(auto& self, auto&& field) { field("offset_s", self.offset_s); }
    bool operator==(const MonitorClock&) const = default;
};
struct ProvisoSaid {
    std::string stage, condition;
    static void fields(auto& self, auto&& field) {
        field("stage", self.stage);
        field("condition", self.condition);
    }
    bool operator==(const ProvisoSaid&) const = default;
};
/// The PIN is checked before deciding and is never part of an event.
struct Override {
    static constexpr Spec spec{"override",
                               any_clinical};  // the physician's own, or said while the scope is in
    std::string hold, reason;
    std::optional<std::string> words;
    std::optional<ProvisoSaid> proviso;
    std::optional<std::string> pin;
    static void fields(auto& self, auto&& field) {
        field("hold", self.hold);
        field("reason", self.reason);
        field("words", self.words);
        field("proviso", self.proviso);
        field("pin", self.pin);
    }
    bool operator==(const Override&) const = default;
};
enum class YesNo : std::uint8_t { yes, no };
constexpr auto names_of(YesNo) { return std::array<std::string_view, 2>{"yes", "no"}; }
struct AnswerProviso {
    static constexpr Spec spec{"answer-proviso", any_clinical, Word::physician_says};
    std::string proviso;
    YesNo value{};
    std::optional<std::string> note;
    static void fields(auto& self, auto&& field) {
        field("proviso", self.proviso);
        field("value", self.value);
        field("note", self.note);
    }
    bool operator==(const AnswerProviso&) const = default;
};

/// A statement without fields of its own. `N` is its name as a type.
#define BRIMLINE_BARE(Type, text, ...)                 \
    struct Type {                                      \
        static constexpr Spec spec{text, __VA_ARGS__}; \
        static void fields(auto&, auto&&) {}           \
        bool operator==(const Type&) const = default;  \
    }

inline constexpr Roles sedation_roles{Role::sedation_provider, Role::physician};
BRIMLINE_BARE(StartSedation, "start-sedation", sedation_roles);
BRIMLINE_BARE(EndSedation, "end-sedation", sedation_roles);
BRIMLINE_BARE(AirwayEvent, "airway-event", any_clinical);
BRIMLINE_BARE(AirwayFreed, "airway-freed", {Role::sedation_provider});
BRIMLINE_BARE(Emergency, "emergency", any_clinical);
BRIMLINE_BARE(HelpCalled, "help-called", any_clinical);

struct Dose {
    static constexpr Spec spec{"dose", {Role::sedation_provider, Role::nurse, Role::physician}};
    std::string drug;
    Decimal amount;
    DoseUnit unit{};
    std::optional<std::string> route;
    std::optional<bool> free;
    static void fields(auto& self, auto&& field) {
        field("drug", self.drug);
        field("amount", self.amount);
        field("unit", self.unit);
        field("route", self.route);
        field("free", self.free);
    }
    bool operator==(const Dose&) const = default;
};
struct InfusionStart {
    static constexpr Spec spec{"infusion-start", {Role::sedation_provider}};
    std::string drug;
    Decimal rate;
    RateUnit unit{};
    static void fields(auto& self, auto&& field) {
        field("drug", self.drug);
        field("rate", self.rate);
        field("unit", self.unit);
    }
    bool operator==(const InfusionStart&) const = default;
};
struct InfusionStop {
    static constexpr Spec spec{"infusion-stop", {Role::sedation_provider}};
    std::string drug;
    static void fields(auto& self, auto&& field) { field("drug", self.drug); }
    bool operator==(const InfusionStop&) const = default;
};
struct Depth {
    static constexpr Spec spec{"depth", {Role::sedation_provider, Role::nurse}};
    int moaas{0};
    static void fields(auto& self, auto&& field) { field("moaas", self.moaas); }
    bool operator==(const Depth&) const = default;
};
struct Oxygen {
    static constexpr Spec spec{"oxygen", {Role::sedation_provider, Role::nurse}};
    Decimal l_min;
    static void fields(auto& self, auto&& field) { field("l_min", self.l_min); }
    bool operator==(const Oxygen&) const = default;
};
struct AirwayEventEnd {
    static constexpr Spec spec{"airway-event-end", any_clinical};
    EntryRef event;
    std::optional<int> lowest_spo2;
    std::optional<Words> action;
    static void fields(auto& self, auto&& field) {
        field("event", self.event);
        field("lowest_spo2", self.lowest_spo2);
        field("action", self.action);
    }
    bool operator==(const AirwayEventEnd&) const = default;
};
struct EmergencyEnd {
    static constexpr Spec spec{"emergency-end", any_clinical};
    std::string kind;
    std::optional<std::string> action;
    static void fields(auto& self, auto&& field) {
        field("kind", self.kind);
        field("action", self.action);
    }
    bool operator==(const EmergencyEnd&) const = default;
};
struct AirwaySecured {
    static constexpr Spec spec{"airway-secured", {Role::sedation_provider}};
    Loose tube;
    static void fields(auto& self, auto&& field) { field("tube", self.tube); }
    bool operator==(const AirwaySecured&) const = default;
};
struct HandOverRole {
    static constexpr Spec spec{"hand-over-role", any_clinical};
    std::string role, to;
    static void fields(auto& self, auto&& field) {
        field("role", self.role);
        field("to", self.to);
    }
    bool operator==(const HandOverRole&) const = default;
};
struct AcceptRole {
    static constexpr Spec spec{"accept-role", any_clinical};
    std::string role;
    static void fields(auto& self, auto&& field) { field("role", self.role); }
    bool operator==(const AcceptRole&) const = default;
};
/// Whose the entries are that were made while nobody was signed in (10-decisions F7): all of this case that
/// nobody was named for yet. `person` is an id, or "not-known" with words that say why.
struct WhoItWas {
    static constexpr Spec spec{"who-it-was", any_clinical};
    std::string person;
    std::optional<std::string> words;
    static void fields(auto& self, auto&& field) {
        field("person", self.person);
        field("words", self.words);
    }
    bool operator==(const WhoItWas&) const = default;
};
/// The physician has seen a card that asked for review; it is no longer an open item.
struct Seen {
    static constexpr Spec spec{"seen", any_clinical, Word::physician_says};
    std::string item;
    static void fields(auto& self, auto&& field) { field("item", self.item); }
    bool operator==(const Seen&) const = default;
};

}  // namespace brimline
