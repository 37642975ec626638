// Two lists of the desk: sealed records, and open items with their owners and dates.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "core/desk/signing.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t rows_on_page = 5;

Rect row_at(std::size_t index) { return {176, 212 + 91 * static_cast<float>(index), 1088, 82}; }

/// Next part at the foot; there is no drag.
void draw_next_part(Glass& glass, std::size_t& first, std::size_t all, Asks&) {
    first = first >= all ? 0 : first;
    const auto corner = touch::layout_for(glass.size()).action;
    if (all <= rows_on_page) {
        quiet_corner(glass, glass.words().say("desk.that-is-all"));
        return;
    }
    const touch::Action next{.command = "next-part",
                             .title = glass.words().say("day-list.next-part"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, corner, next) == touch::ActionTap::action) {
        first += rows_on_page;
    }
}

/// One item: what, whose patient, who owns it, by when.
bool draw_item(Glass& glass, const Scene& scene, std::size_t index, const ListedItem& listed) {
    const auto& c = glass.colours();
    const auto& item = *listed.item;
    const auto place = row_at(index);
    const auto name = fmt::format("item/{}/{}", listed.state->name, item.code);
    const auto touched = glass.touch({.name = name, .rect = place, .hit = place, .kind = touch::Kind::row});
    const bool late = item.due && !item.closed && *item.due < scene.zone.date_of(scene.now);
    touch::fill(glass, place,
                touched.pressed ? c.chosen
                : late          ? c.stop_tint
                                : c.panel,
                touch::control_radius);
    touch::outline(glass, place, late ? c.stop : c.line, 2, touch::control_radius);
    touch::icon(glass,
                item.closed ? touch::Icon::good
                : late      ? touch::Icon::stop
                            : touch::Icon::ring,
                {place.x + 30, place.y + 41}, 28);
    touch::text(glass, name + "/say", {place.x + 60, place.y + 8, 396, 66}, item.say, {.bold = true});
    touch::text(glass, name + "/patient", {place.x + 464, place.y + 8, 268, 66},
                listed_name(listed.state->patient), {.may_cut = true});
    touch::text(glass, name + "/owner", {place.x + 740, place.y + 8, 156, 66},
                item.owner ? short_name(scene.desk, *item.owner) : glass.words().say("items.nobody"), {});
    touch::text(glass, name + "/due", {place.x + 904, place.y + 8, 144, 66},
                item.due ? shown_date(glass, *item.due) : std::string{"–"}, {.bold = true, .lines = 1});
    touch::icon(glass, touch::Icon::opens, {place.right() - 20, place.y + 41}, 20, c.line, c.panel);
    return touched.fired;
}

void draw_filters(Glass& glass, RecordDrafts& drafts) {
    struct Way {
        const char* name;
        bool mine, done;
    };
    constexpr std::array<Way, 3> ways{
        {{"by-date", false, false}, {"mine", true, false}, {"done", false, true}}};
    for (std::size_t i = 0; i < ways.size(); ++i) {
        const bool chosen = drafts.mine == ways[i].mine && drafts.done == ways[i].done;
        if (touch::button(glass, fmt::format("filter/{}", ways[i].name),
                          touch::cell({176, 104, 1088, 76}, 3, 1, static_cast<int>(i), 0, 12),
                          {.title = glass.words().say(fmt::format("items.{}", ways[i].name)),
                           .look = chosen ? touch::Look::chosen : touch::Look::rest})) {
            drafts.mine = ways[i].mine;
            drafts.done = ways[i].done;
            drafts.first_item = 0;
        }
    }
}

void draw_heads(Glass& glass) {
    const auto& c = glass.colours();
    const std::array<std::pair<const char*, float>, 4> heads{
        {{"what", 236}, {"patient", 640}, {"owner", 916}, {"by", 1080}}};
    for (const auto& [name, x] : heads) {
        touch::text(glass, fmt::format("head/{}", name), {x, 182, 150, 28},
                    glass.words().say(fmt::format("items.{}", name)),
                    {.colour = c.text_2, .bold = true, .lines = 1});
    }
}

}  // namespace

Asks draw_open_items(Glass& glass, const Scene& scene, RecordDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    draw_desk_frame(glass, scene, words.say("items.title"), words.say("items.none-deleted"), asks);
    draw_filters(glass, drafts);
    draw_heads(glass);
    const auto list = listed_items(scene.desk, drafts.mine ? scene.person : std::string{}, drafts.done);
    drafts.first_item = drafts.first_item >= list.size() ? 0 : drafts.first_item;
    for (std::size_t i = 0; i < rows_on_page && drafts.first_item + i < list.size(); ++i) {
        const auto& listed = list[drafts.first_item + i];
        if (draw_item(glass, scene, i, listed)) {
            asks.open_case = listed.state->name;
            asks.page = page_of_case(*listed.state, scene);
            if (listed.item->code == "who-it-was") {
                asks.sheet = Sheet::who_it_was;
            }
        }
    }
    if (list.empty()) {
        touch::panel(glass, row_at(0));
        touch::text(glass, "items/none", row_at(0).inset(20, 8), words.say("items.nothing"),
                    {.em = touch::step::act, .bold = true, .lines = 1});
    }
    draw_desk_prompt(glass, scene,
                     {.urgency = list.empty() ? touch::Urgency::none : touch::Urgency::low,
                      .title = words.count("items.count", static_cast<long>(list.size())),
                      .why = words.say("items.opens-its-case")});
    draw_next_part(glass, drafts.first_item, list.size(), asks);
    return asks;
}

Asks draw_records(Glass& glass, const Scene& scene, RecordDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    draw_desk_frame(glass, scene, words.say("records.title"), words.say("records.newest-first"), asks);
    const auto list = sealed_cases(scene.desk);
    drafts.first_case = drafts.first_case >= list.size() ? 0 : drafts.first_case;
    for (std::size_t i = 0; i < rows_on_page && drafts.first_case + i < list.size(); ++i) {
        const auto& state = *list[drafts.first_case + i];
        const touch::Row row{.title = listed_name(state.patient),
                             .note = words.say(fmt::format("day-list.kind-{}", name_of(state.kind))) + " · " +
                                     state.patient.number.value_or("–"),
                             .icon = touch::Icon::good,
                             .state = state.sealed->is.number + "\n" +
                                      shown_date(glass, scene.zone.date_of(state.sealed->stamp.at))};
        const Rect place{176, 108 + 108 * static_cast<float>(i), 1088, 98};
        if (touch::row(glass, "record/" + state.name, place, row)) {
            asks.open_case = state.name;
            asks.page = Page::record;
        }
    }
    if (list.empty()) {
        touch::panel(glass, {176, 108, 1088, 98});
        touch::text(glass, "records/none", {196, 116, 1048, 82}, words.say("records.none"),
                    {.em = touch::step::act, .bold = true, .lines = 1});
    }
    draw_desk_prompt(glass, scene, {.title = words.count("records.count", static_cast<long>(list.size()))});
    draw_next_part(glass, drafts.first_case, list.size(), asks);
    return asks;
}

}  // namespace brimline::screens
