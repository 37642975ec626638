// Changing the day's list: a case is moved earlier or later or to another room, or cancelled, each with a
// reason; and the name of a new case.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/list_parts.h"
#include "app/kiosk/screens/names.h"
#include "core/desk/today.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t rows_on_page = 5;
constexpr const char* other = "list.other";  // opens the keyboard
constexpr std::array reasons{"list.swap", "list.late", "list.room", "list.wish", "list.ill", "list.other"};

const CaseState* chosen_of(const Scene& scene, const ListDrafts& drafts) {
    const auto* state = drafts.name.empty() ? nullptr : scene.desk.find_case(drafts.name);
    return state != nullptr && !state->cancelled ? state : nullptr;
}

void draw_cases(Glass& glass, const Scene& scene, ListDrafts& drafts) {
    const auto list = list_of_day(scene.book, scene.zone, scene.now);
    drafts.first = drafts.first >= list.size() ? 0 : drafts.first;
    for (std::size_t i = 0; i < rows_on_page && drafts.first + i < list.size(); ++i) {
        const auto& state = *list[drafts.first + i].state;
        const touch::Row row{.time = state.planned ? clock_text(*state.planned, scene.zone) : std::string{},
                             .title = listed_name(state.patient),
                             .note = glass.words().say(fmt::format("day-list.kind-{}", name_of(state.kind))) +
                                     (state.room ? " · " + *state.room : std::string{}),
                             .current = state.name == drafts.name,
                             .opens = false};
        if (touch::row(glass, "case/" + state.name, {176, 104 + 96 * static_cast<float>(i), 672, 88}, row)) {
            drafts = ListDrafts{};
            drafts.name = state.name;
        }
    }
    if (list.size() > rows_on_page && touch::button(glass, "next-part", {176, 588, 672, 76},
                                                    {.title = glass.words().say("day-list.next-part")})) {
        drafts.first += rows_on_page;
    }
}

void draw_shift(Glass& glass, const Scene& scene, const CaseState& state, ListDrafts& drafts) {
    const Rect panel{864, 104, 400, 150};
    touch::panel(glass, panel);
    const auto planned = state.planned.value_or(scene.now) + std::chrono::minutes{drafts.shift_min};
    panel_head(glass, "shift/head", panel, glass.words().say("list.planned"),
               clock_text(planned, scene.zone));
    constexpr std::array steps{-30, -5, 5, 30};
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (touch::button(glass, fmt::format("shift/{}", steps[i]),
                          touch::cell({880, 150, 368, 88}, 4, 1, static_cast<int>(i), 0, 8),
                          {.title = fmt::format("{}{}", steps[i] < 0 ? "−" : "+", std::abs(steps[i])),
                           .note = glass.words().say("list.min")})) {
            drafts.shift_min += steps[i];
        }
    }
}

void draw_rooms(Glass& glass, const Scene& scene, const CaseState& state, ListDrafts& drafts) {
    const auto& rooms = scene.policy.clinic.rooms;
    const auto shown = std::min<std::size_t>(rooms.size(), 3);
    const auto here = drafts.room.empty() ? state.room.value_or("") : drafts.room;
    for (std::size_t i = 0; i < shown; ++i) {
        if (touch::button(
                glass, "room/" + rooms[i],
                touch::cell({864, 264, 400, 74}, static_cast<int>(shown), 1, static_cast<int>(i), 0, 8),
                {.title = rooms[i],
                 .look = rooms[i] == here ? touch::Look::chosen : touch::Look::rest,
                 .em = touch::step::note,
                 .corner_tick = true})) {
            drafts.room = rooms[i];
        }
    }
}

void draw_reasons(Glass& glass, ListDrafts& drafts) {
    for (std::size_t i = 0; i < reasons.size(); ++i) {
        if (touch::button(
                glass, fmt::format("why/{}", reasons[i]),
                touch::cell({864, 346, 400, 234}, 2, 3, static_cast<int>(i % 2), static_cast<int>(i / 2), 8),
                {.title = glass.words().say(reasons[i]),
                 .look = drafts.reason == reasons[i] ? touch::Look::chosen : touch::Look::rest,
                 .em = touch::step::note,
                 .corner_tick = true})) {
            drafts.reason = reasons[i];
            drafts.keyboard = drafts.reason == other;
        }
    }
}

/// The reason as it is recorded.
std::string reason_words(const Glass& glass, const ListDrafts& drafts) {
    const bool typed = drafts.reason == other && !drafts.words.text().empty();
    return typed ? drafts.words.text() : glass.words().say(drafts.reason);
}

void tell_move(const Glass& glass, const CaseState& state, const ListDrafts& drafts, Asks& asks) {
    Move says;
    if (drafts.shift_min != 0 && state.planned) {
        says.planned = *state.planned + std::chrono::minutes{drafts.shift_min};
    }
    if (!drafts.room.empty() && drafts.room != state.room) {
        says.room = drafts.room;
    }
    says.reason = reason_words(glass, drafts);
    asks.say.push_back({says, {}, {}, {}, false, state.name});
    asks.page = Page::day_list;
}

void draw_corner(Glass& glass, const CaseState& state, ListDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const bool changes =
        drafts.shift_min != 0 || (!drafts.room.empty() && drafts.room != state.room.value_or(""));
    if (drafts.reason.empty() || !changes) {
        quiet_corner(glass, words.say(drafts.reason.empty() ? "list.reason-first" : "list.time-or-room"));
        return;
    }
    const touch::Action move{
        .command = "move", .title = words.say("list.move"), .note = words.say("list.fasting-anew")};
    if (touch::action(glass, touch::layout_for(glass.size()).action, move) == touch::ActionTap::action) {
        tell_move(glass, state, drafts, asks);
        drafts = ListDrafts{};
    }
}

}  // namespace

bool draw_desk_letters(Glass& glass, const Scene& scene, const std::string& label, touch::TextDraft& text,
                       touch::KeyboardState& keys) {
    draw_desk_strip(glass, scene, label, "");
    text.take(glass.input().typing);
    touch::text_field(glass, "letters", {36, 112, 1208, 152}, {.label = label}, text);
    touch::keyboard(glass, {16, 292, 1248, 496}, keys, text);
    const touch::Action done{.command = "letters-done",
                             .title = glass.words().say("place.letters-done"),
                             .look = touch::ActionLook::opens};
    return touch::action(glass, touch::layout_for(glass.size()).action, done) == touch::ActionTap::action;
}

std::string free_name(const Desk& desk, const std::string& letters) {
    std::size_t number = desk.case_order.size() + 1;
    while (desk.find_case(letters + std::to_string(number)) != nullptr) {
        ++number;
    }
    return letters + std::to_string(number);
}

Asks draw_change_list(Glass& glass, const Scene& scene, ListDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    if (drafts.keyboard) {
        drafts.keyboard =
            !draw_desk_letters(glass, scene, words.say("list.type-reason"), drafts.words, drafts.keys);
        return asks;
    }
    draw_desk_frame(glass, scene, words.say("list.title"), words.say("list.each-with-reason"), asks);
    draw_cases(glass, scene, drafts);
    const auto* state = chosen_of(scene, drafts);
    if (state == nullptr) {
        touch::text(glass, "list/choose", {872, 110, 384, 70}, words.say("list.tap-a-case"),
                    {.em = touch::step::body, .bold = true});
        quiet_corner(glass, words.say("list.tap-a-case"));
    } else {
        draw_shift(glass, scene, *state, drafts);
        draw_rooms(glass, scene, *state, drafts);
        draw_reasons(glass, drafts);
        if (!drafts.reason.empty() &&
            touch::button(
                glass, "cancel-case", {864, 588, 400, 76},
                {.title = words.say("list.cancel", {{"name", state->patient.family_name.value_or("–")}}),
                 .em = touch::step::note})) {
            asks.say.push_back({Cancel{reason_words(glass, drafts)}, {}, {}, {}, false, state->name});
            asks.page = Page::day_list;
            drafts = ListDrafts{};
            return asks;
        }
        draw_corner(glass, *state, drafts, asks);
    }
    draw_desk_prompt(glass, scene,
                     {.urgency = touch::Urgency::low,
                      .title = words.say("list.stays-in-the-record"),
                      .why = words.say("list.old-and-new")});
    return asks;
}

}  // namespace brimline::screens
