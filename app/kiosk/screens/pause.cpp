// The three pauses: everybody stops, one check is asked at a time, the named person answers aloud and whoever
// holds the kiosk taps the fact in the corner. One entry for the whole pause, at its start.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/pause_facts.h"
#include "core/case/pause_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t people_places = 9;

/// One frame of a pause.
struct PausePage {
    Glass& glass;
    const Scene& scene;
    PauseKind which;
    PauseDraft& draft;
    const PauseStanding& standing;
    Asks& asks;

    [[nodiscard]] const CaseState& state() const { return *scene.ahead_state; }
    [[nodiscard]] const std::vector<Check>& checks() const {
        return checks_of_pause(which, scene.policy.lists);
    }
    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    /// The short name of a check, where the words have one, else its question.
    [[nodiscard]] std::string short_of(const Check& check) const {
        const auto key = "pause.short-" + check.id;
        return glass.words().has(key) ? glass.words().say(key) : check.words;
    }
    [[nodiscard]] bool is_present(const std::string& id) const {
        return draft.present &&
               std::find(draft.present->begin(), draft.present->end(), id) != draft.present->end();
    }
};

/// Who answers a check: the first of those present with one of its roles, else the role itself.
std::string answerer(const PausePage& page, const Check& check) {
    for (const auto role : check.roles) {
        for (const auto& id : page.draft.present.value_or(std::vector<std::string>{})) {
            const auto* person = page.scene.ahead.person(id);
            if (person != nullptr && person->has(role)) {
                return short_name(person->name);
            }
        }
    }
    return check.roles.empty() ? "" : page.say(fmt::format("role.name-{}", name_of(check.roles.front())));
}

std::string length_words(const PausePage& page) {
    const auto held = page.state().pauses.find(page.which);
    if (held != page.state().pauses.end() && page.standing.complete() && page.draft.answers.empty()) {
        return page.say("pause.took",
                        {{"time", duration_words(held->second.last.at - held->second.first.happened)}});
    }
    const auto since = page.draft.started.value_or(page.scene.now);
    return page.say("pause.so-far", {{"time", duration_words(page.scene.now - since)}});
}

touch::Icon icon_of(const PausePage& page, std::size_t i) {
    if (page.standing.current == i) {
        return touch::Icon::wedge;
    }
    const auto& check = page.checks()[i];
    const auto answer = page.standing.answers.find(check.id);
    if (answer == page.standing.answers.end()) {
        return touch::Icon::ring;
    }
    const bool good = answer->second == Answered::not_applicable || name_of(answer->second) == check.good;
    return good ? touch::Icon::tick : touch::Icon::stop;
}

void draw_check(const PausePage& page, Rect row, std::size_t i) {
    const auto& c = page.glass.colours();
    const auto& check = page.checks()[i];
    const bool here = page.standing.current == i;
    if (here) {
        touch::fill(page.glass, row, c.control, touch::control_radius);
        touch::outline(page.glass, row, c.accent, 3, touch::control_radius);
    }
    const auto mark = icon_of(page, i);
    touch::icon(page.glass, mark, {row.x + 26, row.y + row.h / 2}, mark == touch::Icon::ring ? 20 : 24);
    const auto name = "check/" + check.id;
    const auto answered = page.standing.answers.find(check.id);
    const bool left_out =
        answered != page.standing.answers.end() && answered->second == Answered::not_applicable;
    const auto fact =
        left_out ? page.say("pause.does-not-apply") : pause_fact(page.glass, page.scene, check.id);
    const float title = fact.empty() ? row.h - 8 : 36;
    touch::text(page.glass, name, {row.x + 56, row.y + 4, 412, title}, page.short_of(check),
                {.em = touch::step::body,
                 .colour = mark == touch::Icon::ring ? c.text_2 : c.text,
                 .bold = here,
                 .lines = fact.empty() ? 2 : 1});
    if (!fact.empty()) {
        touch::text(page.glass, name + "/fact", {row.x + 56, row.y + 40, row.w - 72, row.h - 44}, fact,
                    {.colour = c.text_2, .lines = 1});
    }
    touch::text(page.glass, name + "/who", {row.x + 472, row.y + 4, row.w - 488, 36}, answerer(page, check),
                {.colour = here ? c.text : c.text_2, .bold = here, .align = touch::Align::right, .lines = 1});
}

void draw_checks(const PausePage& page) {
    const auto& c = page.glass.colours();
    touch::panel(page.glass, {176, 104, 672, 560});
    touch::text(page.glass, "pause/head", {196, 108, 432, 36},
                page.say(fmt::format("pause.head-{}", name_of(page.which))),
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(page.glass, "pause/length", {632, 108, 200, 36}, length_words(page),
                {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    const auto count = page.checks().size();
    const float pitch = std::min(124.0F, 514.0F / static_cast<float>(count));
    for (std::size_t i = 0; i < count; ++i) {
        draw_check(page, {188, 148 + pitch * static_cast<float>(i), 648, std::min(88.0F, pitch - 2)}, i);
    }
}

/// Clinical people, those of the room first.
std::vector<const PersonKnown*> people_of(const PausePage& page) {
    std::vector<const PersonKnown*> people;
    for (const auto& [id, person] : page.scene.ahead.people) {
        if (person.active && any_clinical.meets(person.set())) {
            people.push_back(&person);
        }
    }
    std::stable_sort(people.begin(), people.end(), [](const PersonKnown* a, const PersonKnown* b) {
        return a->roles.front() < b->roles.front();
    });
    return people;
}

void toggle(const PausePage& page, const std::string& id) {
    if (!page.draft.present) {
        page.draft.present.emplace();
    }
    if (std::erase(*page.draft.present, id) == 0) {
        page.draft.present->push_back(id);
    }
}

void draw_present(const PausePage& page) {
    const auto& c = page.glass.colours();
    touch::panel(page.glass, {864, 104, 400, 328});
    touch::text(page.glass, "present/head", {884, 106, 220, 34}, page.say("pause.in-the-room"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    const auto here = page.draft.present ? page.draft.present->size() : 0;
    touch::text(page.glass, "present/count", {1108, 106, 136, 34},
                page.glass.words().count("pause.present", static_cast<long>(here)),
                {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    const auto people = people_of(page);
    const bool paged = people.size() > people_places;
    const std::size_t on_page = paged ? people_places - 1 : people_places;
    auto& first = page.draft.first;
    first = first >= people.size() ? 0 : first;
    const auto place = [](std::size_t i) {
        return touch::cell({872, 142, 384, 284}, 3, 3, static_cast<int>(i % 3), static_cast<int>(i / 3), 8);
    };
    for (std::size_t i = 0; i < on_page && first + i < people.size(); ++i) {
        const auto& person = *people[first + i];
        if (touch::button(page.glass, "present/" + person.id, place(i),
                          {.title = short_name(person.name),
                           .look = page.is_present(person.id) ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true})) {
            toggle(page, person.id);
        }
    }
    if (paged && touch::button(page.glass, "more-people", place(people_places - 1),
                               {.title = page.say("pause.others"), .em = touch::step::note})) {
        first += on_page;
    }
}

void say_answer(const PausePage& page, const Check& check, Answered answer);

/// Says what was answered so far, as one entry that happened when the pause began.
void enter(const PausePage& page) {
    Pause says;
    says.which = page.which;
    says.present = page.draft.present.value_or(std::vector<std::string>{});
    says.answers = page.draft.answers;
    page.asks.say.push_back({says, {}, {}, page.draft.started, false});
    page.draft.answers.clear();
}

/// The monitor's clock is compared once, when everything is said.
void draw_monitor_way(const PausePage& page, Rect place) {
    const auto& noted = page.state().monitor_clock;
    const auto note = noted ? page.say("monitor.differs", {{"s", seconds_words(noted->is.offset_s)}})
                            : page.say("monitor.none-yet");
    if (touch::button(page.glass, "monitor-clock", place,
                      {.title = page.say("monitor.head"),
                       .note = note,
                       .look = noted ? touch::Look::chosen : touch::Look::rest,
                       .tick = false,
                       .corner_tick = true})) {
        page.asks.sheet = Sheet::monitor_clock;
    }
}

void draw_question(const PausePage& page) {
    const auto& c = page.glass.colours();
    const Rect panel{864, 440, 400, 224};
    touch::panel(page.glass, panel);
    if (!page.standing.current) {
        touch::text(page.glass, "question/done", {884, 448, 360, 112}, page.say("pause.all-said"),
                    {.em = touch::step::act, .bold = true, .lines = 3});
        if (page.which == PauseKind::before_sedation) {
            draw_monitor_way(page, {880, 568, 368, 88});
        }
        return;
    }
    const auto& check = page.checks()[*page.standing.current];
    const auto who = answerer(page, check);
    touch::text(page.glass, "question/who", {884, 442, 360, 32}, page.say("pause.answers", {{"name", who}}),
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(page.glass, "question", {884, 474, 360, 96}, check.words,
                {.em = touch::step::body, .bold = true, .lines = 4});
    const Rect row{880, 572, 368, 88};
    if (touch::button(page.glass, "not-ready", touch::cell(row, 2, 1, 0, 0, 12),
                      {.title = page.say("pause.not-ready"), .em = touch::step::note})) {
        page.draft.answers[check.id] = check.good == "no" ? Answered::yes : Answered::no;
        enter(page);
    } else if (touch::button(page.glass, "does-not-apply", touch::cell(row, 2, 1, 1, 0, 12),
                             {.title = page.say("pause.does-not-apply-key"), .em = touch::step::note})) {
        say_answer(page, check, Answered::not_applicable);
    }
}

/// Before leaving: the matter is only looked at again. Yes says it once more, No opens the matter check.
void draw_look_again(const PausePage& page, const Matter& before) {
    const auto title = before.full_left
                           ? page.glass.words().count("pause.still-full", *before.full_left)
                           : page.say("pause.still-grams",
                                      {{"g", decimal_words(page.glass, before.scale_g.value_or(Decimal{}))}});
    touch::AnswerPair pair{.bad = touch::Answer::no};
    if (page.draft.looked_again) {
        pair.given = touch::Answer::yes;
    }
    touch::panel(page.glass, {864, 440, 400, 224});
    touch::text(page.glass, "still/title", {884, 442, 360, 34}, title,
                {.em = touch::step::body, .bold = true, .lines = 1});
    const auto answer = touch::answer_pair(page.glass, "still", {872, 478, 384, 88}, pair);
    if (answer == touch::Answer::yes) {
        page.draft.looked_again = true;
        tell_as_assistant(page.scene, before, page.asks);
    } else if (answer == touch::Answer::no) {
        page.asks.page = Page::fill;
        page.asks.sheet = Sheet::matter;
    }
    if (!page.standing.current) {
        return;
    }
    const auto& check = page.checks()[*page.standing.current];
    if (touch::button(page.glass, "not-ready", {872, 574, 384, 88}, {.title = page.say("pause.not-ready")})) {
        page.draft.answers[check.id] = check.good == "no" ? Answered::yes : Answered::no;
        enter(page);
    }
}

void say_answer(const PausePage& page, const Check& check, Answered answer) {
    page.draft.answers[check.id] = answer;
    const auto after = pause_standing(page.state(), page.which, page.scene.policy.lists, page.draft.answers);
    if (after.complete()) {
        enter(page);
    }
}

/// What leads on after the pause.
void draw_next(const PausePage& page, Rect corner) {
    const bool leaving = page.which == PauseKind::before_leaving;
    if (leaving && !page.state().left_room) {
        if (touch::action(page.glass, corner,
                          {.command = "leave-room", .title = page.say("pause.leave-room")}) ==
            touch::ActionTap::action) {
            page.asks.tell(LeaveRoom{});
        }
        return;
    }
    const bool needle =
        page.which == PauseKind::before_device && page.state().kind == CaseKind::removal && !page.state().out;
    const auto stage = leaving ? Stage::recovery : needle ? Stage::puncture : stage_of_pause(page.which);
    const auto next = page_of(stage);
    if (!next) {
        quiet_corner(page.glass, page.say("pause.all-said"));
        return;
    }
    const touch::Action on{
        .command = "go-on",
        .title = page.say("pause.to", {{"stage", page.say(fmt::format("stage.{}", name_of(stage)))}}),
        .look = touch::ActionLook::opens};
    if (touch::action(page.glass, corner, on) == touch::ActionTap::action) {
        page.asks.page = next;
    }
}

void draw_corner(const PausePage& page) {
    const auto corner = touch::layout_for(page.glass.size()).action;
    if (!page.standing.current) {
        draw_next(page, corner);
        return;
    }
    if (!page.draft.present || page.draft.present->empty()) {
        quiet_corner(page.glass, page.say("pause.who-is-here"));
        return;
    }
    const auto& check = page.checks()[*page.standing.current];
    const auto key = "pause.said-" + check.id;
    const touch::Action said{
        .command = fmt::format("said-{}", *page.standing.current + 1),
        .title = page.glass.words().has(key) ? page.glass.words().say(key) : page.say("pause.is-said"),
        .note = page.say("pause.tap-of", {{"n", std::to_string(page.standing.said + 1)},
                                          {"all", std::to_string(page.checks().size())}})};
    if (touch::action(page.glass, corner, said) == touch::ActionTap::action) {
        say_answer(page, check, check.good == "no" ? Answered::no : Answered::yes);
    }
}

void draw_foot(const PausePage& page) {
    if (over_fill(page.scene)) {
        const auto tap = draw_sheet_foot(page.glass, page.scene, std::nullopt, page.asks);
        if (tap == touch::SheetTap::back) {
            page.asks.page = Page::fill;
        }
        return;
    }
    const bool matter = page.which == PauseKind::before_leaving;
    (void)draw_case_prompt(
        page.glass, page.scene,
        touch::Prompt{.urgency = touch::Urgency::low,
                      .title = page.say("pause.everybody-stops"),
                      .why = page.say(matter ? "pause.only-looked-at" : "pause.named-person-answers")},
        page.asks);
    draw_corner(page);
}

/// A pause begins when its page is first open; those of the pause before are there until somebody says so.
void begin(const CaseState& state, PauseKind which, const Lists& lists, Instant now, PauseDraft& draft) {
    if (!draft.started) {
        draft.started = now;
        for (const auto& check : checks_of_pause(which, lists)) {
            if (!state.pauses.contains(which) && does_not_apply(state, check.id)) {
                draft.answers[check.id] = Answered::not_applicable;
            }
        }
    }
    if (draft.present) {
        return;
    }
    if (const auto held = state.pauses.find(which); held != state.pauses.end()) {
        draft.present = held->second.present;
    } else if (!state.pauses.empty()) {
        draft.present = state.pauses.rbegin()->second.present;
    }
}

}  // namespace

Asks draw_pause(Glass& glass, const Scene& scene, PauseKind which, RoomDrafts& drafts) {
    Asks asks;
    auto& draft = drafts.pauses[which];
    begin(*scene.ahead_state, which, scene.policy.lists, scene.now, draft);
    const auto standing = pause_standing(*scene.ahead_state, which, scene.policy.lists, draft.answers);
    const PausePage page{glass, scene, which, draft, standing, asks};
    draw_case_frame_bare(glass, scene, asks);
    draw_checks(page);
    draw_present(page);
    const auto matter =
        which == PauseKind::before_leaving ? matter_to_look_again(*scene.ahead_state) : std::nullopt;
    if (matter) {
        draw_look_again(page, *matter);
    } else {
        draw_question(page);
    }
    draw_foot(page);
    return asks;
}

}  // namespace brimline::screens
