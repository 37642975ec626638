// Size with the blind read-back: the count is covered on the whole page until the number that the physician
// says was typed by another person and confirmed. What was typed is the only number here.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/size_parts.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr Rect head{864, 104, 400, 72};

void draw_pad(Glass& glass, const Scene& scene, SizeDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    touch::panel(glass, head);
    touch::text(glass, "volume/question", {884, 106, 244, 68},
                words.say("size.what-volume", {{"name", whose_word(scene)}}),
                {.em = touch::step::body, .bold = true});
    touch::covered(glass, "count/covered", {1132, 112, 124, 56});
    const auto typed = drafts.said.shown(words.decimal_mark());
    touch::value_box(glass, "said", {864, 186, 400, 82},
                     {.digits = typed, .unit = words.say("unit.ml-alone"), .focused = true});
    if (const auto key = touch::keypad(glass, "pad", {864, 278, 400, 386}, true, 11)) {
        drafts.said.press(*key);
    }
    const auto said = drafts.said.in_tenths();
    if (!said) {
        quiet_corner(glass, words.say("size.type-what-is-said"));
        return;
    }
    const touch::Action confirm{
        .command = "confirm",
        .title = words.say("size.confirm", {{"ml", words.say("unit.ml", {{"n", typed}})}}),
        .note = said_by_words(glass, scene)};
    if (touch::action(glass, touch::layout_for(glass.size()).action, confirm) == touch::ActionTap::action) {
        ReadBack says;
        says.ml = Millilitres::of_tenths(*said);
        asks.tell_said_by(says, scene.physician);
        drafts.confirmed = true;
        drafts.again = false;
        drafts.said.clear();
    }
}

void read_back_by_pedal(const Scene& scene, SizeDrafts& drafts, Asks& asks) {
    ReadBack says;
    says.from = "pedal";
    asks.tell_said_by(says, scene.physician);
    drafts.confirmed = true;
    drafts.again = false;
}

/// Why nobody types yet, with what leads on.
void draw_barred(Glass& glass, const Scene& scene, ReadBackBar bar, SizeDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    if (bar == ReadBackBar::matter_first) {
        const touch::Card card{.kind = touch::CardKind::to_do,
                               .title = words.say("size.matter-first"),
                               .lines = {words.say("size.matter-first-why")},
                               .opens = true};
        if (touch::card(glass, "matter-first", {864, 104, 400, 120}, card)) {
            asks.page = Page::fill;
            asks.sheet = Sheet::matter;
        }
        quiet_corner(glass, words.say("size.matter-first"));
        return;
    }
    const auto* key = bar == ReadBackBar::assistant ? "size.not-the-assistant" : "size.not-who-says-it";
    const Rect panel{864, 104, 400, 204};
    touch::panel(glass, panel);
    touch::icon(glass, touch::Icon::look, {panel.x + 36, panel.y + 44}, 34);
    touch::text(glass, "other-person/title", {panel.x + 68, panel.y + 8, panel.w - 80, 76}, words.say(key),
                {.em = touch::step::body, .bold = true});
    touch::text(glass, "other-person/how", {panel.x + 20, panel.y + 88, panel.w - 32, 112},
                words.say("size.tap-a-chip"), {.lines = 4});
    touch::covered(glass, "count/covered", {1000, 320, 128, 56});
    if (pedal_serves(*scene.ahead_state)) {
        if (touch::button(glass, "pedal-serves", {864, 400, 400, 96},
                          {.title = words.say("size.pedal-serves"),
                           .note = words.say("size.two-in-the-room"),
                           .bold = true})) {
            read_back_by_pedal(scene, drafts, asks);
        }
    }
    quiet_corner(glass, words.say("size.another-person"));
}

/// Only what cannot tell a volume stands in the bar while the count is covered.
void draw_blind_prompt(Glass& glass, const Scene& scene, Asks& asks) {
    const touch::Prompt nobody{.urgency = touch::Urgency::low,
                               .title = glass.words().say("size.nobody-says-it"),
                               .why = glass.words().say("size.covered-everywhere")};
    if (scene.waiting.late || !scene.broken.empty()) {
        draw_case_prompt(glass, scene, nobody, asks);
    } else {
        touch::prompt_bar(glass, touch::layout_for(glass.size()).prompt, nobody);
    }
}

/// What the confirmed number came to, once it is on disk.
void follow_confirmed(const Scene& scene, SizeDrafts& drafts, Asks& asks) {
    if (!drafts.confirmed || scene.waiting.commands > 0) {
        return;
    }
    drafts.confirmed = false;
    if (read_back_differs(*scene.state)) {
        asks.page = Page::fill;
        asks.sheet = Sheet::counts_differ;
    }
}

}  // namespace

Asks draw_size(Glass& glass, const Scene& scene, SizeDrafts& drafts) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    const auto agreed = agreed_by(*scene.state, scene.policy);
    if (agreed && !drafts.again) {
        drafts.confirmed = false;
        draw_agreed(glass, scene, *agreed, drafts, asks);
        return asks;
    }
    follow_confirmed(scene, drafts, asks);
    draw_sizing(glass, scene, drafts, asks);
    draw_blind_prompt(glass, scene, asks);
    const auto bar = read_back_bar(*scene.ahead_state, scene.ahead.person(scene.person), scene.physician);
    if (bar == ReadBackBar::none) {
        draw_pad(glass, scene, drafts, asks);
    } else {
        draw_barred(glass, scene, bar, drafts, asks);
    }
    return asks;
}

}  // namespace brimline::screens
