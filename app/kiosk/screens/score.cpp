// The score: five parts, none answered beforehand. Parts worked out from a fresh set stand dashed, as
// proposed, until they are saved; nausea and pain are asked beside it.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/recovery_parts.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t parts = 5;
using Names = std::array<const char*, parts>;
constexpr Names aldrete_parts{"activity", "respiration", "circulation", "consciousness", "oxygen"};
constexpr Names padss_parts{"vital-signs", "walking", "nausea", "pain", "bleeding"};

const Names& names_of_parts(Scale scale) { return scale == Scale::aldrete ? aldrete_parts : padss_parts; }

/// What is proposed for each part; a tapped part has none.
std::array<std::optional<int>, parts> proposed(const Scene& scene, const ScoreDraft& draft) {
    const auto from = proposed_parts(*scene.ahead_state, scene.policy, scene.now);
    std::array<std::optional<int>, parts> all{};
    if (draft.scale == Scale::aldrete) {
        all[2] = from.circulation;
        all[4] = from.oxygen;
    } else {
        all[0] = from.vital_signs;
        all[2] = from.nausea;
        all[3] = from.pain;
    }
    for (std::size_t i = 0; i < parts; ++i) {
        all[i] = draft.tapped[i] ? std::nullopt : all[i];
    }
    return all;
}

void draw_key(Glass& glass, const std::string& name, Rect place, int points, touch::Look look,
              const std::string& says, std::optional<int>& answer) {
    touch::Button face{.title = "", .look = look, .tick = false};
    if (touch::button(glass, name, place, face)) {
        answer = points;
    }
    const auto& c = glass.colours();
    touch::numeral(glass, name + "/points", {place.x + 14, place.y, 26, place.h}, std::to_string(points),
                   {.em = touch::step::act, .colour = c.text});
    touch::text(glass, name + "/words", {place.x + 44, place.y + 4, place.w - 50, place.h - 8}, says,
                {.bold = look == touch::Look::chosen});
}

void draw_parts(Glass& glass, const Scene& scene, ScoreDraft& draft) {
    const auto& words = glass.words();
    const auto& names = names_of_parts(draft.scale);
    const auto offered = proposed(scene, draft);
    const Rect panel{176, 104, 672, 448};
    touch::panel(glass, panel);
    const auto from = proposed_parts(*scene.ahead_state, scene.policy, scene.now).from;
    panel_head(glass, "parts/head", panel,
               words.say(draft.scale == Scale::aldrete ? "score.aldrete-now" : "score.padss-now"),
               from ? words.say("score.set-of", {{"time", clock_text(*from, scene.zone)}})
                    : words.say("score.no-fresh-set"));
    for (std::size_t i = 0; i < parts; ++i) {
        const float y = 148 + 80 * static_cast<float>(i);
        const auto key = fmt::format("score.{}", names[i]);
        touch::text(glass, fmt::format("part/{}", names[i]), {196, y, 146, offered[i] ? 40.0F : 72.0F},
                    words.say(key), {.em = touch::step::body});
        if (offered[i]) {
            touch::text(glass, fmt::format("part/{}/proposed", names[i]), {196, y + 42, 146, 28},
                        words.say("score.proposed"), {.colour = glass.colours().know, .lines = 1});
        }
        for (int points = 0; points <= 2; ++points) {
            const Rect place{344 + 164 * static_cast<float>(points), y, 156, 72};
            const auto look = draft.tapped[i] == points ? touch::Look::chosen
                              : offered[i] == points    ? touch::Look::proposed
                                                        : touch::Look::rest;
            draw_key(glass, fmt::format("part/{}/{}", names[i], points), place, points, look,
                     words.say(fmt::format("{}-{}", key, points)), draft.tapped[i]);
        }
    }
}

void draw_rating(Glass& glass, const std::string& name, Rect panel, std::optional<int>& rating) {
    touch::panel(glass, panel);
    touch::text(glass, name + "/title", {panel.x + 16, panel.y + 2, panel.w - 32, 26},
                glass.words().say("score.rating-" + name), {.bold = true, .lines = 1});
    const touch::Stepper shown{.value = rating, .least = 0, .most = 10, .first = 0};
    if (const auto changed =
            touch::stepper(glass, name, {panel.x + 12, panel.bottom() - 74, panel.w - 24, 72}, shown)) {
        rating = changed;
    }
}

struct Sums {
    int tapped{0}, offered{0};
    std::optional<std::size_t> missing;  // the first without an answer
};
Sums sums_of(const Scene& scene, const ScoreDraft& draft) {
    const auto offered = proposed(scene, draft);
    Sums sums;
    for (std::size_t i = 0; i < parts; ++i) {
        sums.tapped += draft.tapped[i].value_or(0);
        sums.offered += offered[i].value_or(0);
        if (!draft.tapped[i] && !offered[i] && !sums.missing) {
            sums.missing = i;
        }
    }
    return sums;
}

Score score_of(const Scene& scene, const ScoreDraft& draft) {
    const auto offered = proposed(scene, draft);
    const auto part = [&](std::size_t i) { return draft.tapped[i] ? draft.tapped[i] : offered[i]; };
    Score score;
    score.scale = draft.scale;
    if (draft.scale == Scale::aldrete) {
        score.activity = part(0);
        score.respiration = part(1);
        score.circulation = part(2);
        score.consciousness = part(3);
        score.oxygen = part(4);
    } else {
        score.vital_signs = part(0);
        score.walking = part(1);
        score.nausea = part(2);
        score.pain = part(3);
        score.bleeding = part(4);
    }
    return score;
}

std::string sum_words(const Sums& sums) {
    return sums.offered > 0 ? fmt::format("{} + {}", sums.tapped, sums.offered) : std::to_string(sums.tapped);
}

void draw_sum(Glass& glass, const Scene& scene, const Sums& sums, const ScoreDraft& draft) {
    const auto& words = glass.words();
    const auto& c = glass.colours();
    const Rect panel{864, 104, 400, 176};
    touch::panel(glass, panel);
    panel_head(glass, "sum/head", panel, words.say("score.score"), words.say("vitals.no-alarm-short"));
    const auto shown = sums.missing ? std::string{"–"} : sum_words(sums);
    const auto figure =
        touch::numeral(glass, "sum", {884, 138, 260, 76}, shown, {.em = touch::step::typed_large});
    touch::text(glass, "sum/of", {figure.right() + 16, 170, 130, 40}, words.say("score.of-ten"),
                {.em = touch::step::body, .colour = c.text_2, .bold = true, .lines = 1});
    const auto note =
        sums.missing ? words.say("score.until-all")
        : sums.offered > 0
            ? words.say("score.tapped-and-proposed",
                        {{"tapped", std::to_string(sums.tapped)}, {"proposed", std::to_string(sums.offered)}})
            : words.say("score.all-tapped");
    touch::text(glass, "sum/note", {884, 218, 360, 58}, note, {.colour = c.text_2});
    (void)scene;
    (void)draft;
}

void draw_after(Glass& glass, const Scene& scene, const Sums& sums, const ScoreDraft& draft) {
    const auto& words = glass.words();
    if (draft.scale == Scale::aldrete) {
        draw_fit(glass, scene, {864, 290, 400, 250}, words.say("score.as-it-stands"));
        return;
    }
    const Rect panel{864, 290, 400, 250};
    touch::panel(glass, panel);
    panel_head(glass, "after/head", panel, words.say("score.for-home"));
    touch::text(glass, "after/need", {884, 334, 360, 60},
                words.count("score.padss-need", scene.policy.discharge.padss_consecutive,
                            {{"points", std::to_string(scene.policy.discharge.padss_threshold)}}),
                {.bold = true});
    (void)sums;
}

void draw_when(Glass& glass, ScoreDraft& draft) {
    constexpr std::array minutes{0, 1, 2, 5};
    touch::text(glass, "when", {872, 546, 380, 26}, glass.words().say("score.when"),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    for (std::size_t i = 0; i < minutes.size(); ++i) {
        const bool chosen = draft.set_back_min == minutes[i];
        const auto title = minutes[i] == 0
                               ? glass.words().say("fill.just-now")
                               : glass.words().say("fill.min-ago", {{"n", std::to_string(minutes[i])}});
        if (touch::button(glass, fmt::format("set-back/{}", minutes[i]),
                          touch::cell({864, 576, 400, 88}, 4, 1, static_cast<int>(i), 0, 8),
                          {.title = title,
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .corner_tick = true})) {
            draft.set_back_min = minutes[i];
        }
    }
}

void save(const Scene& scene, RecoveryDrafts& drafts, Asks& asks) {
    auto& draft = drafts.score;
    std::optional<Instant> happened;
    if (draft.set_back_min > 0) {
        happened = scene.now - std::chrono::minutes{draft.set_back_min};
    }
    asks.say.push_back({score_of(scene, draft), {}, {}, happened, false, {}});
    const auto rate = [&](SymptomKind kind, const std::optional<int>& rating) {
        if (rating) {
            asks.say.push_back({Symptom{kind, rating, {}, {}}, {}, {}, happened, false, {}});
        }
    };
    rate(SymptomKind::nausea, draft.nausea);
    rate(SymptomKind::pain, draft.pain);
    asks.sheet = Sheet::none;
}

void draw_corner(Glass& glass, const Scene& scene, const Sums& sums, RecoveryDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    if (sums.missing) {
        const auto& name = names_of_parts(drafts.score.scale)[*sums.missing];
        quiet_corner(glass, words.say("score.next", {{"part", words.say(fmt::format("score.{}", name))}}));
        return;
    }
    const auto fit = drafts.score.scale == Scale::aldrete ? fit_with(*scene.ahead_state, scene.policy,
                                                                     score_of(scene, drafts.score), scene.now)
                                                          : std::nullopt;
    const touch::Action own{.command = "save-score",
                            .title = words.say("score.save", {{"sum", sum_words(sums)}}),
                            .note = fit_words(glass, scene, fit)};
    if (touch::action(glass, touch::layout_for(glass.size()).action, own) == touch::ActionTap::action) {
        save(scene, drafts, asks);
    }
}

}  // namespace

Asks draw_score(Glass& glass, const Scene& scene, RecoveryDrafts& drafts) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    auto& draft = drafts.score;
    draw_parts(glass, scene, draft);
    draw_rating(glass, "nausea", {176, 564, 330, 100}, draft.nausea);
    draw_rating(glass, "pain", {518, 564, 330, 100}, draft.pain);
    const auto sums = sums_of(scene, draft);
    draw_sum(glass, scene, sums, draft);
    draw_after(glass, scene, sums, draft);
    draw_when(glass, draft);
    const auto from = proposed_parts(*scene.ahead_state, scene.policy, scene.now).from;
    const auto& words = glass.words();
    const auto age = std::to_string(scene.policy.recovery.auto_score_age.count());
    const bool back = sheet_prompt(
        glass, scene,
        {.urgency = touch::Urgency::low,
         .title = from ? words.say("score.proposed-from", {{"time", clock_text(*from, scene.zone)}})
                       : words.say("score.nothing-proposed"),
         .why = words.say("score.older-is-blank", {{"n", age}})},
        asks);
    asks.sheet = back ? std::optional{Sheet::none} : asks.sheet;
    draw_corner(glass, scene, sums, drafts, asks);
    return asks;
}

}  // namespace brimline::screens
