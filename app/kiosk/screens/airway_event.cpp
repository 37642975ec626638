// An airway event: made by two taps on the strip; what was lowest, what was done and the oxygen may follow.
// Over Fill the corner stays Syringe in.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Part = AirwayDraft::Part;

constexpr int highest_key = 97;
constexpr int keys_on_strip = 13;

/// One frame of the sheet.
struct AirwayPage {
    Glass& glass;
    const Scene& scene;
    const AirwayEpisode& event;
    AirwayDraft& draft;
    Asks& asks;

    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    [[nodiscard]] std::string time(Instant t) const { return clock_text(t, scene.zone, true); }
};

void draw_event(const AirwayPage& page) {
    const auto& c = page.glass.colours();
    const Rect card{176, 104, 672, 92};
    touch::fill(page.glass, card, c.look_tint, touch::control_radius);
    touch::outline(page.glass, card, c.look, 2, touch::control_radius);
    touch::icon(page.glass, touch::Icon::look, {card.x + 40, card.y + 48}, 42);
    const auto& start = page.event.start.happened;
    const auto until = page.event.end.value_or(page.scene.now);
    touch::text(page.glass, "event/title", {card.x + 80, card.y + 8, 440, 40},
                page.say("airway.title", {{"time", duration_words(until - start)}}),
                {.em = touch::step::act, .bold = true, .lines = 1});
    touch::text(page.glass, "event/times", {card.x + 80, card.y + 50, 440, 34},
                page.event.end ? page.say("airway.from-to",
                                          {{"from", page.time(start)}, {"to", page.time(*page.event.end)}})
                               : page.say("airway.still-open", {{"from", page.time(start)}}),
                {.lines = 1});
    if (touch::button(page.glass, "change-times", {card.right() - 138, card.y + 2, 134, 88},
                      {.title = page.say("airway.change-times"), .bold = true, .em = touch::step::note})) {
        page.draft.part = page.draft.part == Part::times ? Part::values : Part::times;
    }
}

/// What was lowest: as chosen, or as saved before.
std::optional<int> lowest_of(const AirwayPage& page) {
    return page.draft.lowest ? page.draft.lowest : page.event.lowest_spo2;
}

void draw_lowest(const AirwayPage& page) {
    const auto& c = page.glass.colours();
    touch::text(page.glass, "lowest/head", {184, 204, 300, 27}, page.say("airway.lowest"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(page.glass, "lowest/no-alarm", {488, 204, 352, 27}, page.say("vitals.no-alarm"),
                {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    const Rect area{176, 232, 671, 184};
    const auto lowest = lowest_of(page);
    for (int i = 0; i < keys_on_strip; ++i) {
        const int value = highest_key - i;
        if (touch::value_key(page.glass, fmt::format("lowest/{}", value),
                             touch::cell(area, 7, 2, i % 7, i / 7, 8), std::to_string(value), lowest == value,
                             touch::step::strong)) {
            page.draft.lowest = value;
        }
    }
    const bool below = lowest && *lowest <= highest_key - keys_on_strip;
    if (touch::button(page.glass, "lowest/lower", touch::cell(area, 7, 2, 6, 1, 8),
                      {.title = below ? std::to_string(*lowest) : page.say("vitals.spo2-other"),
                       .look = below ? touch::Look::chosen : touch::Look::rest,
                       .bold = true,
                       .em = below ? touch::step::act : touch::step::note,
                       .tick = false})) {
        page.draft.part = Part::lower;
        page.draft.digits = touch::NumberDraft{2, 0};
    }
}

bool is_done(const AirwayPage& page, const std::string& action) {
    const auto in = [&](const std::vector<std::string>& list) {
        return std::find(list.begin(), list.end(), action) != list.end();
    };
    return in(page.draft.actions) || in(page.event.actions);
}

void draw_actions(const AirwayPage& page) {
    touch::text(page.glass, "actions/head", {184, 420, 656, 32}, page.say("airway.what-was-done"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    const auto& list = page.scene.policy.lists.airway_actions;
    constexpr std::size_t room = 10;
    for (std::size_t i = 0; i < list.size() && i < room; ++i) {
        const auto place =
            touch::cell({176, 454, 671, 210}, 5, 2, static_cast<int>(i % 5), static_cast<int>(i / 5), 10);
        const bool done = is_done(page, list[i].id);
        if (!touch::button(page.glass, "action/" + list[i].id, place,
                           {.title = list[i].words,
                            .look = done ? touch::Look::chosen : touch::Look::rest,
                            .em = touch::step::note,
                            .tick = false,
                            .corner_tick = true})) {
            continue;
        }
        auto& chosen = page.draft.actions;
        if (std::erase(chosen, list[i].id) == 0 && !done) {
            chosen.push_back(list[i].id);
        }
    }
}

void withdraw(const AirwayPage& page, std::int64_t entry, const char* reason) {
    Correct says;
    says.entry = EntryRef{entry, {}};
    says.withdrawn = true;
    says.reason = page.say(reason);
    page.asks.tell(says);
}

void draw_oxygen(const AirwayPage& page) {
    const Rect panel{864, 104, 400, 152};
    touch::panel(page.glass, panel);
    touch::text(page.glass, "oxygen/head", {884, 112, 360, 34}, page.say("airway.oxygen-after"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    const auto& oxygen = page.scene.ahead_state->oxygen;
    const auto known = oxygen.empty() ? std::nullopt : oxygen.back().is.l_min.whole();
    const touch::Stepper shown{
        .value = page.draft.oxygen,
        .least = 0,
        .most = static_cast<int>(page.scene.policy.vitals.oxygen_l_min.hard_high.whole().value_or(0)),
        .first = static_cast<int>(known.value_or(0))};
    if (const auto changed = touch::stepper(page.glass, "oxygen", {880, 152, 368, 92}, shown)) {
        page.draft.oxygen = changed;
    }
}

/// Helps and ways out, in column B.
void draw_ways(const AirwayPage& page) {
    const auto& state = *page.scene.ahead_state;
    const auto cell = [](int i, float y, float h) { return touch::cell({864, y, 400, h}, 2, 1, i, 0, 12); };
    if (touch::button(page.glass, "airway-secured", cell(0, 268, 104),
                      {.title = page.say("airway.secured"),
                       .look = state.secured ? touch::Look::chosen : touch::Look::rest}) &&
        !state.secured) {
        page.draft.part = Part::tube;
        page.draft.digits = touch::NumberDraft{2, 1};
    }
    const bool helped =
        !state.help_called.empty() && state.help_called.back().happened >= page.event.start.happened;
    if (touch::button(page.glass, "help-called", cell(1, 268, 104),
                      {.title = page.say("airway.help"),
                       .note = helped ? page.time(state.help_called.back().happened) : "",
                       .look = helped ? touch::Look::chosen : touch::Look::rest,
                       .tick = false}) &&
        !helped) {
        page.asks.tell(HelpCalled{});
    }
    const Rect emergency{864, 384, 400, 128};
    // One that runs already is opened from the strip.
    if (open_emergency(*page.scene.ahead_state) == nullptr &&
        touch::button(page.glass, "emergency", emergency,
                      {.title = page.say("airway.emergency"),
                       .note = page.say("airway.one-tap"),
                       .bold = true,
                       .em = touch::step::act})) {
        page.asks.tell(Emergency{});
        page.asks.sheet = Sheet::emergency;
    }
    if (touch::button(page.glass, "it-goes-on", cell(0, 524, 140),
                      {.title = page.say("airway.goes-on"), .note = page.say("airway.end-later")})) {
        if (const auto end = entry_that_ended(state, page.event)) {
            withdraw(page, *end, "airway.goes-on");
        }
        page.asks.sheet = Sheet::none;
    }
    if (touch::button(page.glass, "by-mistake", cell(1, 524, 140), {.title = page.say("airway.mistake")})) {
        withdraw(page, page.event.start.seq, "airway.mistake");
        page.asks.sheet = Sheet::none;
    }
}

/// The start or the end moves earlier; both values stay in the record.
void draw_times(const AirwayPage& page) {
    struct Moved {
        const char* name;
        std::optional<std::int64_t> entry;
        Instant from;
    };
    const auto end = entry_that_ended(*page.scene.ahead_state, page.event);
    const Moved moved[] = {{"start", page.event.start.seq, page.event.start.happened},
                           {"end", end, page.event.end.value_or(Instant{})}};
    float y = 104;
    for (const auto& one : moved) {
        if (!one.entry) {
            continue;
        }
        touch::text(page.glass, fmt::format("times/{}", one.name), {872, y, 384, 40},
                    page.say(fmt::format("airway.{}-was", one.name), {{"time", page.time(one.from)}}),
                    {.em = touch::step::body, .bold = true, .lines = 1});
        int i = 0;
        for (const int earlier : {10, 30, 60}) {
            if (touch::button(page.glass, fmt::format("{}/{}", one.name, earlier),
                              touch::cell({864, y + 44, 400, 96}, 3, 1, i++, 0, 8),
                              {.title = page.say("airway.earlier", {{"n", std::to_string(earlier)}})})) {
                Correct says;
                says.entry = EntryRef{*one.entry, {}};
                says.reason = page.say("airway.time-set-back");
                says.changes = "{}";
                page.asks.say.push_back({says, {}, {}, one.from - std::chrono::seconds{earlier}, false});
            }
        }
        y += 164;
    }
    if (touch::button(page.glass, "times-done", {864, 568, 400, 96},
                      {.title = page.say("airway.times-done")})) {
        page.draft.part = Part::values;
    }
}

/// A value below the strip, or the size of the tube.
void draw_pad(const AirwayPage& page) {
    const bool tube = page.draft.part == Part::tube;
    auto& digits = page.draft.digits;
    const touch::ValueBox box{.digits = digits.shown(page.glass.words().decimal_mark()),
                              .unit = page.say(tube ? "unit.mm" : "unit.percent"),
                              .label = page.say(tube ? "airway.tube" : "airway.lowest"),
                              .focused = true};
    (void)touch::value_box(page.glass, "airway/box", {864, 104, 400, 80}, box);
    if (const auto key = touch::keypad(page.glass, "pad", {864, 192, 400, 376}, tube, 8)) {
        (void)digits.press(*key);
    }
    const auto cell = [](int i) { return touch::cell({864, 576, 400, 88}, 2, 1, i, 0, 8); };
    if (touch::button(page.glass, "pad-back", cell(0), {.title = page.say("touch.back")})) {
        page.draft.part = Part::values;
    }
    if (digits.empty()) {
        return;
    }
    if (touch::button(
            page.glass, "pad-enter", cell(1),
            {.title = page.say(tube ? "airway.secured-enter" : "airway.use"), .look = touch::Look::filled})) {
        if (tube) {
            page.asks.tell(AirwaySecured{Loose{digits.text()}});
        } else {
            page.draft.lowest = static_cast<int>(digits.whole().value_or(0));
        }
        page.draft.part = Part::values;
    }
}

/// What was chosen and not yet said; with `ending` also the end itself.
void save(const AirwayPage& page) {
    AirwayEventEnd says{EntryRef{page.event.start.seq, {}}, page.draft.lowest, std::nullopt};
    if (!page.draft.actions.empty()) {
        says.action = Words{page.draft.actions};
    }
    page.asks.tell(says);
    if (page.draft.oxygen) {
        page.asks.tell(Oxygen{Decimal::of(*page.draft.oxygen)});
    }
    page.asks.sheet = Sheet::none;
}

std::optional<touch::Action> own_action(const AirwayPage& page) {
    const auto& draft = page.draft;
    if (!page.event.end) {
        return touch::Action{.command = "it-has-ended",
                             .title = page.say("airway.ended"),
                             .note = page.say("airway.saves-chosen")};
    }
    if (!draft.lowest && draft.actions.empty() && !draft.oxygen) {
        return std::nullopt;
    }
    const auto late = page.scene.now - page.event.start.happened;
    const bool marked = late > page.scene.policy.rules.airway_values;
    return touch::Action{.command = "save-airway",
                         .title = page.say("airway.save"),
                         .note = page.say(marked ? "airway.marked-late" : "airway.unmarked",
                                          {{"time", duration_words(late)}})};
}

void draw_foot(const AirwayPage& page) {
    const auto own = own_action(page);
    if (over_fill(page.scene)) {
        if (draw_sheet_foot(page.glass, page.scene, own, page.asks) == touch::SheetTap::action) {
            save(page);
        }
        return;
    }
    const auto most = duration_words(page.scene.policy.rules.airway_values);
    const touch::Prompt prompt{.urgency = touch::Urgency::low,
                               .title = page.say(page.event.end ? "airway.two-taps" : "airway.one-more-tap"),
                               .why = page.say("airway.may-follow", {{"time", most}}),
                               .chips = {{"back", page.say("touch.back")}}};
    if (draw_case_prompt(page.glass, page.scene, prompt, page.asks).chip == "back") {
        page.asks.sheet = Sheet::none;
    }
    if (!own) {
        quiet_corner(page.glass, page.say("airway.nothing-chosen"));
    } else if (touch::action(page.glass, touch::layout_for(page.glass.size()).action, *own) ==
               touch::ActionTap::action) {
        save(page);
    }
}

}  // namespace

Asks draw_airway(Glass& glass, const Scene& scene, AirwayDraft& draft) {
    Asks asks;
    const auto& events = scene.ahead_state->airway_events;
    const auto* event = open_airway_event(*scene.ahead_state);
    event = event == nullptr && !events.empty() ? &events.back() : event;
    draw_case_frame_bare(glass, scene, asks);
    if (event == nullptr) {
        asks.sheet = Sheet::none;  // it was withdrawn
        return asks;
    }
    const AirwayPage page{glass, scene, *event, draft, asks};
    draw_event(page);
    draw_lowest(page);
    draw_actions(page);
    if (draft.part == Part::times) {
        draw_times(page);
    } else if (draft.part == Part::values) {
        draw_oxygen(page);
        draw_ways(page);
    } else {
        draw_pad(page);
    }
    draw_foot(page);
    return asks;
}

}  // namespace brimline::screens
