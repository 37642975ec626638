// Place: from the closed pack to "ready to fill". The corner points to the next missing thing; the position
// is a Yes or No in column B, said by the physician, and never in the corner.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/letters.h"
#include "app/kiosk/screens/place_parts.h"
#include "app/kiosk/screens/whose_word.h"
#include "core/label/gs1.h"

namespace brimline::screens {
namespace {

using touch::Card;
using touch::CardKind;
using touch::Glass;
using touch::Rect;

constexpr float left = 864;
constexpr float width = 400;

/// A step that is a tap: to do, or done with its moment.
bool step_card(Glass& glass, const char* name, float y, const Scene& scene, const std::optional<Stamp>& done,
               const std::string& note) {
    Card card{
        .kind = CardKind::to_do, .title = glass.words().say(fmt::format("place.{}", name)), .lines = {note}};
    if (done) {
        card.taken = true;
        card.lines = {clock_text(done->happened, scene.zone, true)};
    }
    return touch::card(glass, name, {left, y, width, 88}, card) && !done;
}

std::string label_note(const Glass& glass, const Scene& scene) {
    const auto failed = failed_scans(*scene.ahead_state);
    if (failed.empty()) {
        return glass.words().say("place.scan-or-tap");
    }
    return glass.words().count("place.scan-failed-tap", static_cast<long>(failed.size()));
}

void draw_label_card(Glass& glass, const Scene& scene, Asks& asks) {
    const auto& label = scene.ahead_state->device().label;
    const Rect place{left, 104, width, 88};
    if (!label) {
        const Card card{.kind = CardKind::to_do,
                        .title = glass.words().say("place.scan-label"),
                        .lines = {label_note(glass, scene)}};
        if (touch::card(glass, "label", place, card)) {
            asks.sheet = Sheet::label_typed;
        }
        return;
    }
    const Card card{.kind = CardKind::done,
                    .title = glass.words().say(fmt::format("place.label-{}", name_of(label->is.how))),
                    .lines = {clock_text(label->stamp.happened, scene.zone, true)},
                    .taken = true};
    if (touch::card(glass, "label", place, card) && label->is.how == LabelHow::unreadable) {
        asks.sheet = Sheet::label_typed;  // it could be read after all
    }
}

std::string saline_title(const Glass& glass, const DeviceBlock& block) {
    if (!block.saline) {
        return glass.words().say("place.saline-missing");
    }
    const auto method = glass.words().say(fmt::format("place.laid-{}", name_of(block.saline->is.method)));
    if (!block.dye) {
        return method;
    }
    const auto& dye = block.dye->is;
    const auto* key = dye.none == true               ? "place.no-dye"
                      : dye.in_first_syringe == true ? "place.dye-in-1"
                                                     : "place.dye-on-top";
    return method + ", " + glass.words().say(key);
}

/// Not a target: saline and dye are tapped in column A, where their numbers stand.
void draw_saline_card(Glass& glass, const Scene& scene) {
    const auto& block = scene.ahead_state->device();
    const auto& c = glass.colours();
    const Rect place{left, 200, width, 64};
    const bool done = block.saline && block.dye;
    touch::panel(glass, place);
    touch::icon(glass, done ? touch::Icon::tick : touch::Icon::ring, {place.x + 36, place.y + 44},
                done ? 24 : 32);
    const Rect words{place.x + 64, place.y + 2, place.w - 76, place.h - 4};
    touch::text(glass, "saline/title", words.top_part(32), saline_title(glass, block),
                {.em = touch::step::body, .bold = true, .lines = 1});
    const auto filled = block.saline ? block.saline->is.filled_to : std::nullopt;
    const auto note = filled ? glass.words().say("place.each-to", {{"ml", ml_words(glass, *filled)}})
                             : glass.words().say("place.saline-at-left");
    touch::text(glass, "saline/note", words.bottom_part(28), note, {.colour = c.text_2, .lines = 1});
}

void draw_position_card(Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks) {
    const auto& seen = scene.ahead_state->device().position_seen;
    touch::AnswerPair pair{.bad = touch::Answer::no};
    if (seen) {
        pair.given = touch::Answer::yes;
    } else if (drafts.said_no) {
        pair.given = touch::Answer::no;
    }
    const Card card{.kind = seen ? CardKind::plain : CardKind::hold,
                    .title = glass.words().say("place.below-junction"),
                    .lines = {glass.words().say("place.under-view", {{"name", whose_word(scene)}})}};
    take_position(touch::card_with_answer(glass, "position", {left, 368, width, 200}, card, pair), scene,
                  drafts, asks);
    if (drafts.pointed == PlaceStep::position && !seen) {
        touch::outline(glass, {left - 4, 364, width + 8, 208}, glass.colours().accent, 4,
                       touch::panel_radius);
    }
}

void draw_steps(Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks) {
    const auto& block = scene.ahead_state->device();
    draw_label_card(glass, scene, asks);
    draw_saline_card(glass, scene);
    if (step_card(glass, "balloon-passed", 272, scene, block.passed, "")) {
        asks.tell(BalloonPassed{});
    }
    draw_position_card(glass, scene, drafts, asks);
    const auto* profile = profile_of(block, scene.policy);
    const auto ready = profile == nullptr ? glass.words().say("place.as-the-leaflet") : profile->ready_words;
    if (step_card(glass, "ready-to-fill", 576, scene, block.ready, ready)) {
        asks.tell(ReadyToFill{});
    }
}

/// What the corner is for one missing step: it records what is no gate, and points to the rest.
touch::Action corner_of(const Glass& glass, PlaceStep step) {
    const auto name = name_of(step);
    const bool records = step == PlaceStep::passed || step == PlaceStep::ready;
    return {.command = fmt::format("next-{}", name),
            .title = glass.words().say(fmt::format("place.next-{}", name)),
            .look = records ? touch::ActionLook::ready : touch::ActionLook::next_missing};
}

void follow(PlaceStep step, PlaceDrafts& drafts, Asks& asks) {
    drafts.pointed = step;
    switch (step) {
        case PlaceStep::label:
            asks.sheet = Sheet::label_typed;
            break;
        case PlaceStep::volume:
            drafts.open(PlaceDrafts::Pad::volume);
            break;
        case PlaceStep::dye:
            drafts.open(PlaceDrafts::Pad::dye);
            break;
        case PlaceStep::passed:
            asks.tell(BalloonPassed{});
            break;
        case PlaceStep::ready:
            asks.tell(ReadyToFill{});
            break;
        case PlaceStep::saline:
        case PlaceStep::position:
            break;  // both are answered where they stand
    }
}

void draw_corner(Glass& glass, const touch::Layout& layout, const Scene& scene, PlaceDrafts& drafts,
                 Asks& asks) {
    const auto missing = place_missing(*scene.ahead_state);
    if (missing.empty()) {
        const touch::Action to_fill{.command = "to-fill",
                                    .title = glass.words().say("place.to-fill"),
                                    .note = glass.words().say("place.all-there"),
                                    .look = touch::ActionLook::opens};
        if (touch::action(glass, layout.action, to_fill) == touch::ActionTap::action) {
            asks.page = Page::fill;
        }
        return;
    }
    const touch::GoOn go_on{glass.words().say("place.go-on"),
                            glass.words().count("place.open-items", static_cast<long>(missing.size()))};
    const auto tapped = touch::action(glass, layout.action, corner_of(glass, missing.front()), go_on);
    if (tapped == touch::ActionTap::go_on) {
        asks.page = Page::fill;  // where gate 3 is open, the kiosk asks first
    } else if (tapped == touch::ActionTap::action) {
        follow(missing.front(), drafts, asks);
    }
}

std::optional<touch::Prompt> own_prompt(const Glass& glass, const Scene& scene, const PlaceDrafts& drafts) {
    const auto& words = glass.words();
    const auto& block = scene.ahead_state->device();
    if (drafts.said_no && !block.position_seen) {
        return touch::Prompt{.urgency = touch::Urgency::medium,
                             .title = words.say("place.not-below"),
                             .why = words.say("place.not-below-why")};
    }
    const auto failed = failed_scans(*scene.ahead_state);
    if (!block.label && !failed.empty()) {
        return touch::Prompt{
            .urgency = touch::Urgency::medium,
            .title = words.count("place.scan-failed", static_cast<long>(failed.size()),
                                 {{"time", clock_text(failed.back().happened, scene.zone, true)}}),
            .why = words.say("place.scan-failed-why")};
    }
    if (block.passed && !block.position_seen) {
        return touch::Prompt{.urgency = touch::Urgency::medium,
                             .title = words.say("place.is-it-below"),
                             .why = words.say("place.is-it-below-why")};
    }
    return std::nullopt;
}

}  // namespace

void PlaceDrafts::take_scan(const std::string& characters, LocalDate today) {
    const auto read = parse_label(characters, today);
    if (!read || !read->lot) {
        return;
    }
    saline_lot.set(*read->lot);
    saline_expiry.clear();
    for (const char digit : read->value_of("17").value_or("")) {
        (void)saline_expiry.press(static_cast<touch::PadKey>(digit - '0'));
    }
    in_expiry = false;
}

void PlaceDrafts::open(Pad which) {
    pad = which;
    box = 0;
    dye_in_first.reset();
    saline_lot = touch::TextDraft{20};
    saline_expiry.clear();
    in_expiry = false;
    numbers.fill(touch::NumberDraft{});
    if (which == Pad::closed_tap) {
        numbers[0] = touch::NumberDraft{5, 1};
    } else if (which == Pad::dye) {
        numbers[0] = touch::NumberDraft{2, 1};
    } else {
        numbers.fill(touch::NumberDraft{which == Pad::row ? 2 : 4, 0});
    }
    if (which == Pad::row || which == Pad::pair || which == Pad::closed_tap) {
        numbers[which == Pad::pair ? 0 : 1] = touch::NumberDraft{3, 1};
    }
}

void take_position(std::optional<touch::Answer> answer, const Scene& scene, PlaceDrafts& drafts, Asks& asks) {
    if (answer == touch::Answer::no && !scene.ahead_state->device().position_seen) {
        drafts.said_no = true;
    } else if (answer == touch::Answer::yes) {
        drafts.said_no = false;
        asks.tell_said_by(PositionSeen{}, scene.physician);
    }
}

Asks draw_place(Glass& glass, const Scene& scene, PlaceDrafts& drafts) {
    Asks asks;
    if (scene.sheet == Sheet::label_typed) {
        draw_label_typed(glass, scene, drafts, asks);
        return asks;
    }
    if (drafts.lot_keyboard) {
        drafts.lot_keyboard = !draw_letters(glass, scene, glass.words().say("place.saline-lot"),
                                            drafts.saline_lot, drafts.keys, asks);
        drafts.in_expiry = !drafts.lot_keyboard && !drafts.saline_lot.text().empty();
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    const auto layout = touch::layout_for(glass.size());
    draw_place_panels(glass, scene, drafts);
    if (scene.sheet == Sheet::gate_position && fill_asks_position(*scene.ahead_state)) {
        draw_gate_position(glass, scene, drafts, asks);
        return asks;
    }
    draw_case_prompt(glass, scene, own_prompt(glass, scene, drafts), asks);
    if (drafts.pad != PlaceDrafts::Pad::none) {
        draw_place_pad(glass, scene, drafts, asks);
    } else {
        draw_steps(glass, scene, drafts, asks);
        draw_corner(glass, layout, scene, drafts, asks);
    }
    return asks;
}

}  // namespace brimline::screens
