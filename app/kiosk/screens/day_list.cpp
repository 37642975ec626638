// The day's list: people by name with room, planned time, stage and what comes next; what is overdue stays on
// top.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "core/desk/register.h"
#include "core/desk/today.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t rows_on_page = 4;
constexpr std::size_t cards_on_page = 4;
constexpr float first_row = 148;
constexpr float row_height = 96;
constexpr float row_pitch = 104;

std::string planned_time(const CaseState& state, const Zone& zone) {
    return state.planned ? clock_text(*state.planned, zone) : std::string{};
}

std::string row_note(const Glass& glass, const CaseState& state) {
    auto note = glass.words().say(fmt::format("day-list.kind-{}", name_of(state.kind)));
    return state.room ? note + " · " + *state.room : note;
}

/// What the right part of a row says: overdue before everything, then a hold, then the next action.
void fill_state(const Glass& glass, const Scene& scene, const Listed& listed, touch::Row& row) {
    const auto& state = *listed.state;
    const auto& words = glass.words();
    const bool held =
        std::any_of(state.holds.begin(), state.holds.end(), [](const Hold& h) { return h.stands(); });
    if (listed.overdue && state.planned) {
        row.icon = touch::Icon::look;
        row.state =
            words.say("day-list.overdue", {{"date", shown_date(glass, scene.zone.date_of(*state.planned))}});
        row.state_bold = true;
    } else if (!listed.stage) {
        row.icon = touch::Icon::good;
        row.state = words.say("day-list.sealed");
    } else {
        row.icon = held ? touch::Icon::stop : touch::Icon::ring;
        row.state = words.say(fmt::format("day-list.next-{}", name_of(*listed.stage)));
        row.state_bold = held;
    }
}

/// True when the row was tapped.
bool draw_row(Glass& glass, const Scene& scene, Rect place, const Listed& listed, bool current) {
    const auto& state = *listed.state;
    touch::Row row{.time = planned_time(state, scene.zone),
                   .title = listed_name(state.patient),
                   .note = row_note(glass, state),
                   .current = current};
    fill_state(glass, scene, listed, row);
    return touch::row(glass, "case/" + state.name, place, row);
}

/// The case that the corner opens: the first that is not over.
const Listed* next_of(const std::vector<Listed>& list) {
    for (const auto& listed : list) {
        if (listed.stage) {
            return &listed;
        }
    }
    return nullptr;
}

void open_case(const Scene& scene, Asks& asks, const Listed& listed) {
    asks.open_case = listed.state->name;
    // Before sedation the patient is asked at the door.
    const bool at_the_door = listed.stage == Stage::sedation && listed.state->entered.empty();
    asks.page = at_the_door ? Page::enter_room : page_of_case(*listed.state, scene);
}

/// Overdue rows stand on every part of the list; only the others turn over.
std::vector<const Listed*> rows_to_show(const std::vector<Listed>& list, DeskDrafts& drafts, bool& more) {
    std::vector<const Listed*> shown;
    std::vector<const Listed*> others;
    for (const auto& listed : list) {
        (listed.overdue && shown.size() + 1 < rows_on_page ? shown : others).push_back(&listed);
    }
    const std::size_t free = rows_on_page - shown.size();
    more = others.size() > free;
    if (drafts.first_case >= others.size()) {
        drafts.first_case = 0;
    }
    for (std::size_t i = drafts.first_case; i < others.size() && i < drafts.first_case + free; ++i) {
        shown.push_back(others[i]);
    }
    return shown;
}

/// What changes the list, and the way to its next part.
void draw_list_ways(Glass& glass, std::size_t all, bool more, DeskDrafts& drafts, Asks& asks) {
    struct Way {
        const char* name;
        const char* key;
        Page page;
    };
    constexpr std::array<Way, 3> ways{{{"add-case", "list.add", Page::book},
                                       {"move-or-swap", "list.move-or-swap", Page::change_list},
                                       {"start-now", "list.start-now", Page::start_now}}};
    const Rect row{176, 572, 672, 92};
    const int places = more ? 4 : 3;
    for (std::size_t i = 0; i < ways.size(); ++i) {
        if (touch::button(glass, ways[i].name, touch::cell(row, places, 1, static_cast<int>(i), 0, 12),
                          {.title = glass.words().say(ways[i].key), .em = touch::step::note})) {
            asks.page = ways[i].page;
        }
    }
    if (more && touch::button(glass, "next-part", touch::cell(row, places, 1, 3, 0, 12),
                              {.title = glass.words().say("day-list.next-part"),
                               .note = std::to_string(all),
                               .em = touch::step::note})) {
        drafts.first_case += rows_on_page;
    }
}

void draw_list(Glass& glass, const Scene& scene, const std::vector<Listed>& list, DeskDrafts& drafts,
               Asks& asks) {
    const auto& c = glass.colours();
    touch::text(glass, "list/title", {184, 108, 400, 34}, glass.words().say("day-list.today"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    if (list.empty()) {
        touch::panel(glass, {176, first_row, 672, row_height});
        touch::text(glass, "list/empty", {200, first_row + 8, 624, row_height - 16},
                    glass.words().say("day-list.nobody"), {.em = touch::step::act, .bold = true});
        draw_list_ways(glass, 0, false, drafts, asks);
        return;
    }
    bool more = false;
    const auto* next = next_of(list);
    float y = first_row;
    for (const auto* listed : rows_to_show(list, drafts, more)) {
        if (draw_row(glass, scene, {176, y, 672, row_height}, *listed, listed == next)) {
            open_case(scene, asks, *listed);
        }
        y += row_pitch;
    }
    draw_list_ways(glass, list.size(), more, drafts, asks);
}

std::string due_words(const Glass& glass, const DueOut& due) {
    return due.days_left < 0 ? glass.words().count("day-list.days-overdue", -due.days_left)
                             : glass.words().count("day-list.days-left", due.days_left);
}

void open_entry(const Scene& scene, const CaseState& state, Asks& asks) {
    const auto placement = placement_of(state, scene.desk, scene.policy, scene.zone);
    if (placement) {
        asks.entry = placement->entry;
        asks.page = Page::entry;
    }
}

void draw_due(Glass& glass, const Scene& scene, const std::vector<DueOut>& dues, Asks& asks) {
    const auto& c = glass.colours();
    touch::text(glass, "due/title", {872, 108, 392, 34}, glass.words().say("day-list.due-out"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    if (dues.empty()) {
        touch::text(glass, "due/none", {872, 148, 384, 60}, glass.words().say("day-list.none-due"),
                    {.colour = c.text_2});
        return;
    }
    const bool more = dues.size() > cards_on_page;
    float y = first_row;
    for (std::size_t i = 0; i < dues.size() && i < cards_on_page; ++i) {
        const auto& due = dues[i];
        if (touch::card(
                glass, "due/" + due.state->name, {864, y, 400, 116},
                {.kind = due.days_left < 0 ? touch::CardKind::hold : touch::CardKind::review,
                 .title = listed_name(due.state->patient),
                 .lines = {due_words(glass, due),
                           glass.words().say("day-list.due-on", {{"date", shown_date(glass, due.due)}})},
                 .opens = true})) {
            open_entry(scene, *due.state, asks);
        }
        y += 124;
    }
    if (more) {
        touch::text(glass, "due/more", {872, 644, 384, 28},
                    glass.words().count("day-list.more-due", static_cast<long>(dues.size() - cards_on_page)),
                    {.bold = true, .lines = 1});
    }
}

/// The foot: how many balloons are overdue and the longest of them, else how many are on the list. A tap
/// leads to the register, where what is overdue stands first.
void draw_foot(Glass& glass, const Scene& scene, const std::vector<Listed>& list,
               const std::vector<DueOut>& dues, Asks& asks) {
    const auto& words = glass.words();
    const auto late = std::count_if(dues.begin(), dues.end(), [](const DueOut& due) { return due.overdue; });
    touch::Prompt prompt{.urgency = touch::Urgency::low,
                         .title = words.count("day-list.on-list", static_cast<long>(list.size()))};
    if (late > 0) {
        prompt = {.urgency = touch::Urgency::high,
                  .title = listed_name(dues.front().state->patient) + ": " + due_words(glass, dues.front()),
                  .why = words.count("register.overdue", static_cast<long>(late))};
    }
    if (draw_desk_prompt(glass, scene, prompt)) {
        asks.page = Page::register_list;
    }
}

void draw_corner(Glass& glass, const touch::Layout& layout, const Scene& scene,
                 const std::vector<Listed>& list, Asks& asks) {
    const auto* next = next_of(list);
    if (next == nullptr) {
        return;
    }
    const auto time = planned_time(*next->state, scene.zone);
    const auto family = next->state->patient.family_name.value_or("");
    const auto title = time.empty() ? glass.words().say("day-list.open-now", {{"name", family}})
                                    : glass.words().say("day-list.open", {{"time", time}, {"name", family}});
    const touch::Action face{.command = "open/" + next->state->name, .title = title};
    if (touch::action(glass, layout.action, face) == touch::ActionTap::action) {
        open_case(scene, asks, *next);
    }
}

}  // namespace

Asks draw_day_list(Glass& glass, const Scene& scene, DeskDrafts& drafts) {
    Asks asks;
    const auto layout = touch::layout_for(glass.size());
    draw_desk_frame(glass, scene, weekday_date(glass, scene.now, scene.zone), scene.policy.clinic.name, asks);
    const auto list = list_of_day(scene.book, scene.zone, scene.now);
    const auto dues = due_out(scene.book, scene.policy);
    draw_list(glass, scene, list, drafts, asks);
    draw_due(glass, scene, dues, asks);
    draw_foot(glass, scene, list, dues, asks);
    draw_corner(glass, layout, scene, list, asks);
    return asks;
}

}  // namespace brimline::screens
