// The parts of Arrival, each drawn by a file of its own. Not for other files than those of Arrival.
#pragma once
#include <functional>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/whose_word.h"
#include "core/case/arrival_view.h"

namespace brimline::screens {

/// One frame of Arrival.
struct ArrivalPage {
    touch::Glass& glass;
    const Scene& scene;
    ArrivalDrafts& drafts;
    Asks& asks;

    [[nodiscard]] const CaseState& state() const { return *scene.ahead_state; }
    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    [[nodiscard]] LocalDate today() const { return scene.zone.date_of(scene.now); }
    /// Opens the keyboard for one thing, with what is known in it.
    void type(ArrivalDrafts::Letters what, std::string_view known = {}) const;
};

/// A muted, bold line.
void arrival_head(const ArrivalPage& page, const char* key, touch::Rect place);
/// A button that may be chosen.
bool arrival_key(const ArrivalPage& page, const std::string& name, touch::Rect place,
                 const std::string& title, bool chosen, const std::string& note = {});
/// One check with its No and Yes; a tap enters the answer.
void draw_check_pair(const ArrivalPage& page, touch::Rect place, const Check& check);
/// The foot of a section: Back in the prompt, and the corner once everything is there. True when the corner
/// was tapped.
bool draw_section_foot(const ArrivalPage& page, const touch::Prompt& prompt,
                       const std::optional<touch::Action>& own, const std::string& missing);
/// The corner of a section that has nothing of its own to enter: what is missing next.
void draw_section_next(const ArrivalPage& page, const touch::Prompt& prompt);
/// The holds of Arrival with their ways out, in column B.
void draw_hold_cards(const ArrivalPage& page, touch::Rect area);
/// How many cards wait for the physician's eye, and the way to them.
[[nodiscard]] std::size_t reviews_waiting(const CaseState& state);
void draw_reviews_way(const ArrivalPage& page, touch::Rect place, std::size_t count);
/// Opens what answers this part.
void open_part(const ArrivalPage& page, ArrivalPart part);

void draw_arrival_identity(const ArrivalPage& page);
void draw_arrival_fasting(const ArrivalPage& page);
void draw_arrival_intake(const ArrivalPage& page);
void draw_arrival_medicines(const ArrivalPage& page);
void draw_arrival_pregnancy(const ArrivalPage& page);
void draw_arrival_airway(const ArrivalPage& page);
void draw_arrival_escort(const ArrivalPage& page);
/// Of a removal: the balloon by our record, or as another clinic placed it, and what the patient says of it.
void draw_arrival_balloon(const ArrivalPage& page);
/// Who the patient is, completed field by field.
void draw_arrival_person(const ArrivalPage& page);
void draw_arrival_defer(const ArrivalPage& page);
/// Eight digits as a date that may be; empty otherwise.
[[nodiscard]] std::optional<LocalDate> typed_date(const std::string& digits);
/// "06 03 2026" as far as it was typed.
[[nodiscard]] std::string spaced_date(const std::string& digits);
/// What was typed becomes an entry or a draft.
void take_letters(const ArrivalPage& page);
/// The list of allergies with one more; drugs and materials alike.
void tell_allergy(const ArrivalPage& page, const std::string& substance, const std::string& reaction);
/// What each part says of itself in one line.
[[nodiscard]] std::string part_note(const ArrivalPage& page, ArrivalPart part);

}  // namespace brimline::screens
