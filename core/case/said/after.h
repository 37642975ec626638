// What is said from Release to the record: detachment, hand-over, recovery, discharge, signatures, and the
// desk.
#pragma once
#include "core/case/said/fill.h"

namespace brimline {

inline constexpr Roles nurse_only{Role::nurse};

BRIMLINE_BARE(DeviceOff, "device-off", any_clinical);
BRIMLINE_BARE(LeaveRoom, "leave-room", any_clinical);

struct ValveDry {
    static constexpr Spec spec{"valve-dry", any_clinical};
    int seconds{0};
    static void fields(auto& self, auto&& field) { field("seconds", self.seconds); }
    bool operator==(const ValveDry&) const = default;
};
struct ValveNotDry {
    static constexpr Spec spec{"valve-not-dry", any_clinical};
    std::string action;
    static void fields(auto& self, auto&& field) { field("action", self.action); }
    bool operator==(const ValveNotDry&) const = default;
};
struct ReleaseLook {
    static constexpr Spec spec{"release-look", any_clinical, Word::physician_says};
    bool position_same{false}, bleeding{false};
    static void fields(auto& self, auto&& field) {
        field("position_same", self.position_same);
        field("bleeding", self.bleeding);
    }
    bool operator==(const ReleaseLook&) const = default;
};
struct CatheterComplete {
    static constexpr Spec spec{"catheter-complete", any_clinical};
    bool complete{false};
    static void fields(auto& self, auto&& field) { field("complete", self.complete); }
    bool operator==(const CatheterComplete&) const = default;
};
struct DeviceNotLeftIn {
    static constexpr Spec spec{"device-not-left-in", any_clinical};
    std::string reason;
    Millilitres out;
    std::optional<std::string> words;
    static void fields(auto& self, auto&& field) {
        field("reason", self.reason);
        field("out_ml", self.out);
        field("words", self.words);
    }
    bool operator==(const DeviceNotLeftIn&) const = default;
};
struct OfferHandover {
    static constexpr Spec spec{"offer-handover", any_clinical};
    std::string to;
    static void fields(auto& self, auto&& field) { field("to", self.to); }
    bool operator==(const OfferHandover&) const = default;
};
enum class IdentityBy : std::uint8_t { patient, wristband, two_staff };
constexpr auto names_of(IdentityBy) {
    return std::array<std::string_view, 3>{"patient", "wristband", "two-staff"};
}
struct AcceptHandover {
    static constexpr Spec spec{"accept-handover", nurse_only};
    DayMonth birth_day_month;
    std::optional<IdentityBy> identity_by;
    static void fields(auto& self, auto&& field) {
        field("birth_day_month", self.birth_day_month);
        field("identity_by", self.identity_by);
    }
    bool operator==(const AcceptHandover&) const = default;
};
enum class Scale : std::uint8_t { aldrete, padss };
constexpr auto names_of(Scale) { return std::array<std::string_view, 2>{"aldrete", "padss"}; }
/// All parts of one scale, none of the other. Each 0 to 2.
struct Score {
    static constexpr Spec spec{"score", nurse_only};
    Scale scale{};
    std::optional<int> activity, respiration, circulation, consciousness, oxygen;
    std::optional<int> vital_signs, walking, nausea, pain, bleeding;
    static void fields(auto& self, auto&& field) {
        field("scale", self.scale);
        field("activity", self.activity);
        field("respiration", self.respiration);
        field("circulation", self.circulation);
        field("consciousness", self.consciousness);
        field("oxygen", self.oxygen);
        field("vital_signs", self.vital_signs);
        field("walking", self.walking);
        field("nausea", self.nausea);
        field("pain", self.pain);
        field("bleeding", self.bleeding);
    }
    bool operator==(const Score&) const = default;
};
enum class SymptomKind : std::uint8_t { nausea, pain, vomiting };
constexpr auto names_of(SymptomKind) { return std::array<std::string_view, 3>{"nausea", "pain", "vomiting"}; }
/// `blood` goes with vomiting; what is not said is not known.
struct Symptom {
    static constexpr Spec spec{"symptom", nurse_only};
    SymptomKind kind{};
    std::optional<int> value;
    std::optional<Millilitres> ml;
    std::optional<bool> blood;
    static void fields(auto& self, auto&& field) {
        field("kind", self.kind);
        field("value", self.value);
        field("ml", self.ml);
        field("blood", self.blood);
    }
    bool operator==(const Symptom&) const = default;
};
struct Drink {
    static constexpr Spec spec{"drink", nurse_only};
    Millilitres ml;
    std::optional<bool> kept;
    static void fields(auto& self, auto&& field) {
        field("ml", self.ml);
        field("kept", self.kept);
    }
    bool operator==(const Drink&) const = default;
};
enum class Disposition : std::uint8_t { home, ward, transfer, against_advice };
constexpr auto names_of(Disposition) {
    return std::array<std::string_view, 4>{"home", "ward", "transfer", "against-advice"};
}
struct Discharge {
    static constexpr Spec spec{"discharge", nurse_only};
    Disposition disposition{};
    std::optional<std::string> with, words;
    static void fields(auto& self, auto&& field) {
        field("disposition", self.disposition);
        field("with", self.with);
        field("words", self.words);
    }
    bool operator==(const Discharge&) const = default;
};
enum class Given : std::uint8_t { print, pdf, photo };
constexpr auto names_of(Given) { return std::array<std::string_view, 3>{"print", "pdf", "photo"}; }
struct Leaflet {
    static constexpr Spec spec{"leaflet", nurse_only};
    Given how{};
    std::string language;
    static void fields(auto& self, auto&& field) {
        field("how", self.how);
        field("language", self.language);
    }
    bool operator==(const Leaflet&) const = default;
};
struct Card {
    static constexpr Spec spec{"card", nurse_only};
    Given how{};
    std::optional<std::string> language;
    static void fields(auto& self, auto&& field) {
        field("how", self.how);
        field("language", self.language);
    }
    bool operator==(const Card&) const = default;
};
/// What is inside the patient at this moment.
struct Inside {
    bool device{false};
    Millilitres ml;
    bool catheter{false};
    static void fields(auto& self, auto&& field) {
        field("device", self.device);
        field("ml", self.ml);
        field("catheter", self.catheter);
    }
    bool operator==(const Inside&) const = default;
};
struct Abandon {
    static constexpr Spec spec{"abandon", any_clinical, Word::physician_says};
    std::string reason;
    Inside inside;
    std::optional<std::string> words;
    static void fields(auto& self, auto&& field) {
        field("reason", self.reason);
        field("inside", self.inside);
        field("words", self.words);
    }
    bool operator==(const Abandon&) const = default;
};
enum class Part : std::uint8_t { sedation, nursing, physician };
constexpr auto names_of(Part) { return std::array<std::string_view, 3>{"sedation", "nursing", "physician"}; }
struct Sign {
    static constexpr Spec spec{"sign", any_clinical};
    Part part{};
    std::string pin;
    static void fields(auto& self, auto&& field) {
        field("part", self.part);
        field("pin", self.pin);
    }
    bool operator==(const Sign&) const = default;
};
struct Seal {
    static constexpr Spec spec{"seal", {Role::physician}};
    std::string pin;
    static void fields(auto& self, auto&& field) { field("pin", self.pin); }
    bool operator==(const Seal&) const = default;
};
struct Addendum {
    static constexpr Spec spec{"addendum", any_clinical};
    std::string text;
    static void fields(auto& self, auto&& field) { field("text", self.text); }
    bool operator==(const Addendum&) const = default;
};
struct AddPerson {
    static constexpr Spec spec{"add-person", {Role::installer, Role::coordinator}};
    std::string id, name;
    std::vector<Role> roles;
    std::string pin;
    static void fields(auto& self, auto&& field) {
        field("id", self.id);
        field("name", self.name);
        field("roles", self.roles);
        field("pin", self.pin);
    }
    bool operator==(const AddPerson&) const = default;
};
/// Somebody left: the name stays on everything they entered; from here on their PIN holds for nothing.
struct PersonLeft {
    static constexpr Spec spec{"person-left", {Role::installer, Role::coordinator}};
    std::string id;
    static void fields(auto& self, auto&& field) { field("id", self.id); }
    bool operator==(const PersonLeft&) const = default;
};
/// The characters that a scanner reads from somebody's badge; an empty text takes the badge away.
struct Badge {
    static constexpr Spec spec{"badge", {Role::installer, Role::coordinator}};
    std::string id, badge;
    static void fields(auto& self, auto&& field) {
        field("id", self.id);
        field("badge", self.badge);
    }
    bool operator==(const Badge&) const = default;
};
struct SetPin {
    static constexpr Spec spec{"set-pin",
                               {Role::assistant, Role::physician, Role::sedation_provider, Role::nurse,
                                Role::coordinator, Role::installer}};
    std::string old_pin, new_pin;
    static void fields(auto& self, auto&& field) {
        field("old", self.old_pin);
        field("new", self.new_pin);
    }
    bool operator==(const SetPin&) const = default;
};
struct Recall {
    static constexpr Spec spec{"recall", {Role::coordinator}};
    std::string lot, note;
    static void fields(auto& self, auto&& field) {
        field("lot", self.lot);
        field("note", self.note);
    }
    bool operator==(const Recall&) const = default;
};

}  // namespace brimline
