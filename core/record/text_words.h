// How the text record writes what the core knows: volumes, times, spans, people, words of the clinic's lists.
// What is not known has no words here; the pages leave it out or say so.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/case/figures.h"
#include "core/desk/desk.h"

namespace brimline::record {

/// Everything that a page is written from. `end` is the moment of the latest entry: running totals count up
/// to it.
struct Source {
    const CaseState& s;
    const Desk& desk;
    const Policy& policy;
    const Zone& zone;
    Instant end{};
    LocalDate day{};  // the day the case is about; times of other days carry their date

    /// "09:41", "09:41:27"; with its offset where the clock showed that time twice.
    [[nodiscard]] std::string clock(Instant t) const;
    [[nodiscard]] std::string clock_s(Instant t) const;
    /// "25 Nov 2026 09:41"
    [[nodiscard]] std::string moment(Instant t) const;
    /// The clock on the day of the case, with its date on any other day; seconds where they are not 0.
    [[nodiscard]] std::string when(Instant t) const;
    /// A person's name; "the kiosk" for what time alone did.
    [[nodiscard]] std::string person(std::string_view id) const;
    /// "Tomas Reyle", or "said by Dr Ilse Varga, entered by Tomas Reyle".
    [[nodiscard]] std::string who(const Stamp& stamp) const;
};

/// "500 mL", "545.5 mL", with the true minus sign.
[[nodiscard]] std::string ml_words(Millilitres v);
/// The same with a plus where it is above 0.
[[nodiscard]] std::string signed_ml_words(Millilitres v);
/// A number without trailing zeros, with the true minus sign.
[[nodiscard]] std::string number_words(Decimal d);
/// "+12 s", with the true minus sign.
[[nodiscard]] std::string offset_words(int seconds);
/// "mcg" for ug; every other unit as it is.
[[nodiscard]] std::string unit_words(std::string_view unit);
/// "50 s", "3 min 13 s", "1 h 56 min"; never a colon.
[[nodiscard]] std::string span_words(Duration d);
/// "Tue 25 May 2027"
[[nodiscard]] std::string day_words(LocalDate date);
/// "once", "twice", "3 times"
[[nodiscard]] std::string times_words(int n);
/// "NSAID", "clear fluid": the words of what a patient takes.
[[nodiscard]] std::string group_words(MedicineGroup group);
[[nodiscard]] std::string intake_words(IntakeKind kind);
/// "1 syringe", "2 syringes"
[[nodiscard]] std::string counted(std::int64_t n, std::string_view one, std::string_view many);
/// "a, b, c"
[[nodiscard]] std::string joined(const std::vector<std::string>& parts, std::string_view between = ", ");
/// The clinic's words for an id of one of its lists; the id where the list does not have it.
template <class Item>
[[nodiscard]] std::string words_of(const std::vector<Item>& list, std::string_view id) {
    for (const auto& item : list) {
        if (item.id == id) {
            return item.words;
        }
    }
    return std::string{id};
}
[[nodiscard]] std::string drug_words(const Policy& policy, std::string_view id);
/// The same with a small first letter, for the middle of a line.
[[nodiscard]] std::string lowered(std::string text);
/// "hr 176, spo2 97" from the fields of a correction, which are JSON text.
[[nodiscard]] std::string fields_words(std::string_view json_text);
/// A bare id as words: "against-advice" becomes "against advice".
[[nodiscard]] std::string plain(std::string_view id);
/// "yes", "no"
[[nodiscard]] inline std::string yes_no(bool yes) { return yes ? "yes" : "no"; }
/// Whether an event is what a person entered, not what the core concluded from it.
[[nodiscard]] bool is_entry(const Event& event);

}  // namespace brimline::record
