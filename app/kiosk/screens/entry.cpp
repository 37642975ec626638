// One entry of the register: what is known of the balloon, its calls, and what may be entered of it: a call,
// a flag, its closing with proof, or that two people give up the search.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/entry_parts.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/list_parts.h"
#include "app/kiosk/screens/names.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Part = RegisterDrafts::Part;
using Letters = RegisterDrafts::Letters;

void draw_facts(const EntryPage& page) {
    const auto& entry = page.entry;
    const auto& p = entry.placement;
    const auto& patient = entry.state->patient;
    const Rect panel{176, 104, 672, 388};
    touch::panel(page.glass, panel);
    panel_head(page.glass, "entry/head", panel,
               patient.number.value_or("–") + " · " + patient.phone.value_or(page.say("register.no-phone")),
               page.say(fmt::format("register.status-{}", static_cast<int>(entry.status))));
    std::string flags;
    for (const auto& flag : entry.flags) {
        flags += (flags.empty() ? "" : ", ") + flag;
    }
    auto lot = p.lot.value_or(page.say("arrival.not-known"));
    lot += p.serial ? " · " + *p.serial : std::string{};
    const std::array<std::pair<const char*, std::string>, 8> lines{{
        {"placed", shown_date(page.glass, p.placed)},
        {"volume", p.volume ? ml_words(page.glass, *p.volume) : page.say("arrival.not-known")},
        {"lot", lot},
        {"book-by", shown_date(page.glass, p.book_by)},
        {"due", shown_date(page.glass, p.due)},
        {"flags", flags.empty() ? page.say("removal.none") : flags},
        {"next", entry.next ? entry.next->say : page.say("register.closed-verified")},
        {"owner", entry.next ? short_name(page.scene.desk, entry.next->owner) + " · " +
                                   shown_date(page.glass, entry.next->date)
                             : std::string{"–"}},
    }};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const bool wide = i >= 6;
        list_line(page.glass, fmt::format("entry/{}", lines[i].first),
                  {196, 148 + 42 * static_cast<float>(i), 632, 40},
                  page.say(fmt::format("register.line-{}", lines[i].first)), lines[i].second,
                  wide ? 150.0F : 220.0F);
    }
}

void draw_calls(const EntryPage& page) {
    const Rect panel{176, 504, 672, 160};
    touch::panel(page.glass, panel);
    const auto& calls = page.entry.state->calls;
    panel_head(page.glass, "calls/head", {panel.x, panel.y - 6, panel.w, panel.h}, page.say("register.calls"),
               page.glass.words().count("register.calls-n", static_cast<long>(calls.size())));
    constexpr std::size_t room = 3;
    const std::size_t from = calls.size() > room ? calls.size() - room : 0;
    for (std::size_t i = from; i < calls.size(); ++i) {
        const auto& is = calls[i].is;
        auto words = item_words(page.scene.policy.lists.call_ways, is.way.value_or("phone")) + ", " +
                     item_words(page.scene.policy.lists.call_outcomes, is.outcome);
        words += is.words ? ": " + *is.words : std::string{};
        list_line(page.glass, fmt::format("call/{}", i + 1),
                  {196, 540 + 40 * static_cast<float>(i - from), 632, 38},
                  shown_date(page.glass, page.scene.zone.date_of(calls[i].stamp.happened)), words, 160);
    }
    if (calls.empty()) {
        touch::text(page.glass, "calls/none", {196, 544, 632, 60}, page.say("register.no-calls"),
                    {.colour = page.glass.colours().text_2, .lines = 1});
    }
}

bool draw_way(const EntryPage& page, int row, const char* name, const std::string& note) {
    return touch::button(page.glass, name, touch::cell({864, 104, 400, 560}, 1, 5, 0, row, 12),
                         {.title = page.say(fmt::format("register.{}", name)), .note = note});
}

void draw_ways(const EntryPage& page) {
    if (draw_way(page, 0, "flag-it", page.say("register.flag-note"))) {
        page.drafts.to_ways();
        page.drafts.part = Part::flag;
    }
    if (draw_way(page, 1, "close-it", page.say("register.close-note"))) {
        page.drafts.to_ways();
        page.drafts.part = Part::close;
    }
    if (draw_way(page, 2, "lost", page.say("register.lost-note"))) {
        page.drafts.to_ways();
        page.drafts.part = Part::lost;
    }
    if (draw_way(page, 3, "open-case", page.entry.state->name)) {
        page.asks.open_case = page.entry.state->name;
        page.asks.page = page_of_case(*page.entry.state, page.scene);
    }
    if (draw_way(page, 4, "back-to-register", "")) {
        page.asks.page = Page::register_list;
    }
    const touch::Action call{.command = "log-a-call",
                             .title = page.say("register.log-a-call"),
                             .note = listed_name(page.entry.state->patient),
                             .look = touch::ActionLook::opens};
    if (touch::action(page.glass, touch::layout_for(page.glass.size()).action, call) ==
        touch::ActionTap::action) {
        page.drafts.to_ways();
        page.drafts.part = Part::call;
    }
}

/// One tap raises a flag; it never hides a date.
void draw_flags(const EntryPage& page) {
    const auto& flags = page.scene.policy.lists.flags;
    for (std::size_t i = 0; i < flags.size() && i < 4; ++i) {
        const bool raised = std::find(page.entry.flags.begin(), page.entry.flags.end(), flags[i].id) !=
                            page.entry.flags.end();
        if (touch::button(
                page.glass, "flag/" + flags[i].id,
                touch::cell({864, 104, 400, 448}, 1, 4, 0, static_cast<int>(i), 12),
                {.title = flags[i].words, .look = raised ? touch::Look::review : touch::Look::rest}) &&
            !raised) {
            Flag says;
            says.entry = page.drafts.entry;
            says.flag = flags[i].id;
            page.tell(says);
            page.drafts.to_ways();
        }
    }
    draw_entry_back(page);
    quiet_corner(page.glass, page.say("register.tap-a-flag"));
}

const char* letters_key(Letters letters) {
    return letters == Letters::call_words ? "register.type-words" : "register.type-known-from";
}

/// What the keyboard typed goes where it was asked for.
void take_letters(RegisterDrafts& drafts) {
    (drafts.letters == Letters::call_words ? drafts.words : drafts.known_from) = drafts.text.text();
    drafts.letters = Letters::none;
}

}  // namespace

std::string item_words(const std::vector<ListItem>& list, const std::string& id) {
    const auto item =
        std::find_if(list.begin(), list.end(), [&](const ListItem& one) { return one.id == id; });
    return item == list.end() ? id : item->words;
}

void EntryPage::tell(Statement says) const {
    asks.say.push_back({std::move(says), {}, {}, {}, false, entry.state->name});
}

void draw_entry_back(const EntryPage& page) {
    if (touch::button(page.glass, "entry-back", {864, 576, 400, 88}, {.title = page.say("touch.back")})) {
        page.drafts.to_ways();
    }
}

Asks draw_entry(Glass& glass, const Scene& scene, RegisterDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    if (drafts.letters != Letters::none) {
        if (draw_desk_letters(glass, scene, words.say(letters_key(drafts.letters)), drafts.text,
                              drafts.keys)) {
            take_letters(drafts);
        }
        return asks;
    }
    const auto* state = scene.desk.case_of_entry(drafts.entry);
    const auto entry = state == nullptr ? std::nullopt
                                        : entry_on(*state, scene.desk, scene.policy, scene.zone,
                                                   scene.zone.date_of(scene.now));
    if (!entry) {
        asks.page = Page::register_list;
        draw_desk_frame(glass, scene, words.say("register.title"), "", asks);
        return asks;
    }
    draw_desk_frame(glass, scene, listed_name(entry->state->patient), words.say("register.note"), asks);
    const EntryPage page{glass, scene, *entry, drafts, asks};
    draw_facts(page);
    draw_calls(page);
    const bool late = entry->status == EntryStatus::overdue;
    (void)draw_desk_prompt(glass, scene,
                           {.urgency = late ? touch::Urgency::high : touch::Urgency::low,
                            .title = entry->next ? entry->next->say : words.say("register.closed-verified"),
                            .why = words.say("register.until-proof")});
    switch (drafts.part) {
        case Part::ways:
            draw_ways(page);
            break;
        case Part::call:
            draw_call(page);
            break;
        case Part::flag:
            draw_flags(page);
            break;
        case Part::close:
            draw_close_entry(page);
            break;
        case Part::lost:
            draw_lost(page);
            break;
    }
    return asks;
}

}  // namespace brimline::screens
