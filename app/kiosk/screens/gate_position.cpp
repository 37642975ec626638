// Gate 3 asks once: filling before the position was seen. Back stands in the corner, crossing stands last in
// column B.
#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/place_parts.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {
namespace {

using touch::Rect;

/// Crossing is a syringe that is already in: it is recorded as one, and the core raises the hold beside it.
void cross(const Scene& scene, Asks& asks) {
    tell_as_assistant(scene, SyringeIn{}, asks);
    asks.page = Page::fill;
}

}  // namespace

void draw_gate_position(touch::Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    touch::card(glass, "gate", {864, 104, 400, 188},
                {.kind = touch::CardKind::hold,
                 .title = words.say("place.gate-title"),
                 .lines = {words.say("place.gate-number"),
                           words.say("place.gate-says", {{"name", whose_word(scene)}})}});
    const touch::Card question{.kind = touch::CardKind::plain,
                               .title = words.say("place.below-junction"),
                               .lines = {words.say("place.under-view", {{"name", whose_word(scene)}})}};
    touch::AnswerPair pair{.bad = touch::Answer::no};
    if (drafts.said_no) {
        pair.given = touch::Answer::no;
    }
    const auto answer = touch::card_with_answer(glass, "position", {864, 304, 400, 200}, question, pair);
    take_position(answer, scene, drafts, asks);
    if (answer == touch::Answer::yes) {
        asks.sheet = Sheet::none;
    }
    const touch::Button face{.title = words.say("place.cross"),
                             .note = words.say("place.cross-note"),
                             .bold = true,
                             .em = touch::step::act};
    if (touch::button(glass, "cross-gate", {864, 516, 400, 92}, face)) {
        cross(scene, asks);
    }
    touch::text(glass, "gate/dead", {872, 612, 392, 56}, words.say("place.dead-time"),
                {.colour = glass.colours().text_2});
    draw_gate_foot(glass, scene, words.say("place.gate-prompt"), asks);
}

}  // namespace brimline::screens
