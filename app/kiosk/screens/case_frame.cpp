// The frame around every page of a case: patient strip, stage rail, person chips and prompt bar.
// What is due and how urgent it is comes from the core; here it is worded and a tap is given its meaning.
#include "app/kiosk/screens/case_frame.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/names.h"
#include "core/case/sedation_view.h"
#include "core/case/where_held.h"
#include "core/desk/removal_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;

touch::StripFigure weight_figure(const Glass& glass, const WeightInForce& known) {
    const auto kilograms = Decimal::of_millionths(known.weight.in_tenths() * (Decimal::scale / 10));
    return {.value = glass.words().say("unit.kg", {{"n", decimal_words(glass, kilograms)}}),
            .label = glass.words().say(fmt::format("unit.strip-{}", name_of(known.basis)))};
}

/// How long sedated; from the hand-over on, how long since the last dose.
std::optional<touch::StripFigure> sedated_figure(const Glass& glass, const Scene& scene) {
    const auto& state = *scene.ahead_state;
    const auto now = scene.now;
    if (!state.sedation_start || state.discharged || state.sealed) {
        return std::nullopt;  // who has gone home is not counted any more
    }
    const auto dose = last_sedative(state, scene.policy);
    if (state.offered && dose) {
        return touch::StripFigure{.value = duration_words(now - *dose),
                                  .label = glass.words().say("unit.strip-since-dose")};
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
    return glass.words().say("frame.born",
                             {{"date", shown_date(glass, *born)}, {"age", std::to_string(age)}});
}

/// One tap starts an airway event and the next ends it; its sheet opens, and nothing on it need be answered.
/// While another emergency runs the tap leads to its sheet.
void tell_airway(const CaseState& state, Asks& asks) {
    if (open_emergency(state) != nullptr) {
        asks.sheet = Sheet::emergency;
        return;
    }
    const auto* open = open_airway_event(state);
    asks.tell(open != nullptr ? Statement{AirwayEventEnd{{open->start.seq, {}}, {}, {}}}
                              : Statement{AirwayEvent{}});
    asks.sheet = Sheet::airway;
}

std::string airway_command(const CaseState& state) {
    if (open_emergency(state) != nullptr) {
        return "emergency";
    }
    return open_airway_event(state) != nullptr ? "airway-event-end" : "airway-event";
}

void draw_strip(Glass& glass, const touch::Layout& layout, const Scene& scene, Asks& asks) {
    const auto& state = *scene.ahead_state;
    const auto& words = glass.words();
    const auto airway = airway_command(state);
    touch::Strip strip{
        .surname = in_capitals(state.patient.family_name.value_or(words.say("frame.unknown"))),
        .given = state.patient.given_name.value_or(""),
        .born = born_words(glass, scene),
        .born_covered = born_is_asked(scene),
        .number = state.patient.number.value_or(""),
        .vitals_title = words.say("unit.strip-vitals"),
        .airway_title = words.say("unit.strip-" + airway),
        .airway_command = airway,
        .clock = clock_text(scene.now, scene.zone),
        .person = scene.person.empty() ? words.say("rescue.nobody") : short_name(scene.ahead, scene.person)};
    fill_allergies(glass, state, strip);
    if (const auto weight = weight_of(state)) {
        strip.figures[0] = weight_figure(glass, *weight);
    }
    strip.figures[1] = sedated_figure(glass, scene);
    strip.figures[2] = vitals_figure(glass, scene);
    const auto tap = touch::patient_strip(glass, layout, strip);
    if (tap == touch::StripTap::patient || tap == touch::StripTap::allergy) {
        asks.sheet = Sheet::patient;
    } else if (tap == touch::StripTap::vitals) {
        asks.sheet = Sheet::vitals;
    } else if (tap == touch::StripTap::airway) {
        tell_airway(state, asks);
    }
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
    if (code == "runs") {
        asks.sheet = open_emergency(*scene.ahead_state) != nullptr ? Sheet::emergency : Sheet::airway;
    } else if (code == "vitals-due" || code == "vitals-overdue" || code == "etco2-missing" ||
               code == "alert-value") {
        asks.sheet = Sheet::vitals;
    } else if (code == "count-check-due") {
        asks.page = Page::fill;
        asks.sheet = Sheet::count_check;
    } else if (code == "counts-differ" || code == "matter-differs") {
        asks.page = Page::fill;
        asks.sheet = Sheet::counts_differ;
    } else if (code.rfind("review-", 0) == 0 || code.rfind("proviso-", 0) == 0) {
        asks.sheet = Sheet::reviews;
    } else if (const auto page = page_of(stage_of_hold(code))) {
        asks.page = page;
        asks.sheet = Sheet::none;
    }
}

/// The bar has one line for the cause; what to do stands in its title.
std::string first_sentence(const std::string& text) { return text.substr(0, text.find(". ")); }

/// What the disk or the core said about the last entry, which stands before every reminder.
std::optional<touch::Prompt> answer_prompt(const Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    if (!scene.broken.empty()) {
        return cannot_save(glass, scene);
    }
    if (scene.waiting.late) {
        return touch::Prompt{
            .urgency = touch::Urgency::high,
            .title = words.say("frame.not-yet-saved"),
            .why = scene.waiting.failing
                       ? words.say("frame.disk-refused", {{"why", first_sentence(scene.waiting.say)}})
                       : words.say("frame.disk-slow")};
    }
    if (scene.last && scene.last->result == Reply::Result::refused && scene.last->refusal) {
        return touch::Prompt{.urgency = touch::Urgency::medium,
                             .title = scene.last->refusal->say,
                             .why = scene.last->refusal->next};
    }
    return std::nullopt;
}

/// An airway event or another emergency that runs: its clock, and the way to its sheet.
std::optional<touch::Prompt> running_prompt(const Glass& glass, const Scene& scene) {
    const auto& state = *scene.ahead_state;
    const auto& words = glass.words();
    const auto line = [&](const char* key, touch::Urgency urgency, const Stamp& start) {
        return touch::Prompt{
            .urgency = urgency,
            .title = words.say(key, {{"time", duration_words(scene.now - start.happened)}}),
            .why = words.say("airway.started", {{"time", clock_text(start.happened, scene.zone, true)}})};
    };
    if (const auto* emergency = open_emergency(state)) {
        return line("airway.emergency-runs", touch::Urgency::high, emergency->start);
    }
    if (const auto* open = open_airway_event(state)) {
        return line("airway.event-runs", touch::Urgency::medium, open->start);
    }
    return std::nullopt;
}

/// What stands on the bar unless the page has something as urgent.
struct MostUrgent {
    touch::Prompt shown;
    std::string code{};     // what it is about; empty where a tap leads nowhere
    bool is_answer{false};  // the disk's or the core's word on the last entry
};
MostUrgent most_urgent(const Glass& glass, const Scene& scene) {
    if (const auto answer = answer_prompt(glass, scene)) {
        return {*answer, {}, true};
    }
    const auto all = prompts(*scene.ahead_state, scene.now, scene.policy);
    const bool on_its_sheet = scene.sheet == Sheet::airway || scene.sheet == Sheet::emergency;
    const auto running = on_its_sheet ? std::nullopt : running_prompt(glass, scene);
    if (running && (all.empty() || urgency_of(all.front().priority) < touch::Urgency::high)) {
        return {*running, "runs"};
    }
    if (all.empty()) {
        return {{.title = glass.words().say("frame.nothing-due")}};
    }
    return {worded(glass, scene, all.front()), all.front().code};
}

}  // namespace

std::optional<Page> page_of(Stage stage) {
    switch (stage) {
        case Stage::arrival:
            return Page::arrival;
        case Stage::sedation:
            return Page::sedation;
        case Stage::look:
            return Page::look;
        case Stage::puncture:
            return Page::puncture;
        case Stage::aspirate:
            return Page::aspirate;
        case Stage::out:
            return Page::out;
        case Stage::place:
            return Page::place;
        case Stage::fill:
            return Page::fill;
        case Stage::size:
            return Page::size;
        case Stage::release:
            return Page::release;
        case Stage::recovery:
            return Page::recovery;
        case Stage::discharge:
            return Page::discharge;
        case Stage::record:
            return Page::record;
        default:
            return std::nullopt;
    }
}

Page page_of_case(const CaseState& state, const Scene& scene) {
    const auto stage = stage_of(state, scene.zone, scene.now);
    return !stage ? Page::record : page_of(*stage).value_or(Page::arrival);
}

std::string decimal_words(const Glass& glass, Decimal value) {
    auto text = value.text();
    const auto point = text.find('.');
    return point == std::string::npos ? text : text.replace(point, 1, glass.words().decimal_mark());
}

Stage stage_on_screen(Page page) {
    switch (page) {
        case Page::arrival:
        case Page::enter_room:
            return Stage::arrival;
        case Page::pause_sedation:
        case Page::sedation:
            return Stage::sedation;
        case Page::pause_leaving:
            return Stage::release;
        case Page::look:
            return Stage::look;
        case Page::puncture:
            return Stage::puncture;
        case Page::aspirate:
            return Stage::aspirate;
        case Page::out:
            return Stage::out;
        case Page::fill:
            return Stage::fill;
        case Page::size:
            return Stage::size;
        case Page::release:
            return Stage::release;
        case Page::recovery:
            return Stage::recovery;
        case Page::discharge:
            return Stage::discharge;
        case Page::record:
            return Stage::record;
        case Page::place:
        default:  // a page of the desk
            return Stage::place;
    }
    return Stage::place;
}

bool in_bay(const Scene& scene) {
    const bool recovery = scene.page == Page::recovery && scene.ahead_state->offered;
    return scene.page == Page::arrival || recovery || scene.page == Page::discharge ||
           scene.page == Page::record;
}

touch::Theme theme_of(const Scene& scene, bool light_place) {
    const bool light =
        scene.palette == KioskPalette::by_place ? light_place : scene.palette == KioskPalette::light;
    return light ? touch::Theme::light : touch::Theme::dark;
}

bool born_is_asked(const Scene& scene) {
    const bool handed = scene.ahead_state->offered && !scene.ahead_state->accepted;
    return scene.page == Page::enter_room || (scene.page == Page::recovery && handed);
}

std::vector<Stage> stages_of(const CaseState& state) {
    const bool removal = state.kind == CaseKind::removal;
    std::vector<Stage> stages{Stage::arrival, Stage::sedation, Stage::look};
    if (removal) {
        stages.insert(stages.end(), {Stage::puncture, Stage::aspirate, Stage::out});
    }
    if (!removal || exchanging(state)) {
        stages.insert(stages.end(), {Stage::place, Stage::fill, Stage::size, Stage::release});
    }
    stages.insert(stages.end(), {Stage::recovery, Stage::discharge, Stage::record});
    return stages;
}

std::vector<touch::Stage> rail_of(const Glass& glass, const Scene& scene) {
    const auto under_way = stage_of(*scene.ahead_state, scene.zone, scene.now);
    auto on_screen = stage_on_screen(scene.page);
    const auto stages = stages_of(*scene.ahead_state);
    if (std::find(stages.begin(), stages.end(), on_screen) == stages.end()) {
        // A pause is a moment of Puncture or Out where there is neither Place nor Release.
        on_screen = on_screen == Stage::place ? Stage::puncture : Stage::out;
    }
    const auto held = stages_with_holds(*scene.ahead_state);
    const bool deferred = outcome_of(*scene.ahead_state) == CaseOutcome::deferred;
    std::vector<touch::Stage> rail;
    for (const auto stage : stages) {
        auto state = touch::StageState::ahead;
        if (std::find(held.begin(), held.end(), stage) != held.end() ||
            (stage == Stage::fill && scene.waiting.late)) {
            state = touch::StageState::hold;
        } else if (deferred && stage > Stage::look && stage < Stage::release) {
            state = touch::StageState::deferred;
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
    const bool bay = in_bay(scene);
    glass.dress({.theme = theme_of(scene, bay), .in_room = !bay, .practice = scene.practice});
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

CasePromptTap draw_case_prompt(Glass& glass, const Scene& scene, const std::optional<touch::Prompt>& own,
                               Asks& asks) {
    const auto best = most_urgent(glass, scene);
    const bool own_first = own && !best.is_answer && own->urgency >= best.shown.urgency;
    auto shown = own_first ? *own : best.shown;
    if (!own_first && own) {
        shown.chips = own->chips;
    }
    if (!own_first && (best.code == "vitals-due" || best.code == "vitals-overdue")) {
        shown.chips.push_back({"prompt/not-taken", glass.words().say("vitals.not-taken-airway"), 132});
    }
    const auto tap = touch::prompt_bar(glass, touch::layout_for(glass.size()).prompt, shown);
    const auto chip = tap.chip ? shown.chips[*tap.chip].name : std::string{};
    if (chip == "prompt/not-taken") {
        Vitals says;
        says.not_taken = "airway";
        asks.tell(says);
    } else if (tap.bar && !own_first && !best.code.empty()) {
        follow(best.code, scene, asks);
    }
    return {tap.bar && own_first, chip};
}

void quiet_corner(Glass& glass, const std::string& says) {
    const auto corner = touch::layout_for(glass.size()).action;
    touch::fill(glass, corner, glass.colours().bg, touch::control_radius);
    touch::icon(glass, touch::Icon::ring, {corner.x + 36, corner.y + corner.h / 2}, 24);
    touch::text(glass, "corner/says", {corner.x + 64, corner.y + 8, corner.w - 80, corner.h - 16}, says,
                {.em = touch::step::body, .bold = true});
}

void draw_case_frame(Glass& glass, const Scene& scene, Asks& asks) {
    draw_case_frame_bare(glass, scene, asks);
    (void)draw_case_prompt(glass, scene, std::nullopt, asks);
}

}  // namespace brimline::screens
