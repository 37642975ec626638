// What is being typed and chosen at Arrival, section by section.
#pragma once
#include <map>
#include <optional>
#include <string>

#include "app/kiosk/touch/widgets.h"
#include "core/case/said/arrival.h"
#include "core/case/said/removal.h"

namespace brimline::screens {

struct ArrivalDrafts {
    /// Which page of Arrival is open; the first one follows from the case.
    enum class Section : std::uint8_t {
        start,
        tiles,
        identity,
        fasting,
        intake,
        medicines,
        pregnancy,
        airway,
        escort,
        balloon,
        person,
        defer
    };
    /// What column B of the section is used for.
    enum class Part : std::uint8_t { none, allergies, reaction, body, consent, differs };
    /// Where the letters of the keyboard go.
    enum class Letters : std::uint8_t {
        none,
        substance,
        reaction,
        medicine,
        escort_name,
        escort_phone,
        language,
        consent,
        name,
        note,
        lot,
        person,
        defer
    };

    Section section{Section::start};
    Part part{Part::none};
    Letters letters{Letters::none};
    touch::TextDraft text{60};
    touch::KeyboardState keys{};

    // identity
    std::map<Identifier, bool> same;  // as the patient said it; entered when two are the same
    std::string substance;
    bool not_signed{false};  // No was tapped; the other ways are open
    ConsentForm form{ConsentForm::spoken_with_witness};
    // body
    touch::NumberDraft weight = touch::NumberDraft{3, 1}, height = touch::NumberDraft{3, 1};
    std::optional<WeightBasis> basis;
    bool in_height{false};
    // fasting
    std::optional<IntakeKind> intake;
    std::string clock;  // four digits
    int days_ago{0};
    bool said{false};
    std::size_t first_question{0};
    bool all_questions{false};
    // medicines
    std::optional<MedicineGroup> group;
    std::string medicine;
    std::optional<int> dose_days;  // days since the last dose; -1 = not known
    bool day_pad{false};           // another day is typed
    std::string day_digits;        // four: day and month
    std::string check;             // whose note is typed
    // airway
    int asa{0}, mallampati{0};
    StopBang stop_bang;
    touch::NumberDraft neck = touch::NumberDraft{2, 1};
    std::optional<bool> trouble, cpap;
    // the balloon that another clinic placed
    enum class Told : std::uint8_t { date, volume, weight };
    Told told{Told::date};
    std::string placed;  // eight digits: day, month, year
    touch::NumberDraft volume = touch::NumberDraft{4, 1};
    std::optional<ElsewhereSource> source;
    std::string dye, lot;
    // who the patient is
    PatientKnown person;
    std::string field, born, why;  // what is typed; eight digits; why it is entered
    // escort, deferring
    std::string escort_name, escort_phone, reason;

    /// Opens a section with nothing typed.
    void open(Section which) {
        *this = {};
        section = which;
    }
};

}  // namespace brimline::screens
