// A label that does not scan, typed from the pack. A second person reads the last four aloud from the pack;
// what is read is typed here and compared, so nothing typed counts on one pair of eyes.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/place_parts.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Field = LabelDraft::Field;

constexpr Rect panel_area{176, 104, 672, 560};
constexpr float box_x = 196;
constexpr float box_w = 440;

struct FieldShown {
    Field field;
    const char* name;
    float y;
};
constexpr FieldShown fields[] = {{Field::number, "number", 138},
                                 {Field::expiry, "expiry", 234},
                                 {Field::lot, "lot", 330},
                                 {Field::serial, "serial", 426}};

TypedLabel typed_of(const LabelDraft& draft) {
    TypedLabel typed;
    typed.gtin = draft.number;
    const auto given = [](const std::string& text) {
        return text.empty() ? std::nullopt : std::optional{text};
    };
    typed.expiry = given(draft.expiry);
    typed.lot = given(draft.lot.text());
    typed.serial = given(draft.serial.text());
    return typed;
}

const std::string& text_of(const LabelDraft& draft, Field field) {
    switch (field) {
        case Field::number:
            return draft.number;
        case Field::expiry:
            return draft.expiry;
        case Field::lot:
            return draft.lot.text();
        case Field::serial:
            return draft.serial.text();
        case Field::read_aloud:
            break;
    }
    return draft.read_aloud;
}

/// What stands beside a box: a sentence and whether it is good; empty while nothing can be said.
struct Beside {
    std::string words;
    bool good{false};
};

std::optional<Beside> beside(const Glass& glass, const Scene& scene, const LabelDraft& draft,
                             const TypedLabelStanding& stands, Field field) {
    const auto& words = glass.words();
    const auto today = scene.zone.date_of(scene.now);
    const auto given = draft.lot.text().empty() ? std::nullopt : std::optional{draft.lot.text()};
    const auto label = label_standing(given, stands.expiry, scene.desk, scene.policy, today);
    switch (field) {
        case Field::number:
            if (stands.number_fits) {
                return Beside{words.say(*stands.number_fits ? "place.check-digit" : "place.check-digit-not"),
                              *stands.number_fits};
            }
            return std::nullopt;
        case Field::expiry:
            if (draft.expiry.size() == 6 && stands.expiry_wrong) {
                return Beside{words.say("place.no-date"), false};
            }
            if (label.in_date) {
                const auto key = *label.in_date ? "place.date-in" : "place.date-out";
                return Beside{words.say(key, {{"date", shown_date(glass, *stands.expiry)}}), *label.in_date};
            }
            return std::nullopt;
        case Field::lot:
            if (label.lot_free) {
                return Beside{words.say(*label.lot_free ? "place.recall-free" : "place.recall-free-not"),
                              *label.lot_free};
            }
            return std::nullopt;
        case Field::serial:
            return std::nullopt;
        case Field::read_aloud:
            if (stands.last_four_same) {
                return Beside{words.say(*stands.last_four_same ? "place.the-same" : "place.not-the-same"),
                              *stands.last_four_same};
            }
            return std::nullopt;
    }
    return std::nullopt;
}

void draw_beside(Glass& glass, const std::string& name, float y, const std::optional<Beside>& shown) {
    if (!shown) {
        return;
    }
    touch::icon(glass, shown->good ? touch::Icon::good : touch::Icon::stop, {664, y + 44}, 26);
    touch::text(glass, name + "/beside", {688, y + 14, 152, 60}, shown->words, {.bold = !shown->good});
}

void focus(LabelDraft& draft, Field field) {
    draft.field = field;
    draft.keyboard = field == Field::lot || field == Field::serial;
}

void draw_fields(Glass& glass, const Scene& scene, LabelDraft& draft, const TypedLabelStanding& stands) {
    const auto& c = glass.colours();
    touch::panel(glass, panel_area);
    touch::text(glass, "typed/title", {box_x, 106, 600, 30}, glass.words().say("place.type-it"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    for (const auto& shown : fields) {
        const touch::ValueBox box{.digits = text_of(draft, shown.field),
                                  .label = glass.words().say(fmt::format("place.typed-{}", shown.name)),
                                  .focused = draft.field == shown.field,
                                  .small = true,
                                  .touchable = true};
        const auto name = fmt::format("typed/{}", shown.name);
        if (touch::value_box(glass, name, {box_x, shown.y, box_w, 88}, box)) {
            focus(draft, shown.field);
        }
        draw_beside(glass, name, shown.y, beside(glass, scene, draft, stands, shown.field));
    }
    touch::text(glass, "typed/second", {box_x, 520, 640, 44}, glass.words().say("place.second-person"),
                {.colour = c.text_2, .bold = true});
    const auto reader =
        draft.reader.empty()
            ? glass.words().say("place.reads-nobody")
            : glass.words().say("place.reads", {{"name", short_name(scene.ahead, draft.reader)}});
    const touch::ValueBox box{.digits = draft.read_aloud,
                              .label = reader,
                              .focused = draft.field == Field::read_aloud,
                              .small = true,
                              .touchable = true};
    if (touch::value_box(glass, "typed/read-aloud", {box_x, 568, box_w, 88}, box)) {
        focus(draft, Field::read_aloud);
    }
    draw_beside(glass, "typed/read-aloud", 568, beside(glass, scene, draft, stands, Field::read_aloud));
}

void press(LabelDraft& draft, touch::PadKey key) {
    std::string& text = draft.field == Field::number   ? draft.number
                        : draft.field == Field::expiry ? draft.expiry
                                                       : draft.read_aloud;
    const std::size_t most = draft.field == Field::number ? 14 : draft.field == Field::expiry ? 6 : 4;
    if (key == touch::PadKey::erase) {
        if (!text.empty()) {
            text.pop_back();
        }
    } else if (text.size() < most) {
        text += static_cast<char>('0' + static_cast<int>(key));
    }
}

/// The others present, one of whom reads from the pack; nobody is chosen beforehand.
void choose_next_reader(const Scene& scene, LabelDraft& draft) {
    std::vector<std::string> others;
    for (const auto& id : scene.present) {
        if (id != scene.person) {
            others.push_back(id);
        }
    }
    const auto now = std::find(others.begin(), others.end(), draft.reader);
    if (others.empty()) {
        return;
    }
    draft.reader = now == others.end() || now + 1 == others.end() ? others.front() : *(now + 1);
}

void draw_column_b(Glass& glass, const Scene& scene, LabelDraft& draft, Asks& asks) {
    const auto& words = glass.words();
    if (draft.field == Field::read_aloud) {
        const auto title = draft.reader.empty()
                               ? words.say("place.who-reads")
                               : words.say("place.reads", {{"name", short_name(scene.ahead, draft.reader)}});
        if (touch::button(glass, "reader", {864, 96, 400, 88},
                          {.title = title, .note = words.say("place.tap-another"), .bold = true})) {
            choose_next_reader(scene, draft);
        }
    } else {
        touch::panel(glass, {864, 96, 400, 88});
        touch::text(glass, "typed/now", {884, 104, 360, 72}, words.say("place.digits-of-label"),
                    {.em = touch::step::body, .bold = true});
    }
    if (const auto key = touch::keypad(glass, "pad", {864, 192, 400, 376}, false, 8)) {
        press(draft, *key);
    }
    const Rect foot{864, 576, 400, 88};
    if (touch::button(glass, "scan-again", touch::cell(foot, 2, 1, 0, 0, 12),
                      {.title = words.say("place.scan-again")})) {
        asks.sheet = Sheet::none;
    }
    if (touch::button(glass, "unreadable", touch::cell(foot, 2, 1, 1, 0, 12),
                      {.title = words.say("place.unreadable")})) {
        Device device;
        device.unreadable = true;
        asks.tell(device);
        asks.sheet = Sheet::none;
    }
}

/// What the corner leads to while something is missing.
struct Missing {
    const char* key;
    Field field;
};

std::optional<Missing> missing_of(const LabelDraft& draft, const TypedLabelStanding& stands) {
    if (stands.number_fits != true) {
        return Missing{"place.next-number", Field::number};
    }
    if (stands.expiry_wrong) {
        return Missing{"place.next-expiry", Field::expiry};
    }
    if (draft.reader.empty()) {
        return Missing{"place.next-reader", Field::read_aloud};
    }
    if (stands.last_four_same != true) {
        return Missing{"place.next-read-aloud", Field::read_aloud};
    }
    return std::nullopt;
}

void use_label(LabelDraft& draft, Asks& asks) {
    Device device;
    device.typed = typed_of(draft);
    device.verified_by = draft.reader;
    asks.tell(device);
    draft = {};
    asks.sheet = Sheet::none;
}

void draw_corner(Glass& glass, LabelDraft& draft, const TypedLabelStanding& stands, Asks& asks) {
    const auto corner = touch::layout_for(glass.size()).action;
    if (const auto missing = missing_of(draft, stands)) {
        const touch::Action next{.command = "next-field",
                                 .title = glass.words().say(missing->key),
                                 .look = touch::ActionLook::next_missing};
        if (touch::action(glass, corner, next) == touch::ActionTap::action) {
            focus(draft, missing->field);
        }
        return;
    }
    const touch::Action use{.command = "use-label",
                            .title = glass.words().say("place.use-label"),
                            .note = glass.words().say("place.two-have-read")};
    if (touch::action(glass, corner, use) == touch::ActionTap::action) {
        use_label(draft, asks);
    }
}

/// Lot and serial have letters: the keyboard takes the page below the strip until it is put away.
void draw_letters(Glass& glass, LabelDraft& draft) {
    const auto& words = glass.words();
    auto& text = draft.field == Field::lot ? draft.lot : draft.serial;
    text.take(glass.input().typing);  // a real keyboard types here too
    touch::text_field(
        glass, "letters", {36, 112, 1208, 152},
        {.label = words.say(draft.field == Field::lot ? "place.typed-lot" : "place.typed-serial")}, text);
    touch::keyboard(glass, {16, 292, 1248, 496}, draft.keys, text);
    const touch::Action done{.command = "letters-done",
                             .title = words.say("place.letters-done"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, done) == touch::ActionTap::action) {
        draft.keyboard = false;
    }
}

touch::Prompt own_prompt(const Glass& glass, const Scene& scene) {
    const auto failed = failed_scans(*scene.ahead_state);
    const auto& words = glass.words();
    return {.urgency = touch::Urgency::low,
            .title = failed.empty()
                         ? words.say("place.typed-instead")
                         : words.count("place.scan-failed", static_cast<long>(failed.size()),
                                       {{"time", clock_text(failed.back().happened, scene.zone, true)}}),
            .why = words.say("place.unreadable-too")};
}

}  // namespace

void draw_label_typed(Glass& glass, const Scene& scene, PlaceDrafts& drafts, Asks& asks) {
    auto& draft = drafts.label;
    if (draft.keyboard) {
        draw_case_strip(glass, scene, asks);
        draw_letters(glass, draft);
        return;
    }
    draw_case_frame_bare(glass, scene, asks);
    draw_case_prompt(glass, scene, own_prompt(glass, scene), asks);
    const auto stands = typed_standing(typed_of(draft), draft.read_aloud, scene.zone.date_of(scene.now));
    draw_fields(glass, scene, draft, stands);
    draw_column_b(glass, scene, draft, asks);
    draw_corner(glass, draft, stands, asks);
}

}  // namespace brimline::screens
