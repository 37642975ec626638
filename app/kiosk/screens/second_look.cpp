// The second look, after the balloon is out: what is seen, in the words of the physician. More than one may
// be entered.
#include <fmt/format.h>

#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/removal_parts.h"

namespace brimline::screens {
namespace {

using touch::Rect;

void draw_entered(const RemovalPage& page) {
    const Rect panel{864, 104, 400, 360};
    touch::panel(page.glass, panel);
    panel_head(page.glass, "entered/head", panel, page.say("removal.seen-so-far"));
    const auto& looks = page.state().second_looks;
    if (looks.empty()) {
        touch::text(page.glass, "entered/none", {884, 148, 360, 60}, page.say("removal.nothing-yet"),
                    {.colour = page.glass.colours().text_2});
    }
    constexpr std::size_t room = 6;
    const std::size_t from = looks.size() > room ? looks.size() - room : 0;
    for (std::size_t i = from; i < looks.size(); ++i) {
        const auto& is = looks[i].is;
        auto words = words_of_id(page.scene.policy.lists.second_look, is.finding);
        words += is.words ? ", " + *is.words : std::string{};
        list_line(page.glass, fmt::format("entered/{}", i + 1),
                  {884, 148 + 48 * static_cast<float>(i - from), 360, 44},
                  clock_text(looks[i].stamp.happened, page.scene.zone), words, 80);
    }
}

}  // namespace

void draw_second_look(const RemovalPage& page) {
    auto& drafts = page.drafts;
    const auto& list = page.scene.policy.lists.second_look;
    touch::text(page.glass, "second/head", {184, 104, 656, 34},
                page.say("removal.second-look-head", {{"name", whose_word(page.scene)}}),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    for (std::size_t i = 0; i < list.size() && i < 12; ++i) {
        const auto place =
            touch::cell({176, 144, 672, 520}, 3, 4, static_cast<int>(i % 3), static_cast<int>(i / 3), 12);
        if (touch::button(page.glass, "second/" + list[i].id, place,
                          {.title = list[i].words,
                           .look = drafts.finding == list[i].id ? touch::Look::chosen : touch::Look::rest,
                           .tick = false,
                           .corner_tick = true})) {
            drafts.finding = list[i].id;
        }
    }
    draw_entered(page);
    if (touch::button(page.glass, "second-words", {864, 476, 400, 92},
                      {.title = drafts.words.empty() ? page.say("look.words") : drafts.words,
                       .look = drafts.words.empty() ? touch::Look::rest : touch::Look::chosen,
                       .tick = false})) {
        drafts.text = touch::TextDraft{80};
        drafts.text.set(drafts.words);
        drafts.letters = RemovalDrafts::Letters::finding;
    }
    const touch::Prompt prompt{.urgency = touch::Urgency::low,
                               .title = page.say("removal.second-look"),
                               .why = page.say("removal.second-look-why"),
                               .chips = {{"back", page.say("touch.back")}}};
    if (draw_case_prompt(page.glass, page.scene, prompt, page.asks).chip == "back") {
        drafts = {};
        return;
    }
    if (drafts.finding.empty()) {
        quiet_corner(page.glass, page.say("removal.tap-what-is-seen"));
        return;
    }
    const touch::Action own{.command = "enter-second-look",
                            .title = page.say("look.enter", {{"kind", words_of_id(list, drafts.finding)}}),
                            .note = page.say("look.said-by-note", {{"name", whose_word(page.scene)}})};
    if (touch::action(page.glass, touch::layout_for(page.glass.size()).action, own) ==
        touch::ActionTap::action) {
        SecondLook says;
        says.finding = drafts.finding;
        says.words = drafts.words.empty() ? std::nullopt : std::optional{drafts.words};
        page.asks.tell_said_by(says, page.scene.physician);
        drafts = {};
    }
}

}  // namespace brimline::screens
