// Sign-in: who is entering, by name and PIN. The caution lives here. Nothing of a patient is shown.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/rescue.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Told = DeskDrafts::Told;

constexpr std::size_t places = 6;  // name cards on the page
constexpr Rect names_area{16, 148, 820, 454};
constexpr Rect pin_panel{864, 104, 400, 148};
constexpr Rect pad_area{864, 264, 400, 400};

std::vector<const PersonKnown*> people_of(const Desk& desk) {
    std::vector<const PersonKnown*> people;
    for (const auto& [id, person] : desk.people) {
        if (person.active) {
            people.push_back(&person);
        }
    }
    std::stable_sort(people.begin(), people.end(), [](const PersonKnown* a, const PersonKnown* b) {
        return a->roles.front() < b->roles.front();
    });
    return people;
}

void draw_badge(Glass& glass, Rect card, const std::string& name, const std::string& initials, bool chosen) {
    const auto& c = glass.colours();
    const Rect disc{card.x + 26, card.y + card.h / 2 - 41, 82, 82};
    if (chosen) {
        touch::fill(glass, disc, c.text, 41);
    } else {
        touch::outline(glass, disc, c.line, 2, 41);
    }
    touch::text(glass, name + "/initials", disc.inset(4, 16), initials,
                {.em = touch::step::body,
                 .colour = chosen ? c.panel : c.text_2,
                 .bold = true,
                 .align = touch::Align::centre,
                 .lines = 1});
}

bool name_card(Glass& glass, Rect place, const PersonKnown& person, bool chosen) {
    const auto& c = glass.colours();
    const auto name = "person/" + person.id;
    const auto touch = glass.touch(
        {.name = name, .rect = place, .hit = place, .kind = touch::Kind::card, .checked = chosen});
    touch::fill(glass, place, chosen || touch.pressed ? c.chosen : c.panel, touch::panel_radius);
    touch::outline(glass, place, chosen ? c.text : c.line, chosen ? 3 : 2, touch::panel_radius);
    draw_badge(glass, place, name, initials_of(person.name), chosen);
    if (chosen) {
        touch::icon(glass, touch::Icon::tick, {place.right() - 28, place.y + 30}, 24);
    }
    const Rect words{place.x + 128, place.y + 38, place.w - 144, place.h - 72};
    touch::text(glass, name + "/name", words.top_part(54), person.name,
                {.em = touch::step::act, .bold = true});
    touch::text(glass, name + "/role", words.bottom_part(32), role_words(glass, person),
                {.colour = c.text_2, .lines = 1});
    return touch.fired;
}

bool more_card(Glass& glass, Rect place) {
    const auto& c = glass.colours();
    const auto touch =
        glass.touch({.name = "someone-else", .rect = place, .hit = place, .kind = touch::Kind::card});
    touch::fill(glass, place, touch.pressed ? c.chosen : c.panel, touch::panel_radius);
    touch::outline(glass, place, c.line, 2, touch::panel_radius);
    touch::icon(glass, touch::Icon::plus, {place.x + 67, place.y + place.h / 2}, 30);
    const Rect words{place.x + 128, place.y + 38, place.w - 144, place.h - 72};
    touch::text(glass, "someone-else/title", words.top_part(54), glass.words().say("sign-in.someone-else"),
                {.em = touch::step::act, .bold = true});
    touch::text(glass, "someone-else/note", words.bottom_part(32), glass.words().say("sign-in.more-names"),
                {.colour = c.text_2, .lines = 1});
    return touch.fired;
}

void draw_names(Glass& glass, const std::vector<const PersonKnown*>& people, DeskDrafts& drafts) {
    const bool paged = people.size() > places;
    const std::size_t on_page = paged ? places - 1 : places;
    if (drafts.first_person >= people.size()) {
        drafts.first_person = 0;
    }
    const auto place = [](std::size_t i) {
        return touch::cell(names_area, 2, 3, static_cast<int>(i % 2), static_cast<int>(i / 2), 12);
    };
    for (std::size_t i = 0; i < on_page && drafts.first_person + i < people.size(); ++i) {
        const auto& person = *people[drafts.first_person + i];
        if (name_card(glass, place(i), person, person.id == drafts.person) && person.id != drafts.person) {
            drafts.choose(person.id);
        }
    }
    if (paged && more_card(glass, place(places - 1))) {
        drafts.first_person += on_page;
    }
}

std::string pin_title(Glass& glass, const Scene& scene, const DeskDrafts& drafts) {
    const auto& words = glass.words();
    switch (drafts.told_what) {
        case Told::nothing:
            break;
        case Told::wrong:
            return words.count("sign-in.wrong", drafts.tries_left);
        case Told::locked:
            return words.say("sign-in.locked", {{"time", drafts.locked_until}});
        case Told::unknown:
            return words.say("sign-in.unknown");
        case Told::not_checked:
            return words.say("sign-in.not-checked");
    }
    return drafts.person.empty()
               ? words.say("sign-in.tap-first")
               : words.say("sign-in.pin-for", {{"name", scene.desk.name_of_person(drafts.person)}});
}

void draw_pin(Glass& glass, const Scene& scene, const DeskDrafts& drafts) {
    touch::panel(glass, pin_panel);
    const bool told = drafts.told_what != Told::nothing;
    Rect words{pin_panel.x + 24, pin_panel.y + 8, pin_panel.w - 36, 54};
    if (told) {
        touch::icon(glass, touch::Icon::stop, {words.x + 14, words.y + 27}, 28);
        words = words.right_part(words.w - 40);
    }
    touch::text(glass, "pin/title", words, pin_title(glass, scene, drafts),
                {.colour = told ? glass.colours().text : glass.colours().text_2, .bold = true});
    const int least = scene.policy.rules.pin_digits_least;
    const int typed = static_cast<int>(drafts.pin.size());
    touch::pin_dots(glass, {pin_panel.x, pin_panel.y + 62, pin_panel.w, 70}, typed,
                    drafts.longer_pin ? std::max(least, typed) : least);
}

void type_pin(const Scene& scene, DeskDrafts& drafts, touch::PadKey key) {
    drafts.told_what = Told::nothing;
    if (key == touch::PadKey::erase) {
        if (!drafts.pin.empty()) {
            drafts.pin.pop_back();
        }
        return;
    }
    if (static_cast<int>(drafts.pin.size()) < scene.policy.rules.pin_digits_most) {
        drafts.pin += static_cast<char>('0' + static_cast<int>(key));
    }
}

/// The pad's free place, lower left: for those whose PIN has more digits than the fewest.
void draw_longer(Glass& glass, DeskDrafts& drafts) {
    const Rect place = touch::cell(pad_area, 3, 4, 0, 3, 12);
    const touch::Button face{.title = glass.words().say("sign-in.longer-pin"),
                             .look = drafts.longer_pin ? touch::Look::chosen : touch::Look::rest,
                             .em = touch::step::note,
                             .tick = false,
                             .corner_tick = true};
    if (touch::button(glass, "longer-pin", place, face)) {
        drafts.longer_pin = !drafts.longer_pin;
    }
}

/// What the corner says while it does nothing: a flat panel, for what is outlined can be touched.
void draw_to_go(Glass& glass, Rect corner, const std::string& title, const std::string& note) {
    const auto& c = glass.colours();
    touch::fill(glass, corner, c.bg, touch::control_radius);
    touch::icon(glass, touch::Icon::ring, {corner.x + 36, corner.y + corner.h / 2}, 24);
    const Rect words{corner.x + 60, corner.y + 10, corner.w - 120, corner.h - 20};
    touch::text(glass, "to-go/title", words.top_part(44), title,
                {.em = touch::step::act, .bold = true, .align = touch::Align::centre, .lines = 1});
    touch::text(glass, "to-go/note", words.bottom_part(32), note,
                {.colour = c.text_2, .align = touch::Align::centre, .lines = 1});
}

/// True when the PIN is to be checked now.
bool draw_corner(Glass& glass, const touch::Layout& layout, const Scene& scene, const DeskDrafts& drafts) {
    const int left = scene.policy.rules.pin_digits_least - static_cast<int>(drafts.pin.size());
    if (drafts.longer_pin && left <= 0) {
        return touch::action(glass, layout.action,
                             {.command = "sign-in",
                              .title = glass.words().say("sign-in.sign-in"),
                              .note = scene.desk.name_of_person(drafts.person)}) == touch::ActionTap::action;
    }
    if (drafts.person.empty()) {
        draw_to_go(glass, layout.action, glass.words().say("sign-in.name-first"), "");
    } else {
        draw_to_go(glass, layout.action, glass.words().count("sign-in.to-go", std::max(0, left)),
                   glass.words().say(drafts.longer_pin ? "sign-in.corner-signs" : "sign-in.last-signs"));
    }
    return !drafts.longer_pin && !drafts.person.empty() && left <= 0;
}

/// The whole caution of the product, on the page that everybody passes.
void draw_caution(Glass& glass, const touch::Layout& layout) {
    const auto& c = glass.colours();
    const float top = layout.foot.y + 4;
    touch::icon(glass, touch::Icon::know, {50, top + 56}, 42, c.line, c.panel);
    touch::text(glass, "caution/records", {92, top, 756, 112}, glass.words().say("sign-in.caution"),
                {.lines = 4});
    touch::text(glass, "caution/follow", {24, 608, 812, 58}, glass.words().say("sign-in.caution-follow"),
                {.colour = c.text_2});
}

void draw_beginning(Glass& glass) {
    const Rect area{176, 160, 928, 300};
    touch::panel(glass, area);
    touch::text(glass, "begin/title", {area.x + 24, area.y + 16, area.w - 48, 60},
                glass.words().say("sign-in.nobody"), {.em = touch::step::act, .bold = true});
    touch::text(glass, "begin/how", {area.x + 24, area.y + 88, area.w - 48, 70},
                glass.words().say("sign-in.begin"), {.em = touch::step::body});
    touch::text(glass, "begin/command", {area.x + 24, area.y + 176, area.w - 48, 70},
                glass.words().say("unit.begin-command"), {.em = touch::step::body, .bold = true});
}

}  // namespace

void DeskDrafts::choose(const std::string& who) {
    person = who;
    pin.clear();
    longer_pin = false;
    told_what = Told::nothing;
}

void DeskDrafts::told(const tl::expected<store::PinAnswer, std::string>& answer, const Zone& zone) {
    pin.clear();
    longer_pin = false;
    if (!answer) {
        told_what = Told::not_checked;
    } else if (const auto* wrong = std::get_if<store::PinWrong>(&*answer)) {
        told_what = Told::wrong;
        tries_left = wrong->tries_left;
    } else if (const auto* locked = std::get_if<store::PinLocked>(&*answer)) {
        told_what = Told::locked;
        locked_until = clock_text(locked->until, zone, true);
    } else if (std::holds_alternative<store::PinUnknown>(*answer)) {
        told_what = Told::unknown;
    } else {
        *this = {};
    }
}

Asks draw_sign_in(Glass& glass, const Scene& scene, DeskDrafts& drafts) {
    glass.dress({.theme = touch::Theme::light, .in_room = false, .practice = scene.practice});
    const auto layout = touch::layout_for(glass.size());
    touch::page_ground(glass, layout);
    Asks asks;
    draw_sign_in_strip(glass, layout, scene, drafts, asks);
    touch::fill(glass, {0, layout.foot.y, layout.size.w, layout.foot.h}, glass.colours().panel);
    touch::fill(glass, {0, layout.foot.y - 1, layout.size.w, 2}, glass.colours().hairline);
    draw_caution(glass, layout);
    const auto people = people_of(scene.desk);
    if (people.empty()) {
        draw_beginning(glass);
        return asks;
    }
    if (drafts.rescue != DeskDrafts::Rescue::none) {
        draw_whose_rescue(glass, names_area, scene, drafts, asks);
    } else {
        touch::text(glass, "names/title", {24, 108, 780, 34}, glass.words().say("sign-in.tap-your-name"),
                    {.colour = glass.colours().text_2, .bold = true, .lines = 1});
        draw_names(glass, people, drafts);
    }
    draw_pin(glass, scene, drafts);
    if (!drafts.person.empty()) {
        if (const auto key = touch::keypad(glass, "pad", pad_area, false)) {
            type_pin(scene, drafts, *key);
        }
        if (scene.policy.rules.pin_digits_most > scene.policy.rules.pin_digits_least) {
            draw_longer(glass, drafts);
        }
    }
    if (draw_corner(glass, layout, scene, drafts)) {
        asks.sign_in = {drafts.person, drafts.pin};
    }
    return asks;
}

}  // namespace brimline::screens
