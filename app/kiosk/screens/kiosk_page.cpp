// The kiosk's own page: what it knows to be whole or not, each with a sentence, and the settings that work.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

struct Check {
    const char* name;
    bool good;
    std::string says;
};

Check backup_of(const Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    if (!scene.backup.failing.empty()) {
        return {"backup", false, scene.backup.failing};
    }
    if (!scene.backup.made) {
        return {"backup", false, words.say("kiosk.backup-none")};
    }
    constexpr int old_days = 2;  // 7-journal: at day's end; one missed day is seen
    const auto days = days_between(scene.zone.date_of(*scene.backup.made), scene.zone.date_of(scene.now));
    return {"backup", days <= old_days, words.count("kiosk.backup-age", static_cast<long>(days))};
}

std::vector<Check> checks_of(const Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const auto hash = scene.desk.policy ? scene.desk.policy->hash.substr(0, 8) : std::string{};
    return {
        {"store", scene.broken.empty(), scene.broken.empty() ? words.say("kiosk.store-good") : scene.broken},
        {"disk", !scene.waiting.late,
         scene.waiting.late ? words.say("frame.not-yet-saved")
                            : words.say("kiosk.entries", {{"n", std::to_string(scene.desk.last_seq)}})},
        {"policy", !hash.empty(),
         hash.empty() ? words.say("kiosk.no-policy") : hash + ", " + scene.zone.name()},
        {"people", !scene.desk.people.empty(),
         words.count("kiosk.people-n", static_cast<long>(scene.desk.people.size()))},
        backup_of(glass, scene),
        {"touch", true, words.count("kiosk.too-soon", glass.too_soon())}};
}

void draw_checks(Glass& glass, const std::vector<Check>& checks) {
    const auto& c = glass.colours();
    for (std::size_t i = 0; i < checks.size(); ++i) {
        const auto place =
            touch::cell({176, 104, 672, 300}, 2, 3, static_cast<int>(i % 2), static_cast<int>(i / 2), 12);
        const auto& check = checks[i];
        touch::fill(glass, place, check.good ? c.panel : c.stop_tint, touch::panel_radius);
        touch::icon(glass, check.good ? touch::Icon::good : touch::Icon::stop, {place.x + 34, place.y + 46},
                    30);
        const auto name = fmt::format("check/{}", check.name);
        touch::text(glass, name, {place.x + 64, place.y + 6, place.w - 76, 36},
                    glass.words().say(fmt::format("kiosk.{}", check.name)),
                    {.em = touch::step::body, .bold = true, .lines = 1});
        touch::text(glass, name + "/says", {place.x + 64, place.y + 42, place.w - 76, 46}, check.says,
                    {.colour = c.text_2, .lines = 1, .may_cut = true});
    }
}

void draw_palette(Glass& glass, const Scene& scene, Asks& asks) {
    const auto& words = glass.words();
    touch::text(glass, "palette/head", {872, 108, 384, 34}, words.say("kiosk.palette"),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    int row = 0;
    for (const auto palette : {KioskPalette::by_place, KioskPalette::dark, KioskPalette::light}) {
        const auto name = std::string{name_of(palette)};
        const bool chosen = scene.palette == palette;
        if (touch::button(glass, "palette/" + name, {864, 148 + 96 * static_cast<float>(row++), 400, 84},
                          {.title = words.say("kiosk.palette-" + name),
                           .look = chosen ? touch::Look::chosen : touch::Look::rest})) {
            asks.palette = palette;
        }
    }
    touch::text(glass, "palette/note", {872, 440, 384, 60}, words.say("kiosk.until-restart"),
                {.colour = glass.colours().text_2});
}

}  // namespace

Asks draw_kiosk_page(Glass& glass, const Scene& scene) {
    Asks asks;
    const auto& words = glass.words();
    draw_desk_frame(glass, scene, words.say("kiosk.title"), scene.policy.clinic.name, asks);
    const auto checks = checks_of(glass, scene);
    draw_checks(glass, checks);
    draw_palette(glass, scene, asks);
    touch::panel(glass, {176, 416, 672, 248});
    touch::text(glass, "kiosk/more", {196, 424, 632, 230}, words.say("kiosk.command-line"),
                {.em = touch::step::body, .stand = touch::Stand::top, .lines = 6});
    const Rect ways{864, 572, 400, 92};
    if (touch::button(glass, "to-clinic", touch::cell(ways, 2, 1, 0, 0, 12),
                      {.title = words.say("clinic.title")})) {
        asks.page = Page::clinic;
    }
    if (touch::button(glass, "practice", touch::cell(ways, 2, 1, 1, 0, 12),
                      {.title = words.say(scene.practice ? "practice.end" : "practice.begin")})) {
        asks.turn = scene.practice ? StoreTurn::end_practice : StoreTurn::begin_practice;
    }
    bool all_good = true;
    for (const auto& check : checks) {
        all_good = all_good && check.good;
    }
    draw_desk_prompt(glass, scene,
                     {.urgency = all_good ? touch::Urgency::low : touch::Urgency::high,
                      .title = words.say(all_good ? "kiosk.all-good" : "kiosk.not-all-good")});
    const touch::Action list{
        .command = "to-list", .title = words.say("record.to-list"), .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, list) == touch::ActionTap::action) {
        asks.page = Page::day_list;
    }
    return asks;
}

}  // namespace brimline::screens
