// What is entered of a balloon in place: a contact with its way and outcome and what comes next, the closing
// with what it is known from and its proof, and the search given up by coordinator and physician, a PIN each.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/entry_parts.h"
#include "app/kiosk/screens/names.h"

namespace brimline::screens {
namespace {

using touch::Rect;
using Letters = RegisterDrafts::Letters;

void head(const EntryPage& page, const char* key, float y) {
    touch::text(page.glass, key, {872, y, 384, 28}, page.say(key),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
}

touch::Button key_face(const std::string& title, bool chosen) {
    return {.title = title,
            .look = chosen ? touch::Look::chosen : touch::Look::rest,
            .em = touch::step::note,
            .tick = false,
            .corner_tick = true};
}

void draw_items(const EntryPage& page, const char* name, const std::vector<ListItem>& items, Rect area,
                int columns, int rows, std::string& into) {
    for (std::size_t i = 0; i < items.size() && i < static_cast<std::size_t>(columns * rows); ++i) {
        const auto place =
            touch::cell(area, columns, rows, static_cast<int>(i) % columns, static_cast<int>(i) / columns, 8);
        if (touch::button(page.glass, fmt::format("{}/{}", name, items[i].id), place,
                          key_face(items[i].words, into == items[i].id))) {
            into = items[i].id;
        }
    }
}

void draw_letters_key(const EntryPage& page, const char* name, Rect place, Letters letters,
                      const std::string& typed, const char* key) {
    if (touch::button(page.glass, name, place,
                      {.title = typed.empty() ? page.say(key) : typed,
                       .look = typed.empty() ? touch::Look::rest : touch::Look::chosen,
                       .em = touch::step::note,
                       .tick = false})) {
        page.drafts.text = touch::TextDraft{60};
        page.drafts.text.set(typed);
        page.drafts.letters = letters;
    }
}

/// When to call again; the same key once more takes it back.
void draw_again(const EntryPage& page, Rect area) {
    int i = 0;
    for (const int days : {1, 3, 7, 14}) {
        const bool chosen = page.drafts.again_days == days;
        if (touch::button(page.glass, fmt::format("again/{}", days), touch::cell(area, 4, 1, i++, 0, 8),
                          key_face(page.glass.words().count("removal.days", days), chosen))) {
            page.drafts.again_days = chosen ? std::nullopt : std::optional{days};
        }
    }
}

bool corner_tapped(const EntryPage& page, const touch::Action& shown) {
    return touch::action(page.glass, touch::layout_for(page.glass.size()).action, shown) ==
           touch::ActionTap::action;
}

void tell_call(const EntryPage& page) {
    auto& drafts = page.drafts;
    Call says;
    says.entry = drafts.entry;
    says.way = drafts.way;
    says.outcome = drafts.outcome;
    if (drafts.again_days) {
        const auto today = page.scene.zone.date_of(page.scene.now);
        says.next = NextStep{add_days(today, *drafts.again_days), {}};
        says.owner = page.scene.person;
    }
    if (!drafts.words.empty()) {
        says.words = drafts.words;
    }
    says.number = page.entry.state->patient.phone;
    page.tell(says);
    drafts.to_ways();
}

constexpr std::array closings{Closing::removed, Closing::passed,      Closing::out_elsewhere,
                              Closing::died,    Closing::transferred, Closing::declined};

void tell_close(const EntryPage& page) {
    auto& drafts = page.drafts;
    CloseEntry says;
    says.entry = drafts.entry;
    says.outcome = *drafts.closing;
    says.known_from = drafts.known_from;
    says.proof = drafts.proof;
    page.tell(says);
    drafts.to_ways();
}

/// Those who may say it with the chosen person: of coordinator and physician the other.
std::vector<const PersonKnown*> partners(const EntryPage& page) {
    std::vector<const PersonKnown*> all;
    const auto* own = page.scene.desk.person(page.scene.person);
    if (own == nullptr) {
        return all;
    }
    for (const auto& [id, person] : page.scene.desk.people) {
        const bool other = (own->has(Role::coordinator) && person.has(Role::physician)) ||
                           (own->has(Role::physician) && person.has(Role::coordinator));
        if (other && person.active && id != page.scene.person) {
            all.push_back(&person);
        }
    }
    return all;
}

/// The PIN that is typed now: that of the chosen person, then that of the second.
std::size_t pin_in_hand(const EntryPage& page) {
    const auto need = static_cast<std::size_t>(page.scene.policy.rules.pin_digits_least);
    return page.drafts.pins[0].size() < need ? 0 : 1;
}

void press_pin(const EntryPage& page, touch::PadKey key) {
    const auto need = static_cast<std::size_t>(page.scene.policy.rules.pin_digits_least);
    auto& pins = page.drafts.pins;
    auto which = pin_in_hand(page);
    if (key == touch::PadKey::erase) {
        which = pins[1].empty() ? 0 : 1;
        if (!pins[which].empty()) {
            pins[which].pop_back();
        }
    } else if (key != touch::PadKey::point && pins[which].size() < need) {
        pins[which] += static_cast<char>('0' + static_cast<int>(key));
    }
}

}  // namespace

void draw_call(const EntryPage& page) {
    auto& drafts = page.drafts;
    const auto& lists = page.scene.policy.lists;
    head(page, "register.way", 104);
    draw_items(page, "way", lists.call_ways, {864, 130, 400, 152}, 2, 2, drafts.way);
    head(page, "register.outcome", 284);
    draw_items(page, "outcome", lists.call_outcomes, {864, 310, 400, 152}, 3, 2, drafts.outcome);
    head(page, "register.again", 464);
    draw_again(page, {864, 490, 400, 84});
    const Rect row{864, 582, 400, 82};
    draw_letters_key(page, "call-words", touch::cell(row, 2, 1, 0, 0, 8), Letters::call_words, drafts.words,
                     "register.type-words");
    if (touch::button(page.glass, "entry-back", touch::cell(row, 2, 1, 1, 0, 8),
                      {.title = page.say("touch.back")})) {
        drafts.to_ways();
        return;
    }
    if (drafts.way.empty() || drafts.outcome.empty()) {
        quiet_corner(page.glass, page.say(drafts.way.empty() ? "register.tap-way" : "register.tap-outcome"));
        return;
    }
    if (corner_tapped(page, {.command = "enter-call",
                             .title = item_words(lists.call_outcomes, drafts.outcome),
                             .note = item_words(lists.call_ways, drafts.way)})) {
        tell_call(page);
    }
}

void draw_close_entry(const EntryPage& page) {
    auto& drafts = page.drafts;
    head(page, "register.how-it-ended", 104);
    for (std::size_t i = 0; i < closings.size(); ++i) {
        const auto name = std::string{name_of(closings[i])};
        const auto place =
            touch::cell({864, 130, 400, 232}, 2, 3, static_cast<int>(i % 2), static_cast<int>(i / 2), 8);
        if (touch::button(page.glass, "closing/" + name, place,
                          key_face(page.say("register.closing-" + name), drafts.closing == closings[i]))) {
            drafts.closing = closings[i];
        }
    }
    draw_letters_key(page, "known-from", {864, 370, 400, 72}, Letters::known_from, drafts.known_from,
                     "register.type-known-from");
    head(page, "register.proof", 444);
    int i = 0;
    for (const auto proof : {Proof::document, Proof::image, Proof::none}) {
        const auto name = std::string{name_of(proof)};
        if (touch::button(page.glass, "proof/" + name, touch::cell({864, 472, 400, 72}, 3, 1, i++, 0, 8),
                          key_face(page.say("register.proof-" + name), drafts.proof == proof))) {
            drafts.proof = proof;
        }
    }
    touch::text(page.glass, "close/why", {872, 546, 384, 28}, page.say("register.without-proof"),
                {.colour = page.glass.colours().text_2, .lines = 1});
    draw_entry_back(page);
    const char* missing = !drafts.closing             ? "register.tap-closing"
                          : drafts.known_from.empty() ? "register.type-known-from"
                          : !drafts.proof             ? "register.tap-proof"
                                                      : nullptr;
    if (missing != nullptr) {
        quiet_corner(page.glass, page.say(missing));
    } else if (corner_tapped(page,
                             {.command = "close-entry",
                              .title = page.say(fmt::format("register.closing-{}", name_of(*drafts.closing))),
                              .note = page.say(fmt::format("register.proof-{}", name_of(*drafts.proof)))})) {
        tell_close(page);
    }
}

void draw_lost(const EntryPage& page) {
    auto& drafts = page.drafts;
    const auto all = partners(page);
    if (all.empty()) {
        touch::text(page.glass, "lost/who", {872, 112, 384, 200}, page.say("register.lost-needs-two"),
                    {.em = touch::step::body, .stand = touch::Stand::top, .lines = 6});
        draw_entry_back(page);
        quiet_corner(page.glass, page.say("register.lost-needs-two-short"));
        return;
    }
    for (std::size_t i = 0; i < all.size() && i < 3; ++i) {
        if (touch::button(page.glass, "second/" + all[i]->id,
                          touch::cell({864, 104, 400, 72}, 3, 1, static_cast<int>(i), 0, 8),
                          key_face(short_name(all[i]->name), drafts.second == all[i]->id))) {
            drafts.second = all[i]->id;
        }
    }
    const auto need = page.scene.policy.rules.pin_digits_least;
    const auto which = pin_in_hand(page);
    const auto whose = which == 0 ? page.scene.person : drafts.second;
    touch::text(page.glass, "lost/pin", {872, 180, 200, 60},
                page.say("sign.pin-for", {{"name", short_name(page.scene.desk, whose)}}), {.bold = true});
    touch::pin_dots(page.glass, {1076, 184, 188, 52}, static_cast<int>(drafts.pins[which].size()), need);
    if (!drafts.second.empty()) {
        if (const auto key = touch::keypad(page.glass, "pad", {864, 248, 400, 320}, false, 8)) {
            press_pin(page, *key);
        }
    }
    draw_entry_back(page);
    const bool both = drafts.pins[0].size() == static_cast<std::size_t>(need) &&
                      drafts.pins[1].size() == static_cast<std::size_t>(need);
    if (drafts.second.empty() || !both) {
        quiet_corner(page.glass,
                     page.say(drafts.second.empty() ? "register.who-with" : "register.both-pins"));
    } else if (corner_tapped(page, {.command = "enter-lost", .title = page.say("register.lost")})) {
        LostToFollowUp says;
        says.entry = drafts.entry;
        says.second = drafts.second;
        says.pins = {{page.scene.person, drafts.pins[0]}, {drafts.second, drafts.pins[1]}};
        page.tell(says);
        drafts.to_ways();
    }
}

}  // namespace brimline::screens
