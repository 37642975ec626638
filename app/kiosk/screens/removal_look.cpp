// Look at a removal: how the balloon looks and whether food is in the stomach, as the physician's word; the
// canister before anything is punctured, and what was put in.
#include <fmt/format.h>

#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/removal_parts.h"

namespace brimline::screens {
namespace {

using touch::Rect;

/// Both answered: they are entered together. A later tap on either is entered with the other as it was.
void tell_when_both(const RemovalPage& page) {
    auto& drafts = page.drafts;
    const auto* last = page.state().balloon_seen.empty() ? nullptr : &page.state().balloon_seen.back().is;
    const auto state = !drafts.balloon.empty() ? drafts.balloon
                       : last != nullptr       ? last->state
                                               : std::string{};
    const auto food = drafts.food ? drafts.food : last != nullptr ? std::optional{last->food} : std::nullopt;
    if (state.empty() || !food) {
        return;
    }
    page.asks.tell_said_by(BalloonSeen{state, *food}, page.scene.physician);
    drafts.balloon.clear();
    drafts.food.reset();
}

void draw_states(const RemovalPage& page, Rect row) {
    const auto& states = page.scene.policy.lists.balloon_states;
    const auto* last = page.state().balloon_seen.empty() ? nullptr : &page.state().balloon_seen.back().is;
    const auto count = static_cast<int>(states.size());
    for (int i = 0; i < count; ++i) {
        const auto& item = states[static_cast<std::size_t>(i)];
        const bool chosen = page.drafts.balloon.empty() ? last != nullptr && last->state == item.id
                                                        : page.drafts.balloon == item.id;
        if (touch::button(page.glass, "balloon/" + item.id, touch::cell(row, count, 1, i, 0, 12),
                          {.title = item.words,
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .tick = false,
                           .corner_tick = true}) &&
            !chosen) {
            page.drafts.balloon = item.id;
            tell_when_both(page);
        }
    }
}

}  // namespace

void draw_balloon_seen(const RemovalPage& page) {
    const Rect panel{176, 104, 672, 224};
    touch::panel(page.glass, panel);
    const auto* last = page.state().balloon_seen.empty() ? nullptr : &page.state().balloon_seen.back();
    panel_head(page.glass, "balloon/head", {panel.x, panel.y - 6, panel.w, panel.h},
               page.say("removal.balloon-looks", {{"name", whose_word(page.scene)}}),
               last != nullptr ? clock_text(last->stamp.happened, page.scene.zone) : std::string{});
    draw_states(page, {188, 138, 648, 88});
    touch::text(page.glass, "food/ask", {196, 234, 310, 88}, page.say("removal.food"),
                {.em = touch::step::body, .bold = true});
    touch::AnswerPair pair{.bad = touch::Answer::yes};
    const auto food = page.drafts.food  ? page.drafts.food
                      : last != nullptr ? std::optional{last->is.food}
                                        : std::nullopt;
    if (food) {
        pair.given = *food ? touch::Answer::yes : touch::Answer::no;
    }
    if (const auto answer = touch::answer_pair(page.glass, "food", {518, 234, 318, 88}, pair)) {
        page.drafts.food = *answer == touch::Answer::yes;
        tell_when_both(page);
    }
}

void draw_look_beside(const RemovalPage& page) {
    const auto& canister = page.view.canister;
    const Rect panel{864, 104, 400, 184};
    touch::panel(page.glass, panel);
    panel_head(page.glass, "canister/head", panel, page.say("removal.canister"));
    touch::text(page.glass, "canister/juice", {884, 142, 236, 44}, page.say("removal.juice-not-counted"),
                {.colour = page.glass.colours().text_2});
    if (canister.now) {
        touch::figure(page.glass, "canister/now", {1128, 116, 120, 64}, ml_digits(page.glass, *canister.now),
                      page.say("removal.ml"), touch::step::glance, touch::step::note);
    }
    if (touch::button(page.glass, "canister", {880, 190, 368, 88},
                      {.title = page.say("removal.read-canister"),
                       .note = page.say("removal.or-changed"),
                       .look = canister.now ? touch::Look::rest : touch::Look::accent})) {
        page.drafts = {};
        page.drafts.part = RemovalDrafts::Part::canister;
    }
    draw_put_in(page, {864, 300, 400, 164});
}

}  // namespace brimline::screens
