// The trend over the whole case: one lane a sign, each last figure with its minute, what happened, what was
// given. Read only; the value pad is one tap away.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/dose_words.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/trend_lane.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

/// One frame of the trend.
struct TrendPage {
    Glass& glass;
    const Scene& scene;
    const TrendView& view;
    Asks& asks;

    [[nodiscard]] const CaseState& state() const { return *scene.ahead_state; }
    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    [[nodiscard]] std::string minute(Instant t) const { return clock_text(t, scene.zone); }
};

/// The drug given last: its doses with their minutes, its total with the basis of the weight.
void draw_given(const TrendPage& page) {
    const auto& c = page.glass.colours();
    const Rect panel{176, 464, 672, 100};
    touch::panel(page.glass, panel);
    const auto& doses = page.state().doses;
    if (doses.empty()) {
        touch::text(page.glass, "given/none", {196, 472, 632, 84}, page.say("dose.nothing-yet"),
                    {.colour = c.text_2});
        return;
    }
    const auto& drug = doses.back().is.drug;
    const auto totals = dose_totals(page.state(), page.scene.now);
    const auto total =
        std::find_if(totals.begin(), totals.end(), [&](const DoseTotal& t) { return t.drug == drug; });
    auto words = decimal_words(page.glass, total->total) + " " + page.say("unit.dose-" + total->unit);
    const auto weight = weight_of(page.state());
    if (total->per_kg && weight) {
        words +=
            " · " + page.say("dose.per-kg-long",
                             {{"n", *total->per_kg},
                              {"unit", page.say("unit.dose-" + total->unit)},
                              {"basis", page.say("dose.weight-" + std::string{name_of(weight->basis)})}});
    }
    const auto name_of_drug = drug_words(page.scene.policy, drug);
    const auto given = page.say("sedation.given", {{"drug", name_of_drug}});
    const bool fits = page.glass.type().width(touch::Face::words_bold, touch::step::note, given) <= 220;
    touch::text(page.glass, "given/drug", {196, 468, 220, 36}, fits ? given : name_of_drug,
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(page.glass, "given/total", {424, 468, 404, 36}, words,
                {.bold = true, .align = touch::Align::right, .lines = 1});
    std::vector<const Noted<Dose>*> same;
    for (const auto& dose : doses) {
        if (dose.is.drug == drug) {
            same.push_back(&dose);
        }
    }
    constexpr std::size_t room = 4;
    const std::size_t from = same.size() > room ? same.size() - room : 0;
    for (std::size_t i = from; i < same.size(); ++i) {
        const auto place = touch::cell({196, 506, 632, 48}, 4, 1, static_cast<int>(i - from), 0, 8);
        const auto name = fmt::format("given/{}", i + 1);
        touch::fill(page.glass, place, c.bg, 6);
        touch::text(page.glass, name + "/time", {place.x + 8, place.y + 6, 62, 36},
                    page.minute(same[i]->stamp.happened), {.colour = c.text_2, .lines = 1});
        touch::text(page.glass, name, {place.x + 70, place.y + 6, place.w - 78, 36},
                    amount_words(page.glass, same[i]->is.amount, same[i]->is.unit),
                    {.bold = true, .align = touch::Align::right, .lines = 1});
    }
}

std::string actions_words(const TrendPage& page, const AirwayEpisode& episode) {
    std::string all;
    for (const auto& item : page.scene.policy.lists.airway_actions) {
        if (std::find(episode.actions.begin(), episode.actions.end(), item.id) != episode.actions.end()) {
            all += (all.empty() ? "" : ", ") + item.words;
        }
    }
    return all;
}

std::string moment_words(const TrendPage& page, const SedationMoment& moment) {
    if (moment.what == SedationMoment::What::airway_event && moment.episode->lowest_spo2) {
        const auto done = actions_words(page, *moment.episode);
        const auto lowest = std::to_string(*moment.episode->lowest_spo2);
        return page.say("sedation.moment-lowest", {{"n", lowest}}) + (done.empty() ? "" : ", " + done);
    }
    if (moment.what == SedationMoment::What::airway_ended) {
        return page.say("sedation.moment-airway-ended",
                        {{"time", duration_words(moment.at - moment.episode->start.happened)}});
    }
    return page.say(fmt::format("sedation.moment-{}", name_of(moment.what)));
}

void draw_moments(const TrendPage& page) {
    const auto& c = page.glass.colours();
    touch::panel(page.glass, {864, 104, 400, 288});
    touch::text(page.glass, "moments/head", {884, 112, 360, 36}, page.say("sedation.events"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    const auto moments = sedation_moments(page.state());
    constexpr std::size_t room = 4;
    const std::size_t from = moments.size() > room ? moments.size() - room : 0;
    for (std::size_t i = from; i < moments.size(); ++i) {
        const float y = 156 + 44 * static_cast<float>(i - from);
        const auto name = fmt::format("moment/{}", i + 1);
        touch::text(page.glass, name, {884, y, 256, 40}, moment_words(page, moments[i]),
                    {.colour = c.text_2, .lines = 1, .may_cut = true});
        touch::text(page.glass, name + "/time", {1144, y, 100, 40},
                    clock_text(moments[i].at, page.scene.zone, true),
                    {.bold = true, .align = touch::Align::right, .lines = 1});
    }
    if (const auto lowest = lowest_spo2(page.state())) {
        touch::text(page.glass, "moment/lowest", {884, 336, 270, 44}, page.say("sedation.lowest"),
                    {.bold = true, .lines = 1});
        touch::text(page.glass, "moment/lowest-value", {1158, 336, 86, 44},
                    page.say("unit.n-percent", {{"n", std::to_string(lowest->value)}}),
                    {.bold = true, .align = touch::Align::right, .lines = 1});
    }
}

/// One figure of the panel below the events.
void draw_figure(const TrendPage& page, const std::string& name, Rect place, const std::string& value,
                 const std::string& unit, std::optional<Instant> at) {
    const auto& c = page.glass.colours();
    touch::numeral(page.glass, name, {place.x, place.y, 54, 60}, value.empty() ? "–" : value,
                   {.em = touch::step::label, .align = touch::Align::centre});
    touch::text(page.glass, name + "/unit", {place.x + 58, place.y, place.w - 58, 30}, unit,
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::text(page.glass, name + "/at", {place.x + 58, place.y + 30, place.w - 58, 30},
                at ? page.minute(*at) : std::string{}, {.colour = c.text_2, .lines = 1});
}

void draw_depth(const TrendPage& page) {
    touch::panel(page.glass, {864, 404, 400, 160});
    touch::text(page.glass, "depth/head", {884, 410, 360, 36}, page.say("sedation.depth-and-oxygen"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    const auto& depths = page.state().depths;
    const auto& oxygen = page.state().oxygen;
    draw_figure(page, "depth", {880, 452, 184, 64},
                depths.empty() ? "" : std::to_string(depths.back().is.moaas), page.say("sedation.moaas"),
                depths.empty() ? std::nullopt : std::optional{depths.back().stamp.happened});
    draw_figure(page, "oxygen", {1068, 452, 184, 64},
                oxygen.empty() ? "" : decimal_words(page.glass, oxygen.back().is.l_min),
                page.say("unit.l-min"),
                oxygen.empty() ? std::nullopt : std::optional{oxygen.back().stamp.happened});
    if (page.state().secured) {
        touch::text(
            page.glass, "depth/secured", {884, 522, 360, 36},
            page.say("sedation.secured-since", {{"time", page.minute(page.state().secured->stamp.happened)}}),
            {.lines = 1});
    }
}

void draw_ways(const TrendPage& page) {
    const auto running = running_infusions(page.state());
    const auto infusion =
        running.empty() ? page.say("sedation.none-running")
                        : page.glass.words().count("sedation.running", static_cast<long>(running.size()));
    const auto way = [&](Rect area, int i, int n, const char* name, const std::string& note) {
        return touch::button(
            page.glass, name, touch::cell(area, n, 1, i, 0, 12),
            {.title = page.say(fmt::format("sedation.way-{}", name)), .note = note, .bold = true});
    };
    const Rect left{176, 576, 672, 88};
    const Rect right{864, 576, 400, 88};
    if (way(left, 0, 3, "change-value", "")) {
        page.asks.sheet = Sheet::change_value;
    }
    if (way(left, 1, 3, "infusion", infusion)) {
        page.asks.sheet = Sheet::infusion;
    }
    if (way(left, 2, 3, "hand-role", "")) {
        page.asks.sheet = Sheet::hand_role;
    }
    if (way(right, 0, 3, "value-pad", "")) {
        page.asks.sheet = page.scene.page == Page::sedation ? Sheet::none : Sheet::vitals;
    }
    if (way(right, 1, 3, "dose", "")) {
        page.asks.sheet = Sheet::dose;
    }
    if (way(right, 2, 3, "tube", "")) {
        page.asks.sheet = Sheet::tube;
    }
}

touch::Prompt own_prompt(const TrendPage& page) {
    const auto* event = airway_event_in_hand(page.state(), page.scene.policy, page.scene.now);
    if (event != nullptr && event->end && event->lowest_spo2) {
        return {.urgency = touch::Urgency::medium,
                .title = page.say("sedation.spo2-was", {{"n", std::to_string(*event->lowest_spo2)},
                                                        {"time", page.minute(event->start.happened)}}),
                .why = page.say("sedation.lasted",
                                {{"time", duration_words(*event->end - event->start.happened)}}) +
                       (event->actions.empty() ? "" : " · " + actions_words(page, *event))};
    }
    return {.urgency = touch::Urgency::low,
            .title = page.say("sedation.trend-title"),
            .why = page.say("sedation.gaps-stay")};
}

}  // namespace

Asks draw_trend(Glass& glass, const Scene& scene) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    const auto view = trend_view(*scene.ahead_state, scene.policy);
    const TrendPage page{glass, scene, view, asks};
    draw_trend_lanes(page.glass, page.scene, page.view);
    draw_given(page);
    draw_moments(page);
    draw_depth(page);
    draw_ways(page);
    if (over_fill(scene)) {
        (void)draw_sheet_foot(glass, scene, std::nullopt, asks);
        return asks;
    }
    (void)draw_case_prompt(glass, scene, own_prompt(page), asks);
    const auto due = next_vitals_due(*scene.ahead_state, scene.policy);
    const touch::Action next{.command = "next-set",
                             .title = due ? page.say("sedation.next-set", {{"time", page.minute(*due)}})
                                          : page.say("sedation.way-value-pad"),
                             .note = page.say("sedation.opens-pad"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, next) == touch::ActionTap::action) {
        asks.sheet = scene.page == Page::sedation ? Sheet::none : Sheet::vitals;
    }
    return asks;
}

}  // namespace brimline::screens
