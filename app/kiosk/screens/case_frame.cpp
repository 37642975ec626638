// The frame around every page of a case: patient strip, stage rail, person chips and prompt bar.
// What is due and how urgent it is comes from the core; here it is worded and a tap is given its meaning.
#include "app/kiosk/screens/case_frame.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/names.h"
#include "core/case/where_held.h"

namespace brimline::screens {
namespace {

using touch::Glass;

touch::StripFigure weight_figure(const Glass& glass, const WeightInForce& known) {
    const auto kilograms = Decimal::of_millionths(known.weight.in_tenths() * (Decimal::scale / 10));
    return {.value = glass.words().say("unit.kg", {{"n", decimal_words(glass, kilograms)}}),
            .label = glass.words().say(fmt::format("unit.strip-{}", name_of(known.basis)))};
}

std::optional<touch::StripFigure> sedated_figure(const Glass& glass, const CaseState& state, Instant now) {
    if (!state.sedation_start) {
        return std::nullopt;
    }
    const auto until = state.sedation_end ? state.sedation_end->happened : now;
    return touch::StripFigure{.value = duration_words(until - state.sedation_start->happened),
                              .label = glass.words().say("unit.strip-sedated")};
}

std::optional<touch::StripFigure> vitals_figure(const Glass& glass, const Scene& scene) {
    const auto due = next_vitals_due(*scene.ahead_state, scene.policy);
    if (!due) {
        return std::nullopt;
    }
    const bool now = scene.now >= *due;
    return touch::StripFigure{
        .value = now ? glass.words().say("unit.strip-now") : duration_words(*due - scene.now),
        .label = glass.words().say("unit.strip-vitals-due"),
        .due = now};
}

void fill_allergies(const Glass& glass, const CaseState& state, touch::Strip& strip) {
    if (!state.allergies) {
        strip.allergy = touch::AllergyState::not_asked;
        strip.allergy_text = glass.words().say("frame.allergies-not-asked");
        return;
    }
    const auto& list = state.allergies->is.list;
    if (!list || list->empty()) {
        strip.allergy = touch::AllergyState::none_known;
        strip.allergy_text = glass.words().say("frame.allergies-none-known");
        return;
    }
    strip.allergy = touch::AllergyState::known;
    strip.allergy_text = with_capital(list->front().substance);
    if (list->size() > 1) {
        strip.allergy_text += fmt::format(" +{}", list->size() - 1);
    }
}

std::string born_words(const Glass& glass, const Scene& scene) {
    const auto& born = scene.ahead_state->patient.born;
    if (!born) {
        return glass.words().say("frame.born-unknown");
    }
    const auto age = age_on(*born, scene.zone.date_of(scene.now));
    return glass.words().say("frame.born", {{"date", date_words(*born)}, {"age", std::to_string(age)}});
}

/// The airway event that has not ended.
const AirwayEpisode* open_airway_event(const CaseState& state) {
    const auto open = std::find_if(state.airway_events.rbegin(), state.airway_events.rend(),
                                   [](const AirwayEpisode& e) { return !e.end; });
    return open == state.airway_events.rend() ? nullptr : &*open;
}

void draw_strip(Glass& glass, const touch::Layout& layout, const Scene& scene, Asks& asks) {
    const auto& state = *scene.ahead_state;
    const auto& words = glass.words();
    const auto* open = open_airway_event(state);
    touch::Strip strip{
        .surname = in_capitals(state.patient.family_name.value_or(words.say("frame.unknown"))),
        .given = state.patient.given_name.value_or(""),
        .born = born_words(glass, scene),
        .number = state.patient.number.value_or(""),
        .vitals_title = words.say("unit.strip-vitals"),
        .airway_title = words.say(open != nullptr ? "unit.strip-airway-end" : "unit.strip-airway"),
        .airway_command = open != nullptr ? "airway-event-end" : "airway-event",
        .clock = clock_text(scene.now, scene.zone),
        .person = short_name(scene.ahead, scene.person)};
    fill_allergies(glass, state, strip);
    if (const auto weight = weight_of(state)) {
        strip.figures[0] = weight_figure(glass, *weight);
    }
    strip.figures[1] = sedated_figure(glass, state, scene.now);
    strip.figures[2] = vitals_figure(glass, scene);
    const auto tap = touch::patient_strip(glass, layout, strip);
    if (tap == touch::StripTap::vitals) {
        asks.sheet = Sheet::vitals;
    } else if (tap == touch::StripTap::airway) {
        asks.tell(open != nullptr ? Statement{AirwayEventEnd{{open->start.seq, {}}, {}, {}}}
                                  : Statement{AirwayEvent{}});
    }
}

constexpr std::array rail_stages{Stage::arrival,   Stage::sedation, Stage::look,    Stage::place,
                                 Stage::fill,      Stage::size,     Stage::release, Stage::recovery,
                                 Stage::discharge, Stage::record};

Stage stage_on_screen(Page page) {
    switch (page) {
        case Page::fill:
            return Stage::fill;
        case Page::size:
            return Stage::size;
        case Page::place:
        case Page::sign_in:
        case Page::day_list:
            return Stage::place;
    }
    return Stage::place;
}

void draw_chips(Glass& glass, const touch::Layout& layout, const Scene& scene, Asks& asks) {
    std::vector<touch::Person> people;
    for (const auto& id : scene.present) {
        people.push_back({id, initials_of(scene.ahead.name_of_person(id)), id == scene.person});
    }
    if (const auto tapped = touch::person_chips(glass, layout, people)) {
        asks.person = people[*tapped].id;
    }
}

touch::Urgency urgency_of(rules::Priority priority) {
    switch (priority) {
        case rules::Priority::none:
            return touch::Urgency::none;
        case rules::Priority::low:
            return touch::Urgency::low;
        case rules::Priority::medium:
            return touch::Urgency::medium;
        case rules::Priority::high:
            return touch::Urgency::high;
    }
    return touch::Urgency::none;
}

/// The words of a reminder: those of the kiosk where it has some, else the core's own sentence.
touch::Prompt worded(const Glass& glass, const Scene& scene, const Prompt& prompt) {
    const auto low = prompt.priority == rules::Priority::low ? "-soon" : "";
    const auto key = fmt::format("prompt.{}{}", prompt.code, low);
    const auto& words = glass.words();
    const auto whose = short_name(scene.ahead, scene.physician);
    touch::Prompt shown{.urgency = urgency_of(prompt.priority),
                        .title = words.has(key) ? words.say(key, {{"physician", whose}}) : prompt.say};
    if (words.has(key + "-why")) {
        shown.why = words.say(key + "-why", {{"physician", whose}});
    }
    return shown;
}

/// Where a tap on a reminder leads: to what resolves it.
void follow(const std::string& code, const Scene& scene, Asks& asks) {
    if (code == "vitals-due" || code == "vitals-overdue" || code == "etco2-missing" ||
        code == "alert-value") {
        asks.sheet = Sheet::vitals;
    } else if (code == "count-check-due") {
        asks.sheet = Sheet::count_check;
    } else if (code == "counts-differ" || code == "matter-differs") {
        asks.sheet = Sheet::counts_differ;
    } else {
        asks.sheet = Sheet::none;
    }
    const bool of_fill = asks.sheet != Sheet::vitals && stage_of_hold(code) != Stage::place &&
                         stage_of_hold(code) != Stage::size;
    if (of_fill && scene.page != Page::fill) {
        asks.page = Page::fill;
    }
}

/// What the disk or the core said about the last entry, which stands before every reminder.
std::optional<touch::Prompt> answer_prompt(const Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    if (!scene.broken.empty()) {
        return touch::Prompt{
            .urgency = touch::Urgency::high, .title = words.say("frame.cannot-save"), .why = scene.broken};
    }
    if (scene.waiting.late) {
        return touch::Prompt{.urgency = touch::Urgency::high,
                             .title = words.say("frame.not-yet-saved"),
                             .why = scene.waiting.failing
                                        ? words.say("frame.disk-refused", {{"why", scene.waiting.say}})
                                        : words.say("frame.disk-slow")};
    }
    if (scene.last && scene.last->result == Reply::Result::refused && scene.last->refusal) {
        return touch::Prompt{.urgency = touch::Urgency::medium,
                             .title = scene.last->refusal->say,
                             .why = scene.last->refusal->next};
    }
    return std::nullopt;
}

}  // namespace

std::string decimal_words(const Glass& glass, Decimal value) {
    auto text = value.text();
    const auto point = text.find('.');
    return point == std::string::npos ? text : text.replace(point, 1, glass.words().decimal_mark());
}

std::vector<touch::Stage> rail_of(const Glass& glass, const Scene& scene) {
    const auto under_way = stage_of(*scene.ahead_state, scene.zone, scene.now);
    const auto on_screen = stage_on_screen(scene.page);
    const auto held = stages_with_holds(*scene.ahead_state);
    std::vector<touch::Stage> rail;
    for (const auto stage : rail_stages) {
        auto state = touch::StageState::ahead;
        if (std::find(held.begin(), held.end(), stage) != held.end() ||
            (stage == Stage::fill && scene.waiting.late)) {
            state = touch::StageState::hold;
        } else if (!under_way || stage < *under_way) {
            state = touch::StageState::done;
        } else if (stage == *under_way) {
            state = touch::StageState::under_way;
        }
        rail.push_back(
            {glass.words().say(fmt::format("unit.rail-{}", name_of(stage))), state, stage == on_screen});
    }
    return rail;
}

void draw_case_strip(Glass& glass, const Scene& scene, Asks& asks) {
    glass.dress({.theme = touch::Theme::dark, .in_room = true, .practice = scene.practice});
    const auto layout = touch::layout_for(glass.size());
    touch::page_ground(glass, layout);
    draw_strip(glass, layout, scene, asks);
}

void draw_case_frame_bare(Glass& glass, const Scene& scene, Asks& asks) {
    draw_case_strip(glass, scene, asks);
    const auto layout = touch::layout_for(glass.size());
    if (touch::stage_rail(glass, layout, rail_of(glass, scene))) {
        asks.sheet = Sheet::stages;
    }
    draw_chips(glass, layout, scene, asks);
}

void draw_case_prompt(Glass& glass, const Scene& scene, const std::optional<touch::Prompt>& own, Asks& asks) {
    const auto bar = touch::layout_for(glass.size()).prompt;
    if (const auto answer = answer_prompt(glass, scene)) {
        touch::prompt_bar(glass, bar, *answer);
        return;
    }
    const auto all = prompts(*scene.ahead_state, scene.now, scene.policy);
    if (own && (all.empty() || own->urgency >= urgency_of(all.front().priority))) {
        touch::prompt_bar(glass, bar, *own);
        return;
    }
    if (all.empty()) {
        touch::prompt_bar(glass, bar, {.title = glass.words().say("frame.nothing-due")});
        return;
    }
    if (touch::prompt_bar(glass, bar, worded(glass, scene, all.front())).bar) {
        follow(all.front().code, scene, asks);
    }
}

void draw_case_frame(Glass& glass, const Scene& scene, Asks& asks) {
    draw_case_frame_bare(glass, scene, asks);
    draw_case_prompt(glass, scene, std::nullopt, asks);
}

}  // namespace brimline::screens
