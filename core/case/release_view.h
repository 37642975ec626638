// ReleaseView: what Release still misses, in which order it goes on, what the balloon card says, and how the
// watch of a valve that drips stands. Nothing is decided here; whatever is missing may stay missing.
#pragma once
#include "core/case/figures.h"

namespace brimline {

/// The facts of Release, in the order in which the kiosk asks for them. Source: 4-screens.md, release;
/// after.md 1 (release-steps).
enum class ReleaseFact : std::uint8_t { off, dry, complete, position, bleeding };
constexpr auto names_of(ReleaseFact) {
    return std::array<std::string_view, 5>{"off", "dry", "complete", "position", "bleeding"};
}
/// How one fact stands: answered or not, and when it was said.
struct FactStanding {
    std::optional<bool> yes;
    std::optional<Instant> at;
};
[[nodiscard]] FactStanding fact_of(const CaseState& state, ReleaseFact fact);
/// The facts without an answer, in order. A valve that drips counts as missing until it is dry.
[[nodiscard]] std::vector<ReleaseFact> release_missing(const CaseState& state);

/// What leads out of the room once the facts are there, in order; none = the patient has left.
enum class ReleaseStep : std::uint8_t { scope_out, end_sedation, pause, leave_room };
constexpr auto names_of(ReleaseStep) {
    return std::array<std::string_view, 4>{"scope-out", "end-sedation", "pause", "leave-room"};
}
[[nodiscard]] std::optional<ReleaseStep> release_step(const CaseState& state);

/// The catheter would come off before the volume is agreed: gate 4 asks first.
[[nodiscard]] bool release_asks_read_back(const CaseState& state);

/// The watch of a valve that is not dry: since when, and how long one look lasts by policy.
struct ValveWatch {
    Instant since{};
    std::string action;
    seconds length{};
};
/// Empty while the valve was never seen dripping, or is dry since.
[[nodiscard]] std::optional<ValveWatch> valve_watch(const CaseState& state, const Policy& policy);

/// What the balloon card says; what is not known is absent.
struct BalloonCard {
    std::optional<LocalDate> placed, book_by, due;
    Millilitres volume;
    std::optional<Millilitres> dye;
    std::string lot, serial;
};
/// While the device is not released yet the dates are those of a release at `now`.
[[nodiscard]] BalloonCard balloon_card(const CaseState& state, const Policy& policy, const Zone& zone,
                                       Instant now);

}  // namespace brimline
