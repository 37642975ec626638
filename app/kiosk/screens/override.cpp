// A physician goes on over a hold: reason, words, proviso, PIN. While the scope is in, what the physician
// says is entered by another without a PIN and countersigned later. The hold may also simply stay.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/letters.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/whose_word.h"
#include "core/case/arrival_view.h"

namespace brimline::screens {
namespace {

/// What fits on a key of what was typed; the keyboard shows it whole.
std::string beginning_of(const std::string& text) {
    constexpr std::size_t most = 28;
    const auto letters = touch::letters_of(text);
    if (letters.size() <= most) {
        return text;
    }
    std::string shown;
    for (std::size_t i = 0; i < most; ++i) {
        shown += letters[i];
    }
    return shown + "…";
}

using touch::Glass;
using touch::Rect;

constexpr std::array<const char*, 3> proviso_stages{"look", "place", "discharge"};

/// One frame of the sheet.
struct OverridePage {
    Glass& glass;
    const Scene& scene;
    OverrideDraft& draft;
    const Hold& hold;
    Asks& asks;

    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    [[nodiscard]] OverrideBy by() const {
        return override_by(*scene.ahead_state, scene.ahead.person(scene.person));
    }
};

touch::Look chosen(bool yes) { return yes ? touch::Look::chosen : touch::Look::rest; }

void draw_hold(const OverridePage& page) {
    const auto& c = page.glass.colours();
    const Rect card{176, 104, 672, 100};
    touch::fill(page.glass, card, c.stop_tint, touch::control_radius);
    touch::outline(page.glass, card, c.stop, 2, touch::control_radius);
    touch::icon(page.glass, touch::Icon::stop, {card.x + 44, card.y + 50}, 40);
    touch::text(page.glass, "hold/say", {card.x + 84, card.y + 6, 576, 60}, page.hold.say, {.bold = true});
    const auto since =
        page.say("override.since",
                 {{"time", clock_text(page.hold.since, page.scene.zone)},
                  {"class", page.say("override.class-" + std::string{name_of(page.hold.hold_class)})}});
    touch::text(page.glass, "hold/since", {card.x + 84, card.y + 66, 576, 30}, since, {.lines = 1});
}

void draw_reasons(const OverridePage& page) {
    const auto& list = page.scene.policy.lists.override_reasons;
    touch::text(page.glass, "reason/head", {184, 208, 656, 32}, page.say("override.why"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    constexpr std::size_t room = 6;
    for (std::size_t i = 0; i < list.size() && i < room; ++i) {
        const auto place =
            touch::cell({176, 242, 672, 186}, 3, 2, static_cast<int>(i % 3), static_cast<int>(i / 3), 10);
        if (touch::button(page.glass, "reason/" + list[i].id, place,
                          {.title = list[i].words,
                           .look = chosen(page.draft.reason == list[i].id),
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true})) {
            page.draft.reason = list[i].id;
        }
    }
}

void draw_proviso(const OverridePage& page) {
    auto& draft = page.draft;
    touch::text(page.glass, "proviso/head", {184, 432, 656, 32}, page.say("override.proviso"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    const auto place = [](int i) { return touch::cell({176, 466, 672, 92}, 4, 1, i, 0, 10); };
    int i = 0;
    for (const auto* stage : proviso_stages) {
        if (touch::button(
                page.glass, fmt::format("proviso/{}", stage), place(i++),
                {.title = page.say("override.at", {{"stage", page.say(fmt::format("stage.{}", stage))}}),
                 .look = chosen(draft.stage == stage),
                 .tick = false,
                 .corner_tick = true})) {
            draft.stage = stage;
            draft.condition_keyboard = draft.condition.text().empty();
        }
    }
    if (touch::button(page.glass, "proviso/none", place(i),
                      {.title = page.say("override.none"),
                       .look = chosen(draft.stage.empty()),
                       .tick = false,
                       .corner_tick = true})) {
        draft.stage.clear();
    }
    const auto row = [](int n) { return touch::cell({176, 568, 672, 96}, 2, 1, n, 0, 10); };
    if (draft.stage.empty()) {
        touch::panel(page.glass, row(0));
        touch::text(page.glass, "proviso/no", row(0).inset(16, 8), page.say("override.no-proviso"),
                    {.colour = page.glass.colours().text_2});
    } else if (touch::button(page.glass, "proviso-condition", row(0),
                             {.title = draft.condition.text().empty() ? page.say("override.which-condition")
                                                                      : draft.condition.text(),
                              .note = page.say("override.condition"),
                              .em = touch::step::note})) {
        draft.condition_keyboard = true;
    }
    if (touch::button(page.glass, "override-words", row(1),
                      {.title = draft.words.text().empty() ? page.say("override.words")
                                                           : beginning_of(draft.words.text()),
                       .note = page.say(page.hold.hold_class == HoldClass::absolute ? "override.words-needed"
                                                                                    : "override.words-later"),
                       .em = touch::step::note})) {
        draft.words_keyboard = true;
    }
}

void draw_pin(const OverridePage& page) {
    auto& draft = page.draft;
    touch::panel(page.glass, {864, 104, 400, 104});
    touch::text(page.glass, "pin/title", {884, 108, 360, 34},
                page.say("override.pin-for", {{"name", whose_word(page.scene)}}),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    const int least = page.scene.policy.rules.pin_digits_least;
    const int typed = static_cast<int>(draft.pin.size());
    touch::pin_dots(page.glass, {864, 142, 400, 62}, typed, std::max(least, typed));
    if (const auto key = touch::keypad(page.glass, "pad", {864, 216, 400, 352}, false, 8)) {
        draft.said = false;
        if (*key == touch::PadKey::erase) {
            draft.pin = draft.pin.substr(0, draft.pin.empty() ? 0 : draft.pin.size() - 1);
        } else if (typed < page.scene.policy.rules.pin_digits_most) {
            draft.pin += static_cast<char>('0' + static_cast<int>(*key));
        }
    }
}

/// In place of the keypad where no PIN is typed: whose word it is, and what follows.
void draw_no_pin(const OverridePage& page) {
    const bool said = page.by() == OverrideBy::said;
    touch::card(
        page.glass, "no-pin", {864, 104, 400, 220},
        {.kind = touch::CardKind::review,
         .title = page.say(said ? "override.said" : "override.physician", {{"name", whose_word(page.scene)}}),
         .lines = {page.say(said ? "override.countersigned" : "override.hand-over-glass",
                            {{"name", whose_word(page.scene)}})}});
}

/// What is still missing, in words; empty when it can be said.
std::string missing_words(const OverridePage& page) {
    const auto& draft = page.draft;
    if (draft.reason.empty()) {
        return page.say("override.tap-reason");
    }
    if (!draft.stage.empty() && draft.condition.text().empty()) {
        return page.say("override.which-condition");
    }
    const int left = page.scene.policy.rules.pin_digits_least - static_cast<int>(draft.pin.size());
    if (page.by() == OverrideBy::own_pin && left > 0) {
        return page.glass.words().count("sign-in.to-go", left);
    }
    return "";
}

void tell(const OverridePage& page) {
    auto& draft = page.draft;
    Override says;
    says.hold = draft.hold;
    says.reason = draft.reason;
    if (!draft.words.text().empty()) {
        says.words = draft.words.text();
    }
    if (!draft.stage.empty()) {
        says.proviso = ProvisoSaid{draft.stage, draft.condition.text()};
    }
    if (page.by() == OverrideBy::own_pin) {
        says.pin = draft.pin;
        page.asks.tell(says);
    } else {
        page.asks.tell_said_by(says, page.scene.physician);
    }
    draft.pin.clear();
    draft.said = true;
    page.asks.sheet = Sheet::none;  // stays open where the core refuses
}

std::optional<touch::Action> own_action(const OverridePage& page) {
    if (page.by() == OverrideBy::nobody) {
        return touch::Action{.command = "ask-physician",
                             .title = page.say("override.ask", {{"name", whose_word(page.scene)}}),
                             .note = page.say("override.chip-changes"),
                             .look = touch::ActionLook::opens};
    }
    if (!missing_words(page).empty()) {
        return std::nullopt;
    }
    return touch::Action{.command = "override",
                         .title = page.say("override.override"),
                         .note = page.by() == OverrideBy::said ? said_by_words(page.glass, page.scene) : ""};
}

void take(const OverridePage& page) {
    if (page.by() == OverrideBy::nobody) {
        page.asks.person = page.scene.physician;
    } else {
        tell(page);
    }
}

void draw_foot(const OverridePage& page) {
    const auto own = own_action(page);
    if (over_fill(page.scene)) {
        if (draw_sheet_foot(page.glass, page.scene, own, page.asks) == touch::SheetTap::action) {
            take(page);
        }
        return;
    }
    (void)draw_case_prompt(page.glass, page.scene,
                           touch::Prompt{.urgency = touch::Urgency::none,
                                         .title = page.say("override.or-back"),
                                         .why = page.say("override.can-defer")},
                           page.asks);
    if (!own) {
        quiet_corner(page.glass, missing_words(page));
    } else if (touch::action(page.glass, touch::layout_for(page.glass.size()).action, *own) ==
               touch::ActionTap::action) {
        take(page);
    }
}

/// True while a keyboard has the page.
bool draw_keyboards(Glass& glass, const Scene& scene, OverrideDraft& draft, Asks& asks) {
    const auto& words = glass.words();
    if (draft.condition_keyboard) {
        draft.condition_keyboard =
            !draw_letters(glass, scene, words.say("override.condition"), draft.condition, draft.keys, asks);
        return true;
    }
    if (draft.words_keyboard) {
        draft.words_keyboard =
            !draw_letters(glass, scene, words.say("override.words"), draft.words, draft.keys, asks);
        return true;
    }
    return false;
}

}  // namespace

Asks draw_override(Glass& glass, const Scene& scene, OverrideDraft& draft) {
    Asks asks;
    if (draw_keyboards(glass, scene, draft, asks)) {
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    const auto* hold = scene.ahead_state->standing(draft.hold);
    if (hold == nullptr) {
        asks.sheet = Sheet::none;  // it has ended
        return asks;
    }
    const OverridePage page{glass, scene, draft, *hold, asks};
    draw_hold(page);
    draw_reasons(page);
    draw_proviso(page);
    if (page.by() == OverrideBy::own_pin) {
        draw_pin(page);
    } else {
        draw_no_pin(page);
    }
    if (touch::button(glass, "keep-hold", {864, 576, 400, 88}, {.title = page.say("override.keep")})) {
        asks.sheet = Sheet::none;
    }
    draw_foot(page);
    return asks;
}

}  // namespace brimline::screens
