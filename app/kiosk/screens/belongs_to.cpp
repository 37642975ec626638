// What was entered here belongs to another patient: to whom of the day's list, and why. The entries move as a
// block; both cases name each other.
#include <fmt/format.h>

#include <array>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "core/desk/today.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::array<const char*, 3> reasons{"wrong-case", "same-name", "wrong-person"};

/// Everybody of the day but this one; a sealed record takes nothing in.
std::vector<const CaseState*> others(const Scene& scene) {
    std::vector<const CaseState*> all;
    for (const auto& listed : list_of_day(scene.ahead, scene.zone, scene.now)) {
        if (listed.state->id != scene.ahead_state->id && !listed.state->sealed) {
            all.push_back(listed.state);
        }
    }
    return all;
}

void draw_cases(Glass& glass, const Scene& scene, PatientDraft& draft) {
    touch::text(glass, "belongs/head", {184, 104, 656, 36}, glass.words().say("belongs.head"),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    const auto all = others(scene);
    constexpr std::size_t room = 5;
    const bool more = all.size() > room;
    const std::size_t shown = more ? room - 1 : room;
    draft.first = draft.first >= all.size() ? 0 : draft.first;
    const auto place = [](std::size_t i) { return Rect{176, 144 + 106 * static_cast<float>(i), 672, 96}; };
    for (std::size_t i = 0; i < shown && draft.first + i < all.size(); ++i) {
        const auto& state = *all[draft.first + i];
        const touch::Row row{
            .time = state.planned ? clock_text(*state.planned, scene.zone) : std::string{},
            .title = listed_name(state.patient),
            .note = state.patient.number.value_or("–") + (state.room ? " · " + *state.room : std::string{}),
            .current = state.name == draft.belongs_to,
            .opens = false};
        if (touch::row(glass, "belongs/" + state.name, place(i), row)) {
            draft.belongs_to = state.name;
        }
    }
    if (more && touch::button(glass, "next-part", place(room - 1),
                              {.title = glass.words().say("day-list.next-part")})) {
        draft.first += shown;
    }
}

void draw_reasons(Glass& glass, PatientDraft& draft) {
    const auto& words = glass.words();
    touch::text(glass, "belongs/why", {872, 104, 384, 36}, words.say("belongs.why"),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    for (std::size_t i = 0; i < reasons.size(); ++i) {
        const auto key = fmt::format("belongs.{}", reasons[i]);
        if (touch::button(glass, fmt::format("why/{}", reasons[i]),
                          {864, 144 + 106 * static_cast<float>(i), 400, 96},
                          {.title = words.say(key),
                           .look = draft.why == key ? touch::Look::chosen : touch::Look::rest,
                           .tick = false,
                           .corner_tick = true})) {
            draft.why = key;
        }
    }
    touch::panel(glass, {864, 462, 400, 202});
    touch::text(glass, "belongs/both", {884, 472, 360, 182}, words.say("belongs.both"),
                {.colour = glass.colours().text_2, .stand = touch::Stand::top, .lines = 6});
}

}  // namespace

Asks draw_belongs_to(Glass& glass, const Scene& scene, PatientDraft& draft) {
    Asks asks;
    const auto& words = glass.words();
    draw_case_frame_bare(glass, scene, asks);
    draw_cases(glass, scene, draft);
    draw_reasons(glass, draft);
    if (sheet_prompt(glass, scene, {.urgency = touch::Urgency::medium, .title = words.say("room.belongs")},
                     asks)) {
        asks.sheet = Sheet::none;
    }
    const auto* target = draft.belongs_to.empty() ? nullptr : scene.ahead.find_case(draft.belongs_to);
    if (target == nullptr || draft.why.empty()) {
        quiet_corner(glass, words.say(target == nullptr ? "belongs.tap" : "belongs.tap-why"));
        return asks;
    }
    const touch::Action move{
        .command = "move-entries",
        .title = words.say("belongs.move", {{"name", target->patient.family_name.value_or("–")}}),
        .note = words.say("belongs.move-note")};
    if (touch::action(glass, touch::layout_for(glass.size()).action, move) == touch::ActionTap::action) {
        BelongsTo says;
        says.to = draft.belongs_to;
        says.reason = words.say(draft.why);
        asks.tell(says);
        asks.page = Page::day_list;  // stays where the core refuses, and tells why
        draft = {};
    }
    return asks;
}

}  // namespace brimline::screens
