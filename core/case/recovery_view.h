// RecoveryView: what the hand-over tells, what Recovery shows and proposes, and what still lacks until the
// patient is fit. Parts of a score are only proposed; the nurse decides.
#pragma once
#include "core/case/figures.h"
#include "core/rules/recovery.h"

namespace brimline {

/// What whoever takes over has to know. Pointers stand in the state.
struct HandoverView {
    bool inside{false};  ///< a balloon is in the patient
    Millilitres volume;
    bool agreed{false}, dye{false};
    std::optional<Instant> last_dose, reversal;
    std::optional<Decimal> oxygen;  ///< L/min as last entered
    std::optional<LowestSpo2> lowest;
    const AirwayEpisode* event{};  ///< the one with the lowest value, else the last
    const Noted<Vitals>* last_set{};
};
[[nodiscard]] HandoverView handover_view(const CaseState& state, const Policy& policy);

/// Four digits as day and month: "1403". Empty while there are fewer, or no such day.
[[nodiscard]] std::optional<DayMonth> typed_day_month(std::string_view digits);

/// Aldrete scores since the last thing that makes them begin anew. Source: 10-decisions F14.
[[nodiscard]] std::vector<rules::AldreteScore> scores_that_count(const CaseState& state);

/// One criterion of "fit", in words of figures.
struct FitLine {
    enum class What : std::uint8_t { scores, since_dose, reversal, stay } what{};
    bool met{false};
    int need{0};                   ///< scores in a row, or minutes
    std::vector<Instant> at;       ///< the scores that count so far, the newest last
    std::optional<Duration> gone;  ///< since the dose, the reversal or acceptance; empty when there was none
};
constexpr auto names_of(FitLine::What) {
    return std::array<std::string_view, 4>{"scores", "since-dose", "reversal", "stay"};
}
/// Those that the policy asks for, in this order. Source: after.md 2.2, recovery-fit.
[[nodiscard]] std::vector<FitLine> fit_lines(const CaseState& state, const Policy& policy, Instant now);

/// Parts of a score worked out from a set that is fresh by policy and has oxygen beside it.
struct ScoreProposal {
    std::optional<Instant> from;                   ///< the set; empty = nothing is proposed
    std::optional<int> circulation, oxygen;        // Aldrete
    std::optional<int> vital_signs, nausea, pain;  // PADSS
};
/// Source: 10-decisions F14; the parts by core/rules/recovery.h and padss.h.
[[nodiscard]] ScoreProposal proposed_parts(const CaseState& state, const Policy& policy, Instant now);

/// The score with one more, as it would stand after saving.
[[nodiscard]] std::optional<Instant> fit_with(const CaseState& state, const Policy& policy,
                                              const Score& score, Instant now);

}  // namespace brimline
