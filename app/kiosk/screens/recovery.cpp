// Recovery: the trend since the hand-over with the age of each figure, the score, what lacks until the
// patient is fit, and the ways to what is entered here.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/recovery_parts.h"
#include "app/kiosk/screens/trend_lane.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

template <class Values>
void drop_before(Values& values, Instant from) {
    values.erase(std::remove_if(values.begin(), values.end(), [&](const auto& v) { return v.at < from; }),
                 values.end());
}

/// The trend since the patient came here.
TrendView trend_here(const CaseState& state, const Policy& policy) {
    auto view = trend_view(state, policy);
    const auto from = state.accepted->stamp.happened;
    drop_before(view.spo2, from);
    drop_before(view.hr, from);
    drop_before(view.rr, from);
    drop_before(view.pressure, from);
    drop_before(view.airway, from);
    view.sets.erase(std::remove_if(view.sets.begin(), view.sets.end(), [&](Instant t) { return t < from; }),
                    view.sets.end());
    constexpr std::size_t most = 8;  // the lane shows the newest
    if (view.sets.size() > most) {
        const auto first = view.sets[view.sets.size() - most];
        drop_before(view.spo2, first);
        drop_before(view.hr, first);
        drop_before(view.rr, first);
        drop_before(view.pressure, first);
        drop_before(view.airway, first);
        view.sets.erase(view.sets.begin(), view.sets.end() - most);
    }
    return view;
}

void small_fact(Glass& glass, const std::string& name, Rect place, const std::string& value,
                const std::string& note) {
    touch::text(glass, name, place.top_part(36), value, {.em = touch::step::act, .bold = true, .lines = 1});
    touch::text(glass, name + "/note", place.bottom_part(28), note,
                {.colour = glass.colours().text_2, .lines = 1});
}

void draw_from_handover(Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const Rect panel{176, 464, 672, 108};
    touch::panel(glass, panel);
    const auto view = handover_view(*scene.ahead_state, scene.policy);
    panel_head(glass, "from/head", panel,
               words.say("recovery.from-handover",
                         {{"time", clock_text(scene.ahead_state->accepted->stamp.happened, scene.zone)}}));
    const auto place = [&](int i) { return touch::cell({196, 502, 632, 66}, 3, 1, i, 0, 12); };
    if (view.inside) {
        small_fact(glass, "from/volume", place(0), ml_words(glass, view.volume),
                   words.say(view.agreed ? "recovery.agreed" : "recovery.not-agreed"));
    } else {
        small_fact(glass, "from/volume", place(0), "–", words.say("handover.no-balloon"));
    }
    const auto totals = dose_totals(*scene.ahead_state, scene.now);
    if (!totals.empty()) {
        const auto* drug = scene.policy.drug(totals.front().drug);
        const auto& unit = totals.front().unit;
        small_fact(glass, "from/dose", place(1),
                   decimal_words(glass, totals.front().total) + " " + words.say("unit.dose-" + unit),
                   drug == nullptr ? totals.front().drug : drug->words);
    }
    if (view.lowest) {
        small_fact(glass, "from/lowest", place(2),
                   words.say("recovery.percent", {{"n", std::to_string(view.lowest->value)}}),
                   words.say("recovery.lowest-at", {{"time", clock_text(view.lowest->at, scene.zone)}}));
    }
}

std::string rated(const Glass& glass, const CaseState& state, SymptomKind kind) {
    const auto word = glass.words().say(fmt::format("recovery.{}", name_of(kind)));
    const auto rating = last_rating(state, kind);
    return rating ? fmt::format("{} {}", word, *rating) : word;
}

std::string rated_at(const Scene& scene, SymptomKind kind) {
    std::string at;
    for (const auto& symptom : scene.ahead_state->symptoms) {
        at = symptom.is.kind == kind ? clock_text(symptom.stamp.happened, scene.zone) : at;
    }
    return at;
}

void draw_symptom_ways(Glass& glass, const Scene& scene, Asks& asks) {
    const auto& words = glass.words();
    const auto& state = *scene.ahead_state;
    const auto drink = state.drinks.empty() ? std::string{}
                                            : ml_words(glass, state.drinks.back().is.ml) + " " +
                                                  clock_text(state.drinks.back().stamp.happened, scene.zone);
    const std::array<std::array<std::string, 3>, 4> ways{
        {{"nausea", rated(glass, state, SymptomKind::nausea), rated_at(scene, SymptomKind::nausea)},
         {"pain", rated(glass, state, SymptomKind::pain), rated_at(scene, SymptomKind::pain)},
         {"drink", words.say("recovery.drink"), drink},
         {"vomit", words.say("recovery.vomit"), rated_at(scene, SymptomKind::vomiting)}}};
    for (std::size_t i = 0; i < ways.size(); ++i) {
        if (touch::button(glass, ways[i][0],
                          touch::cell({176, 584, 672, 80}, 4, 1, static_cast<int>(i), 0, 12),
                          {.title = ways[i][1], .note = ways[i][2], .bold = true})) {
            asks.sheet = Sheet::symptoms;
        }
    }
}

const Score* last_score(const CaseState& state, Scale scale, Instant& at) {
    for (auto score = state.scores.rbegin(); score != state.scores.rend(); ++score) {
        if (score->is.scale == scale) {
            at = score->stamp.happened;
            return &score->is;
        }
    }
    return nullptr;
}

void draw_score_panel(Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const Rect panel{864, 104, 400, 206};
    touch::panel(glass, panel);
    panel_head(glass, "score/head", panel, words.say("recovery.aldrete"));
    Instant at{};
    const auto* last = last_score(*scene.ahead_state, Scale::aldrete, at);
    if (last == nullptr) {
        touch::text(glass, "score/none", {884, 150, 360, 80}, words.say("recovery.no-score"),
                    {.em = touch::step::body});
        return;
    }
    const auto figure = touch::numeral(glass, "score/total", {884, 138, 150, 88},
                                       std::to_string(total_of(*last)), {.em = touch::step::far});
    touch::text(glass, "score/of", {figure.right() + 20, 182, 220, 40},
                words.say("recovery.of-ten-at", {{"time", clock_text(at, scene.zone)}}),
                {.em = touch::step::body, .colour = glass.colours().text_2, .bold = true, .lines = 1});
    touch::line(glass, {884, 230}, {1244, 230}, glass.colours().hairline, 2);
    std::vector<const Noted<Score>*> before;
    for (const auto& score : scene.ahead_state->scores) {
        if (score.is.scale == Scale::aldrete) {
            before.push_back(&score);
        }
    }
    constexpr std::size_t most = 4;
    const std::size_t first = before.size() > most ? before.size() - most : 0;
    for (std::size_t i = first; i < before.size(); ++i) {
        const auto cell = touch::cell({884, 238, 360, 66}, 4, 1, static_cast<int>(i - first), 0, 8);
        const auto name = fmt::format("score/{}", i + 1);
        touch::text(glass, name, cell.top_part(30), clock_text(before[i]->stamp.happened, scene.zone),
                    {.colour = glass.colours().text_2, .lines = 1});
        touch::text(glass, name + "/total", cell.bottom_part(32), std::to_string(total_of(before[i]->is)),
                    {.em = touch::step::body, .bold = true, .lines = 1});
    }
}

std::string line_value(const Glass& glass, const Scene& scene, const FitLine& line) {
    const auto& words = glass.words();
    if (line.what == FitLine::What::scores) {
        std::string at;
        for (const auto t : line.at) {
            at += (at.empty() ? "" : ", ") + clock_text(t, scene.zone);
        }
        return at.empty() ? words.say("recovery.not-yet") : at;
    }
    return line.gone ? duration_words(*line.gone) : words.say("handover.none");
}

std::string line_title(const Glass& glass, const Scene& scene, const FitLine& line) {
    const auto& words = glass.words();
    if (line.what == FitLine::What::scores) {
        return words.count("recovery.fit-scores", line.need,
                           {{"points", std::to_string(scene.policy.recovery.threshold)}});
    }
    const auto key = fmt::format("recovery.fit-{}{}", name_of(line.what),
                                 line.what == FitLine::What::reversal && !line.gone ? "-none" : "");
    return words.say(key, {{"n", std::to_string(line.need)}});
}

void draw_ways(Glass& glass, const Scene& scene, RecoveryDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const auto place = [](int i) { return touch::cell({864, 584, 400, 80}, 3, 1, i, 0, 12); };
    if (touch::button(glass, "dose", place(0), {.title = words.say("recovery.dose")})) {
        asks.sheet = Sheet::dose;
    }
    if (touch::button(glass, "padss", place(1), {.title = words.say("recovery.padss")})) {
        drafts.score = {};
        drafts.score.scale = Scale::padss;
        asks.sheet = Sheet::score;
    }
    if (touch::button(glass, "bays", place(2),
                      {.title = words.say("recovery.bays"), .em = touch::step::note})) {
        asks.page = Page::bays;
    }
    (void)scene;
}

void draw_corner(Glass& glass, const Scene& scene, RecoveryDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const auto corner = touch::layout_for(glass.size()).action;
    Instant at{};
    if (last_score(*scene.ahead_state, Scale::padss, at) != nullptr) {
        const touch::Action on{.command = "to-discharge",
                               .title = words.say("recovery.to-discharge"),
                               .note = words.say("recovery.padss-at", {{"time", clock_text(at, scene.zone)}}),
                               .look = touch::ActionLook::opens};
        if (touch::action(glass, corner, on) == touch::ActionTap::action) {
            asks.page = Page::discharge;
        }
        return;
    }
    const bool fresh = proposed_parts(*scene.ahead_state, scene.policy, scene.now).from.has_value();
    const touch::Action next{.command = fresh ? "to-score" : "to-vitals",
                             .title = words.say(fresh ? "recovery.score-now" : "recovery.set-and-score"),
                             .note = words.say(fresh ? "recovery.set-is-fresh" : "recovery.early-is-allowed"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, corner, next) == touch::ActionTap::action) {
        drafts.score = {};
        asks.sheet = fresh ? Sheet::score : Sheet::vitals;
    }
}

std::optional<touch::Prompt> own_prompt(const Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const auto due = next_vitals_due(*scene.ahead_state, scene.policy);
    const auto fit = fit_words(glass, scene, fit_since(*scene.ahead_state, scene.policy));
    if (!due) {
        return touch::Prompt{.urgency = touch::Urgency::low,
                             .title = words.say("recovery.no-set-due"),
                             .chips = {{"change", words.say("recovery.change"), 150}}};
    }
    return touch::Prompt{.urgency = touch::Urgency::low,
                         .title = words.say("recovery.next-set", {{"time", clock_text(*due, scene.zone)}}),
                         .why = fit.empty() ? words.say("recovery.not-fit-yet") : fit,
                         .chips = {{"change", words.say("recovery.change"), 150}}};
}

}  // namespace

std::string fit_words(const Glass& glass, const Scene& scene, const std::optional<Instant>& since) {
    if (!since) {
        return "";
    }
    const auto* key = *since <= scene.now ? "recovery.fit-since" : "recovery.fit-from";
    return glass.words().say(key, {{"time", clock_text(*since, scene.zone)}});
}

void draw_fit(Glass& glass, const Scene& scene, Rect panel, const std::string& title) {
    touch::panel(glass, panel);
    panel_head(glass, "fit/head", panel, title);
    float y = panel.y + 42;
    int number = 0;
    for (const auto& line : fit_lines(*scene.ahead_state, scene.policy, scene.now)) {
        const auto name = fmt::format("fit/{}", ++number);
        touch::icon(glass, line.met ? touch::Icon::good : touch::Icon::ring, {panel.x + 34, y + 24},
                    line.met ? 28 : 24);
        touch::text(glass, name, {panel.x + 58, y - 3, 206, 54}, line_title(glass, scene, line),
                    {.bold = true});
        touch::text(glass, name + "/value", {panel.x + 270, y, panel.w - 284, 48},
                    line_value(glass, scene, line),
                    {.colour = glass.colours().text_2, .align = touch::Align::right, .lines = 1});
        y += 50;
    }
    const auto fit = fit_words(glass, scene, fit_since(*scene.ahead_state, scene.policy));
    touch::text(glass, "fit/since", {panel.x + 20, y + 2, panel.w - 32, panel.bottom() - y - 4},
                fit.empty() ? glass.words().say("recovery.ends-by") : fit, {.bold = !fit.empty()});
}

Asks draw_recovery(Glass& glass, const Scene& scene, RecoveryDrafts& drafts) {
    if (!scene.ahead_state->accepted) {
        return draw_handover(glass, scene, drafts);
    }
    if (scene.sheet == Sheet::score) {
        return draw_score(glass, scene, drafts);
    }
    if (scene.sheet == Sheet::symptoms) {
        return draw_symptoms(glass, scene, drafts);
    }
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    draw_trend_lanes(glass, scene, trend_here(*scene.ahead_state, scene.policy));
    draw_from_handover(glass, scene);
    draw_symptom_ways(glass, scene, asks);
    draw_score_panel(glass, scene);
    draw_fit(glass, scene, {864, 322, 400, 250}, glass.words().say("recovery.fit-when"));
    draw_ways(glass, scene, drafts, asks);
    if (draw_case_prompt(glass, scene, own_prompt(glass, scene), asks).chip == "change") {
        asks.sheet = Sheet::change_value;
    }
    draw_corner(glass, scene, drafts, asks);
    return asks;
}

}  // namespace brimline::screens
