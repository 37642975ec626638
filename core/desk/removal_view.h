// RemovalView: what the pages of a removal show, worked out from the case and the register. Pure.
#pragma once
#include <array>
#include <optional>
#include <string>

#include "core/desk/register.h"

namespace brimline {

/// The suction canister as it was read. Source: 8-practice rows 50 and 51.
struct CanisterReadings {
    std::optional<Millilitres> before;  ///< what it held when counting began, or would begin now
    std::optional<Millilitres> now;     ///< what the canister in place holds
    std::optional<Instant> at;          ///< when it was read last
    bool ended{false};                  ///< read after the puncture, or fluid was taken by syringe
};
[[nodiscard]] CanisterReadings canister_readings(const CaseState& state);

/// What the page Out has next, in this order.
enum class RemovalStep : std::uint8_t { seen_empty, grasp, out, second_look, over };
constexpr auto names_of(RemovalStep) {
    return std::array<std::string_view, 5>{"seen-empty", "grasp", "out", "second-look", "over"};
}
[[nodiscard]] RemovalStep removal_step(const CaseState& state);

struct RemovalView {
    RemovalFigures figures;
    CanisterReadings canister;
    std::optional<int> days_in;                 ///< days in place by now, or at the day it came out
    std::optional<LocalDate> leak;              ///< since when a leak is suspected
    bool why_differs{false};                    ///< beyond policy, and no reason said yet
    bool why_early{false};                      ///< earlier than the policy's window, and no reason said yet
    std::optional<std::string> differs, early;  ///< the reasons as they were said
};
[[nodiscard]] RemovalView removal_view(const CaseState& removal, const Desk& desk, const Policy& policy,
                                       const Zone& zone, Instant now);

/// A new balloon is being placed after the old one came out, in the same session.
[[nodiscard]] bool exchanging(const CaseState& state);

}  // namespace brimline
