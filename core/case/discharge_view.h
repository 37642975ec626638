// DischargeView: what going home still lacks, check by check, and the sheet that the patient takes along as
// it will be printed. No words here: the screens have them by key.
#pragma once
#include "core/case/recovery_view.h"

namespace brimline {

/// One cell of Discharge. `fit` gathers score, time, alertness and air; the others are checks of the policy.
enum class HomeCheck : std::uint8_t {
    fit,
    score,
    drink,
    nausea,
    pain,
    cannula,
    prescriptions,
    sheet,  ///< the leaflet was given; not a check of the policy, but its paper
    card,
    advice,
    escort,
    goes  ///< where to; said last
};
constexpr auto names_of(HomeCheck) {
    return std::array<std::string_view, 12>{"fit",           "score", "drink", "nausea", "pain",   "cannula",
                                            "prescriptions", "sheet", "card",  "advice", "escort", "goes"};
}
struct HomeLine {
    HomeCheck check{};
    bool met{false};
    std::optional<Instant> at;      ///< when it was met or last asked
    std::optional<int> value;       ///< a total or a rating
    std::optional<Millilitres> ml;  ///< of the drink
    bool required{true};            ///< false: offered, and nothing is missing without it
};
/// The cells that this case needs, in order; `goes` is always the last.
[[nodiscard]] std::vector<HomeLine> home_lines(const CaseState& state, const Policy& policy, Instant now);

/// The language in which the patient's sheet prints: the patient's own where the clinic approved that sheet,
/// else the clinic's. Source: 10-decisions F16.
[[nodiscard]] std::string sheet_language(const CaseState& state, const Policy& policy);

/// The dates of the patient's sheet. Diet ends are days that still belong to it.
struct HomeSheet {
    std::optional<Millilitres> volume;  ///< absent where no balloon stays in
    bool dye{false};
    std::optional<LocalDate> placed, clear_to, full_from, full_to, soft_from, soft_to, usual_from;
    std::optional<Instant> no_driving;  ///< the next full hour after the policy's hours from leaving
    std::optional<LocalDate> first_call, second_call, book_by, due;
};
/// While the patient is still here the hours count from `now`.
[[nodiscard]] HomeSheet home_sheet(const CaseState& state, const Policy& policy, const Zone& zone,
                                   Instant now);

}  // namespace brimline
