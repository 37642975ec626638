// A lot goes in, people and telephones come out: whom a balloon of this lot was left in, who had one used and
// not left in, and the recall of a lot.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/list_parts.h"
#include "app/kiosk/screens/pages.h"
#include "core/desk/register.h"
#include "core/record/register_sheet.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Letters = RegisterDrafts::Letters;

constexpr std::size_t rows_on_page = 4;

std::string phone_of(const Scene& scene, const RegisterLine& line) {
    for (const auto& [id, state] : scene.desk.cases) {
        if (state.patient.number == line.number && state.patient.phone) {
            return *state.patient.phone;
        }
    }
    return "–";
}

bool draw_line(Glass& glass, const Scene& scene, std::size_t i, const RegisterLine& line) {
    const auto& c = glass.colours();
    const Rect place{176, 304 + 92 * static_cast<float>(i), 1088, 84};
    const auto name = fmt::format("lot/{}", i + 1);
    const bool opens = !line.entry.empty();
    touch::Touch touched;
    if (opens) {
        touched = glass.touch({.name = name, .rect = place, .hit = place, .kind = touch::Kind::row});
        touch::fill(glass, place, touched.pressed ? c.chosen : c.panel, touch::control_radius);
        touch::outline(glass, place, c.line, 2, touch::control_radius);
        touch::icon(glass, touch::Icon::opens, {place.right() - 18, place.y + 42}, 18, c.line, c.panel);
    } else {
        touch::panel(glass, place);
    }
    touch::text(glass, name + "/who", {196, place.y + 4, 320, 38}, line.name,
                {.em = touch::step::body, .bold = true, .lines = 1, .may_cut = true});
    touch::text(glass, name + "/number", {196, place.y + 44, 320, 34}, line.number,
                {.colour = c.text_2, .lines = 1});
    touch::text(glass, name + "/phone", {524, place.y + 8, 280, 68}, phone_of(scene, line),
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(glass, name + "/status", {812, place.y + 4, 400, 38}, line.status,
                {.bold = true, .lines = 1});
    touch::text(glass, name + "/next", {812, place.y + 44, 400, 34}, line.next,
                {.colour = c.text_2, .lines = 1, .may_cut = true});
    return touched.fired;
}

bool is_recalled(const Scene& scene, const std::string& lot) {
    const auto& listed = scene.policy.recalled_lots;
    const auto& told = scene.desk.recalls;
    return std::find(listed.begin(), listed.end(), lot) != listed.end() ||
           std::any_of(told.begin(), told.end(), [&](const Recall& one) { return one.lot == lot; });
}

void open_letters(RegisterDrafts& drafts, Letters which, const std::string& known) {
    drafts.text = touch::TextDraft{30};
    drafts.text.set(known);
    drafts.letters = which;
}

void draw_lot_and_recall(Glass& glass, const Scene& scene, RegisterDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const Rect row{176, 104, 1088, 96};
    if (touch::button(glass, "type-lot", touch::cell(row, 3, 1, 0, 0, 12),
                      {.title = drafts.lot.empty() ? words.say("lots.type") : drafts.lot,
                       .note = words.say("lots.lot"),
                       .look = drafts.lot.empty() ? touch::Look::accent : touch::Look::chosen,
                       .tick = false})) {
        open_letters(drafts, Letters::lot, drafts.lot);
    }
    if (drafts.lot.empty()) {
        return;
    }
    const auto place = touch::cell(row, 3, 1, 1, 0, 12);
    if (is_recalled(scene, drafts.lot)) {
        touch::fill(glass, place, glass.colours().stop_tint, touch::control_radius);
        touch::icon(glass, touch::Icon::stop, {place.x + 34, place.y + 48}, 30);
        touch::text(glass, "lots/recalled", {place.x + 64, place.y + 8, place.w - 76, 80},
                    words.say("lots.recalled"), {.em = touch::step::body, .bold = true});
        return;
    }
    if (touch::button(glass, "recall-note", place,
                      {.title = drafts.note.empty() ? words.say("lots.why") : drafts.note,
                       .note = words.say("lots.why-note"),
                       .look = drafts.note.empty() ? touch::Look::rest : touch::Look::chosen,
                       .tick = false})) {
        open_letters(drafts, Letters::note, drafts.note);
    }
    if (!drafts.note.empty() &&
        touch::button(glass, "recall-lot", touch::cell(row, 3, 1, 2, 0, 12),
                      {.title = words.say("lots.recall"), .look = touch::Look::filled})) {
        asks.tell(Recall{drafts.lot, drafts.note});
        drafts.note.clear();
    }
}

}  // namespace

Asks draw_lots(Glass& glass, const Scene& scene, RegisterDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    if (drafts.letters != Letters::none) {
        const bool lot = drafts.letters == Letters::lot;
        if (draw_desk_letters(glass, scene, words.say(lot ? "lots.lot" : "lots.why"), drafts.text,
                              drafts.keys)) {
            (lot ? drafts.lot : drafts.note) = drafts.text.text();
            drafts.first_line = lot ? 0 : drafts.first_line;
            drafts.letters = Letters::none;
        }
        return asks;
    }
    draw_desk_frame(glass, scene, words.say("lots.title"), words.say("lots.note"), asks);
    draw_lot_and_recall(glass, scene, drafts, asks);
    std::vector<RegisterLine> lines;
    if (!drafts.lot.empty()) {
        lines = register_lines(
            {scene.desk, scene.policy, scene.zone, scene.zone.date_of(scene.now), drafts.lot, true});
    }
    touch::text(glass, "lots/count", {184, 208, 1072, 88},
                drafts.lot.empty()
                    ? words.say("lots.none-typed")
                    : words.count("lots.found", static_cast<long>(lines.size()), {{"lot", drafts.lot}}),
                {.em = touch::step::act, .bold = true, .lines = 1});
    drafts.first_line = drafts.first_line >= lines.size() ? 0 : drafts.first_line;
    for (std::size_t i = 0; i < rows_on_page && drafts.first_line + i < lines.size(); ++i) {
        const auto& line = lines[drafts.first_line + i];
        if (draw_line(glass, scene, i, line)) {
            asks.entry = line.entry;
            asks.page = Page::entry;
        }
    }
    (void)draw_desk_prompt(glass, scene, {.urgency = touch::Urgency::low, .title = words.say("lots.prompt")});
    if (lines.size() <= rows_on_page) {
        quiet_corner(glass, words.say("desk.that-is-all"));
        return asks;
    }
    const touch::Action next{.command = "next-part",
                             .title = words.say("day-list.next-part"),
                             .note = std::to_string(lines.size()),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, next) == touch::ActionTap::action) {
        drafts.first_line += rows_on_page;
    }
    return asks;
}

}  // namespace brimline::screens
