// ArrivalView: what Arrival shows of each section, who may override a hold now, and what is missing. Nothing
// is decided here; whatever is missing may stay missing and becomes an open item.
#pragma once
#include "core/case/figures.h"
#include "core/desk/desk.h"
#include "core/rules/airway.h"

namespace brimline {

/// How an override is entered now. Source: 10-decisions A4.
enum class OverrideBy : std::uint8_t {
    own_pin,  ///< the chosen person is a physician
    said,     ///< the scope is in: another enters what the physician says, to countersign
    nobody,   ///< a physician must enter it
};
[[nodiscard]] OverrideBy override_by(const CaseState& state, const PersonKnown* chosen);
/// A physician may go on over a hold of this class.
[[nodiscard]] bool may_be_overridden(const Hold& hold);

/// The parts of Arrival, in the order in which the kiosk points to them.
enum class ArrivalPart : std::uint8_t {
    identity,
    consent,
    allergies,
    body,
    fasting,
    medicines,
    screen,
    pregnancy,
    airway,
    escort,
    balloon,  // of a removal: which one, and what the patient says of it
    baseline
};
constexpr auto names_of(ArrivalPart) {
    return std::array<std::string_view, 12>{"identity", "consent",   "allergies", "body",
                                            "fasting",  "medicines", "screen",    "pregnancy",
                                            "airway",   "escort",    "balloon",   "baseline"};
}
enum class PartState : std::uint8_t { open, done, held };
[[nodiscard]] PartState part_state(const CaseState& state, const Policy& policy, ArrivalPart part);
/// The parts without an answer, in order.
[[nodiscard]] std::vector<ArrivalPart> arrival_missing(const CaseState& state, const Policy& policy);
/// Holds that are worked off at Arrival and stand.
[[nodiscard]] std::vector<const Hold*> arrival_holds(const CaseState& state);
/// The part that a hold belongs to.
[[nodiscard]] ArrivalPart part_of_hold(std::string_view code);

/// The day of the pre-visit: the latest earlier day on which something of Arrival was entered, while its
/// answers are young enough to be confirmed. Source: 10-decisions F19.
[[nodiscard]] std::optional<LocalDate> pre_visit_day(const CaseState& state, const Policy& policy,
                                                     const Zone& zone, Instant now);
/// This block was confirmed today, or answered anew today.
[[nodiscard]] bool block_settled(const CaseState& state, Block block, const Zone& zone, Instant now);

/// One line of fasting, judged at the plan or at now.
struct FastLine {
    enum class Kind : std::uint8_t { solids, milk, clear } kind{};
    std::optional<LastIntake> last;  ///< empty = not asked
    minutes wait{};                  ///< what this kind of intake needs
    std::int64_t elapsed_min{0};
    bool met{false};
    Instant earliest{};
};
constexpr auto names_of(FastLine::Kind) { return std::array<std::string_view, 3>{"solids", "milk", "clear"}; }
struct FastingView {
    std::vector<FastLine> lines;  ///< solids, clear, milk
    Instant reference{};
    std::optional<Instant> all_met_at;  ///< the latest of the earliest moments; empty when one is not known
};
[[nodiscard]] FastingView fasting_view(const CaseState& state, const Policy& policy, Instant now);

/// The contraindication checks that are asked anew every time stand in other parts.
[[nodiscard]] bool asked_anew(const Check& check);
/// The checks of the list without those, in order.
[[nodiscard]] std::vector<const Check*> screen_checks(const Policy& policy);
[[nodiscard]] const Check* screen_check(const Policy& policy, std::string_view id);
[[nodiscard]] bool is_answered(const CaseState& state, std::string_view check);

/// Body size in words of numbers; empty without weight and height.
struct BodyView {
    std::string bmi, ideal_kg;
    std::string_view bmi_class;
};
[[nodiscard]] std::optional<BodyView> body_view(const CaseState& state, const Policy& policy);
/// The score of the sleep questions; empty where they are not asked or not answered at all.
[[nodiscard]] std::optional<rules::StopBangScore> stop_bang_of(const CaseState& state, const Policy& policy,
                                                               const Zone& zone, Instant now);

}  // namespace brimline
