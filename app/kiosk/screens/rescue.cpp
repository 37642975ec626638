// Which case a rescue entry belongs to, and the way to its sheet.
#include "app/kiosk/screens/rescue.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/desk_words.h"
#include "core/case/sedation_view.h"
#include "core/desk/today.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Rescue = DeskDrafts::Rescue;

bool under_sedation(const CaseState& state) { return state.sedation_start && !state.left_room; }

/// Those who may be in need: on the list and not gone home. One alone under sedation is meant without asking.
std::vector<const CaseState*> who_may_need_it(const Scene& scene) {
    std::vector<const CaseState*> all, sedated;
    for (const auto& listed : list_of_day(scene.ahead, scene.zone, scene.now)) {
        if (listed.state->discharged || listed.state->sealed) {
            continue;
        }
        all.push_back(listed.state);
        if (under_sedation(*listed.state)) {
            sedated.push_back(listed.state);
        }
    }
    return sedated.size() == 1 ? sedated : all;
}

/// The first tap starts an airway event; where one runs, or an emergency, the tap leads to its sheet.
void open_sheet(const CaseState& state, Rescue what, DeskDrafts& drafts, Asks& asks) {
    asks.open_case = state.name;
    asks.page = Page::sedation;
    asks.sheet = Sheet::vitals;
    if (what == Rescue::airway) {
        const bool emergency = open_emergency(state) != nullptr;
        asks.sheet = emergency ? Sheet::emergency : Sheet::airway;
        if (!emergency && open_airway_event(state) == nullptr) {
            asks.say.push_back({AirwayEvent{}, {}, {}, {}, false, state.name});
        }
    }
    drafts.rescue = Rescue::none;
}

void tapped(Rescue what, const Scene& scene, DeskDrafts& drafts, Asks& asks) {
    const auto cases = who_may_need_it(scene);
    if (cases.empty()) {
        asks.page = Page::start_now;  // nobody is on the list: the case begins with the first tap
    } else if (cases.size() == 1) {
        open_sheet(*cases.front(), what, drafts, asks);
    } else {
        drafts.rescue = drafts.rescue == what ? Rescue::none : what;
    }
}

std::string where_words(const Glass& glass, const CaseState& state, const Zone& zone) {
    const auto& words = glass.words();
    const auto number = state.patient.number.value_or(words.say("frame.unknown"));
    if (under_sedation(state)) {
        return words.say("rescue.in-room",
                         {{"number", number}, {"room", state.room.value_or(words.say("rescue.the-room"))}});
    }
    return state.planned
               ? words.say("rescue.planned", {{"number", number}, {"time", clock_text(*state.planned, zone)}})
               : number;
}

}  // namespace

void draw_sign_in_strip(Glass& glass, const touch::Layout& layout, const Scene& scene, DeskDrafts& drafts,
                        Asks& asks) {
    const auto& words = glass.words();
    const auto tap =
        touch::desk_strip(glass, layout, words.say("sign-in.who"), scene.policy.clinic.name,
                          clock_text(scene.now, scene.zone), weekday_date(glass, scene.now, scene.zone),
                          {{"start-now", words.say("list.start-now")},
                           {"rescue/vitals", words.say("unit.strip-vitals")},
                           {"rescue/airway", words.say("unit.strip-airway-event")}});
    if (layout.size.w > layout.size.h) {  // upright there is no room beside the buttons
        touch::text(glass, "rescue/no-pin", {420, 14, 232, 62}, words.say("rescue.no-pin"),
                    {.colour = glass.colours().text_2, .align = touch::Align::right, .lines = 2});
    }
    if (!tap) {
        return;
    }
    if (*tap == 0) {
        asks.page = Page::start_now;
    } else {
        tapped(*tap == 1 ? Rescue::vitals : Rescue::airway, scene, drafts, asks);
    }
}

void draw_whose_rescue(Glass& glass, Rect area, const Scene& scene, DeskDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    touch::text(glass, "rescue/whose", {area.x + 8, area.y - 40, area.w - 40, 34},
                words.say(drafts.rescue == Rescue::airway ? "rescue.whose-airway" : "rescue.whose-vitals"),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    constexpr std::size_t places = 7;  // the eighth leads back
    const auto place = [&](std::size_t i) {
        return touch::cell(area, 2, 4, static_cast<int>(i % 2), static_cast<int>(i / 2), 12);
    };
    const auto cases = who_may_need_it(scene);
    const auto what = drafts.rescue;
    for (std::size_t i = 0; i < std::min(places, cases.size()); ++i) {
        const auto& state = *cases[i];
        const auto surname = in_capitals(state.patient.family_name.value_or(words.say("frame.unknown")));
        if (touch::button(
                glass, fmt::format("rescue/case/{}", state.name), place(i),
                {.title = surname, .note = where_words(glass, state, scene.zone), .em = touch::step::act})) {
            open_sheet(state, what, drafts, asks);
        }
    }
    if (touch::button(glass, "rescue/back", place(places), {.title = words.say("touch.back")})) {
        drafts.rescue = Rescue::none;
    }
}

bool open_without_pin(Page page, Sheet sheet) {
    switch (sheet) {
        case Sheet::vitals:
        case Sheet::trend:
        case Sheet::dose:
        case Sheet::airway:
        case Sheet::emergency:
            return true;
        case Sheet::none:
            return page == Page::sign_in || page == Page::start_now;
        default:
            return false;
    }
}

}  // namespace brimline::screens
