// Draw back: fluid that came out again, counted down. Above the ceiling the box starts with what is too much.
#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {

void draw_draw_back(const FillPage& page) {
    auto& drafts = page.drafts;
    if (!drafts.keypad) {
        drafts.keypad = true;  // opened now
        if (page.view.too_much > Millilitres{}) {
            drafts.ml = proposing(page.view.too_much);
        }
    }
    const auto wrong = page.settle();
    const auto typed = typed_ml(drafts.ml);
    const auto a = page.layout.column_a;
    draw_gauge(page, a.left_part(252));
    const touch::Rect right = a.right_part(404);
    draw_balloon_panel(page, right.top_part(330));
    std::optional<touch::Action> own;
    if (typed && *typed <= page.view.possible) {
        const auto leaves = page.view.possible - *typed;
        const auto standing = standing_of(leaves, *page.scene.ahead_state, page.scene.policy);
        draw_standing(page, "draw-back/leaves", {right.x + 20, right.y + 236, right.w - 40, 76},
                      page.say("fill.leaves-in", {{"ml", page.ml(leaves)}}), standing);
        own = touch::Action{.command = "record-draw-back",
                            .title = page.say("fill.drawn-back", {{"ml", page.ml(*typed)}}),
                            .note = page.say("fill.leaves", {{"ml", page.ml(leaves)}})};
    }
    draw_note_panel(page, "draw-back/note-1", right.bottom_part(218), page.say("fill.counted-down"),
                    page.say("fill.draw-back-explained"));
    const bool more_than_in = typed && *typed > page.view.possible;
    draw_ml_pad(page, page.say("fill.how-much-came-out"),
                page.say("fill.of-in", {{"ml", page.ml(page.view.possible)}}),
                more_than_in ? page.say("fill.more-than-in", {{"ml", page.ml(page.view.possible)}}) : wrong);
    if (draw_sheet_foot(page.glass, page.scene, own, page.asks) == touch::SheetTap::action && typed) {
        tell_as_assistant(page.scene, DrawBack{*typed}, page.asks);
        drafts.said = true;
    }
}

}  // namespace brimline::screens
