// The hand-over: the facts in the order of danger; offered in the room to somebody by name, accepted in the
// bay with day and month of birth from the patient's mouth. Until then the room keeps the timers.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/recovery_parts.h"
#include "core/case/release_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

/// Where the parts stand, lying and upright.
struct Places {
    Rect inside, given, event, set, watch, ask, keys;
    bool upright{false};
};
constexpr Places lying{{176, 104, 672, 104}, {176, 220, 672, 156}, {176, 388, 672, 92}, {176, 492, 330, 172},
                       {518, 492, 330, 172}, {864, 104, 400, 152}, {864, 264, 400, 400}};
constexpr Places upright{{16, 266, 768, 100},  {16, 372, 768, 144}, {16, 522, 768, 82},  {16, 610, 380, 132},
                         {404, 610, 380, 132}, {16, 748, 768, 142}, {16, 992, 768, 180}, true};

const Places& places_on(const Glass& glass) { return glass.size().h > glass.size().w ? upright : lying; }

void draw_inside(Glass& glass, const Scene& scene, const HandoverView& view, Rect place) {
    const auto& words = glass.words();
    const auto& offered = scene.ahead_state->offered;
    touch::panel(glass, place);
    const auto right = offered ? words.say("handover.offered-by",
                                           {{"name", short_name(scene.ahead, offered->stamp.by)},
                                            {"time", clock_text(offered->stamp.happened, scene.zone)}})
                               : std::string{};
    panel_head(glass, "inside/head", place, words.say("handover.in-the-stomach"), right);
    if (!view.inside) {
        touch::text(glass, "inside/none", {place.x + 20, place.y + 42, place.w - 40, place.h - 48},
                    words.say("handover.no-balloon"), {.em = touch::step::act, .bold = true});
        return;
    }
    touch::figure(glass, "inside/ml", {place.x + 20, place.y + 38, 190, 60}, ml_digits(glass, view.volume),
                  words.say("unit.ml-alone"), touch::step::typed, touch::step::act);
    const float x = place.x + 230;
    touch::icon(glass, view.agreed ? touch::Icon::good : touch::Icon::look, {x, place.y + 70}, 30);
    const auto valve = fact_of(*scene.ahead_state, ReleaseFact::dry).yes;
    const auto dry = words.say(!valve   ? "handover.valve-not-asked"
                               : *valve ? "handover.valve-dry"
                                        : "handover.valve-drips");
    touch::text(glass, "inside/agreed", {x + 26, place.y + 42, place.right() - x - 46, 30},
                words.say(view.agreed ? "handover.agreed" : "handover.not-agreed"),
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(glass, "inside/valve", {x + 26, place.y + 72, place.right() - x - 46, 28}, dry,
                {.colour = glass.colours().text_2, .lines = 1});
}

void given_line(Glass& glass, const std::string& name, Rect line, const std::string& what,
                const std::string& amount, const std::string& note) {
    touch::text(glass, name, line.left_part(206), what, {.em = touch::step::body, .lines = 1});
    touch::text(glass, name + "/amount", {line.x + 212, line.y, 124, line.h}, amount,
                {.em = touch::step::body, .bold = true, .align = touch::Align::right, .lines = 1});
    touch::text(glass, name + "/note", {line.x + 350, line.y, line.w - 350, line.h}, note,
                {.colour = glass.colours().text_2, .lines = 1});
}

std::string drug_words(const Scene& scene, const std::string& id) {
    const auto* drug = scene.policy.drug(id);
    return drug == nullptr ? id : drug->words;
}

std::string last_dose_words(const Glass& glass, const Scene& scene, const DoseTotal& total) {
    const auto& doses = scene.ahead_state->doses;
    std::string note = total.per_kg ? *total.per_kg + " " + total.per_kg_unit : std::string{};
    for (auto dose = doses.rbegin(); dose != doses.rend(); ++dose) {
        if (dose->is.drug == total.drug) {
            const auto ago = duration_words(scene.now - dose->stamp.happened);
            note += (note.empty() ? "" : " · ") + glass.words().say("handover.last-ago", {{"ago", ago}});
            break;
        }
    }
    return note;
}

void draw_given(Glass& glass, const Scene& scene, const HandoverView& view, Rect place) {
    const auto& words = glass.words();
    touch::panel(glass, place);
    panel_head(glass, "given/head", place, words.say("handover.given"));
    const auto totals = dose_totals(*scene.ahead_state, scene.now);
    float y = place.y + 42;
    int number = 0;
    const auto line = [&] { return Rect{place.x + 20, y, place.w - 40, 32}; };
    constexpr std::size_t shown = 1;  // the others stand in one line together
    for (std::size_t i = 0; i < totals.size() && i < shown; ++i) {
        const auto& total = totals[i];
        given_line(glass, fmt::format("given/{}", ++number), line(), drug_words(scene, total.drug),
                   decimal_words(glass, total.total) + " " +
                       words.say(total.unit == "ug" ? "unit.dose-ug" : "unit.dose-" + total.unit),
                   last_dose_words(glass, scene, total));
        y += 35;
    }
    const auto litres = view.oxygen ? words.say("unit.litres", {{"n", decimal_words(glass, *view.oxygen)}})
                                    : std::string{"–"};
    const bool runs = view.oxygen && *view.oxygen > Decimal{};
    given_line(glass, "given/oxygen", line(), words.say("handover.oxygen"), litres,
               runs ? words.say("handover.running") : std::string{});
    y += 35;
    auto rest = std::string{};
    for (std::size_t i = shown; i < totals.size(); ++i) {
        const auto next = rest + (rest.empty() ? "" : " · ") + drug_words(scene, totals[i].drug) + " " +
                          decimal_words(glass, totals[i].total) + " " +
                          words.say(totals[i].unit == "ug" ? "unit.dose-ug" : "unit.dose-" + totals[i].unit);
        const float room = place.w - 390 - glass.type().width(touch::Face::words, touch::step::note, " · +9");
        if (glass.type().width(touch::Face::words, touch::step::note, next) > room) {
            rest += fmt::format("{}+{}", rest.empty() ? "" : " · ",
                                totals.size() - i);  // the record has them all
            break;
        }
        rest = next;
    }
    given_line(glass, "given/reversal", line(), words.say("handover.reversal"),
               view.reversal ? clock_text(*view.reversal, scene.zone) : words.say("handover.none"), rest);
}

std::string actions_words(const Scene& scene, const AirwayEpisode& episode) {
    std::string all;
    for (const auto& action : episode.actions) {
        for (const auto& item : scene.policy.lists.airway_actions) {
            if (item.id == action) {
                all += (all.empty() ? "" : ", ") + item.words;
            }
        }
    }
    return all;
}

void draw_event(Glass& glass, const Scene& scene, const HandoverView& view, Rect place) {
    const auto& words = glass.words();
    const auto& events = scene.ahead_state->airway_events;
    if (view.event == nullptr) {
        auto title = words.say("handover.no-event");
        if (view.lowest) {
            title += " · " + words.say("handover.lowest", {{"n", std::to_string(view.lowest->value)}});
        }
        touch::card(glass, "event", place, {.kind = touch::CardKind::good, .title = title});
        return;
    }
    const auto time = clock_text(view.event->start.happened, scene.zone);
    const auto title =
        view.event->lowest_spo2
            ? words.say("handover.fell-to", {{"n", std::to_string(*view.event->lowest_spo2)}, {"time", time}})
            : words.say("handover.event-at", {{"time", time}});
    auto line = actions_words(scene, *view.event);
    if (events.size() > 1) {
        line +=
            (line.empty() ? "" : " · ") + words.count("handover.events", static_cast<long>(events.size()));
    }
    touch::card(glass, "event", place,
                {.kind = touch::CardKind::review,
                 .title = title,
                 .lines = {line.empty() ? words.say("handover.event-alone") : line}});
}

void draw_set(Glass& glass, const Scene& scene, const HandoverView& view, Rect place) {
    const auto& words = glass.words();
    touch::panel(glass, place);
    panel_head(glass, "set/head", place, words.say("vitals.no-alarm-short"));
    if (view.last_set == nullptr) {
        touch::text(glass, "set/none", {place.x + 20, place.y + 44, place.w - 40, 60},
                    words.say("handover.no-set"), {.em = touch::step::body});
        return;
    }
    const auto& is = view.last_set->is;
    const auto number = [](const std::optional<int>& n) { return n ? std::to_string(*n) : "–"; };
    const std::array<std::pair<std::string, std::string>, 3> cells{
        {{words.say("unit.sign-spo2"), number(is.spo2)},
         {words.say("unit.sign-hr"), number(is.hr)},
         {words.say("unit.sign-bp"), number(is.systolic) + "/" + number(is.diastolic)}}};
    const Rect room{place.x + 20, place.y + 42, place.w - 40, 60};
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const Rect cell{room.x + 96 * static_cast<float>(i), room.y, i == 2 ? room.w - 192 : 92, room.h};
        const auto name = fmt::format("set/{}", i + 1);
        touch::text(glass, name, cell.top_part(26), cells[i].first,
                    {.colour = glass.colours().text_2, .lines = 1});
        touch::text(glass, name + "/value", cell.bottom_part(34), cells[i].second,
                    {.em = touch::step::act, .bold = true, .lines = 1});
    }
    touch::text(
        glass, "set/time", {place.x + 20, place.y + 102, place.w - 40, 26},
        words.say("handover.last-in-room", {{"time", clock_text(view.last_set->stamp.happened, scene.zone)}}),
        {.colour = glass.colours().text_2, .lines = 1});
}

void draw_watch(Glass& glass, const Scene& scene, const HandoverView& view, Rect place) {
    const auto& words = glass.words();
    touch::panel(glass, place);
    panel_head(glass, "watch/head", place, words.say("handover.watch-for"));
    std::vector<std::string> lines;
    if (view.inside) {
        lines.push_back(words.say("handover.retching"));
    }
    const auto& allergies = scene.ahead_state->allergies;
    if (allergies && allergies->is.list && !allergies->is.list->empty()) {
        lines.push_back(words.say("handover.allergy", {{"what", allergies->is.list->front().substance}}));
    }
    if (view.dye && view.inside) {
        lines.push_back(words.say("handover.urine"));
    }
    if (!scene.ahead_state->items.empty()) {
        const auto open = std::count_if(scene.ahead_state->items.begin(), scene.ahead_state->items.end(),
                                        [](const OpenItem& i) { return !i.closed; });
        if (open > 0) {
            lines.push_back(words.count("handover.open-items", static_cast<long>(open)));
        }
    }
    float y = place.y + 42;
    const float bottom = place.bottom() - 4;
    for (std::size_t i = 0; i < lines.size() && y + 28 <= bottom; ++i) {
        touch::text(glass, fmt::format("watch/{}", i + 1), {place.x + 20, y, place.w - 40, 28}, lines[i],
                    {.bold = true, .lines = 1});
        y += 29;
    }
}

/// Offering: whom, by name.
void draw_offer(Glass& glass, const Scene& scene, const Places& places, RecoveryDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    touch::panel(glass, places.ask);
    touch::text(glass, "offer/question", places.ask.inset(20, 8), words.say("handover.to-whom"),
                {.em = touch::step::body, .bold = true});
    std::vector<const PersonKnown*> nurses;
    for (const auto& [id, person] : scene.ahead.people) {
        if (person.active && person.has(Role::nurse)) {
            nurses.push_back(&person);
        }
    }
    constexpr std::size_t most = 4;
    const bool wide = places.upright;
    for (std::size_t i = 0; i < nurses.size() && i < most; ++i) {
        const bool chosen = drafts.to == nurses[i]->id;
        const int at = static_cast<int>(i);
        const Rect place =
            wide ? touch::cell(places.keys.top_part(92), 4, 1, at, 0, 8)
                 : Rect{places.keys.x, places.keys.y + 96 * static_cast<float>(i), places.keys.w, 88};
        if (touch::button(glass, "to/" + nurses[i]->id, place,
                          {.title = short_name(nurses[i]->name),
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .corner_tick = wide})) {
            drafts.to = nurses[i]->id;
        }
    }
    if (drafts.to.empty()) {
        quiet_corner(glass, words.say("handover.choose"));
        return;
    }
    const touch::Action offer{
        .command = "offer",
        .title = words.say("handover.offer"),
        .note = words.say("handover.to", {{"name", short_name(scene.ahead, drafts.to)}})};
    if (touch::action(glass, touch::layout_for(glass.size()).action, offer) == touch::ActionTap::action) {
        asks.tell(OfferHandover{drafts.to});
    }
}

void press(RecoveryDrafts& drafts, touch::PadKey key) {
    if (key == touch::PadKey::erase) {
        if (!drafts.born.empty()) {
            drafts.born.pop_back();
        }
    } else if (key != touch::PadKey::point && drafts.born.size() < 4) {
        drafts.born += static_cast<char>('0' + static_cast<int>(key));
    }
}

/// Keys of day and month: a pad lying, two rows upright.
void draw_born_keys(Glass& glass, const Places& places, RecoveryDrafts& drafts) {
    const auto& place = places.keys;
    if (!places.upright) {
        if (const auto key = touch::keypad(glass, "pad", {place.x, place.y, place.w, 312}, false, 8)) {
            press(drafts, *key);
        }
        return;
    }
    for (int digit = 0; digit < 10; ++digit) {
        const int at = digit == 0 ? 10 : digit <= 5 ? digit - 1 : digit;  // 1 to 5, then 6 to 9 and 0
        const auto cell = touch::cell(place, 6, 2, at % 6, at / 6, 8);
        if (touch::value_key(glass, fmt::format("pad/{}", digit), cell, std::to_string(digit), false,
                             touch::step::strong)) {
            press(drafts, static_cast<touch::PadKey>(digit));
        }
    }
    if (touch::button(glass, "pad/erase", touch::cell(place, 6, 2, 5, 0, 8),
                      {.title = glass.words().say("handover.erase"), .em = touch::step::note})) {
        press(drafts, touch::PadKey::erase);
    }
}

void draw_by(Glass& glass, const Places& places, RecoveryDrafts& drafts) {
    const bool wide = places.upright;
    const Rect area = wide ? Rect{places.ask.x + 330, places.ask.y + 60, places.ask.w - 342, 74}
                           : Rect{places.keys.x, places.keys.bottom() - 80, places.keys.w, 80};
    int at = 0;
    for (const auto by : {IdentityBy::wristband, IdentityBy::two_staff}) {
        const bool chosen = drafts.by == by;
        if (touch::button(glass, fmt::format("by/{}", name_of(by)), touch::cell(area, 2, 1, at++, 0, 8),
                          {.title = glass.words().say(fmt::format("handover.by-{}", name_of(by))),
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .corner_tick = true})) {
            drafts.by = chosen ? IdentityBy::patient : by;
        }
    }
}

void draw_accept(Glass& glass, const Scene& scene, const Places& places, RecoveryDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const bool wide = places.upright;
    touch::panel(glass, places.ask);
    touch::text(glass, "accept/question", {places.ask.x + 20, places.ask.y + 3, places.ask.w - 40, 55},
                words.say("handover.ask-born"), {.bold = true});
    const bool wrong = drafts.born.size() == 4 && !typed_day_month(drafts.born);
    auto shown = drafts.born;
    if (shown.size() > 2) {
        shown.insert(2, " ");
    }
    const Rect box = wide ? Rect{places.ask.x + 12, places.ask.y + 60, 306, 74}
                          : Rect{places.ask.x + 16, places.ask.y + 60, places.ask.w - 32, 84};
    touch::value_box(glass, "born", box,
                     {.digits = shown,
                      .wrong = wrong ? words.say("handover.no-such-day") : std::string{},
                      .focused = true});
    draw_born_keys(glass, places, drafts);
    draw_by(glass, places, drafts);
    const auto corner = touch::layout_for(glass.size()).action;
    const touch::GoOn not_yet{words.say("handover.not-yet"), words.say("handover.monitors-first")};
    const bool known = scene.ahead_state->patient.born.has_value();
    const auto born = known ? typed_day_month(drafts.born) : std::optional{DayMonth{}};
    touch::Action accept{.command = "accept",
                         .title = words.say("handover.accept"),
                         .note = words.say("handover.as", {{"name", short_name(scene.ahead, scene.person)}})};
    if (!chosen_may(scene, Role::nurse)) {
        accept = {.command = "accept-who",
                  .title = words.say("handover.who-accepts"),
                  .note = words.say("handover.goes-to",
                                    {{"name", short_name(scene.ahead, scene.ahead_state->offered->is.to)}}),
                  .look = touch::ActionLook::next_missing};
    } else if (!born) {
        accept = {.command = "accept-born",
                  .title = words.say("handover.day-and-month"),
                  .note = words.say("handover.four-digits"),
                  .look = touch::ActionLook::question};
    }
    const auto tap = touch::action(glass, corner, accept, not_yet);
    if (tap == touch::ActionTap::go_on) {
        asks.page = scene.ahead_state->kind == CaseKind::removal ? Page::out : Page::release;
    } else if (tap == touch::ActionTap::action && accept.command == "accept-who") {
        asks.person = scene.ahead_state->offered->is.to;
    } else if (tap == touch::ActionTap::action && accept.command == "accept") {
        asks.tell(AcceptHandover{*born,
                                 drafts.by == IdentityBy::patient ? std::nullopt : std::optional{drafts.by}});
        drafts.born.clear();
    }
}

}  // namespace

Asks draw_handover(Glass& glass, const Scene& scene, RecoveryDrafts& drafts) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    const auto& places = places_on(glass);
    const auto view = handover_view(*scene.ahead_state, scene.policy);
    draw_inside(glass, scene, view, places.inside);
    draw_given(glass, scene, view, places.given);
    draw_event(glass, scene, view, places.event);
    draw_set(glass, scene, view, places.set);
    draw_watch(glass, scene, view, places.watch);
    const auto minutes = std::to_string(scene.policy.recovery.first_set.count());
    const auto& words = glass.words();
    draw_case_prompt(
        glass, scene,
        touch::Prompt{.urgency = touch::Urgency::low,
                      .title = words.say("handover.first-set", {{"n", minutes}}),
                      .why = words.say("handover.then-every",
                                       {{"n", std::to_string(scene.policy.recovery.vitals.count())}})},
        asks);
    if (scene.ahead_state->offered) {
        draw_accept(glass, scene, places, drafts, asks);
    } else {
        draw_offer(glass, scene, places, drafts, asks);
    }
    return asks;
}

}  // namespace brimline::screens
