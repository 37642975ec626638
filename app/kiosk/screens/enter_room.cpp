// Entering the room: day and month of birth, from the patient's mouth and typed here, while the birth date is
// covered. No match shuts what leads on, never the rescue.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/pause_view.h"
#include "core/desk/today.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

/// One frame of the page.
struct DoorPage {
    Glass& glass;
    const Scene& scene;
    RoomDrafts& drafts;
    Asks& asks;

    [[nodiscard]] const CaseState& state() const { return *scene.ahead_state; }
    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    [[nodiscard]] std::string room() const {
        const auto& rooms = scene.policy.clinic.rooms;
        return state().room.value_or(rooms.empty() ? std::string{} : rooms.front());
    }
    /// A wrong day stands, and nobody is asking again.
    [[nodiscard]] bool shut() const {
        return state().standing("identity-mismatch") != nullptr && !drafts.again;
    }
};

std::string two(int n) { return fmt::format("{:02}", n); }

void draw_box(const DoorPage& page, const char* name, float x, const std::string& digits, bool focused,
              bool wrong) {
    const auto& c = page.glass.colours();
    touch::text(page.glass, fmt::format("born/{}", name), {x, 268, 310, 34},
                page.say(fmt::format("room.{}", name)), {.colour = c.text_2, .bold = true, .lines = 1});
    const Rect box{x, 306, 310, 120};
    touch::fill(page.glass, box, c.bg, touch::control_radius);
    touch::outline(page.glass, box,
                   wrong     ? c.stop
                   : focused ? c.accent
                             : c.line,
                   wrong || focused ? 4 : 2, touch::control_radius);
    touch::numeral(page.glass, fmt::format("born/{}/value", name), box.inset(12, 8), digits,
                   {.em = touch::step::far, .align = touch::Align::centre});
}

/// The cases of this room today, or what stays possible while the case is shut.
void draw_below(const DoorPage& page) {
    const auto& c = page.glass.colours();
    touch::line(page.glass, {196, 454}, {828, 454}, c.hairline, 2);
    const auto line = [&](int i, const std::string& left, const std::string& right, bool strong) {
        const float y = 506 + 42 * static_cast<float>(i);
        const auto name = fmt::format("below/{}", i + 1);
        touch::text(page.glass, name, {196, y, 92, 38}, left, {.bold = true, .lines = 1});
        touch::text(
            page.glass, name + "/what", {292, y, 536, 38}, right,
            {.em = touch::step::body, .colour = strong ? c.text : c.text_2, .bold = strong, .lines = 1});
    };
    const bool shut = page.shut();
    touch::text(page.glass, "below/head", {196, 464, 632, 36},
                page.say(shut ? "room.still-open" : "room.on-the-list"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    if (shut) {
        line(0, page.say("room.vitals"), page.say("room.vitals-open"), true);
        line(1, page.say("room.flags"), page.say("room.flags-open"), false);
        line(2, page.say("room.facts"), page.say("room.facts-open"), false);
        return;
    }
    int i = 0;
    for (const auto& listed : list_of_day(page.scene.ahead, page.scene.zone, page.scene.now)) {
        if (i < 3 && listed.state->room == page.state().room && listed.state->planned) {
            line(i++, clock_text(*listed.state->planned, page.scene.zone),
                 listed_name(listed.state->patient) + " · " +
                     page.say(fmt::format("day-list.kind-{}", name_of(listed.state->kind))),
                 listed.state->id == page.state().id);
        }
    }
}

void draw_question(const DoorPage& page) {
    const auto& c = page.glass.colours();
    touch::panel(page.glass, {176, 104, 672, 560});
    touch::text(page.glass, "door/head", {196, 112, 632, 36},
                page.say("room.entering", {{"room", page.room()}}),
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(page.glass, "door/question", {196, 160, 632, 52}, page.say("room.question"),
                {.em = touch::step::act, .bold = true, .lines = 1});
    const bool shut = page.shut();
    const auto typed_at = shut ? clock_text(page.state().entered.back().stamp.at, page.scene.zone, true) : "";
    touch::text(page.glass, "door/how", {196, 212, 632, 36},
                shut ? page.say("room.typed-at", {{"time", typed_at}}) : page.say("room.compares"),
                {.colour = c.text_2, .lines = 1});
    auto day = page.drafts.day;
    auto month = page.drafts.month;
    if (shut) {
        const auto& said = page.state().entered.back().is.birth_day_month;
        day = said.unknown() ? "–" : two(said.day);
        month = said.unknown() ? "–" : two(said.month);
    }
    draw_box(page, "day", 196, day, !shut && !page.drafts.in_month, shut);
    draw_box(page, "month", 518, month, !shut && page.drafts.in_month, shut);
    draw_below(page);
}

void press(RoomDrafts& drafts, touch::PadKey key) {
    auto& text = drafts.in_month ? drafts.month : drafts.day;
    if (key == touch::PadKey::erase) {
        if (text.empty() && drafts.in_month) {
            drafts.in_month = false;
        } else if (!text.empty()) {
            text.pop_back();
        }
        return;
    }
    constexpr std::size_t digits = 2;
    if (text.size() < digits) {
        text += static_cast<char>('0' + static_cast<int>(key));
    }
    drafts.in_month = drafts.in_month || drafts.day.size() == digits;
}

std::optional<DayMonth> typed(const RoomDrafts& drafts) {
    constexpr std::size_t digits = 2;
    if (drafts.day.size() != digits || drafts.month.size() != digits) {
        return std::nullopt;
    }
    const DayMonth said{std::stoi(drafts.day), std::stoi(drafts.month)};
    constexpr int leap_year = 2000;
    const LocalDate date{std::chrono::year{leap_year}, std::chrono::month{static_cast<unsigned>(said.month)},
                         std::chrono::day{static_cast<unsigned>(said.day)}};
    return date.ok() ? std::optional{said} : std::nullopt;
}

void enter(const DoorPage& page, const DayMonth& said) {
    page.asks.tell(EnterRoom{page.room(), said});
    page.drafts.day.clear();
    page.drafts.month.clear();
    page.drafts.in_month = false;
    page.drafts.again = false;
    if (birthday_is(page.state(), said)) {
        page.asks.page = Page::pause_sedation;
    }
}

void draw_typing(const DoorPage& page) {
    const auto& c = page.glass.colours();
    touch::panel(page.glass, {864, 96, 400, 88});
    touch::text(page.glass, "typing/title", {884, 98, 360, 48}, page.say("room.identity"),
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(page.glass, "typing/note", {884, 146, 360, 34}, page.say("room.typed-again"),
                {.colour = c.text_2, .lines = 1});
    if (const auto key = touch::keypad(page.glass, "pad", {864, 192, 400, 376}, false, 8)) {
        press(page.drafts, *key);
    }
    const bool known = page.state().patient.born.has_value();
    const auto place = [&](int i) { return touch::cell({864, 576, 400, 88}, known ? 1 : 2, 1, i, 0, 12); };
    if (touch::button(page.glass, "another-patient", place(0), {.title = page.say("room.another")})) {
        page.asks.page = Page::day_list;
    }
    if (!known && touch::button(page.glass, "born-unknown", place(1), {.title = page.say("room.unknown")})) {
        enter(page, DayMonth{});
    }
}

void draw_shut(const DoorPage& page) {
    const auto* hold = page.state().standing("identity-mismatch");
    const auto& c = page.glass.colours();
    const Rect card{864, 104, 400, 204};
    touch::fill(page.glass, card, c.stop_tint, touch::control_radius);
    touch::outline(page.glass, card, c.stop, 3, touch::control_radius);
    touch::icon(page.glass, touch::Icon::stop, {card.x + 40, card.y + 40}, 38);
    touch::text(page.glass, "shut/title", {card.x + 72, card.y + 14, 312, 52}, page.say("room.not-the-same"),
                {.em = touch::step::act, .bold = true, .lines = 1});
    touch::text(page.glass, "shut/say", {card.x + 20, card.y + 72, 360, 124}, hold->say, {.lines = 4});
    if (touch::button(page.glass, "another-patient", {864, 320, 400, 104},
                      {.title = page.say("room.another"),
                       .note = page.say("room.pick"),
                       .bold = true,
                       .em = touch::step::act})) {
        page.asks.page = Page::day_list;
    }
    if (touch::button(page.glass, "to-arrival", {864, 436, 400, 104},
                      {.title = page.say("room.arrival"),
                       .note = page.say("room.allergies-defer"),
                       .bold = true,
                       .em = touch::step::act})) {
        page.asks.page = Page::arrival;
    }
    if (touch::button(page.glass, "belongs-to", {864, 552, 400, 104},
                      {.title = page.say("room.belongs"),
                       .note = page.say("room.belongs-note"),
                       .bold = true,
                       .em = touch::step::act})) {
        page.asks.sheet = Sheet::belongs_to;
    }
}

void draw_corner(const DoorPage& page) {
    const auto corner = touch::layout_for(page.glass.size()).action;
    if (page.shut()) {
        const touch::Action again{.command = "ask-again",
                                  .title = page.say("room.ask-again"),
                                  .note = page.say("room.day-and-month"),
                                  .look = touch::ActionLook::opens};
        if (touch::action(page.glass, corner, again) == touch::ActionTap::action) {
            page.drafts.again = true;
        }
        return;
    }
    if (const auto said = typed(page.drafts)) {
        if (touch::action(page.glass, corner,
                          {.command = "open-in-room",
                           .title = page.say("room.open", {{"room", page.room()}}),
                           .note = two(said->day) + " " + two(said->month)}) == touch::ActionTap::action) {
            enter(page, *said);
        }
        return;
    }
    quiet_corner(page.glass, page.say(page.drafts.month.size() == 2 ? "room.no-such-day" : "room.type-it"));
}

}  // namespace

Asks draw_enter_room(Glass& glass, const Scene& scene, RoomDrafts& drafts) {
    Asks asks;
    const DoorPage page{glass, scene, drafts, asks};
    draw_case_frame_bare(glass, scene, asks);
    draw_question(page);
    if (page.shut()) {
        draw_shut(page);
    } else {
        draw_typing(page);
    }
    (void)draw_case_prompt(glass, scene,
                           touch::Prompt{.urgency = touch::Urgency::low,
                                         .title = page.say("room.nobody-reads-it"),
                                         .why = page.say("room.difference")},
                           asks);
    draw_corner(page);
    return asks;
}

}  // namespace brimline::screens
