// The parts of Look, each drawn by a file of its own. Not for other files than those of Look.
#pragma once
#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {

/// One frame of Look.
struct LookPage {
    touch::Glass& glass;
    const Scene& scene;
    LookDrafts& drafts;
    Asks& asks;

    [[nodiscard]] const CaseState& state() const { return *scene.ahead_state; }
    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    /// The old balloon is still in: the page is that of a removal.
    [[nodiscard]] bool at_removal() const { return state().kind == CaseKind::removal && !state().out; }
    [[nodiscard]] LocalDate in_weeks(int weeks) const {
        return add_days(scene.zone.date_of(scene.now), 7 * weeks);
    }
    /// Back to the list, with nothing typed; how far the list was read stays.
    void to_list() const;
};

/// Column B and the corner while one finding is being entered.
void draw_finding(const LookPage& page);
/// Both columns and the corner while a sample is being entered.
void draw_sample(const LookPage& page);
/// Both columns and the corner while a no-go is being entered.
void draw_no_go(const LookPage& page);
/// The foot of a part: its prompt with Back, and its corner once everything is there.
/// True when the corner was tapped.
bool draw_part_foot(const LookPage& page, const std::string& title, const std::string& why,
                    const std::optional<touch::Action>& own, const std::string& missing);

}  // namespace brimline::screens
