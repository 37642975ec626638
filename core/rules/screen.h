// The contraindication screen, medicines within their window, and the pregnancy test. Source: before.md 5.
#pragma once
#include <optional>
#include <span>
#include <string_view>

#include "core/clinic/policy.h"

namespace brimline::rules {

/// One answered or open item of the screen; `bad` empty = not answered, which is never "no".
struct ScreenItem {
    bool absolute = true;
    std::optional<bool> bad;
};
/// Any absolute answered badly = hold; any relative = review; open items are counted.
struct ScreenOutcome {
    bool hold = false, review = false;
    int missing = 0;
    [[nodiscard]] bool complete() const { return missing == 0; }
    bool operator==(const ScreenOutcome&) const = default;
};
[[nodiscard]] ScreenOutcome judge_screen(std::span<const ScreenItem> items);

/// Calendar days since the last dose; reviewed below the window, cleared at exactly it.
struct MedicineWindow {
    int days_since = 0;
    bool review = false;
    bool operator==(const MedicineWindow&) const = default;
};
[[nodiscard]] MedicineWindow medicine_window(LocalDate last_dose, LocalDate on, int window_days);

enum class PregnancyTest : std::uint8_t { negative, positive, declined, not_applicable, not_answered };
/// `hold` = absolute.
struct PregnancyOutcome {
    bool satisfied = false, hold = false, review = false;
    bool operator==(const PregnancyOutcome&) const = default;
};
/// Negative and no older than the limit, or it does not apply. Units: the test's age in hours, ends included.
[[nodiscard]] PregnancyOutcome judge_pregnancy(bool childbearing_potential, PregnancyTest test, int age_h,
                                               int max_age_h);

}  // namespace brimline::rules
