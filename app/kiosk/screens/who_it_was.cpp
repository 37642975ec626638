// Whose the entries are that were made while nobody was signed in: one tap on a name, for all of them.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/names.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

void draw_entries(Glass& glass, const Scene& scene, const std::vector<Stamp>& entries) {
    const auto& words = glass.words();
    const Rect panel{176, 104, 480, 560};
    touch::panel(glass, panel);
    touch::text(glass, "who/head", {196, 116, 440, 108},
                words.count("who.entries", static_cast<long>(entries.size())),
                {.em = touch::step::act, .bold = true, .lines = 2});
    if (!entries.empty()) {
        touch::text(glass, "who/span", {196, 236, 440, 40},
                    words.say("who.span", {{"first", clock_text(entries.front().at, scene.zone, true)},
                                           {"last", clock_text(entries.back().at, scene.zone, true)}}),
                    {.em = touch::step::body, .lines = 1});
    }
    touch::text(glass, "who/note", {196, 296, 440, 150}, words.say("who.note"),
                {.colour = glass.colours().text_2, .lines = 4});
}

void draw_people(Glass& glass, const Scene& scene, Asks& asks) {
    const Rect area{672, 104, 592, 444};
    constexpr std::size_t places = 8;
    std::size_t at = 0;
    for (const auto& [id, person] : scene.ahead.people) {
        if (at == places) {
            break;  // a clinic's others are named in an addendum
        }
        const auto place = touch::cell(area, 2, 4, static_cast<int>(at % 2), static_cast<int>(at / 2), 12);
        ++at;
        if (touch::button(glass, "who/" + id, place,
                          {.title = short_name(person.name), .em = touch::step::act})) {
            asks.tell(WhoItWas{id, {}});
            asks.sheet = Sheet::none;
        }
    }
}

void draw_not_known(Glass& glass, Asks& asks) {
    constexpr std::array reasons{"several", "forgotten"};
    for (std::size_t i = 0; i < reasons.size(); ++i) {
        const auto key = fmt::format("who.not-known-{}", reasons[i]);
        const auto place = touch::cell({672, 560, 592, 104}, 2, 1, static_cast<int>(i), 0, 12);
        if (touch::button(glass, fmt::format("not-known/{}", reasons[i]), place,
                          {.title = glass.words().say("who.not-known"), .note = glass.words().say(key)})) {
            asks.tell(WhoItWas{"not-known", glass.words().say(key)});
            asks.sheet = Sheet::none;
        }
    }
}

}  // namespace

Asks draw_who_it_was(Glass& glass, const Scene& scene) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    draw_entries(glass, scene, nameless(*scene.ahead_state));
    draw_people(glass, scene, asks);
    draw_not_known(glass, asks);
    const touch::Prompt own{.title = glass.words().say("who.whose"),
                            .chips = {{"back", glass.words().say("touch.back")}}};
    if (draw_case_prompt(glass, scene, own, asks).chip == "back") {
        asks.sheet = Sheet::none;
    }
    quiet_corner(glass, glass.words().say("who.tap-a-name"));
    return asks;
}

}  // namespace brimline::screens
