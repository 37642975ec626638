// Column B of Place while numbers are typed: the volume that was said, syringes and marks, the bag, the dye.
// No box is filled beforehand; the corner says what it will enter.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/place_parts.h"
#include "app/kiosk/screens/whose_word.h"
#include "core/label/gs1.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Pad = PlaceDrafts::Pad;

constexpr Rect boxes_area{864, 96, 400, 88};
constexpr Rect pad_area{864, 192, 400, 376};
constexpr Rect foot_area{864, 576, 400, 88};

/// The boxes of each pad, by the last part of their key.
std::vector<const char*> boxes_of(const Scene& scene, Pad pad) {
    switch (pad) {
        case Pad::volume:
            if (profile_of(scene.ahead_state->device(), scene.policy) == nullptr) {
                return {"from", "to", "aim", "ceiling"};  // no leaflet says it, so somebody must
            }
            return {"from", "to", "aim"};
        case Pad::row:
            return {"laid-out", "filled-to"};
        case Pad::pair:
            return {"filled-to"};
        case Pad::closed_tap:
            return {"bag-g", "filled-to"};
        case Pad::dye:
            return {"dye-ml"};
        case Pad::none:
            break;
    }
    return {};
}

std::optional<Millilitres> ml_of(const touch::NumberDraft& draft) {
    const auto tenths = draft.in_tenths();
    return tenths ? std::optional{Millilitres::of_tenths(*tenths)} : std::nullopt;
}

/// The first box that must be filled and is not. A ceiling may wait for the label, whose leaflet gives it.
std::optional<std::size_t> first_empty(const Scene& scene, const PlaceDrafts& drafts, std::size_t boxes) {
    const bool label_to_come = drafts.pad == Pad::volume && !scene.ahead_state->device().label;
    for (std::size_t i = 0; i < (label_to_come ? 3 : boxes); ++i) {
        if (drafts.numbers[i].empty()) {
            return i;
        }
    }
    return std::nullopt;
}

void draw_boxes(Glass& glass, const std::vector<const char*>& boxes, PlaceDrafts& drafts) {
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const bool below = i == 3;  // the ceiling, where no leaflet gives it, stands beside Back
        const int across = static_cast<int>(std::min<std::size_t>(boxes.size(), 3));
        const auto place = below ? touch::cell(foot_area, 2, 1, 1, 0, 8)
                                 : touch::cell(boxes_area, across, 1, static_cast<int>(i), 0, 8);
        const touch::ValueBox box{.digits = drafts.numbers[i].shown(glass.words().decimal_mark()),
                                  .label = glass.words().say(fmt::format("place.box-{}", boxes[i])),
                                  .focused = i == drafts.box && !drafts.in_expiry,
                                  .small = true,
                                  .touchable = true};
        if (touch::value_box(glass, fmt::format("box/{}", boxes[i]), place, box)) {
            drafts.box = i;
            drafts.in_expiry = false;
        }
    }
}

std::optional<LocalDate> saline_expiry(const Scene& scene, const PlaceDrafts& drafts) {
    return label_date(drafts.saline_expiry.text(), scene.zone.date_of(scene.now));
}

/// The lot of the saline and the day it expires, beside Back: scanned from the bag, or typed.
void draw_saline_lot(Glass& glass, const Scene& scene, PlaceDrafts& drafts) {
    const auto& words = glass.words();
    const bool lot = !drafts.saline_lot.text().empty();
    if (touch::button(glass, "saline-lot", {972, 576, 130, 88},
                      {.title = lot ? drafts.saline_lot.text() : words.say("place.lot"),
                       .note = words.say("place.of-the-saline"),
                       .look = lot ? touch::Look::chosen : touch::Look::rest,
                       .em = touch::step::note,
                       .tick = false})) {
        drafts.lot_keyboard = true;
    }
    const auto& typed = drafts.saline_expiry.text();
    const auto date = saline_expiry(scene, drafts);
    const bool wrong = typed.size() == 6 && !date;
    if (touch::value_box(glass, "box/saline-expiry", {1110, 576, 154, 88},
                         {.digits = typed,
                          .label = words.say(wrong ? "room.no-such-day" : "place.expires-short"),
                          .focused = drafts.in_expiry,
                          .small = true,
                          .touchable = true})) {
        drafts.in_expiry = true;
        drafts.saline_expiry.clear();
    }
}

/// Back, and for the dye where it goes or that there is none.
void draw_foot(Glass& glass, const Scene& scene, PlaceDrafts& drafts, std::size_t boxes, Asks& asks) {
    const bool dye = drafts.pad == Pad::dye;
    const auto place = [&](int i) {
        return drafts.saline_pad() ? Rect{864, 576, 100, 88}
                                   : touch::cell(foot_area,
                                                 dye          ? 4
                                                 : boxes == 4 ? 2
                                                              : 1,
                                                 1, i, 0, 8);
    };
    const auto& words = glass.words();
    if (touch::button(glass, "pad-back", place(0),
                      {.title = words.say("touch.back"), .em = touch::step::note})) {
        drafts.pad = Pad::none;
        return;
    }
    if (drafts.saline_pad()) {
        draw_saline_lot(glass, scene, drafts);
    }
    if (!dye) {
        return;
    }
    const auto look = [&](bool first) {
        return drafts.dye_in_first == first ? touch::Look::chosen : touch::Look::rest;
    };
    if (touch::button(
            glass, "dye-in-1", place(1),
            {.title = words.say("place.in-1"), .look = look(true), .em = touch::step::note, .tick = false})) {
        drafts.dye_in_first = true;
    }
    if (touch::button(glass, "dye-on-top", place(2),
                      {.title = words.say("place.on-top"),
                       .look = look(false),
                       .em = touch::step::note,
                       .tick = false})) {
        drafts.dye_in_first = false;
    }
    if (touch::button(glass, "no-dye", place(3),
                      {.title = words.say("place.none"), .em = touch::step::note})) {
        Dye none;
        none.none = true;
        asks.tell(none);
        drafts.pad = Pad::none;
    }
}

Statement volume_said(const PlaceDrafts& drafts) {
    Plan plan;
    plan.band_low = *ml_of(drafts.numbers[0]);
    plan.band_high = *ml_of(drafts.numbers[1]);
    plan.aim = *ml_of(drafts.numbers[2]);
    plan.ceiling = ml_of(drafts.numbers[3]);
    return plan;
}

Statement saline_said(const Scene& scene, const PlaceDrafts& drafts) {
    Saline saline;
    if (!drafts.saline_lot.text().empty()) {
        saline.lot = drafts.saline_lot.text();
    }
    saline.expiry = saline_expiry(scene, drafts);
    saline.filled_to = ml_of(drafts.numbers[drafts.pad == Pad::pair ? 0 : 1]);
    if (drafts.pad == Pad::row) {
        saline.method = SalineMethod::row;
        saline.laid_out = static_cast<int>(drafts.numbers[0].whole().value_or(0));
    } else if (drafts.pad == Pad::pair) {
        saline.method = SalineMethod::pair;
    } else {
        saline.method = SalineMethod::closed_tap;
        saline.scale_g = Decimal::parse(drafts.numbers[0].text());
    }
    return saline;
}

Statement dye_said(const Glass& glass, const PlaceDrafts& drafts) {
    Dye dye;
    dye.agent = glass.words().say("unit.dye-agent");
    dye.ml = ml_of(drafts.numbers[0]);
    dye.in_first_syringe = drafts.dye_in_first;
    return dye;
}

std::string confirm_title(const Glass& glass, const PlaceDrafts& drafts) {
    const auto digits = [&](std::size_t i) { return drafts.numbers[i].shown(glass.words().decimal_mark()); };
    const auto& words = glass.words();
    switch (drafts.pad) {
        case Pad::volume:
            return words.say("place.enter-volume", {{"from", digits(0)}, {"to", digits(1)}});
        case Pad::row:
            return fmt::format("{} × {}", digits(0), words.say("unit.ml", {{"n", digits(1)}}));
        case Pad::pair:
            return words.say("place.enter-pair", {{"ml", digits(0)}});
        case Pad::closed_tap:
            return words.say("unit.g", {{"n", digits(0)}});
        case Pad::dye:
            return words.say("place.enter-dye", {{"ml", digits(0)}});
        case Pad::none:
            break;
    }
    return "";
}

std::string confirm_note(const Glass& glass, const Scene& scene, const PlaceDrafts& drafts) {
    const auto digits = [&](std::size_t i) { return drafts.numbers[i].shown(glass.words().decimal_mark()); };
    const auto& words = glass.words();
    switch (drafts.pad) {
        case Pad::volume:
            return words.say("place.aim-said", {{"ml", digits(2)}, {"name", whose_word(scene)}});
        case Pad::dye:
            return words.say(drafts.dye_in_first == true ? "place.in-1" : "place.on-top");
        case Pad::closed_tap:
            return words.say("place.each-to", {{"ml", words.say("unit.ml", {{"n", digits(1)}})}});
        case Pad::row:
            return words.say("place.row-laid");
        case Pad::pair:
            return words.say("place.pair-note");
        case Pad::none:
            break;
    }
    return "";
}

void enter(const Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks) {
    if (drafts.pad == Pad::volume) {
        asks.tell_said_by(volume_said(drafts), scene.physician);
    } else if (drafts.pad == Pad::dye) {
        asks.tell(dye_said(glass, drafts));
    } else {
        asks.tell(saline_said(scene, drafts));
    }
    drafts.pad = Pad::none;
}

void draw_corner(Glass& glass, const Scene& scene, const std::vector<const char*>& boxes, PlaceDrafts& drafts,
                 Asks& asks) {
    const auto corner = touch::layout_for(glass.size()).action;
    const auto empty = first_empty(scene, drafts, boxes.size());
    const bool asks_where = drafts.pad == Pad::dye && !drafts.dye_in_first;
    if (empty) {
        const touch::Action next{.command = "next-box",
                                 .title = glass.words().say(fmt::format("place.next-box-{}", boxes[*empty])),
                                 .look = touch::ActionLook::next_missing};
        if (touch::action(glass, corner, next) == touch::ActionTap::action) {
            drafts.box = *empty;
            drafts.in_expiry = false;
        }
        return;
    }
    if (asks_where) {
        const Rect place = corner;
        touch::fill(glass, place, glass.colours().bg, touch::control_radius);
        touch::text(glass, "pad/where", place.inset(16, 8), glass.words().say("place.dye-where"),
                    {.em = touch::step::body, .bold = true, .align = touch::Align::centre});
        return;
    }
    const touch::Action confirm{.command = "enter",
                                .title = confirm_title(glass, drafts),
                                .note = confirm_note(glass, scene, drafts)};
    if (touch::action(glass, corner, confirm) == touch::ActionTap::action) {
        enter(glass, scene, drafts, asks);
    }
}

}  // namespace

void draw_place_pad(Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks) {
    const auto boxes = boxes_of(scene, drafts.pad);
    draw_boxes(glass, boxes, drafts);
    const bool with_point = drafts.pad == Pad::dye || drafts.pad == Pad::closed_tap ||
                            drafts.pad == Pad::pair || (drafts.pad == Pad::row && drafts.box == 1);
    if (const auto key = touch::keypad(glass, "pad", pad_area, with_point, 8)) {
        (drafts.in_expiry ? drafts.saline_expiry : drafts.numbers[drafts.box]).press(*key);
    }
    draw_foot(glass, scene, drafts, boxes.size(), asks);
    if (drafts.pad != Pad::none) {
        draw_corner(glass, scene, boxes, drafts, asks);
    }
}

}  // namespace brimline::screens
