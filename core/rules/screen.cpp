// The contraindication screen, the medicine window and the pregnancy test.
#include "core/rules/screen.h"

#include <cstdlib>

namespace brimline::rules {

ScreenOutcome judge_screen(std::span<const ScreenItem> items) {
    ScreenOutcome outcome;
    for (const ScreenItem& item : items) {
        if (!item.bad) {
            ++outcome.missing;
        } else if (*item.bad) {
            (item.absolute ? outcome.hold : outcome.review) = true;
        }
    }
    outcome.review = outcome.review && !outcome.hold;  // a hold is the stronger word
    return outcome;
}

MedicineWindow medicine_window(LocalDate last_dose, LocalDate on, int window_days) {
    const int days = days_between(last_dose, on);
    return {days, days < window_days};
}

PregnancyOutcome judge_pregnancy(bool childbearing_potential, PregnancyTest test, int age_h, int max_age_h) {
    switch (test) {
        case PregnancyTest::positive:
            return {false, true, false};
        case PregnancyTest::negative:
            return {!childbearing_potential || age_h <= max_age_h, false, false};
        case PregnancyTest::not_applicable:
            return {true, false, false};
        case PregnancyTest::declined:
            return {!childbearing_potential, false, childbearing_potential};
        case PregnancyTest::not_answered:
            return {!childbearing_potential, false, false};
    }
    std::abort();  // no answer: a corrupted program must not go on
}

}  // namespace brimline::rules
