// Drawing the frame of desk pages.
#include "app/kiosk/screens/desk_frame.h"

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/names.h"

namespace brimline::screens {
namespace {

struct Row {
    const char* key;
    std::optional<Page> page;  // none signs off
};
constexpr std::array<Row, 8> rows{{{"desk.list", Page::day_list},
                                   {"desk.bays", Page::bays},
                                   {"desk.register", Page::register_list},
                                   {"desk.open-items", Page::open_items},
                                   {"desk.records", Page::records},
                                   {"desk.sign", Page::sign_cases},
                                   {"desk.kiosk", Page::kiosk},
                                   {"desk.sign-off", std::nullopt}}};

void follow(const Row& row, Asks& asks) {
    asks.page = row.page;
    asks.sign_off = !row.page.has_value();
}

/// Upright there is no room for a rail: the ways stand in one row above the foot.
void draw_ways_upright(touch::Glass& glass, const Scene& scene, Asks& asks) {
    int at = 0;
    for (const auto& row : rows) {
        if (row.page == scene.page) {
            continue;
        }
        const auto place = touch::cell({16, 996, 768, 80}, static_cast<int>(rows.size()) - 1, 1, at++, 0, 12);
        if (touch::button(glass, row.key, place,
                          {.title = glass.words().say(row.key), .em = touch::step::note})) {
            follow(row, asks);
        }
    }
}

}  // namespace

void draw_desk_strip(touch::Glass& glass, const Scene& scene, const std::string& title,
                     const std::string& note) {
    glass.dress({.theme = theme_of(scene, true), .in_room = false, .practice = scene.practice});
    const auto layout = touch::layout_for(glass.size());
    touch::page_ground(glass, layout);
    touch::fill(glass, {0, layout.foot.y, layout.size.w, layout.foot.h}, glass.colours().panel);
    const auto* person = scene.desk.person(scene.person);
    touch::desk_strip(glass, layout, title, note, clock_text(scene.now, scene.zone),
                      person == nullptr ? std::string{} : short_name(person->name));
}

void draw_desk_frame(touch::Glass& glass, const Scene& scene, const std::string& title,
                     const std::string& note, Asks& asks) {
    draw_desk_strip(glass, scene, title, note);
    const auto layout = touch::layout_for(glass.size());
    if (layout.portrait) {
        touch::fill(glass, {0, 177, 800, 907}, glass.colours().bg);
        draw_ways_upright(glass, scene, asks);
        return;
    }
    std::vector<std::string> titles;
    std::size_t here = rows.size();
    for (std::size_t i = 0; i < rows.size(); ++i) {
        titles.push_back(glass.words().say(rows[i].key));
        here = rows[i].page == scene.page ? i : here;
    }
    if (const auto tapped = touch::desk_rail(glass, layout, titles, here)) {
        follow(rows[*tapped], asks);
    }
}

touch::Prompt cannot_save(const touch::Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const float room =
        touch::layout_for(glass.size()).prompt.w - 108;  // without the icon and the bar's edges
    const auto first = scene.broken.substr(0, scene.broken.find(". "));
    const bool fits = glass.type().width(touch::Face::words, touch::step::note, first) <= room;
    return {.urgency = touch::Urgency::high,
            .title = words.say("frame.cannot-save"),
            .why = fits ? first : words.say("frame.cannot-save-why")};
}

bool draw_desk_prompt(touch::Glass& glass, const Scene& scene, const touch::Prompt& shown) {
    const auto layout = touch::layout_for(glass.size());
    const touch::Rect bar = layout.portrait ? touch::Rect{16, 1088, 768, 84} : layout.prompt;
    if (!scene.broken.empty()) {
        touch::prompt_bar(glass, bar, cannot_save(glass, scene));
        return false;
    }
    if (scene.last && scene.last->result == Reply::Result::refused && scene.last->refusal) {
        touch::prompt_bar(glass, bar,
                          {.urgency = touch::Urgency::medium,
                           .title = scene.last->refusal->say,
                           .why = scene.last->refusal->next});
        return false;
    }
    return touch::prompt_bar(glass, bar, shown).bar;
}

}  // namespace brimline::screens
