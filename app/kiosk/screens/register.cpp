// The register: every balloon with its next action, a date and an owner, the most urgent first. What is
// overdue stands on top of every part of the list, so that turning over cannot lose it, and the foot counts
// it.
#include "core/desk/register.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/list_parts.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Filter = RegisterDrafts::Filter;

constexpr std::size_t rows_on_page = 5;
constexpr std::size_t most_pinned = 3;  // the others have room on every part

bool is_flagged(const RegisterEntry& entry, std::string_view flag) {
    return std::find(entry.flags.begin(), entry.flags.end(), flag) != entry.flags.end();
}

using Entries = std::vector<const RegisterEntry*>;

bool is_shown(const RegisterEntry& entry, const Scene& scene, Filter filter) {
    switch (filter) {
        case Filter::next:
        case Filter::by_due:
            return entry.open();
        case Filter::not_reached:
            return entry.open() &&
                   (is_flagged(entry, "not-reached") || not_reached(*entry.state, scene.policy, scene.zone));
        case Filter::closed:
            return !entry.open();
        case Filter::found:
            return true;
    }
    return false;
}

Entries filtered(const Scene& scene, const RegisterDrafts& drafts) {
    Entries all;
    if (drafts.filter == Filter::found) {
        for (const auto place : scene.book.named(drafts.find)) {
            all.push_back(&scene.book.at(place));
        }
        return all;
    }
    for (std::size_t i = 0; i < scene.book.size(); ++i) {
        if (is_shown(scene.book.at(i), scene, drafts.filter)) {
            all.push_back(&scene.book.at(i));
        }
    }
    if (drafts.filter == Filter::by_due) {
        std::stable_sort(all.begin(), all.end(), [](const RegisterEntry* a, const RegisterEntry* b) {
            return a->placement.due < b->placement.due;
        });
    }
    return all;
}

/// The part of the list that is shown: those overdue first, then where the list was turned to.
Entries shown_of(const Entries& all, std::size_t& first, LocalDate today) {
    Entries shown;
    Entries others;
    for (const auto* entry : all) {
        (is_overdue(*entry, today) && shown.size() < most_pinned ? shown : others).push_back(entry);
    }
    const auto free = rows_on_page - shown.size();
    first = first >= others.size() ? 0 : first;
    for (std::size_t i = first; i < others.size() && i < first + free; ++i) {
        shown.push_back(others[i]);
    }
    return shown;
}

std::string days_words(const Glass& glass, const RegisterEntry& entry) {
    const auto& words = glass.words();
    if (entry.out) {
        return words.say(fmt::format("register.status-{}", static_cast<int>(entry.status)));
    }
    return entry.days_left < 0    ? words.count("day-list.days-overdue", -entry.days_left)
           : entry.days_left == 0 ? words.say("register.today")
                                  : words.count("day-list.days-left", entry.days_left);
}

touch::Icon icon_of(const RegisterEntry& entry, LocalDate today) {
    if (!entry.open()) {
        return touch::Icon::good;
    }
    const bool late = is_overdue(entry, today) || is_flagged(entry, "not-reached");
    return late ? touch::Icon::stop : entry.next->date <= today ? touch::Icon::look : touch::Icon::good;
}

bool draw_row(Glass& glass, const Scene& scene, Rect place, const RegisterEntry& entry) {
    const auto& c = glass.colours();
    const auto& words = glass.words();
    const auto name = "entry/" + entry.placement.entry;
    const auto touched = glass.touch({.name = name, .rect = place, .hit = place, .kind = touch::Kind::row});
    const bool late = is_overdue(entry, scene.zone.date_of(scene.now));
    touch::fill(glass, place,
                touched.pressed ? c.chosen
                : late          ? c.stop_tint
                                : c.panel,
                touch::control_radius);
    touch::outline(glass, place, late ? c.stop : c.line, 2, touch::control_radius);
    const auto two = [&](const char* slot, float x, float w, const std::string& upper,
                         const std::string& lower, bool strong) {
        touch::text(glass, fmt::format("{}/{}", name, slot), {x, place.y + 4, w, 38}, upper,
                    {.bold = strong, .lines = 1, .may_cut = true});
        touch::text(glass, fmt::format("{}/{}-below", name, slot), {x, place.y + 42, w, 34}, lower,
                    {.colour = c.text_2, .lines = 1, .may_cut = true});
    };
    two("who", 196, 224, listed_name(entry.state->patient), entry.state->patient.number.value_or("–"), true);
    two("placed", 428, 188, shown_date(glass, entry.placement.placed),
        entry.placement.volume ? ml_words(glass, *entry.placement.volume) : words.say("arrival.not-known"),
        false);
    two("due", 624, 168, shown_date(glass, entry.placement.due), days_words(glass, entry), true);
    touch::icon(glass, icon_of(entry, scene.zone.date_of(scene.now)), {814, place.y + 40}, 28);
    touch::text(glass, name + "/next", {836, place.y + 4, 252, 72},
                entry.next ? entry.next->say : words.say("register.closed-verified"),
                {.bold = true, .lines = 2, .may_cut = true});
    two("by", 1094, 140,
        entry.next  ? shown_date(glass, entry.next->date)
        : entry.out ? shown_date(glass, *entry.out)
                    : std::string{"–"},
        entry.next ? short_name(scene.desk, entry.next->owner) : "", true);
    touch::icon(glass, touch::Icon::opens, {place.right() - 16, place.y + 40}, 18, c.line, c.panel);
    return touched.fired;
}

void draw_filters(Glass& glass, RegisterDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const auto place = [](int i) { return touch::cell({176, 104, 1088, 76}, 7, 1, i, 0, 8); };
    const auto filter = [&](int i, const char* name, Filter which) {
        if (touch::button(glass, fmt::format("filter/{}", name), place(i),
                          {.title = words.say(fmt::format("register.{}", name)),
                           .look = drafts.filter == which ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true})) {
            drafts.filter = which;
            drafts.first = 0;
        }
    };
    filter(0, "what-is-next", Filter::next);
    filter(1, "not-reached", Filter::not_reached);
    filter(2, "by-due", Filter::by_due);
    filter(3, "closed", Filter::closed);
    if (touch::button(glass, "to-lots", place(4),
                      {.title = words.say("register.by-lot"), .em = touch::step::note})) {
        asks.page = Page::lots;
    }
    if (touch::button(glass, "find", place(6),
                      {.title = words.say("register.find"),
                       .look = drafts.filter == Filter::found ? touch::Look::chosen : touch::Look::rest,
                       .em = touch::step::note,
                       .tick = false,
                       .corner_tick = true})) {
        drafts.text = touch::TextDraft{40};
        drafts.keys = {};
        drafts.letters = RegisterDrafts::Letters::find;
    }
    if (touch::button(glass, "to-month", place(5),
                      {.title = words.say("register.month"), .em = touch::step::note})) {
        asks.page = Page::month;
    }
}

void draw_heads(Glass& glass) {
    struct Head {
        const char* name;
        float x, width;
    };
    constexpr std::array<Head, 5> heads{{{"patient", 196, 224},
                                         {"placed", 428, 188},
                                         {"due", 624, 168},
                                         {"next", 836, 272},
                                         {"by", 1112, 116}}};
    for (const auto& [name, x, width] : heads) {
        touch::text(glass, fmt::format("head/{}", name), {x, 184, width, 32},
                    glass.words().say(fmt::format("register.head-{}", name)),
                    {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    }
}

/// The foot: how many are overdue and who is so the longest; a tap opens that entry.
void draw_foot(Glass& glass, const Scene& scene, const Entries& all, Asks& asks) {
    const auto& words = glass.words();
    touch::Prompt prompt{.title = words.count("register.count", static_cast<long>(all.size())),
                         .why = words.say("register.until-proof")};
    const auto worst = std::find_if(all.begin(), all.end(),
                                    [&](const auto* entry) { return is_overdue(*entry, scene.book.on()); });
    if (const auto late = scene.book.overdue(); late > 0) {
        prompt.urgency = touch::Urgency::high;
        prompt.title = words.count("register.overdue", static_cast<long>(late));
        if (worst != all.end()) {
            prompt.title += ": " + listed_name((*worst)->state->patient);
        }
    }
    if (draw_desk_prompt(glass, scene, prompt) && worst != all.end()) {
        asks.entry = (*worst)->placement.entry;
        asks.page = Page::entry;
    }
}

}  // namespace

Asks draw_register(Glass& glass, const Scene& scene, RegisterDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    if (drafts.letters == RegisterDrafts::Letters::find) {
        if (draw_desk_letters(glass, scene, words.say("register.find-what"), drafts.text, drafts.keys)) {
            drafts.find = drafts.text.text();
            drafts.filter = drafts.find.empty() ? Filter::next : Filter::found;
            drafts.first = 0;
            drafts.letters = RegisterDrafts::Letters::none;
        }
        return asks;
    }
    draw_desk_frame(glass, scene, words.say("register.title"), words.say("register.note"), asks);
    draw_filters(glass, drafts, asks);
    draw_heads(glass);
    const auto all = filtered(scene, drafts);
    const auto shown = shown_of(all, drafts.first, scene.book.on());
    for (std::size_t i = 0; i < shown.size(); ++i) {
        if (draw_row(glass, scene, {176, 218 + 89 * static_cast<float>(i), 1088, 80}, *shown[i])) {
            asks.entry = shown[i]->placement.entry;
            asks.page = Page::entry;
        }
    }
    if (all.empty()) {
        touch::panel(glass, {176, 218, 1088, 80});
        touch::text(glass, "register/none", {196, 226, 1048, 64}, words.say("register.none"),
                    {.em = touch::step::act, .bold = true, .lines = 1});
    }
    draw_foot(glass, scene, all, asks);
    const auto corner = touch::layout_for(glass.size()).action;
    if (all.size() <= rows_on_page) {
        quiet_corner(glass, words.say("desk.that-is-all"));
        return asks;
    }
    const touch::Action next{
        .command = "next-part", .title = words.say("day-list.next-part"), .look = touch::ActionLook::opens};
    if (touch::action(glass, corner, next) == touch::ActionTap::action) {
        drafts.first += rows_on_page - std::min(scene.book.overdue(), most_pinned);
    }
    return asks;
}

}  // namespace brimline::screens
