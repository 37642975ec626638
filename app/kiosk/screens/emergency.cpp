// An emergency that is not of the airway: one tap started its clock; kind, help, drugs and measures follow.
// Over Fill the corner stays Syringe in.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/letters.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

/// One frame of the sheet.
struct EmergencyPage {
    Glass& glass;
    const Scene& scene;
    const EmergencyEpisode& episode;
    EmergencyDraft& draft;
    Asks& asks;

    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
};

void withdraw(const EmergencyPage& page, const char* reason) {
    Correct says;
    says.entry = EntryRef{page.episode.start.seq, {}};
    says.withdrawn = true;
    says.reason = page.say(reason);
    page.asks.tell(says);
    page.draft = {};
}

void draw_clock(const EmergencyPage& page) {
    const auto& c = page.glass.colours();
    const Rect card{176, 104, 672, 112};
    const auto start = page.episode.start.happened;
    touch::fill(page.glass, card, c.stop_tint, touch::control_radius);
    touch::outline(page.glass, card, c.stop, 2, touch::control_radius);
    touch::icon(page.glass, touch::Icon::stop, {card.x + 44, card.y + 44}, 40);
    touch::text(page.glass, "running/title", {card.x + 84, card.y + 14, 570, 44},
                page.say("airway.emergency-for", {{"time", duration_words(page.scene.now - start)}}),
                {.em = touch::step::act, .bold = true, .lines = 1});
    const int after = syringes_after(*page.scene.ahead_state, start);
    auto note = page.say("airway.by-one-tap", {{"time", clock_text(start, page.scene.zone, true)}});
    if (after > 0) {
        note += " · " + page.glass.words().count("airway.syringes-after", after);
    }
    touch::text(page.glass, "running/note", {card.x + 84, card.y + 60, 570, 40}, note, {.lines = 1});
}

void draw_kinds(const EmergencyPage& page) {
    touch::text(page.glass, "kind/head", {184, 222, 656, 36}, page.say("airway.kind"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    const auto& kinds = page.scene.policy.lists.emergency_kinds;
    constexpr std::size_t room = 5;
    const auto place = [](std::size_t i) {
        return touch::cell({176, 260, 672, 210}, 3, 2, static_cast<int>(i % 3), static_cast<int>(i / 3), 12);
    };
    for (std::size_t i = 0; i < kinds.size() && i < room; ++i) {
        const bool chosen = page.draft.kind == kinds[i].id;
        if (touch::button(
                page.glass, "kind/" + kinds[i].id, place(i),
                {.title = kinds[i].words, .look = chosen ? touch::Look::chosen : touch::Look::rest})) {
            page.draft.kind = kinds[i].id;
        }
    }
    if (touch::button(page.glass, "airway-after-all", place(room), {.title = page.say("airway.after-all")})) {
        page.asks.say.push_back({AirwayEvent{}, {}, {}, page.episode.start.happened, false});
        withdraw(page, "airway.after-all");
        page.asks.sheet = Sheet::airway;
    }
}

void draw_while_open(const EmergencyPage& page) {
    const Rect panel{176, 492, 672, 172};
    touch::panel(page.glass, panel);
    touch::text(page.glass, "open/head", {196, 500, 632, 36}, page.say("airway.while-open"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    float y = 540;
    for (const char* key : {"airway.open-shown", "airway.open-vitals", "airway.open-who"}) {
        touch::text(page.glass, key, {196, y, 632, 34}, page.say(key), {.lines = 1});
        y += 38;
    }
}

/// One way in the grid of column B.
bool way(const EmergencyPage& page, int i, const char* name, const std::string& note, bool chosen = false) {
    const auto place = touch::cell({864, 104, 400, 440}, 2, 3, i % 2, i / 2, 12);
    return touch::button(page.glass, name, place,
                         {.title = page.say(fmt::format("airway.way-{}", name)),
                          .note = note,
                          .look = chosen ? touch::Look::chosen : touch::Look::rest,
                          .bold = true,
                          .tick = false});
}

void draw_ways(const EmergencyPage& page) {
    const auto& state = *page.scene.ahead_state;
    if (way(page, 0, "any-drug", page.say("dose.name-and-unit"))) {
        page.asks.sheet = Sheet::dose;
    }
    if (way(page, 1, "vital-signs", page.say("airway.value-pad"))) {
        page.asks.sheet = Sheet::vitals;
    }
    const bool helped =
        !state.help_called.empty() && state.help_called.back().happened >= page.episode.start.happened;
    const auto help_note = helped ? clock_text(state.help_called.back().happened, page.scene.zone, true)
                                  : page.say("airway.time-kept");
    if (way(page, 2, "help-called", help_note, helped) && !helped) {
        page.asks.tell(HelpCalled{});
    }
    const bool worded = !page.draft.measures.text().empty();
    if (way(page, 3, "measures", page.say(worded ? "airway.written" : "airway.in-words"), worded)) {
        page.draft.keyboard = true;
    }
    if (way(page, 4, "airway-event-too", page.say("airway.beside-it"))) {
        page.asks.tell(AirwayEvent{});
        page.asks.sheet = Sheet::airway;
    }
    if (state.scope_is_in() && way(page, 5, "scope-out", "")) {
        page.asks.tell(ScopeOut{});
    }
    if (touch::button(page.glass, "by-mistake", {864, 556, 246, 108},
                      {.title = page.say("airway.mistake"),
                       .note = page.say("airway.both-stay"),
                       .bold = true,
                       .em = touch::step::note,
                       .tick = false})) {
        withdraw(page, "airway.mistake");
        page.asks.sheet = Sheet::none;
    }
    if (touch::button(page.glass, "to-abandon", {1122, 556, 142, 108},
                      {.title = page.say("stage.abandon"), .bold = true, .tick = false})) {
        page.asks.sheet = Sheet::abandon;
    }
}

void end_it(const EmergencyPage& page) {
    EmergencyEnd says{page.draft.kind, std::nullopt};
    if (!page.draft.measures.text().empty()) {
        says.action = page.draft.measures.text();
    }
    page.asks.tell(says);
    page.asks.sheet = Sheet::none;
    page.draft = {};
}

void draw_foot(const EmergencyPage& page) {
    const bool named = !page.draft.kind.empty();
    const touch::Action own{
        .command = named ? "it-has-ended" : "name-the-kind",
        .title = page.say(named ? "airway.ended" : "airway.kind-first"),
        .note = named ? clock_text(page.scene.now, page.scene.zone, true) : page.say("airway.kind-at-left"),
        .look = named ? touch::ActionLook::ready : touch::ActionLook::next_missing};
    if (over_fill(page.scene)) {
        if (draw_sheet_foot(page.glass, page.scene, own, page.asks) == touch::SheetTap::action && named) {
            end_it(page);
        }
        return;
    }
    const touch::Prompt prompt{.urgency = touch::Urgency::low,
                               .title = page.say("airway.clock-runs"),
                               .why = page.say("airway.leave-and-come-back"),
                               .chips = {{"back", page.say("touch.back")}}};
    if (draw_case_prompt(page.glass, page.scene, prompt, page.asks).chip == "back") {
        page.asks.sheet = Sheet::none;
    }
    if (touch::action(page.glass, touch::layout_for(page.glass.size()).action, own) ==
            touch::ActionTap::action &&
        named) {
        end_it(page);
    }
}

}  // namespace

Asks draw_emergency(Glass& glass, const Scene& scene, EmergencyDraft& draft) {
    Asks asks;
    if (draft.keyboard) {
        draft.keyboard = !draw_letters(glass, scene, glass.words().say("airway.measures"), draft.measures,
                                       draft.keys, asks);
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    const auto* episode = open_emergency(*scene.ahead_state);
    if (episode == nullptr) {
        asks.sheet = Sheet::none;  // it has ended or was withdrawn
        return asks;
    }
    const EmergencyPage page{glass, scene, *episode, draft, asks};
    draw_clock(page);
    draw_kinds(page);
    draw_while_open(page);
    draw_ways(page);
    draw_foot(page);
    return asks;
}

}  // namespace brimline::screens
