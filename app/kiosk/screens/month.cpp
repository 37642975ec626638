// A month in figures, each with its denominator.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/pages.h"
#include "core/desk/audit.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

std::string of_words(const Glass& glass, Share share) {
    return glass.words().say("month.of", {{"n", std::to_string(share.n)}, {"all", std::to_string(share.of)}});
}

void draw_figures(Glass& glass, const MonthFigures& m) {
    const Rect panel{176, 200, 672, 464};
    touch::panel(glass, panel);
    panel_head(glass, "month/head", panel, glass.words().say("month.figures"));
    const auto ml =
        m.median_volume
            ? glass.words().say("unit.ml", {{"n", decimal_words(glass, m.median_volume->rounded(1))}})
            : std::string{"–"};
    const std::array<std::pair<const char*, std::string>, 10> lines{{
        {"placements", std::to_string(m.placements)},
        {"deferred", std::to_string(m.deferred)},
        {"abandoned", std::to_string(m.abandoned)},
        {"removals", std::to_string(m.removals)},
        {"on-time", of_words(glass, m.removed_on_time)},
        {"overdue", std::to_string(m.overdue_at_end)},
        {"live", of_words(glass, m.entered_live)},
        {"parted", of_words(glass, m.counts_parted)},
        {"volume", ml},
        {"fill", m.median_fill ? duration_words(*m.median_fill) : std::string{"–"}},
    }};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        list_line(glass, fmt::format("month/{}", lines[i].first),
                  {196, 244 + 41 * static_cast<float>(i), 632, 38},
                  glass.words().say(fmt::format("month.{}", lines[i].first)), lines[i].second, 420);
    }
}

void draw_overrides(Glass& glass, const Scene& scene, const MonthFigures& m) {
    const Rect panel{864, 200, 400, 464};
    touch::panel(glass, panel);
    panel_head(glass, "overrides/head", panel, glass.words().say("month.overrides"));
    if (m.overrides.empty()) {
        touch::text(glass, "overrides/none", {884, 244, 360, 60}, glass.words().say("removal.none"),
                    {.colour = glass.colours().text_2, .lines = 1});
    }
    constexpr std::size_t room = 9;
    std::size_t shown = 0;
    for (const auto& [reason, count] : m.overrides) {
        if (shown == room) {
            break;
        }
        const float y = 244 + 44 * static_cast<float>(shown++);
        std::string words = reason;
        for (const auto& item : scene.policy.lists.override_reasons) {
            words = item.id == reason ? item.words : words;
        }
        list_line(glass, "overrides/" + reason, {884, y, 360, 40}, words, std::to_string(count), 290);
    }
}

}  // namespace

Asks draw_month(Glass& glass, const Scene& scene, RegisterDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    const auto today = scene.zone.date_of(scene.now);
    const auto month = today.year() / today.month() - std::chrono::months{drafts.months_back};
    draw_desk_frame(glass, scene, words.say("month.title"), words.say("month.note"), asks);
    const Rect row{176, 104, 1088, 84};
    if (touch::button(glass, "month/before", touch::cell(row, 3, 1, 0, 0, 12),
                      {.title = words.say("month.before")})) {
        ++drafts.months_back;
    }
    const auto first = shown_date(glass, month / std::chrono::day{1});
    const auto shown = touch::cell(row, 3, 1, 1, 0, 12);
    touch::text(glass, "month/which", shown, first.substr(first.find(' ') + 1),
                {.em = touch::step::act, .bold = true, .align = touch::Align::centre, .lines = 1});
    if (drafts.months_back > 0 && touch::button(glass, "month/after", touch::cell(row, 3, 1, 2, 0, 12),
                                                {.title = words.say("month.after")})) {
        --drafts.months_back;
    }
    const auto figures = month_figures(scene.book, scene.policy, month);
    draw_figures(glass, figures);
    draw_overrides(glass, scene, figures);
    (void)draw_desk_prompt(glass, scene,
                           {.urgency = touch::Urgency::low, .title = words.say("month.prompt")});
    const touch::Action back{
        .command = "to-register", .title = words.say("register.title"), .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, back) == touch::ActionTap::action) {
        asks.page = Page::register_list;
    }
    return asks;
}

}  // namespace brimline::screens
