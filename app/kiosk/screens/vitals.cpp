// The set of vital signs: strips of one-tap keys beside a pad that is always open. The typing moves on by
// itself; saving says the set, then depth, then oxygen. Over Fill the corner stays Syringe in. The same pad
// is the page of Sedation.
#include "core/rules/vitals.h"

#include <fmt/format.h>

#include <charconv>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/dose_words.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/not_taken.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Box = VitalsBox;

constexpr touch::Seconds pause_ends_value = 2;

std::optional<int> number_of(const std::string& digits) {
    int value = 0;
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return digits.empty() || read.ec != std::errc{} ? std::nullopt : std::optional{value};
}

/// How many digits the value in this box will have, by its first: 3 to 9 begin two, 1 and 2 begin three.
std::size_t length_of(Box box, const std::string& digits) {
    const bool low_first = digits.front() == '1' || digits.front() == '2';
    if (box == Box::rr || box == Box::etco2) {
        return 2;
    }
    return low_first ? 3 : 2;
}

std::optional<Box> next_box(Box box) {
    switch (box) {
        case Box::hr:
            return Box::systolic;
        case Box::systolic:
            return Box::diastolic;
        case Box::diastolic:
        case Box::spo2:
        case Box::rr:
        case Box::oxygen:
        case Box::etco2:
            break;
    }
    return std::nullopt;
}

void press(VitalsDrafts& drafts, touch::PadKey key, touch::Seconds now) {
    if (!drafts.box) {
        return;
    }
    auto& digits = drafts.of(*drafts.box);
    if (*drafts.box == Box::oxygen) {
        (void)drafts.litres.press(key);
        digits = drafts.litres.text();
        drafts.last_key = now;
        return;
    }
    if (key == touch::PadKey::erase) {
        if (!digits.empty()) {
            digits.pop_back();
        }
        drafts.last_key = now;
        return;
    }
    if (!digits.empty() && digits.size() >= length_of(*drafts.box, digits)) {
        return;
    }
    digits += static_cast<char>('0' + static_cast<int>(key));
    drafts.last_key = now;
    if (digits.size() >= length_of(*drafts.box, digits)) {
        drafts.box = next_box(*drafts.box);
    }
}

/// A pause ends a short value, so that a pulse below 30 does not eat the next box.
void end_by_pause(VitalsDrafts& drafts, touch::Seconds now) {
    if (drafts.box && !drafts.of(*drafts.box).empty() && now - drafts.last_key >= pause_ends_value) {
        drafts.box = next_box(*drafts.box);
    }
}

void choose(VitalsDrafts& drafts, Box box) {
    drafts.box = box;
    drafts.of(box).clear();  // typed anew
    if (box == Box::oxygen) {
        drafts.litres.clear();
    }
}

void head(Glass& glass, const std::string& name, float y, const std::string& left, const std::string& right) {
    const auto& c = glass.colours();
    touch::text(glass, name, {184, y, 294, 26}, left, {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(glass, name + "/right", {482, y, 358, 26}, right,
                {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
}

/// The last key of a strip: opens the pad for a value that the strip does not have, and shows it.
void other_key(Glass& glass, const std::string& name, Rect place, const std::string& title, Box box,
               bool on_strip, VitalsDrafts& drafts) {
    const bool typed = !drafts.of(box).empty() && !on_strip;
    const bool open = drafts.box == box;
    auto shown = drafts.of(box);
    if (const auto point = shown.find('.'); point != std::string::npos) {
        shown.replace(point, 1, glass.words().decimal_mark());
    }
    const touch::Button face{.title = typed ? shown : title,
                             .look = typed  ? touch::Look::chosen
                                     : open ? touch::Look::accent
                                            : touch::Look::rest,
                             .bold = true,
                             .em = typed ? touch::step::act : touch::step::note,
                             .tick = false};
    if (touch::button(glass, name, place, face)) {
        choose(drafts, box);
    }
}

/// CO2 is asked where a tube is in, and where the core reminds of it.
bool asks_etco2(const Scene& scene) {
    const auto& state = *scene.ahead_state;
    const auto due = prompts(state, scene.now, scene.policy);
    return (state.secured && !state.freed) ||
           std::any_of(due.begin(), due.end(), [](const Prompt& one) { return one.code == "etco2-missing"; });
}

/// A strip of values, downwards or upwards from `first`, with the key for all others at its end, and that of
/// CO2 before it.
void strip(Glass& glass, const char* name, float y, int first, int step, Box box, VitalsDrafts& drafts,
           bool with_co2 = false) {
    const Rect area{176, y, 671, 184};
    const auto chosen = number_of(drafts.of(box));
    bool on_strip = drafts.of(box).empty();
    for (int i = 0; i < (with_co2 ? 12 : 13); ++i) {
        const int value = first + i * step;
        const bool is_chosen = chosen == value && drafts.box != box;
        on_strip = on_strip || is_chosen;
        if (touch::value_key(glass, fmt::format("{}/{}", name, value),
                             touch::cell(area, 7, 2, i % 7, i / 7, 8), std::to_string(value), is_chosen,
                             touch::step::strong)) {
            drafts.of(box) = std::to_string(value);
            if (drafts.box == box) {
                drafts.box.reset();
            }
        }
    }
    if (with_co2) {
        other_key(glass, "etco2", touch::cell(area, 7, 2, 5, 1, 8), glass.words().say("vitals.etco2"),
                  Box::etco2, false, drafts);
    }
    other_key(glass, fmt::format("{}/other", name), touch::cell(area, 7, 2, 6, 1, 8),
              glass.words().say(fmt::format("vitals.{}-other", name)), box, on_strip, drafts);
}

void draw_depth_row(Glass& glass, VitalsDrafts& drafts) {
    const Rect area{176, 560, 671, 104};
    for (int depth = 0; depth <= 5; ++depth) {
        if (touch::value_key(glass, fmt::format("depth/{}", depth), touch::cell(area, 7, 1, depth, 0, 8),
                             std::to_string(depth), drafts.depth == depth, touch::step::strong)) {
            drafts.depth = depth;
        }
    }
    other_key(glass, "oxygen", touch::cell(area, 7, 1, 6, 0, 8), glass.words().say("unit.l-min"), Box::oxygen,
              false, drafts);
}

void draw_column_a(Glass& glass, const Scene& scene, VitalsDrafts& drafts) {
    const auto& words = glass.words();
    head(glass, "spo2", 104, words.say("vitals.spo2"), words.say("vitals.no-alarm"));
    strip(glass, "spo2", 130, 100, -1, Box::spo2, drafts);
    head(glass, "rr", 318, words.say("vitals.rr"), words.say("vitals.one-tap"));
    strip(glass, "rr", 344, 8, 1, Box::rr, drafts, asks_etco2(scene) || !drafts.of(Box::etco2).empty());
    head(glass, "depth", 532, words.say("vitals.depth"), words.say("vitals.oxygen"));
    draw_depth_row(glass, drafts);
}

/// The core asked once whether a value is right: which field, and its sentence.
const Asked* asked_of(const Scene& scene, const VitalsDrafts& drafts) {
    const bool asked =
        drafts.said && scene.last && scene.last->asked && scene.last->asked->question == "implausible";
    return asked ? &*scene.last->asked : nullptr;
}

void draw_boxes(Glass& glass, const Asked* asked, VitalsDrafts& drafts) {
    struct Shown {
        Box box;
        const char* name;
    };
    constexpr Shown shown[] = {{Box::hr, "hr"}, {Box::systolic, "systolic"}, {Box::diastolic, "diastolic"}};
    for (int i = 0; i < 3; ++i) {
        const auto label = glass.words().say(fmt::format("vitals.{}", shown[i].name));
        const bool wrong = asked != nullptr && asked->field == shown[i].name;
        const touch::ValueBox box{
            .digits = drafts.of(shown[i].box),
            .label = label,
            .wrong = wrong ? glass.words().say("vitals.sure", {{"sign", label}}) : std::string{},
            .focused = drafts.box == shown[i].box,
            .small = true,
            .touchable = true};
        if (touch::value_box(glass, fmt::format("vitals/{}", shown[i].name),
                             touch::cell({864, 96, 400, 88}, 3, 1, i, 0, 12), box)) {
            choose(drafts, shown[i].box);
            drafts.said = false;
        }
    }
}

void draw_asked(Glass& glass, Rect area, const Asked& asked) {
    const auto& c = glass.colours();
    touch::fill(glass, area, c.look_tint, touch::control_radius);
    touch::icon(glass, touch::Icon::look, {area.x + 30, area.y + 44}, 34);
    touch::text(glass, "vitals/asked", {area.x + 60, area.y + 4, area.w - 70, area.h - 8}, asked.say,
                {.lines = 3});
}

/// The last dose once more, in one tap. After a tap its place says for two seconds what was recorded, so
/// that a second tap cannot record a second dose.
void draw_dose_again(Glass& glass, const Scene& scene, Rect place, Asks& asks) {
    constexpr std::chrono::seconds shown_for{2};
    const auto& words = glass.words();
    const auto& doses = scene.ahead_state->doses;
    const auto last = dose_again(*scene.ahead_state, scene.policy);
    if (!doses.empty() && scene.now - doses.back().stamp.at < shown_for) {
        touch::fill(glass, place, glass.colours().good_tint, touch::control_radius);
        touch::text(
            glass, "dose-again/recorded", place.inset(6, 6),
            words.say("dose.recorded", {{"time", clock_text(doses.back().stamp.happened, scene.zone, true)}}),
            {.bold = true, .align = touch::Align::centre});
        return;
    }
    if (!last) {
        touch::panel(glass, place);
        touch::text(glass, "dose-again/none", place.inset(8, 8), words.say("dose.none-yet"),
                    {.colour = glass.colours().text_2, .align = touch::Align::centre, .lines = 3});
        return;
    }
    const auto drug = drug_words(scene.policy, last->drug);
    const float bold = glass.type().width(touch::Face::words_bold, touch::step::note, drug);
    const bool tight = bold > place.w - 14;  // a long name stays whole, in plain letters over the full width
    const touch::Button face{.title = tight ? std::string{} : drug,
                             .note = tight ? std::string{} : amount_words(glass, last->amount, last->unit),
                             .look = touch::Look::accent,
                             .bold = true,
                             .em = touch::step::note};
    if (touch::button(glass, "dose-again", place, face)) {
        Dose says;
        says.drug = last->drug;
        says.amount = last->amount;
        says.unit = last->unit;
        says.route = last->route;
        says.free = last->free ? std::optional{true} : std::nullopt;
        asks.say.push_back({says, {}, {}, {}, true});  // it was asked about when it was typed
    }
    if (tight) {
        const auto half = drug.size() / 2;
        const bool whole = glass.type().width(touch::Face::words, touch::step::note, drug) <= place.w - 6;
        touch::text(glass, "dose-again/name", {place.x + 3, place.y + 2, place.w - 6, 56},
                    whole ? drug : drug.substr(0, half) + "-\n" + drug.substr(half),
                    {.align = touch::Align::centre});
        touch::text(glass, "dose-again/note", {place.x + 3, place.y + 58, place.w - 6, place.h - 62},
                    amount_words(glass, last->amount, last->unit),
                    {.colour = glass.colours().text_2, .align = touch::Align::centre, .lines = 1});
    }
}

/// Below the pad: the last dose, another dose, not taken; or what the core asks.
void draw_foot(Glass& glass, const Scene& scene, const Asked* asked, VitalsDrafts& drafts, Asks& asks) {
    const Rect area{864, 576, 400, 88};
    const auto& words = glass.words();
    const auto place = [&](int i) { return touch::cell(area, 3, 1, i, 0, 12); };
    if (asked != nullptr) {
        draw_asked(glass, area, *asked);
        return;
    }
    if (drafts.why_not) {
        draw_why_not(glass, area, drafts, asks);
        return;
    }
    draw_dose_again(glass, scene, place(0), asks);
    if (touch::button(glass, "other-dose", place(1),
                      {.title = words.say("dose.other"), .bold = true, .em = touch::step::note})) {
        asks.sheet = Sheet::dose;
    }
    if (touch::button(glass, "not-taken", place(2),
                      {.title = words.say("vitals.not-taken"), .bold = true, .em = touch::step::note})) {
        drafts.why_not = true;
    }
}

bool nothing_typed(const VitalsDrafts& drafts) {
    return !drafts.depth && std::all_of(drafts.typed.begin(), drafts.typed.end(),
                                        [](const std::string& s) { return s.empty(); });
}

/// In this order: the set, depth, oxygen. Only what was typed.
std::vector<Statement> set_of(const VitalsDrafts& drafts) {
    std::vector<Statement> set;
    Vitals vitals;
    vitals.hr = number_of(drafts.of(Box::hr));
    vitals.systolic = number_of(drafts.of(Box::systolic));
    vitals.diastolic = number_of(drafts.of(Box::diastolic));
    vitals.spo2 = number_of(drafts.of(Box::spo2));
    vitals.rr = number_of(drafts.of(Box::rr));
    vitals.etco2 = number_of(drafts.of(Box::etco2));
    if (vitals.hr || vitals.systolic || vitals.diastolic || vitals.spo2 || vitals.rr || vitals.etco2) {
        set.emplace_back(vitals);
    }
    if (drafts.depth) {
        set.emplace_back(Depth{*drafts.depth});
    }
    if (const auto tenths = drafts.litres.in_tenths()) {
        set.emplace_back(Oxygen{Decimal::of_millionths(*tenths * (Decimal::scale / 10))});
    }
    return set;
}

void save(VitalsDrafts& drafts, bool sure, Asks& asks) {
    for (auto& says : set_of(drafts)) {
        asks.say.push_back({std::move(says), {}, {}, {}, sure});
    }
    drafts.said = true;
    asks.sheet = Sheet::none;  // stays open where the core refuses or asks
}

touch::Action save_action(const Glass& glass, const VitalsDrafts& drafts, bool asked) {
    const auto upper = number_of(drafts.of(Box::systolic));
    const auto lower = number_of(drafts.of(Box::diastolic));
    const auto mean = upper && lower ? rules::mean_pressure(*upper, *lower) : refuse("map", "", "");
    return {.command = asked ? "save-sure" : "save-set",
            .title = glass.words().say(asked ? "vitals.it-is-right" : "vitals.save"),
            .note = mean ? glass.words().say("vitals.map", {{"n", mean->text(0)}}) : std::string{}};
}

/// The foot of the sheet over a page: Back in the prompt's place.
void draw_sheet_corner(Glass& glass, const Scene& scene, VitalsDrafts& drafts, bool asked, Asks& asks) {
    const touch::Prompt typing{.urgency = touch::Urgency::low,
                               .title = glass.words().say("vitals.typing"),
                               .chips = {{"back", glass.words().say("touch.back")}}};
    if (draw_case_prompt(glass, scene, typing, asks).chip == "back") {
        asks.sheet = Sheet::none;
    }
    const auto corner = touch::layout_for(glass.size()).action;
    if (nothing_typed(drafts)) {
        quiet_corner(glass, glass.words().say("vitals.nothing-typed"));
    } else if (touch::action(glass, corner, save_action(glass, drafts, asked)) == touch::ActionTap::action) {
        save(drafts, asked, asks);
    }
}

/// What the corner of the page is while nothing is typed: the start, the end, or where the work goes on.
void draw_next(Glass& glass, const Scene& scene, Asks& asks) {
    const auto& words = glass.words();
    const auto& state = *scene.ahead_state;
    const auto corner = touch::layout_for(glass.size()).action;
    const auto tapped = [&](const touch::Action& shown) {
        return touch::action(glass, corner, shown) == touch::ActionTap::action;
    };
    if (!state.sedation_start) {
        const bool asks_first = start_asks_identity(state);
        if (tapped({.command = "start-sedation",
                    .title = words.say("sedation.start"),
                    .note = words.say(asks_first ? "sedation.gate-first" : "sedation.gate-met"),
                    .look = asks_first ? touch::ActionLook::question : touch::ActionLook::ready})) {
            if (asks_first) {
                asks.sheet = Sheet::gate_identity;
            } else {
                asks.tell(StartSedation{});
            }
        }
    } else if (state.sedation_end) {
        quiet_corner(glass,
                     words.say("sedation.ended",
                               {{"time", clock_text(state.sedation_end->happened, scene.zone, true)}}));
    } else if (!state.scope_in) {
        if (tapped({.command = "to-look",
                    .title = words.say("sedation.next-scope"),
                    .note = words.say("sedation.opens-look"),
                    .look = touch::ActionLook::opens})) {
            asks.page = Page::look;
        }
    } else if (!state.scope_is_in()) {
        if (tapped({.command = "end-sedation", .title = words.say("sedation.end")})) {
            asks.tell(EndSedation{});
        }
    } else {
        quiet_corner(glass, words.say("vitals.nothing-typed"));
    }
}

void draw_page_corner(Glass& glass, const Scene& scene, VitalsDrafts& drafts, bool asked, Asks& asks) {
    const auto& words = glass.words();
    const auto* event = airway_event_in_hand(*scene.ahead_state, scene.policy, scene.now);
    const bool values_missing = event != nullptr && event->end && !event->values;
    touch::Prompt own{.urgency = touch::Urgency::low,
                      .title = words.say("vitals.full-set"),
                      .why = words.say("vitals.boxes-jump"),
                      .chips = {{"trend", words.say("sedation.trend")}}};
    if (values_missing) {
        own.title = words.say("airway.say-what", {{"time", clock_text(event->start.happened, scene.zone)}});
        own.why = words.say("airway.say-what-why");
    }
    const auto tap = draw_case_prompt(glass, scene, own, asks);
    if (tap.chip == "trend") {
        asks.sheet = Sheet::trend;
    } else if (tap.own && values_missing) {
        asks.sheet = Sheet::airway;
    }
    const auto corner = touch::layout_for(glass.size()).action;
    if (nothing_typed(drafts)) {
        draw_next(glass, scene, asks);
    } else if (touch::action(glass, corner, save_action(glass, drafts, asked)) == touch::ActionTap::action) {
        save(drafts, asked, asks);
    }
}

void draw_fill_foot(Glass& glass, const Scene& scene, VitalsDrafts& drafts, bool asked, Asks& asks) {
    const auto own = nothing_typed(drafts) ? std::nullopt : std::optional{save_action(glass, drafts, asked)};
    if (draw_sheet_foot(glass, scene, own, asks) == touch::SheetTap::action) {
        save(drafts, asked, asks);
    }
}

/// Everything but the foot; returns what the core asks.
const Asked* draw_pad(Glass& glass, const Scene& scene, VitalsDrafts& drafts, Asks& asks) {
    draw_case_frame_bare(glass, scene, asks);
    end_by_pause(drafts, glass.time());
    const auto* asked = asked_of(scene, drafts);
    draw_column_a(glass, scene, drafts);
    draw_boxes(glass, asked, drafts);
    if (const auto key = touch::keypad(glass, "pad", {864, 192, 400, 376}, drafts.box == Box::oxygen, 8)) {
        press(drafts, *key, glass.time());
    }
    draw_foot(glass, scene, asked, drafts, asks);
    return asked;
}

}  // namespace

Asks draw_vitals(Glass& glass, const Scene& scene, VitalsDrafts& drafts) {
    Asks asks;
    if (drafts.worded) {
        type_why_not(glass, scene, drafts, asks);
        return asks;
    }
    const auto* asked = draw_pad(glass, scene, drafts, asks);
    if (over_fill(scene)) {
        draw_fill_foot(glass, scene, drafts, asked != nullptr, asks);
    } else {
        draw_sheet_corner(glass, scene, drafts, asked != nullptr, asks);
    }
    return asks;
}

Asks draw_sedation(Glass& glass, const Scene& scene, VitalsDrafts& drafts) {
    Asks asks;
    if (drafts.worded) {
        type_why_not(glass, scene, drafts, asks);
        return asks;
    }
    const auto* asked = draw_pad(glass, scene, drafts, asks);
    if (over_fill(scene)) {
        draw_fill_foot(glass, scene, drafts, asked != nullptr, asks);
    } else {
        draw_page_corner(glass, scene, drafts, asked != nullptr, asks);
    }
    return asks;
}

}  // namespace brimline::screens
