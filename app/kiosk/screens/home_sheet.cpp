// The patient's sheet on the glass, as it will be printed: diet with weekdays and dates, driving, calls, the
// day by which the balloon must be out, and two blocks of signs. One language, never two mixed.
#include <fmt/format.h>

#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/discharge_parts.h"
#include "app/kiosk/screens/fill_words.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

/// "Wed 25 Nov"; with the year "Wed 25 Nov 2026".
std::string day_words(const Glass& glass, LocalDate day, bool year) {
    const std::chrono::weekday weekday{std::chrono::sys_days{day}};
    auto date = shown_date(glass, day);
    if (!year) {
        date = date.substr(0, date.rfind(' '));
    }
    return glass.words().say(fmt::format("date.weekday-{}", weekday.iso_encoding())) + " " + date;
}

std::string span_words(const Glass& glass, const std::optional<LocalDate>& from,
                       const std::optional<LocalDate>& to) {
    if (!from || !to) {
        return "–";
    }
    auto first = day_words(glass, *from, false);
    if (from->month() == to->month() && from->year() == to->year()) {
        first = first.substr(0, first.rfind(' '));  // "Wed 25 to Fri 27 Nov"
    }
    return glass.words().say("discharge.from-to", {{"from", first}, {"to", day_words(glass, *to, false)}});
}

std::string one_day(const Glass& glass, const std::optional<LocalDate>& day) {
    return day ? day_words(glass, *day, true) : std::string{"–"};
}

void pair_of_lines(Glass& glass, const std::string& name, Rect place, const std::string& word,
                   const std::string& value, bool strong) {
    touch::text(glass, name, place.top_part(26), word, {.colour = glass.colours().text_2, .lines = 1});
    touch::text(glass, name + "/value", place.bottom_part(strong ? 34.0F : 28.0F), value,
                {.em = strong ? touch::step::body : touch::step::note, .bold = true, .lines = 1});
}

void draw_head(Glass& glass, const Scene& scene, const HomeSheet& sheet) {
    const auto& words = glass.words();
    const auto& patient = scene.ahead_state->patient;
    const auto name =
        patient.given_name.value_or("") + (patient.given_name ? " " : "") + patient.family_name.value_or("–");
    touch::text(glass, "sheet/for", {196, 110, 330, 40}, words.say("discharge.for", {{"name", name}}),
                {.em = touch::step::act, .bold = true, .lines = 1, .may_cut = true});
    if (sheet.volume && sheet.placed) {
        touch::text(glass, "sheet/balloon", {534, 105, 298, 54},
                    words.say("discharge.balloon-of", {{"ml", ml_words(glass, *sheet.volume)},
                                                       {"date", shown_date(glass, *sheet.placed)}}),
                    {.bold = true, .align = touch::Align::right});
    }
    touch::line(glass, {196, 160}, {828, 160}, glass.colours().line, 2);
}

void draw_dates(Glass& glass, const Scene& scene, const HomeSheet& sheet) {
    const auto& words = glass.words();
    const auto left = [](int row) { return Rect{196, 164 + 52 * static_cast<float>(row), 300, 52}; };
    const auto right = [](int row) { return Rect{508, 164 + 52 * static_cast<float>(row), 324, 52}; };
    if (sheet.placed) {
        pair_of_lines(glass, "sheet/clear", left(0), words.say("discharge.clear"),
                      span_words(glass, sheet.placed, sheet.clear_to), false);
        pair_of_lines(glass, "sheet/full", left(1), words.say("discharge.full"),
                      span_words(glass, sheet.full_from, sheet.full_to), false);
        pair_of_lines(glass, "sheet/soft", left(2), words.say("discharge.soft"),
                      span_words(glass, sheet.soft_from, sheet.soft_to), false);
        pair_of_lines(glass, "sheet/usual", left(3), words.say("discharge.usual"),
                      words.say("discharge.from", {{"date", day_words(glass, *sheet.usual_from, false)}}),
                      false);
        pair_of_lines(glass, "sheet/calls", right(1), words.say("discharge.calls"),
                      words.say("discharge.and", {{"first", day_words(glass, *sheet.first_call, false)},
                                                  {"second", day_words(glass, *sheet.second_call, false)}}),
                      false);
        pair_of_lines(glass, "sheet/book-by", right(2), words.say("discharge.book-by"),
                      one_day(glass, sheet.book_by), false);
        pair_of_lines(glass, "sheet/due", right(3), words.say("discharge.out-by"), one_day(glass, sheet.due),
                      true);
    }
    if (sheet.no_driving) {
        const auto until = day_words(glass, scene.zone.date_of(*sheet.no_driving), true) + " " +
                           clock_text(*sheet.no_driving, scene.zone);
        pair_of_lines(
            glass, "sheet/driving", right(0),
            words.say("discharge.no-driving", {{"h", std::to_string(scene.policy.discharge.limits_h)}}),
            until, false);
    }
}

void draw_block(Glass& glass, const std::string& name, Rect place, touch::Icon icon, touch::Colour edge,
                touch::Colour tint, const std::string& list, const std::string& foot) {
    touch::fill(glass, place, tint, touch::control_radius);
    touch::outline(glass, place, edge, 2, touch::control_radius);
    touch::icon(glass, icon, {place.x + 24, place.y + 24}, 26);
    const auto head = glass.words().say("discharge." + name);
    const bool one = glass.type().width(touch::Face::words_bold, touch::step::note, head) <= place.w - 54;
    const float below = one ? 42 : 60;  // a longer language takes a second line
    touch::text(glass, name, {place.x + 46, place.y + 3, place.w - 54, below - 4}, head, {.bold = true});
    const float room = place.h - below - (foot.empty() ? 8 : 42);
    touch::text(glass, name + "/list", {place.x + 14, place.y + below, place.w - 24, room}, list,
                {.stand = touch::Stand::top, .lines = 8});
    if (!foot.empty()) {
        touch::text(glass, name + "/phone", {place.x + 14, place.bottom() - 38, place.w - 24, 32}, foot,
                    {.bold = true, .lines = 1});
    }
}

}  // namespace

void draw_home_sheet(Glass& glass, const Scene& scene) {
    const auto& c = glass.colours();
    const auto& words = glass.words();
    const auto sheet = home_sheet(*scene.ahead_state, scene.policy, scene.zone, scene.now);
    const Rect paper{176, 104, 672, 560};
    touch::fill(glass, paper, c.panel, 4);
    touch::outline(glass, paper, c.line, 2, 4);
    draw_head(glass, scene, sheet);
    draw_dates(glass, scene, sheet);
    const auto& advice = scene.policy.advice;
    const auto emergency = words.say(sheet.volume ? "discharge.emergency-list" : "discharge.emergency-short");
    draw_block(glass, "emergency", {188, 378, 318, 278}, touch::Icon::stop, c.stop, c.stop_tint, emergency,
               "");
    const auto* same_day = !sheet.volume ? "discharge.same-day-short"
                           : sheet.dye   ? "discharge.same-day-dye"
                                         : "discharge.same-day-list";
    draw_block(glass, "same-day", {514, 378, 322, 278}, touch::Icon::look, c.look, c.look_tint,
               words.say(same_day, {{"h", std::to_string(advice.no_fluid_h)},
                                    {"day", std::to_string(advice.vomiting_day)}}),
               scene.policy.clinic.phone);
}

}  // namespace brimline::screens
