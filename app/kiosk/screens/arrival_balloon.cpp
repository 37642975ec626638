// The balloon of a removal: by our record, or as another clinic placed it; and what the patient says of it,
// which becomes a flag of its entry.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/arrival_parts.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_words.h"
#include "core/desk/register.h"

namespace brimline::screens {
namespace {

using touch::Rect;
using Told = ArrivalDrafts::Told;

constexpr std::size_t date_digits = 8;

/// The case whose entry the balloon of this removal is.
const CaseState& placed_by(const ArrivalPage& page) {
    const auto& entry = page.state().entry;
    const auto* placed = entry ? page.scene.ahead.case_of_entry(*entry) : nullptr;
    return placed != nullptr ? *placed : page.state();
}

void draw_facts(const ArrivalPage& page, const Placement& placement) {
    const Rect panel{176, 104, 672, 336};
    touch::panel(page.glass, panel);
    panel_head(page.glass, "balloon/head", panel,
               page.say(placement.reported ? "arrival.balloon-reported" : "arrival.balloon-ours"));
    const auto not_known = page.say("arrival.not-known");
    const std::array<std::pair<const char*, std::string>, 6> lines{{
        {"placed", shown_date(page.glass, placement.placed)},
        {"volume", placement.volume ? ml_words(page.glass, *placement.volume) : not_known},
        {"dye", placement.dye ? page.say(*placement.dye ? "touch.yes" : "touch.no") : not_known},
        {"lot", placement.lot.value_or(not_known)},
        {"due", shown_date(page.glass, placement.due)},
        {"days", page.glass.words().count("removal.days", days_between(placement.placed, page.today()))},
    }};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        list_line(page.glass, fmt::format("balloon/{}", lines[i].first),
                  {196, 150 + 46 * static_cast<float>(i), 632, 42},
                  page.say(fmt::format("arrival.balloon-{}", lines[i].first)), lines[i].second, 300);
    }
}

/// Leak signs and the other flags: one tap each, never taken back by a tap.
void draw_signs(const ArrivalPage& page) {
    arrival_head(page, "arrival.signs", {184, 448, 656, 34});
    touch::text(page.glass, "signs/which", {184, 482, 656, 60}, page.say("arrival.leak-signs"),
                {.colour = page.glass.colours().text_2});
    const auto& placed = placed_by(page);
    int i = 0;
    for (const auto& item : page.scene.policy.lists.flags) {
        if (item.id == "not-reached" || i == 3) {
            continue;  // the desk's own
        }
        const bool raised = std::any_of(placed.flags.begin(), placed.flags.end(),
                                        [&](const Noted<Flag>& one) { return one.is.flag == item.id; });
        if (touch::button(page.glass, "flag/" + item.id, touch::cell({176, 556, 672, 108}, 3, 1, i++, 0, 12),
                          {.title = item.words, .look = raised ? touch::Look::review : touch::Look::rest}) &&
            !raised) {
            Flag says;
            says.entry = page.state().entry.value_or(page.state().name);
            says.flag = item.id;
            page.asks.tell(says);
        }
    }
}

// Another clinic's balloon

void draw_boxes(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    const auto& mark = page.glass.words().decimal_mark();
    const bool whole = drafts.placed.size() == date_digits;
    struct Shown {
        Told told;
        const char* name;
        std::string digits, unit, wrong;
    };
    const std::array<Shown, 3> boxes{{
        {Told::date, "placed", spaced_date(drafts.placed), "",
         whole && !typed_date(drafts.placed) ? page.say("arrival.no-such-date") : ""},
        {Told::volume, "volume", drafts.volume.shown(mark), page.say("removal.ml"), ""},
        {Told::weight, "weight", drafts.weight.shown(mark), page.say("arrival.kg"), ""},
    }};
    float y = 104;
    for (const auto& one : boxes) {
        if (touch::value_box(page.glass, fmt::format("elsewhere/{}", one.name), {176, y, 672, 80},
                             {.digits = one.digits,
                              .unit = one.unit,
                              .label = page.say(fmt::format("arrival.elsewhere-{}", one.name)),
                              .wrong = one.wrong,
                              .focused = drafts.told == one.told,
                              .touchable = true})) {
            drafts.told = one.told;
        }
        y += 92;
    }
}

void press(ArrivalDrafts& drafts, touch::PadKey key) {
    if (drafts.told == Told::volume) {
        (void)drafts.volume.press(key);
    } else if (drafts.told == Told::weight) {
        (void)drafts.weight.press(key);
    } else if (key == touch::PadKey::erase) {
        drafts.placed = drafts.placed.substr(0, drafts.placed.empty() ? 0 : drafts.placed.size() - 1);
    } else if (key != touch::PadKey::point && drafts.placed.size() < date_digits) {
        drafts.placed += static_cast<char>('0' + static_cast<int>(key));
    }
}

void draw_known_from(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    arrival_head(page, "arrival.known-from", {184, 380, 656, 34});
    int i = 0;
    for (const auto source : {ElsewhereSource::card, ElsewhereSource::letter, ElsewhereSource::word}) {
        const auto name = std::string{name_of(source)};
        if (arrival_key(page, "source/" + name, touch::cell({176, 416, 672, 100}, 3, 1, i++, 0, 12),
                        page.say("arrival.source-" + name), drafts.source == source)) {
            drafts.source = source;
        }
    }
    arrival_head(page, "arrival.with-dye", {184, 524, 656, 34});
    i = 0;
    for (const char* dye : {"no", "yes"}) {
        if (arrival_key(page, fmt::format("dye/{}", dye), touch::cell({176, 560, 672, 104}, 3, 1, i++, 0, 12),
                        page.say(fmt::format("touch.{}", dye)), drafts.dye == dye)) {
            drafts.dye = drafts.dye == dye ? "" : dye;
        }
    }
    if (arrival_key(page, "elsewhere-lot", touch::cell({176, 560, 672, 104}, 3, 1, 2, 0, 12),
                    drafts.lot.empty() ? page.say("place.lot") : drafts.lot, !drafts.lot.empty())) {
        page.type(ArrivalDrafts::Letters::lot, drafts.lot);
    }
}

PlacedElsewhere told_of(const ArrivalDrafts& drafts) {
    PlacedElsewhere says;
    says.placed = *typed_date(drafts.placed);
    says.source = *drafts.source;
    if (const auto tenths = drafts.volume.in_tenths()) {
        says.ml = Millilitres::of_tenths(*tenths);
    }
    says.weight_kg = Decimal::parse(drafts.weight.text());
    if (!drafts.dye.empty()) {
        says.dye = Loose{drafts.dye};
    }
    if (!drafts.lot.empty()) {
        says.lot = drafts.lot;
    }
    return says;
}

void draw_elsewhere(const ArrivalPage& page) {
    auto& drafts = page.drafts;
    draw_boxes(page);
    draw_known_from(page);
    if (const auto key = touch::keypad(page.glass, "pad", {864, 104, 400, 560}, true, 12)) {
        press(drafts, *key);
    }
    const auto date = typed_date(drafts.placed);
    std::optional<touch::Action> own;
    if (date && drafts.source) {
        own = touch::Action{.command = "enter-elsewhere",
                            .title = page.say("arrival.enter-elsewhere"),
                            .note = shown_date(page.glass, *date)};
    }
    if (draw_section_foot(page,
                          {.urgency = touch::Urgency::low,
                           .title = page.say("arrival.elsewhere-prompt"),
                           .why = page.say("arrival.elsewhere-why")},
                          own, page.say(date ? "arrival.tap-source" : "arrival.type-date"))) {
        page.asks.tell(told_of(drafts));
        drafts.open(ArrivalDrafts::Section::balloon);
    }
}

}  // namespace

std::optional<LocalDate> typed_date(const std::string& digits) {
    if (digits.size() != date_digits) {
        return std::nullopt;
    }
    return parse_date(digits.substr(4) + "-" + digits.substr(2, 2) + "-" + digits.substr(0, 2));
}

std::string spaced_date(const std::string& digits) {
    std::string shown = digits.substr(0, 2);
    if (digits.size() > 2) {
        shown += " " + digits.substr(2, 2);
    }
    return digits.size() > 4 ? shown + " " + digits.substr(4) : shown;
}

void draw_arrival_balloon(const ArrivalPage& page) {
    const auto placement =
        placement_to_remove(page.state(), page.scene.ahead, page.scene.policy, page.scene.zone);
    if (!placement) {
        draw_elsewhere(page);
        return;
    }
    draw_facts(page, *placement);
    draw_signs(page);
    draw_hold_cards(page, {864, 104, 400, 560});
    draw_section_next(page, {.urgency = touch::Urgency::low,
                             .title = page.say("arrival.balloon-prompt"),
                             .why = page.say("arrival.balloon-why")});
}

}  // namespace brimline::screens
