// The register: every balloon that is in a patient by what we know, with its next action, a date and an
// owner. Folded from the same events as the cases; nothing here is stored. An entry bears the name of its
// case, "A", or "A/2" where the second device of that case is the one left in. Source: after.md 5;
// 10-decisions A6, F10, F11.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/case/figures.h"
#include "core/desk/desk.h"
#include "core/rules/removal.h"
#include "core/units/fraction.h"

namespace brimline {

/// The dates of a case by the policy that was in force when the balloon was left in: adopting another policy
/// moves no date that was given. `current` stands in while no policy is recorded.
[[nodiscard]] CaseDates dates_given(const CaseState& state, const Desk& desk, const Policy& current,
                                    const Zone& zone);

/// What is known of a balloon's placement, by our own record or by word of another clinic ("reported").
struct Placement {
    std::string entry;
    LocalDate placed{}, due{}, latest{}, book_by{};
    std::optional<Millilitres> volume;
    std::optional<std::string> lot, serial;
    std::optional<bool> dye;
    std::optional<Kilograms> weight;
    bool reported{false}, dwell_by_default{false};
};
/// Empty when no balloon was left in by this case, and none was placed elsewhere.
[[nodiscard]] std::optional<Placement> placement_of(const CaseState& state, const Desk& desk,
                                                    const Policy& current, const Zone& zone);

/// The case whose chain a command is written to: that of the entry it names, else the case it names.
[[nodiscard]] const CaseState* case_addressed(const Command& command, const Desk& desk);
/// The placement that a removal case takes out: of the entry it was booked for, or as told in the case
/// itself.
[[nodiscard]] std::optional<Placement> placement_to_remove(const CaseState& removal, const Desk& desk,
                                                           const Policy& current, const Zone& zone);
/// The removal that took this entry's balloon out; null while none did.
[[nodiscard]] const CaseState* removal_of(const CaseState& state, const Desk& desk);

/// Contacts in a row, up to now, in which nobody who knows was reached.
[[nodiscard]] std::vector<const Noted<Call>*> failed_in_a_row(const CaseState& state);
/// As many of them, on as many days, as the policy asks for a letter and the responsible physician.
[[nodiscard]] bool not_reached(const CaseState& state, const Policy& policy, const Zone& zone);

enum class EntryStatus : std::uint8_t {
    in_place,
    book_by,
    due,
    overdue,
    not_verified,  // said to be out, without proof
    removed,
    passed,
    out_elsewhere,
    died
};
constexpr auto names_of(EntryStatus) {
    return std::array<std::string_view, 9>{
        "in place", "book by", "due",           "overdue", "closed, not verified",
        "removed",  "passed",  "out elsewhere", "died"};
}
/// What comes next, when, and who sees to it (an id).
struct NextAction {
    std::string say;
    LocalDate date{};
    std::string owner;
};
struct RegisterEntry {
    const CaseState* state{};  // the case that the entry stands in
    Placement placement;
    EntryStatus status{};
    std::vector<std::string> flags;
    std::optional<NextAction> next;  // empty only when the entry is closed and verified
    std::optional<LocalDate> out;    // the day of the closing
    int days_left{0};                // to the due date in force; negative after it
    [[nodiscard]] bool open() const { return next.has_value(); }
};
/// Not known to be out, and past its latest date, whatever status and flags say: an entry that was closed
/// without proof counts too. Source: after.md 5, overdue-count.
[[nodiscard]] bool is_overdue(const RegisterEntry& entry, LocalDate on);
/// The entry of one case on a day; empty when it has none.
[[nodiscard]] std::optional<RegisterEntry> entry_on(const CaseState& state, const Desk& desk,
                                                    const Policy& current, const Zone& zone, LocalDate on);
/// All entries on a day, the most urgent first: by the date of what is next, closed ones last.
[[nodiscard]] std::vector<RegisterEntry> register_on(const Desk& desk, const Policy& current,
                                                     const Zone& zone, LocalDate on);
/// A device that was opened and not left in: it has no entry, but its lot is searched.
struct UsedDevice {
    const CaseState* state{};
    const DeviceBlock* block{};
};
[[nodiscard]] std::vector<UsedDevice> not_left_in(const Desk& desk, std::string_view lot);

/// What came out against what went in. Volumes in mL; percent = 100 x difference / filled. Source:
/// after.md 6.
struct RemovalFigures {
    std::optional<Placement> placement;
    std::optional<Millilitres> recovered;  // empty until a reading says it
    rules::RecoveredVolume compared;
    std::optional<int> days_in_place;
    std::optional<rules::RemovalTiming> timing;
};
[[nodiscard]] RemovalFigures removal_figures(const CaseState& removal, const Desk& desk,
                                             const Policy& current, const Zone& zone);

/// The loss of weight between placement and removal. Source: after.md 7, from exact values.
struct WeightOutcome {
    Decimal start;
    Fraction tbwl_percent;                // loss positive
    std::optional<Fraction> ewl_percent;  // empty where it is not defined or the height is not known
    std::optional<Fraction> bmi_loss;     // BMI then less BMI now
    bool reported{false};                 // the first weight is by word of another
};
[[nodiscard]] std::optional<WeightOutcome> weight_outcome(const CaseState& removal, const Desk& desk,
                                                          const Policy& current, const Zone& zone);

}  // namespace brimline
