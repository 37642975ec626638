// Sizing: what the physician sees, in two blocks: should be Yes, should be No. Entered together once the five
// that are asked of every balloon are answered; tolerance may stay open; a changed answer is entered anew.
#include <fmt/format.h>

#include "app/kiosk/screens/size_parts.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {
namespace {

using touch::Answer;
using touch::Glass;
using touch::Rect;

constexpr float card_w = 330;
constexpr float card_h = 154;
constexpr std::array<float, 3> rows{134, 296, 458};
constexpr float left_x = 176;
constexpr float right_x = 518;

/// The answers as they stand: what is being tapped over what was entered last.
SizeDrafts standing_answers(const Scene& scene, const SizeDrafts& drafts) {
    SizeDrafts all = drafts;
    const auto& entered = scene.ahead_state->device().sizings;
    if (entered.empty()) {
        return all;
    }
    const auto& is = entered.back().is;
    const auto fill = [](std::optional<bool>& answer, bool value) {
        answer = answer ? answer : std::optional{value};
    };
    fill(all.gap, is.gap);
    fill(all.passes, is.passes);
    fill(all.wedged, !is.not_wedged);
    fill(all.blanching, !is.no_blanching);
    if (is.tolerated) {
        fill(all.distress, !*is.tolerated);
    }
    if (!all.position && !all.not_in_body) {
        all.position = is.position;
    }
    return all;
}

std::optional<Sizing> sizing_of(const SizeDrafts& all) {
    if (!all.gap || !all.passes || !all.wedged || !all.blanching || !all.position) {
        return std::nullopt;
    }
    Sizing says;
    says.gap = *all.gap;
    says.passes = *all.passes;
    says.not_wedged = !*all.wedged;
    says.no_blanching = !*all.blanching;
    says.position = *all.position;
    if (all.distress) {
        says.tolerated = !*all.distress;
    }
    return says;
}

/// One question with its pair; true when an answer was given or changed.
bool question(Glass& glass, const std::string& name, Rect place, std::optional<bool>& answer,
              const std::optional<bool>& stands, bool should_be) {
    const bool open = !stands.has_value();
    touch::panel(glass, place);
    const Rect room{place.x + 20, place.y + 3, place.w - 64, 55};
    const auto words = glass.words().say("size." + name);
    const auto face = open ? touch::Face::words_bold : touch::Face::words;
    const bool one_line = glass.type().width(face, touch::step::body, words) <= room.w;
    touch::text(glass, name + "/question", room, words,
                {.em = one_line ? touch::step::body : touch::step::note, .bold = open});
    if (open) {
        touch::icon(glass, touch::Icon::ring, {place.right() - 30, place.y + 30}, 24);
    }
    touch::AnswerPair pair{.bad = should_be ? Answer::no : Answer::yes, .bad_look = touch::Look::review};
    if (stands) {
        pair.given = *stands ? Answer::yes : Answer::no;
    }
    const auto tapped = touch::answer_pair(glass, name, {place.x + 16, place.y + 60, place.w - 32, 88}, pair);
    if (tapped) {
        answer = *tapped == Answer::yes;
    }
    return tapped.has_value();
}

/// Where it lies when it is not in the body; one tap, and In the body takes it back.
bool where_is_it(Glass& glass, Rect place, const std::optional<Position>& stands, SizeDrafts& drafts) {
    touch::panel(glass, place);
    touch::text(glass, "position/question", {place.x + 20, place.y + 3, place.w - 40, 55},
                glass.words().say("size.where"), {.em = touch::step::body, .bold = !stands});
    const Rect keys{place.x + 16, place.y + 60, place.w - 32, 88};
    bool tapped = false;
    for (const auto position : {Position::antrum, Position::body, Position::fundus}) {
        const auto name = name_of(position);
        const bool chosen = stands == position;
        const touch::Button face{.title = glass.words().say(fmt::format(
                                     "{}.{}", position == Position::body ? "size" : "unit", name)),
                                 .look = chosen ? touch::Look::review : touch::Look::rest,
                                 .em = touch::step::note,
                                 .tick = false};
        const auto cell = touch::cell(keys, 3, 1, static_cast<int>(position), 0, 8);
        if (touch::button(glass, fmt::format("position/{}", name), cell, face) && !chosen) {
            drafts.position = position;
            drafts.not_in_body = position != Position::body;
            tapped = true;
        }
    }
    return tapped;
}

bool position_card(Glass& glass, Rect place, const SizeDrafts& all, SizeDrafts& drafts) {
    if (all.not_in_body || (all.position && *all.position != Position::body)) {
        return where_is_it(glass, place, all.position, drafts);
    }
    std::optional<bool> in_body;
    const auto stands = all.position ? std::optional{true} : std::nullopt;
    if (!question(glass, "in-body", place, in_body, stands, true)) {
        return false;
    }
    drafts.not_in_body = !*in_body;
    drafts.position = *in_body ? std::optional{Position::body} : std::nullopt;
    return *in_body;  // after No the place is asked first
}

void draw_heads(Glass& glass, const Scene& scene) {
    const auto& c = glass.colours();
    const auto& words = glass.words();
    const auto head = [&](const char* name, Rect place, const std::string& text, bool right) {
        touch::text(glass, name, place, text,
                    {.colour = c.text_2,
                     .bold = !right,
                     .align = right ? touch::Align::right : touch::Align::left,
                     .lines = 1});
    };
    head("yes/title", {178, 102, 326, 30}, words.say("size.should-be-yes", {{"name", whose_word(scene)}}),
         false);
    head("no/title", {520, 102, 200, 30}, words.say("size.should-be-no"), false);
    const auto& entered = scene.ahead_state->device().sizings;
    if (!entered.empty()) {
        const auto time = clock_text(entered.back().stamp.happened, scene.zone);
        head("sizing/entered", {720, 102, 126, 30}, words.say("size.entered", {{"time", time}}), true);
    }
}

/// What the matter said, its numbers covered.
void draw_matter_line(Glass& glass, const Scene& scene) {
    const auto& c = glass.colours();
    const Rect line{176, 620, 672, 44};
    const auto look = matter_look(*scene.ahead_state, scene.policy);
    const bool good = look && (look->agrees || !look->judged);
    touch::fill(glass, line, !look ? c.panel : good ? c.good_tint : c.stop_tint, touch::control_radius);
    const auto icon = !look           ? touch::Icon::ring
                      : !look->judged ? touch::Icon::know
                      : good          ? touch::Icon::good
                                      : touch::Icon::stop;
    touch::icon(glass, icon, {line.x + 32, line.y + 22}, 30);
    auto key = std::string{"size.matter-not-yet"};
    if (look) {
        key = fmt::format("size.matter-{}-{}", name_of(look->method),
                          !look->judged ? "noted"
                          : good        ? "agrees"
                                        : "differs");
    }
    const auto time = look ? clock_text(look->at, scene.zone, true) : std::string{};
    touch::text(glass, "matter", {line.x + 60, line.y + 4, 456, 36}, glass.words().say(key, {{"time", time}}),
                {.bold = true, .lines = 1});
    if (look && look->judged) {
        touch::covered(glass, "matter/covered", {704, 624, 138, 36});
    }
}

}  // namespace

void draw_sizing(Glass& glass, const Scene& scene, SizeDrafts& drafts, Asks& asks) {
    const auto all = standing_answers(scene, drafts);
    draw_heads(glass, scene);
    const auto place = [](float x, std::size_t row) { return Rect{x, rows[row], card_w, card_h}; };
    bool changed = question(glass, "gap", place(left_x, 0), drafts.gap, all.gap, true);
    changed = question(glass, "passes", place(left_x, 1), drafts.passes, all.passes, true) || changed;
    changed = position_card(glass, place(left_x, 2), all, drafts) || changed;
    changed = question(glass, "wedged", place(right_x, 0), drafts.wedged, all.wedged, false) || changed;
    changed =
        question(glass, "blanching", place(right_x, 1), drafts.blanching, all.blanching, false) || changed;
    changed = question(glass, "distress", place(right_x, 2), drafts.distress, all.distress, false) || changed;
    draw_matter_line(glass, scene);
    if (!changed) {
        return;
    }
    if (const auto says = sizing_of(standing_answers(scene, drafts))) {
        asks.tell_said_by(*says, scene.physician);
    }
}

}  // namespace brimline::screens
