// The sheets of Release: a valve that is not dry, a device that does not stay in, and gate 4.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/release_parts.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

/// Whole seconds since `from`, at most `length`.
long run_of(const Scene& scene, Instant from, seconds length) {
    const auto gone = std::chrono::duration_cast<seconds>(scene.now - from);
    return std::clamp<long>(static_cast<long>(gone.count()), 0, static_cast<long>(length.count()));
}

void draw_timer(Glass& glass, const Scene& scene, const ValveWatch& watch, const ReleaseDrafts& drafts) {
    const auto& c = glass.colours();
    const auto& words = glass.words();
    const Rect panel{176, 104, 672, 300};
    touch::panel(glass, panel);
    panel_head(glass, "valve/head", panel,
               words.say(drafts.dry_from ? "release.dry-under-view" : "release.watching"));
    const auto length = static_cast<long>(watch.length.count());
    const auto gone = run_of(scene, drafts.dry_from.value_or(watch.since), watch.length);
    const auto figure = touch::numeral(glass, "valve/seconds", {196, 160, 220, 150}, std::to_string(gone),
                                       {.em = touch::step::count});
    touch::text(glass, "valve/of", {figure.right() + 24, 260, 300, 50},
                words.say("release.of-seconds", {{"n", std::to_string(length)}}),
                {.em = touch::step::act, .colour = c.text_2, .bold = true, .lines = 1});
    const Rect bar{196, 332, 632, 28};
    touch::fill(glass, bar, c.bg, 6);
    if (gone > 0 && length > 0) {
        touch::fill(glass, bar.left_part(bar.w * static_cast<float>(gone) / static_cast<float>(length)),
                    c.fluid, 6);
    }
    touch::text(glass, "valve/first-look", {196, 366, 632, 30},
                words.say("release.last-look",
                          {{"time", clock_text(watch.since, scene.zone, true)}, {"did", watch.action}}),
                {.colour = c.text_2, .lines = 1});
}

void draw_done(Glass& glass, ReleaseDrafts& drafts) {
    const Rect panel{176, 416, 672, 248};
    touch::panel(glass, panel);
    panel_head(glass, "valve/done", panel, glass.words().say("release.what-was-done"));
    constexpr std::array ways{"touched", "rinsed", "nothing", "other"};
    for (std::size_t i = 0; i < ways.size(); ++i) {
        const auto key = fmt::format("release.did-{}", ways[i]);
        const bool chosen = drafts.done == key;
        if (touch::button(
                glass, fmt::format("did/{}", ways[i]),
                touch::cell({196, 460, 632, 188}, 2, 2, static_cast<int>(i % 2), static_cast<int>(i / 2), 10),
                {.title = glass.words().say(key),
                 .look = chosen ? touch::Look::chosen : touch::Look::rest,
                 .em = touch::step::note})) {
            drafts.done = key;
        }
    }
}

void draw_dry_way(Glass& glass, const Scene& scene, const ValveWatch& watch, ReleaseDrafts& drafts,
                  Asks& asks) {
    const auto& words = glass.words();
    const Rect place{880, 148, 368, 116};
    const auto length = std::to_string(watch.length.count());
    if (!drafts.dry_from) {
        if (touch::button(glass, "dry-now", place,
                          {.title = words.say("release.dry-now"),
                           .note = words.say("release.look-starts", {{"s", length}}),
                           .bold = true})) {
            drafts.dry_from = scene.now;
        }
    } else if (run_of(scene, *drafts.dry_from, watch.length) < watch.length.count()) {
        touch::text(glass, "dry/runs", place.inset(12, 8), words.say("release.stays-dry"),
                    {.em = touch::step::body, .align = touch::Align::centre});
    } else if (touch::button(glass, "stayed-dry", place,
                             {.title = words.say("release.stayed-dry", {{"s", length}}),
                              .note = said_by_words(glass, scene),
                              .look = touch::Look::accent,
                              .bold = true})) {
        asks.tell(ValveDry{static_cast<int>(watch.length.count())});
        asks.sheet = Sheet::none;
        drafts.dry_from.reset();
    }
}

void draw_second_look(Glass& glass, const Scene& scene, const ValveWatch& watch, ReleaseDrafts& drafts,
                      Asks& asks) {
    const auto& words = glass.words();
    touch::panel(glass, {864, 104, 400, 560});
    panel_head(glass, "valve/look", {864, 104, 400, 560}, words.say("release.second-look"),
               whose_word(scene));
    draw_dry_way(glass, scene, watch, drafts, asks);
    if (touch::button(
            glass, "still-drips", {880, 276, 368, 116},
            {.title = words.say("release.still-drips"),
             .note = words.say("release.another-look", {{"s", std::to_string(watch.length.count())}}),
             .bold = true})) {
        const auto did = drafts.done.empty() ? std::string{"release.did-nothing"} : drafts.done;
        asks.tell(ValveNotDry{words.say(did)});
        drafts.dry_from.reset();
        drafts.done.clear();
    }
    if (touch::button(glass, "take-it-out", {880, 404, 368, 116},
                      {.title = words.say("release.take-out"),
                       .note = words.say("release.in-this-session"),
                       .bold = true})) {
        asks.sheet = Sheet::not_left_in;
    }
    touch::text(glass, "valve/note", {884, 532, 360, 120}, words.say("release.take-out-note"),
                {.colour = glass.colours().text_2, .lines = 4});
}

void draw_reasons(Glass& glass, const Scene& scene, ReleaseDrafts& drafts) {
    const Rect panel{176, 104, 672, 560};
    touch::panel(glass, panel);
    panel_head(glass, "not-left/head", panel, glass.words().say("release.why-not-left"));
    const auto& reasons = scene.policy.lists.refusal_reasons;
    constexpr std::size_t most = 10;
    for (std::size_t i = 0; i < reasons.size() && i < most; ++i) {
        const bool chosen = drafts.reason == reasons[i].id;
        if (touch::button(
                glass, "reason/" + reasons[i].id,
                touch::cell({196, 148, 632, 500}, 2, 5, static_cast<int>(i % 2), static_cast<int>(i / 2), 10),
                {.title = reasons[i].words, .look = chosen ? touch::Look::chosen : touch::Look::rest})) {
            drafts.reason = reasons[i].id;
        }
    }
}

}  // namespace

void draw_valve(Glass& glass, const Scene& scene, ReleaseDrafts& drafts, Asks& asks) {
    const auto watch = *valve_watch(*scene.ahead_state, scene.policy);
    const auto& words = glass.words();
    draw_timer(glass, scene, watch, drafts);
    draw_done(glass, drafts);
    draw_second_look(glass, scene, watch, drafts, asks);
    const auto ends = clock_text(watch.since + watch.length, scene.zone, true);
    draw_case_prompt(glass, scene,
                     touch::Prompt{.urgency = touch::Urgency::medium,
                                   .title = words.say("release.not-dry-at",
                                                      {{"time", clock_text(watch.since, scene.zone, true)}}),
                                   .why = words.say("release.look-when-it-ends", {{"time", ends}})},
                     asks);
    const touch::Action back{.command = "back-to-release",
                             .title = words.say("release.back"),
                             .note = words.say("release.watch-goes-on"),
                             .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, back) == touch::ActionTap::action) {
        asks.sheet = Sheet::none;
    }
}

void draw_not_left_in(Glass& glass, const Scene& scene, ReleaseDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    draw_reasons(glass, scene, drafts);
    touch::text(glass, "out/question", {864, 104, 400, 68},
                words.say("release.how-much-out",
                          {{"ml", ml_words(glass, running_volume(scene.ahead_state->device()))}}),
                {.em = touch::step::body, .bold = true});
    touch::value_box(glass, "out", {864, 180, 400, 82},
                     {.digits = drafts.out.shown(words.decimal_mark()),
                      .unit = words.say("unit.ml-alone"),
                      .focused = true});
    if (const auto key = touch::keypad(glass, "pad", {864, 274, 400, 390}, true, 11)) {
        drafts.out.press(*key);
    }
    const bool back = sheet_prompt(glass, scene,
                                   {.urgency = touch::Urgency::low,
                                    .title = words.say("release.counted-out"),
                                    .why = words.say("release.label-kept")},
                                   asks);
    asks.sheet = back ? std::optional{Sheet::none} : asks.sheet;
    const auto out = drafts.out.in_tenths();
    if (drafts.reason.empty() || !out) {
        quiet_corner(glass, words.say(drafts.reason.empty() ? "release.reason-first" : "release.type-out"));
        return;
    }
    const touch::Action own{
        .command = "record-not-left-in",
        .title = words.say("release.record-not-left-in"),
        .note = words.say("release.came-out", {{"ml", ml_words(glass, Millilitres::of_tenths(*out))}})};
    if (touch::action(glass, touch::layout_for(glass.size()).action, own) == touch::ActionTap::action) {
        asks.tell(DeviceNotLeftIn{drafts.reason, Millilitres::of_tenths(*out), {}});
        asks.page = Page::place;
        drafts = {};
    }
}

void draw_gate_release(Glass& glass, const Scene& scene, Asks& asks) {
    const auto& words = glass.words();
    touch::card(glass, "gate", {864, 104, 400, 188},
                {.kind = touch::CardKind::hold,
                 .title = words.say("release.gate-title"),
                 .lines = {words.say("release.gate-number"),
                           words.say("release.gate-says", {{"name", whose_word(scene)}})}});
    if (touch::button(glass, "to-read-back", {864, 304, 400, 92},
                      {.title = words.say("release.to-read-back"), .bold = true, .em = touch::step::act})) {
        asks.page = Page::size;
    }
    if (touch::button(glass, "cross-gate", {864, 516, 400, 92},
                      {.title = words.say("place.cross"),
                       .note = words.say("release.cross-note"),
                       .bold = true,
                       .em = touch::step::act})) {
        asks.tell(DeviceOff{});
        asks.sheet = Sheet::none;
    }
    draw_gate_foot(glass, scene, words.say("release.not-agreed"), asks);
}

}  // namespace brimline::screens
