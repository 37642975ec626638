// Aspirate: what came out so far by readings and syringes, the colour of the fluid, and whether the balloon
// was seen empty. The corner saves a reading and nothing else; no difference is shown before the balloon is
// out.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/removal_parts.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

/// What should still be inside by count: what was put in less what came out. Drawn from below.
void draw_remaining(const RemovalPage& page, Rect panel) {
    const auto& c = page.glass.colours();
    touch::panel(page.glass, panel);
    const auto& placement = page.view.figures.placement;
    const auto put_in = placement ? placement->volume : std::nullopt;
    panel_head(page.glass, "inside/head", panel, page.say("removal.by-count"));
    if (!put_in || *put_in <= Millilitres{}) {
        touch::text(page.glass, "inside/none", panel.inset(20, 60), page.say("removal.volume-not-known"),
                    {.em = touch::step::body, .colour = c.text_2, .lines = 8});
        return;
    }
    const auto out = page.view.figures.recovered.value_or(Millilitres{});
    const Millilitres left = std::max(Millilitres{}, Millilitres{*put_in - out});
    const Rect tube{panel.x + 28, panel.y + 60, 100, panel.h - 92};
    const float part = static_cast<float>(left.in_tenths()) / static_cast<float>(put_in->in_tenths());
    const float level = tube.bottom() - tube.h * part;
    touch::fill(page.glass, tube, c.bg, 6);
    touch::fill(page.glass, {tube.x, level, tube.w, tube.bottom() - level}, c.fluid, 6);
    touch::outline(page.glass, tube, c.fluid, 2, 6);
    touch::line(page.glass, {tube.x - 8, tube.y}, {tube.right() + 8, tube.y}, c.text, 4);
    touch::text(page.glass, "inside/in", {tube.right() + 14, tube.y - 14, 104, 28},
                page.say("removal.n-in", {{"n", ml_digits(page.glass, *put_in)}}),
                {.bold = true, .lines = 1});
    const float at = std::clamp(level, tube.y + 30, tube.bottom());
    touch::text(page.glass, "inside/left", {tube.right() + 14, at - 14, 104, 28},
                page.say("removal.n-left", {{"n", ml_digits(page.glass, left)}}),
                {.colour = c.fluid, .bold = true, .lines = 1});
}

std::string line_words(const RemovalPage& page) {
    const auto& canister = page.view.canister;
    if (!canister.before || !canister.now) {
        return page.say("removal.not-read-yet");
    }
    return page.say("removal.canister-from-to", {{"from", ml_digits(page.glass, *canister.before)},
                                                 {"to", ml_digits(page.glass, *canister.now)}});
}

void draw_taken_out(const RemovalPage& page, Rect panel) {
    touch::panel(page.glass, panel);
    panel_head(page.glass, "taken/head", panel, page.say("removal.taken-out"), line_words(page));
    const auto& out = page.view.figures.recovered;
    touch::figure(page.glass, "taken", {panel.x + 20, panel.y + 42, panel.w - 40, 78},
                  out ? ml_digits(page.glass, *out) : "–", page.say("removal.ml"), touch::step::typed_large,
                  touch::step::act);
    Millilitres syringes;
    for (const auto& one : page.state().aspirated) {
        syringes = syringes + one.is.ml;
    }
    if (syringes > Millilitres{}) {
        touch::text(page.glass, "taken/syringes", {panel.x + 220, panel.y + 66, panel.w - 240, 44},
                    page.say("removal.with-syringes", {{"ml", ml_words(page.glass, syringes)}}),
                    {.colour = page.glass.colours().text_2, .align = touch::Align::right});
    }
}

/// Gas and a sample: one tap each.
void draw_ways(const RemovalPage& page, Rect row, LookDrafts& look) {
    const auto& gas = page.state().gas;
    if (touch::button(page.glass, "gas", touch::cell(row, 2, 1, 0, 0, 12),
                      {.title = page.say("removal.gas"),
                       .note = gas.empty() ? page.say("removal.gas-note")
                                           : clock_text(gas.back().happened, page.scene.zone, true),
                       .look = gas.empty() ? touch::Look::rest : touch::Look::review}) &&
        gas.empty()) {
        page.asks.tell(Gas{});
    }
    const auto count = static_cast<long>(page.state().samples.size());
    if (touch::button(page.glass, "add-sample", touch::cell(row, 2, 1, 1, 0, 12),
                      {.title = page.say("removal.sample"),
                       .note = page.glass.words().count("removal.samples", count)})) {
        look = {};
        look.part = LookDrafts::Part::sample;
        page.asks.page = Page::look;
    }
}

void draw_colours(const RemovalPage& page, Rect panel) {
    touch::panel(page.glass, panel);
    panel_head(page.glass, "colour/head", {panel.x, panel.y - 6, panel.w, panel.h},
               page.say("removal.colour-of-fluid"));
    const auto& fluid = page.state().fluid;
    const auto& colours = page.scene.policy.lists.fluid_colours;
    for (std::size_t i = 0; i < colours.size() && i < 6; ++i) {
        const bool chosen = !fluid.empty() && fluid.back().is.colour == colours[i].id;
        const auto place = touch::cell({panel.x + 12, panel.y + 34, panel.w - 24, 184}, 3, 2,
                                       static_cast<int>(i % 3), static_cast<int>(i / 3), 8);
        if (touch::button(page.glass, "colour/" + colours[i].id, place,
                          {.title = colours[i].words,
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true}) &&
            !chosen) {
            page.asks.tell(Fluid{colours[i].id});
        }
    }
}

/// An entry that turned out not to be so is withdrawn; both stay in the record.
void take_back_empty(const RemovalPage& page) {
    Correct says;
    says.entry = EntryRef{page.state().seen_empty->seq, {}};
    says.reason = page.say("removal.not-empty-after-all");
    says.withdrawn = true;
    says.changes = "{}";
    page.asks.tell(says);
}

void draw_seen_empty(const RemovalPage& page, Rect panel) {
    const bool seen = page.state().seen_empty.has_value();
    touch::panel(page.glass, panel);
    if (!seen && page.view.canister.ended) {
        touch::outline(page.glass, panel, page.glass.colours().accent, 3, touch::panel_radius);
    }
    touch::text(page.glass, "empty/ask", {panel.x + 16, panel.y + 4, 164, 52}, page.say("removal.seen-empty"),
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(page.glass, "empty/who", {panel.x + 16, panel.y + 56, 164, 32},
                page.say("removal.says", {{"name", whose_word(page.scene)}}),
                {.colour = page.glass.colours().text_2, .lines = 1});
    touch::AnswerPair pair{.bad = touch::Answer::no, .bad_look = touch::Look::review};
    if (seen || page.drafts.empty_no) {
        pair.given = seen ? touch::Answer::yes : touch::Answer::no;
    }
    const auto answer =
        touch::answer_pair(page.glass, "empty", {panel.x + 186, panel.y + 4, 210, panel.h - 8}, pair);
    if (answer == touch::Answer::yes) {
        page.drafts.empty_no.reset();
        page.asks.tell_said_by(SeenEmpty{}, page.scene.physician);
    } else if (answer == touch::Answer::no) {
        page.drafts.empty_no = true;
        if (seen) {
            take_back_empty(page);
        }
    }
}

void draw_corner(const RemovalPage& page) {
    const auto corner = touch::layout_for(page.glass.size()).action;
    if (const auto own = canister_action(page)) {
        if (touch::action(page.glass, corner, *own) == touch::ActionTap::action) {
            tell_canister(page);
        }
        return;
    }
    const auto& s = page.state();
    const int open = (page.view.canister.ended ? 0 : 1) + (s.seen_empty ? 0 : 1);
    touch::Action face{.command = "to-out",
                       .title = page.say("removal.to-out"),
                       .note = page.say("removal.grasp-next"),
                       .look = touch::ActionLook::opens};
    if (open > 0) {
        const bool reading = !page.view.canister.ended;
        face = {.command = reading ? "next-reading" : "next-empty",
                .title = page.say(reading ? "removal.next-reading" : "removal.next-empty"),
                .note = page.say(reading ? "removal.type-at-right" : "removal.answer-at-left"),
                .look = touch::ActionLook::question};
    }
    const touch::GoOn go_on{page.say("place.go-on"), page.glass.words().count("place.open-items", open)};
    const auto tap = touch::action(page.glass, corner, face, open == 0 ? std::nullopt : std::optional{go_on});
    if (tap == touch::ActionTap::go_on || (tap == touch::ActionTap::action && open == 0)) {
        page.asks.page = Page::out;
    }
}

}  // namespace

Asks draw_aspirate(Glass& glass, const Scene& scene, RemovalDrafts& drafts, LookDrafts& look) {
    Asks asks;
    const auto view = removal_view_of(scene);
    const RemovalPage page{glass, scene, view, drafts, asks};
    draw_case_frame_bare(glass, scene, asks);
    draw_remaining(page, {176, 104, 252, 560});
    draw_taken_out(page, {444, 104, 404, 124});
    draw_ways(page, {444, 236, 404, 88}, look);
    draw_colours(page, {444, 332, 404, 228});
    draw_seen_empty(page, {444, 568, 404, 96});
    draw_canister_pad(page, true);
    (void)draw_case_prompt(glass, scene,
                           touch::Prompt{.urgency = touch::Urgency::low,
                                         .title = page.say("removal.aspirate-prompt"),
                                         .why = page.say("removal.aspirate-why")},
                           asks);
    draw_corner(page);
    return asks;
}

}  // namespace brimline::screens
