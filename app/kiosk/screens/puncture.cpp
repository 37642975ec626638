// Puncture: the canister is read before, what is expected stands beside it, and the corner says that it is
// done. Without a reading it may still be done; that becomes an open item.
#include <fmt/format.h>

#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/removal_parts.h"
#include "core/case/pause_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

void draw_before(const RemovalPage& page) {
    const auto& c = page.glass.colours();
    touch::panel(page.glass, {176, 104, 672, 244});
    panel_head(page.glass, "before/head", {176, 104, 672, 244}, page.say("removal.canister-before"),
               page.view.canister.at ? clock_text(*page.view.canister.at, page.scene.zone) : std::string{});
    touch::figure(page.glass, "before", {196, 146, 632, 140},
                  page.view.canister.before ? ml_digits(page.glass, *page.view.canister.before) : "–",
                  page.say("removal.ml"), touch::step::count, touch::step::act);
    touch::text(page.glass, "before/why", {196, 296, 632, 44}, page.say("removal.asked-before"),
                {.colour = c.text_2, .lines = 1});
}

/// What was said and seen so far, each with its minute; nothing here is touched.
void draw_so_far(const RemovalPage& page) {
    const auto& s = page.state();
    const Rect panel{176, 360, 672, 304};
    touch::panel(page.glass, panel);
    panel_head(page.glass, "so-far/head", panel, page.say("removal.so-far"));
    const auto pause = s.pauses.find(PauseKind::before_device);
    const auto* seen = s.balloon_seen.empty() ? nullptr : &s.balloon_seen.back();
    const auto holder = s.role_holder.find(std::string{name_of(Role::sedation_provider)});
    const auto head_side = holder != s.role_holder.end()
                               ? holder->second
                               : present_with(page.scene, Role::sedation_provider).value_or("");
    const std::array<std::pair<std::string, std::string>, 5> lines{{
        {page.say("removal.line-pause"), pause == s.pauses.end()
                                             ? page.say("removal.not-yet")
                                             : clock_text(pause->second.last.happened, page.scene.zone)},
        {page.say("removal.line-balloon"),
         seen == nullptr ? page.say("removal.not-yet")
                         : words_of_id(page.scene.policy.lists.balloon_states, seen->is.state)},
        {page.say("removal.line-food"), seen == nullptr
                                            ? page.say("removal.not-yet")
                                            : page.say(seen->is.food ? "touch.yes" : "removal.none")},
        {page.say("removal.line-watched"), head_side.empty() ? "–" : short_name(page.scene.ahead, head_side)},
        {page.say("removal.line-holds"),
         std::any_of(s.holds.begin(), s.holds.end(), [](const Hold& h) { return h.stands(); })
             ? page.say("removal.hold-stands")
             : page.say("removal.none")},
    }};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        list_line(page.glass, fmt::format("so-far/{}", i + 1),
                  {196, 408 + 48 * static_cast<float>(i), 632, 44}, lines[i].first, lines[i].second, 330);
    }
}

std::string dye_words(const RemovalPage& page) {
    const auto& placement = page.view.figures.placement;
    if (!placement || !placement->dye) {
        return page.say("arrival.not-known");
    }
    return page.say(*placement->dye ? "removal.blue" : "removal.clear");
}

void draw_expected(const RemovalPage& page) {
    draw_put_in(page, {864, 104, 400, 164});
    touch::panel(page.glass, {864, 280, 400, 172});
    list_line(page.glass, "expected/colour", {884, 288, 360, 40}, page.say("removal.colour"), dye_words(page),
              110);
    list_line(page.glass, "expected/leak", {884, 330, 360, 40}, page.say("removal.leak"),
              page.view.leak ? page.say("removal.since", {{"date", shown_date(page.glass, *page.view.leak)}})
                             : page.say("removal.none"),
              150);
    touch::text(page.glass, "expected/measured", {884, 372, 360, 72}, page.say("removal.less-may-come"), {});
    if (touch::button(
            page.glass, "canister", {864, 464, 400, 96},
            {.title = page.say(page.view.canister.before ? "removal.reads-else" : "removal.read-canister"),
             .note = page.say("removal.opens-keypad"),
             .look = page.view.canister.before ? touch::Look::rest : touch::Look::accent})) {
        page.drafts = {};
        page.drafts.part = RemovalDrafts::Part::canister;
    }
    if (touch::button(page.glass, "to-abandon", {864, 572, 400, 92},
                      {.title = page.say("removal.problem")})) {
        page.asks.sheet = Sheet::abandon;
    }
}

void draw_corner(const RemovalPage& page) {
    const auto corner = touch::layout_for(page.glass.size()).action;
    const auto& s = page.state();
    if (s.puncture) {
        const touch::Action on{
            .command = "to-aspirate",
            .title = page.say("removal.to-aspirate"),
            .note = page.say("removal.punctured-at",
                             {{"time", clock_text(s.puncture->happened, page.scene.zone, true)}}),
            .look = touch::ActionLook::opens};
        if (touch::action(page.glass, corner, on) == touch::ActionTap::action) {
            page.asks.page = Page::aspirate;
        }
        return;
    }
    const bool held = pause_held(s, PauseKind::before_device, page.scene.policy.lists);
    const int open = (page.view.canister.before ? 0 : 1) + (held ? 0 : 1);
    touch::Action face{.command = "punctured", .title = page.say("removal.punctured")};
    if (!held) {
        face = {.command = "to-pause",
                .title = page.say("look.to-pause"),
                .look = touch::ActionLook::next_missing};
    } else if (!page.view.canister.before) {
        face = {.command = "next-canister",
                .title = page.say("removal.next-canister"),
                .look = touch::ActionLook::next_missing};
    }
    const touch::GoOn go_on{page.say("removal.punctured"),
                            page.glass.words().count("place.open-items", open)};
    const auto tap = touch::action(page.glass, corner, face, open == 0 ? std::nullopt : std::optional{go_on});
    if (tap == touch::ActionTap::go_on || (tap == touch::ActionTap::action && open == 0)) {
        page.asks.tell(Puncture{});
        page.asks.page = Page::aspirate;
    } else if (tap == touch::ActionTap::action && !held) {
        page.asks.page = Page::pause_device;
    } else if (tap == touch::ActionTap::action) {
        page.drafts = {};
        page.drafts.part = RemovalDrafts::Part::canister;
    }
}

}  // namespace

Asks draw_puncture(Glass& glass, const Scene& scene, RemovalDrafts& drafts) {
    Asks asks;
    const auto view = removal_view_of(scene);
    const RemovalPage page{glass, scene, view, drafts, asks};
    draw_case_frame_bare(glass, scene, asks);
    draw_before(page);
    draw_so_far(page);
    if (drafts.part == RemovalDrafts::Part::canister) {
        draw_canister_part(page);
        return asks;
    }
    draw_expected(page);
    (void)draw_case_prompt(glass, scene,
                           touch::Prompt{.urgency = touch::Urgency::low,
                                         .title = page.say("removal.puncture-prompt"),
                                         .why = page.say("removal.puncture-why")},
                           asks);
    draw_corner(page);
    return asks;
}

}  // namespace brimline::screens
