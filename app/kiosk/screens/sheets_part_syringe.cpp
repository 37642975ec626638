// Part syringe: an entry of its own, in mL to one decimal. The remainder to target stands in the box first.
#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {

void draw_part_syringe(const FillPage& page) {
    auto& drafts = page.drafts;
    if (!drafts.keypad) {
        drafts.keypad = true;  // opened now
        if (page.view.remainder && *page.view.remainder < page.view.nominal) {
            drafts.ml = proposing(*page.view.remainder);
        }
    }
    const auto wrong = page.settle();
    const auto typed = typed_ml(drafts.ml);
    const auto a = page.layout.column_a;
    draw_gauge(page, a.left_part(252), typed);
    const touch::Rect right = a.right_part(404);
    draw_balloon_panel(page, right.top_part(330));
    std::optional<touch::Action> own;
    if (typed) {
        const auto makes = page.view.possible + *typed;
        const auto standing = standing_of(makes, *page.scene.ahead_state, page.scene.policy);
        draw_standing(page, "part/makes", {right.x + 20, right.y + 236, right.w - 40, 76},
                      page.say("fill.part-makes", {{"ml", page.ml(makes)}}), standing);
        const auto key = is_implausible(page) ? "fill.part-sure" : "fill.part-action";
        own = touch::Action{.command = "record-part",
                            .title = page.say(key, {{"ml", page.ml(*typed)}}),
                            .note = page.say("fill.makes", {{"ml", page.ml(makes)}})};
    }
    draw_note_panel(page, "part-syringe/note-1", right.bottom_part(218), page.say("fill.instead-of-a-tap"),
                    page.say("fill.part-explained"));
    draw_ml_pad(page, page.say("fill.how-much-went-in"),
                page.say("fill.of-nominal", {{"ml", page.ml(page.view.nominal)}}), wrong);
    if (draw_sheet_foot(page.glass, page.scene, own, page.asks) == touch::SheetTap::action && typed) {
        tell_as_assistant(page.scene, PartSyringe{*typed}, page.asks, is_implausible(page));
        drafts.said = true;
    }
}

}  // namespace brimline::screens
