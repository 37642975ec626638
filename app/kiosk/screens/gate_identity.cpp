// Gate 1 asks once: sedation before identity and consent. Both are answered here; crossing stands last in
// column B, and the corner goes back.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

std::optional<touch::Answer> pair(Glass& glass, const char* name, Rect place, const std::string& title,
                                  const std::string& line, std::optional<touch::Answer> given) {
    const touch::AnswerPair shown{.given = given, .bad = touch::Answer::no};
    return touch::card_with_answer(glass, name, place,
                                   {.kind = touch::CardKind::plain, .title = title, .lines = {line}}, shown);
}

std::optional<touch::Answer> given(bool yes, bool no) {
    return yes ? std::optional{touch::Answer::yes} : no ? std::optional{touch::Answer::no} : std::nullopt;
}

void draw_questions(Glass& glass, const Scene& scene, SedationDrafts& drafts, Asks& asks) {
    const auto& state = *scene.ahead_state;
    const auto& words = glass.words();
    const bool identified = state.identity && state.identity->is.identifiers.size() >= 2;
    const auto who = pair(glass, "identity", {864, 104, 400, 180}, words.say("gate.identity"),
                          words.say("gate.identity-how"), given(identified, drafts.identity_not_said));
    if (who) {
        drafts.identity_not_said = who == touch::Answer::no;
    }
    if (who == touch::Answer::yes) {
        asks.tell(Identity{{Identifier::name, Identifier::born}});
    }
    const auto consent =
        pair(glass, "consent", {864, 296, 400, 180}, words.say("gate.consent"), words.say("gate.consent-how"),
             given(state.consent_settled(), state.consent.has_value()));
    if (consent) {
        Consent says;
        says.is_signed = consent == touch::Answer::yes;
        asks.tell(says);
    }
}

/// What the gate says, in place of the value strips.
void draw_gate(Glass& glass) {
    const auto& words = glass.words();
    const Rect card{176, 104, 672, 260};
    touch::card(glass, "gate", card,
                {.kind = touch::CardKind::hold,
                 .title = words.say("gate.title"),
                 .lines = {words.say("gate.number"), words.say("gate.says"), words.say("gate.stays")}});
    touch::text(glass, "gate/dead", {184, 376, 656, 60}, words.say("place.dead-time"),
                {.colour = glass.colours().text_2});
}

}  // namespace

Asks draw_gate_identity(Glass& glass, const Scene& scene, SedationDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    draw_case_frame_bare(glass, scene, asks);
    if (!start_asks_identity(*scene.ahead_state)) {
        asks.sheet = Sheet::none;  // it is met now, or was crossed
    }
    draw_gate(glass);
    draw_questions(glass, scene, drafts, asks);
    if (touch::button(glass, "cross-gate", {864, 536, 400, 128},
                      {.title = words.say("place.cross"),
                       .note = words.say("gate.cross-note"),
                       .bold = true,
                       .em = touch::step::act,
                       .group = "cross-gate",
                       .watched = true})) {
        asks.tell(StartSedation{});
        asks.sheet = Sheet::none;
    }
    draw_gate_foot(glass, scene, words.say("gate.prompt"), asks);
    return asks;
}

}  // namespace brimline::screens
