// The bays: up to six patients, the next due value largest, figures behind their minute; a tap opens the
// case.
#include "core/desk/bays.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t bays = 6;

Rect place_of(const Glass& glass, std::size_t index) {
    const int at = static_cast<int>(index);
    return glass.size().h > glass.size().w ? touch::cell({16, 104, 768, 876}, 2, 3, at % 2, at / 2, 12)
                                           : touch::cell({176, 104, 1088, 560}, 3, 2, at % 3, at / 3, 12);
}

std::string due_words(const Scene& scene, const BayPatient& one) {
    const auto wait = *one.due - scene.now;
    return wait > Duration{} ? duration_words(wait) : duration_words(scene.now - *one.due);
}

/// The line under the figures: fit or oxygen, and nausea.
std::string standing_words(const Glass& glass, const Scene& scene, const BayPatient& one) {
    const auto& words = glass.words();
    std::string line;
    const auto add = [&](const std::string& part) { line += (line.empty() ? "" : " · ") + part; };
    if (one.fit && *one.fit <= scene.now) {
        add(words.say("recovery.fit-since", {{"time", clock_text(*one.fit, scene.zone)}}));
    } else if (!one.state->oxygen.empty() && one.state->oxygen.back().is.l_min > Decimal{}) {
        add(words.say("bays.on-oxygen", {{"n", one.state->oxygen.back().is.l_min.text()}}));
    }
    if (const auto nausea = last_rating(*one.state, SymptomKind::nausea)) {
        add(words.say("bays.nausea", {{"n", std::to_string(*nausea)}}));
    }
    return line;
}

std::string where_words(const Glass& glass, const BayPatient& one) {
    const auto& words = glass.words();
    if (!placed_at(*one.state)) {
        return words.say("bays.no-balloon");
    }
    return one.lowest_here ? words.say("bays.lowest", {{"n", std::to_string(*one.lowest_here)}})
                           : words.say("bays.no-set");
}

std::string set_words(const Glass& glass, const BayPatient& one) {
    const auto number = [](const std::optional<int>& n) { return n ? std::to_string(*n) : std::string{"–"}; };
    const auto& is = one.last->is;
    return glass.words().say("unit.bay-set", {{"hr", number(is.hr)},
                                              {"upper", number(is.systolic)},
                                              {"lower", number(is.diastolic)},
                                              {"spo2", number(is.spo2)}});
}

void draw_ground(Glass& glass, Rect place, const BayPatient& one) {
    const auto& c = glass.colours();
    const bool late = one.lateness != Lateness::none && !one.coming;
    const bool overdue = one.lateness == Lateness::overdue && !one.coming;
    touch::fill(glass, place, overdue ? c.stop_tint : late ? c.look_tint : c.panel, touch::panel_radius);
    if (one.coming) {
        touch::dashed(glass, place, c.line, 2);
    } else {
        touch::outline(glass, place,
                       overdue ? c.stop
                       : late  ? c.look
                               : c.line,
                       late ? 3 : 2, touch::panel_radius);
    }
}

void draw_due(Glass& glass, const Scene& scene, const std::string& name, Rect room, const BayPatient& one) {
    const auto& words = glass.words();
    const auto& c = glass.colours();
    const auto icon = one.lateness == Lateness::overdue ? touch::Icon::stop
                      : one.lateness == Lateness::due   ? touch::Icon::look
                                                        : touch::Icon::know;
    touch::icon(glass, icon, {room.x + 16, room.y + 32}, 34);
    const bool past = one.due && scene.now >= *one.due;
    const auto* key = past                            ? "bays.overdue-by"
                      : one.lateness == Lateness::due ? "bays.due-in"
                                                      : "bays.signs-in";
    touch::text(glass, name + "/due-word", {room.x + 44, room.y, 128, 28},
                words.say(one.due ? key : "bays.none-due"), {.lines = 1});
    if (one.due) {
        touch::text(glass, name + "/due", {room.x + 44, room.y + 28, room.w - 150, 52}, due_words(scene, one),
                    {.em = touch::step::glance, .bold = true, .lines = 1});
    }
    if (one.score != nullptr) {
        touch::text(glass, name + "/score-word", {room.right() - 138, room.y, 138, 28},
                    words.say("bays.score", {{"time", clock_text(one.score->stamp.happened, scene.zone)}}),
                    {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
        touch::text(glass, name + "/score", {room.right() - 90, room.y + 28, 90, 52},
                    std::to_string(total_of(one.score->is)),
                    {.em = touch::step::glance, .bold = true, .align = touch::Align::right, .lines = 1});
    }
}

void draw_patient(Glass& glass, const Scene& scene, Rect place, const BayPatient& one, Asks& asks) {
    const auto& c = glass.colours();
    const auto& words = glass.words();
    const auto name = "bay/" + one.state->name;
    const auto touched = glass.touch({.name = name, .rect = place, .hit = place, .kind = touch::Kind::card});
    draw_ground(glass, place, one);
    const Rect room = place.inset(20, 12);
    touch::text(glass, name + "/where", {room.x, room.y, 150, 28},
                words.say(one.coming ? "bays.coming" : "bays.here"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(glass, name + "/number", {room.x + 160, room.y, room.w - 160, 28},
                one.state->patient.number.value_or("–"),
                {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    touch::text(glass, name + "/name", {room.x, room.y + 30, room.w, 40}, listed_name(one.state->patient),
                {.em = touch::step::act, .bold = true, .lines = 1, .may_cut = true});
    if (one.coming) {
        touch::text(glass, name + "/coming", {room.x, room.y + 84, room.w, 70},
                    words.say(one.state->offered ? "bays.offered" : "bays.left-room"), {.bold = true});
    } else {
        draw_due(glass, scene, name, {room.x, room.y + 82, room.w, 80}, one);
        touch::text(glass, name + "/standing", {room.x, room.y + 166, room.w, 28},
                    standing_words(glass, scene, one), {.bold = true, .lines = 1});
        touch::text(glass, name + "/balloon", {room.x, room.y + 194, room.w, 28}, where_words(glass, one),
                    {.colour = c.text_2, .lines = 1});
        if (one.last != nullptr) {
            touch::text(glass, name + "/set-time", {room.x, room.y + 222, 60, 28},
                        clock_text(one.last->stamp.happened, scene.zone),
                        {.colour = c.text_2, .bold = true, .lines = 1});
            touch::text(glass, name + "/set", {room.x + 62, room.y + 222, room.w - 62, 28},
                        set_words(glass, one), {.align = touch::Align::right, .lines = 1});
        }
    }
    if (touched.fired) {
        asks.open_case = one.state->name;
        asks.page = Page::recovery;
    }
}

touch::Prompt prompt_of(const Glass& glass, const Scene& scene, const std::vector<BayPatient>& list) {
    const auto& words = glass.words();
    if (list.empty() || list.front().coming || !list.front().due) {
        return {.title = words.say("bays.nobody-due")};
    }
    const auto& first = list.front();
    const auto family = first.state->patient.family_name.value_or("–");
    const bool past = scene.now >= *first.due;
    return {.urgency = first.lateness == Lateness::overdue ? touch::Urgency::high
                       : first.lateness == Lateness::due   ? touch::Urgency::medium
                                                           : touch::Urgency::low,
            .title = words.say(past ? "bays.prompt-overdue" : "bays.prompt-next",
                               {{"name", family}, {"time", due_words(scene, first)}}),
            .why = words.say("bays.due-at", {{"time", clock_text(*first.due, scene.zone)}})};
}

}  // namespace

Asks draw_bays(Glass& glass, const Scene& scene) {
    Asks asks;
    const auto& words = glass.words();
    draw_desk_frame(glass, scene, words.say("bays.title"), words.say("bays.no-alarm"), asks);
    const auto list = bays_of(scene.desk, scene.policy, scene.now);
    for (std::size_t i = 0; i < bays; ++i) {
        const auto place = place_of(glass, i);
        if (i < list.size()) {
            draw_patient(glass, scene, place, list[i], asks);
        } else {
            touch::dashed(glass, place, glass.colours().line, 2);
            touch::text(glass, fmt::format("bay/empty-{}", i + 1), place.inset(20, 80),
                        words.say("bays.empty"),
                        {.em = touch::step::body,
                         .colour = glass.colours().text_2,
                         .align = touch::Align::centre,
                         .lines = 1});
        }
    }
    auto prompt = prompt_of(glass, scene, list);
    if (list.size() > bays) {
        prompt.why = words.count("bays.more", static_cast<long>(list.size() - bays));
    }
    draw_desk_prompt(glass, scene, prompt);
    if (list.empty()) {
        return asks;
    }
    const auto family = list.front().state->patient.family_name.value_or("–");
    const touch::Action open{
        .command = "open/" + list.front().state->name,
        .title = words.say(list.front().coming ? "bays.accept" : "bays.open", {{"name", family}})};
    if (touch::action(glass, touch::layout_for(glass.size()).action, open) == touch::ActionTap::action) {
        asks.open_case = list.front().state->name;
        asks.page = Page::recovery;
    }
    return asks;
}

}  // namespace brimline::screens
