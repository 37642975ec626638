// What is said of the list and at Arrival: booking, identity, consent, body, fasting, medicines, airway,
// escort.
#pragma once
#include <map>
#include <vector>

#include "core/case/spec.h"

namespace brimline {

enum class CaseKind : std::uint8_t { placement, removal };
constexpr auto names_of(CaseKind) { return std::array<std::string_view, 2>{"placement", "removal"}; }
enum class Sex : std::uint8_t { f, m };
constexpr auto names_of(Sex) { return std::array<std::string_view, 2>{"f", "m"}; }
enum class WeightBasis : std::uint8_t { measured, stated, estimated };
constexpr auto names_of(WeightBasis) {
    return std::array<std::string_view, 3>{"measured", "stated", "estimated"};
}
enum class IntakeKind : std::uint8_t { clear, milk, full_liquid, light_meal, fatty_meal, meal_unknown };
constexpr auto names_of(IntakeKind) {
    return std::array<std::string_view, 6>{"clear",      "milk",       "full-liquid",
                                           "light-meal", "fatty-meal", "meal-unknown"};
}
enum class MedicineGroup : std::uint8_t {
    anticoagulant,
    antiplatelet,
    nsaid,
    glp1,
    opioid,
    serotonergic,
    maoi,
    insulin,
    acid_suppression,
    g6pd_deficiency,
    other
};
constexpr auto names_of(MedicineGroup) {
    return std::array<std::string_view, 11>{"anticoagulant",    "antiplatelet",    "nsaid", "glp1",
                                            "opioid",           "serotonergic",    "maoi",  "insulin",
                                            "acid-suppression", "g6pd-deficiency", "other"};
}
enum class Answered : std::uint8_t { yes, no, not_applicable, not_known };
constexpr auto names_of(Answered) {
    return std::array<std::string_view, 4>{"yes", "no", "not-applicable", "not-known"};
}
enum class Identifier : std::uint8_t { name, born, number, address };
constexpr auto names_of(Identifier) {
    return std::array<std::string_view, 4>{"name", "born", "number", "address"};
}
enum class ConsentForm : std::uint8_t { signed_form, spoken_with_witness, not_possible };
constexpr auto names_of(ConsentForm) {
    return std::array<std::string_view, 3>{"signed", "spoken-with-witness", "not-possible"};
}
enum class Block : std::uint8_t { contraindications, medicines, airway, history, consent, escort };
constexpr auto names_of(Block) {
    return std::array<std::string_view, 6>{"contraindications", "medicines", "airway",
                                           "history",           "consent",   "escort"};
}

/// A patient as booked.
struct PatientBooked {
    std::string number, family_name, given_name;
    LocalDate born{};
    Sex sex_at_birth{};
    std::optional<std::string> phone, language;
    static void fields(auto& self, auto&& field) {
        field("number", self.number);
        field("family_name", self.family_name);
        field("given_name", self.given_name);
        field("born", self.born);
        field("sex_at_birth", self.sex_at_birth);
        field("phone", self.phone);
        field("language", self.language);
    }
    bool operator==(const PatientBooked&) const = default;
};
/// As much of a patient as is known; a family name of "unknown" is allowed.
struct PatientKnown {
    std::optional<std::string> number, family_name, given_name;
    std::optional<LocalDate> born;
    std::optional<Sex> sex_at_birth;
    std::optional<std::string> phone, language;
    static void fields(auto& self, auto&& field) {
        field("number", self.number);
        field("family_name", self.family_name);
        field("given_name", self.given_name);
        field("born", self.born);
        field("sex_at_birth", self.sex_at_birth);
        field("phone", self.phone);
        field("language", self.language);
    }
    bool operator==(const PatientKnown&) const = default;
};

inline constexpr Roles list_roles{Role::coordinator, Role::nurse};

struct Book {
    static constexpr Spec spec{"book", list_roles};
    CaseKind kind{};
    PatientBooked patient;
    Instant planned;
    std::string room;
    std::optional<std::string> entry;
    static void fields(auto& self, auto&& field) {
        field("kind", self.kind);
        field("patient", self.patient);
        field("planned", self.planned);
        field("room", self.room);
        field("entry", self.entry);
    }
    bool operator==(const Book&) const = default;
};
struct Move {
    static constexpr Spec spec{"move", {Role::coordinator, Role::nurse, Role::physician}};
    std::optional<Instant> planned;
    std::optional<std::string> room;
    std::optional<int> position;
    std::string reason;
    static void fields(auto& self, auto&& field) {
        field("planned", self.planned);
        field("room", self.room);
        field("position", self.position);
        field("reason", self.reason);
    }
    bool operator==(const Move&) const = default;
};
struct Cancel {
    static constexpr Spec spec{"cancel", {Role::coordinator, Role::nurse, Role::physician}};
    std::string reason;
    static void fields(auto& self, auto&& field) { field("reason", self.reason); }
    bool operator==(const Cancel&) const = default;
};
struct StartNow {
    static constexpr Spec spec{"start-now", any_clinical};
    CaseKind kind{};
    PatientKnown patient;
    std::optional<Decimal> weight_kg;
    std::optional<WeightBasis> weight_basis;
    static void fields(auto& self, auto&& field) {
        field("kind", self.kind);
        field("patient", self.patient);
        field("weight_kg", self.weight_kg);
        field("weight_basis", self.weight_basis);
    }
    bool operator==(const StartNow&) const = default;
};
/// A case of practice was a real one: its facts become a case of this store, each marked as made in practice.
/// `entries` is the JSON text of entries_text.
struct WasReal {
    static constexpr Spec spec{"was-real", any_clinical};
    CaseKind kind{};
    std::string from, entries;
    static void fields(auto& self, auto&& field) {
        field("kind", self.kind);
        field("from", self.from);
        field("entries", self.entries);
    }
    bool operator==(const WasReal&) const = default;
};
struct EnterRoom {
    static constexpr Spec spec{"enter-room", any_clinical};
    std::string room;
    DayMonth birth_day_month;
    static void fields(auto& self, auto&& field) {
        field("room", self.room);
        field("birth_day_month", self.birth_day_month);
    }
    bool operator==(const EnterRoom&) const = default;
};
struct Identity {
    static constexpr Spec spec{"identity", {Role::nurse, Role::assistant}};
    std::vector<Identifier> identifiers;
    static void fields(auto& self, auto&& field) { field("identifiers", self.identifiers); }
    bool operator==(const Identity&) const = default;
};
/// `signed` true or false, or one of the forms; one of the two must be there.
struct Consent {
    static constexpr Spec spec{"consent", {Role::nurse, Role::assistant}};
    std::optional<bool> is_signed;
    std::optional<ConsentForm> form;
    std::optional<std::string> reason, decided_by;
    static void fields(auto& self, auto&& field) {
        field("signed", self.is_signed);
        field("form", self.form);
        field("reason", self.reason);
        field("decided_by", self.decided_by);
    }
    bool operator==(const Consent&) const = default;
};
struct Allergy {
    std::string substance;
    std::optional<std::string> reaction;
    static void fields(auto& self, auto&& field) {
        field("substance", self.substance);
        field("reaction", self.reaction);
    }
    bool operator==(const Allergy&) const = default;
};
struct Allergies {
    static constexpr Spec spec{"allergies", any_clinical};
    std::optional<bool> none_known;
    std::optional<std::vector<Allergy>> list;
    static void fields(auto& self, auto&& field) {
        field("none_known", self.none_known);
        field("list", self.list);
    }
    bool operator==(const Allergies&) const = default;
};
struct Measure {
    static constexpr Spec spec{"measure", any_clinical};
    Decimal weight_kg;
    WeightBasis weight_basis{};
    Decimal height_cm;
    static void fields(auto& self, auto&& field) {
        field("weight_kg", self.weight_kg);
        field("weight_basis", self.weight_basis);
        field("height_cm", self.height_cm);
    }
    bool operator==(const Measure&) const = default;
};
struct Intake {
    static constexpr Spec spec{"intake", any_clinical};
    IntakeKind kind{};
    LastIntake last;
    static void fields(auto& self, auto&& field) {
        field("kind", self.kind);
        field("last", self.last);
    }
    bool operator==(const Intake&) const = default;
};
struct Medicine {
    static constexpr Spec spec{"medicine", any_clinical};
    MedicineGroup group{};
    std::string name;
    std::optional<LocalDate> last_dose;
    static void fields(auto& self, auto&& field) {
        field("group", self.group);
        field("name", self.name);
        field("last_dose", self.last_dose);
    }
    bool operator==(const Medicine&) const = default;
};
struct Answer {
    static constexpr Spec spec{"answer", any_clinical};
    std::string check;
    Answered value{};
    std::optional<std::string> note;
    static void fields(auto& self, auto&& field) {
        field("check", self.check);
        field("value", self.value);
        field("note", self.note);
    }
    bool operator==(const Answer&) const = default;
};
struct StopBang {
    std::optional<bool> snores, tired, observed, pressure;
    std::optional<Decimal> neck_cm;
    static void fields(auto& self, auto&& field) {
        field("snores", self.snores);
        field("tired", self.tired);
        field("observed", self.observed);
        field("pressure", self.pressure);
        field("neck_cm", self.neck_cm);
    }
    bool operator==(const StopBang&) const = default;
};
struct Airway {
    static constexpr Spec spec{"airway", {Role::sedation_provider, Role::physician, Role::nurse}};
    int asa{0}, mallampati{0};
    std::optional<StopBang> stop_bang;
    bool earlier_trouble{false}, own_cpap{false};
    static void fields(auto& self, auto&& field) {
        field("asa", self.asa);
        field("mallampati", self.mallampati);
        field("stop_bang", self.stop_bang);
        field("earlier_trouble", self.earlier_trouble);
        field("own_cpap", self.own_cpap);
    }
    bool operator==(const Airway&) const = default;
};
struct Escort {
    static constexpr Spec spec{"escort", {Role::nurse}};
    std::string name, phone;
    std::optional<bool> present;
    static void fields(auto& self, auto&& field) {
        field("name", self.name);
        field("phone", self.phone);
        field("present", self.present);
    }
    bool operator==(const Escort&) const = default;
};
struct Unchanged {
    static constexpr Spec spec{"unchanged", {Role::nurse, Role::physician}};
    Block block{};
    LocalDate since{};
    static void fields(auto& self, auto&& field) {
        field("block", self.block);
        field("since", self.since);
    }
    bool operator==(const Unchanged&) const = default;
};

}  // namespace brimline
