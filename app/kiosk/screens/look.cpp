// Look: the list is read through, what is seen is tapped; go or no-go is a pair in column B, said by the
// physician. The corner is the scope going in, what leads on, or the scope coming out after a no-go.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/letters.h"
#include "app/kiosk/screens/look_parts.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/removal_parts.h"
#include "core/case/look_view.h"
#include "core/case/pause_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Part = LookDrafts::Part;

/// The grid of the list: at a removal the balloon stands above it.
struct Grid {
    Rect area;
    int rows;
};
Grid grid_of(const LookPage& page) {
    return page.at_removal() ? Grid{{176, 364, 672, 300}, 3} : Grid{{176, 144, 672, 520}, 4};
}

std::size_t tiles(const LookPage& page) { return static_cast<std::size_t>(3 * grid_of(page).rows); }

const std::vector<ListItem>& kinds(const LookPage& page) { return page.scene.policy.lists.findings; }

std::size_t on_page(const LookPage& page) {
    const auto places = tiles(page);
    return kinds(page).size() > places ? places - 1 : places;
}

std::size_t pages(const LookPage& page) { return (kinds(page).size() + on_page(page) - 1) / on_page(page); }

std::string size_words(const LookPage& page, const Finding& finding) {
    std::string all;
    const auto add = [&](const std::string& part) { all += (all.empty() ? "" : ", ") + part; };
    if (finding.grade) {
        add(page.say("look.grade", {{"grade", *finding.grade}}));
    }
    if (finding.size_cm) {
        add(page.say("unit.cm", {{"n", decimal_words(page.glass, *finding.size_cm)}}));
    }
    if (finding.note) {
        add(*finding.note);
    }
    return all;
}

/// Words below the name of a finding that was seen; the limit stands beside a size that has one.
std::string note_of(const LookPage& page, const FindingSeen& seen) {
    auto note = size_words(page, seen.entry.is);
    if (seen.entry.is.kind == "hiatal-hernia" && seen.entry.is.size_cm) {
        const auto limit = decimal_words(page.glass, page.scene.policy.look.hernia_ceiling_cm);
        note += " · " + page.say("look.limit", {{"cm", limit}});
    }
    return note.empty() ? page.say("look.seen") : note;
}

touch::Look look_of(const FindingSeen& seen) {
    switch (seen.weight) {
        case FindingWeight::stopping:
            return touch::Look::stopping;
        case FindingWeight::review:
        case FindingWeight::plain:
            break;
    }
    return touch::Look::chosen;
}

void draw_tile(const LookPage& page, Rect place, const ListItem& kind) {
    const auto seen = finding_seen(page.state(), page.scene.policy, kind.id);
    const bool in_hand = page.drafts.part == Part::finding && page.drafts.kind == kind.id;
    touch::Button face{.title = kind.words, .note = page.say("look.not-said")};
    if (seen) {
        face.look = look_of(*seen);
        face.note = note_of(page, *seen);
    } else if (page.state().no_findings) {
        face.note = page.say("look.not-seen");
    }
    if (in_hand) {
        face.look = touch::Look::accent;
    }
    if (touch::button(page.glass, "finding/" + kind.id, place, face)) {
        page.to_list();
        page.drafts.part = Part::finding;
        page.drafts.kind = kind.id;
    }
}

void draw_list(const LookPage& page) {
    const auto& c = page.glass.colours();
    const auto grid = grid_of(page);
    const float head = grid.area.y - (page.at_removal() ? 32 : 40);
    touch::text(page.glass, "look/head", {184, head, 420, 32}, page.say("look.read-through"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    if (page.state().no_findings) {
        touch::text(page.glass, "look/read", {608, head, 232, 32},
                    page.say("look.all-read",
                             {{"time", clock_text(page.state().no_findings->happened, page.scene.zone)}}),
                    {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    }
    auto& first = page.drafts.first;
    first = first >= kinds(page).size() ? 0 : first;
    page.drafts.pages_read = std::max(page.drafts.pages_read, first / on_page(page) + 1);
    const auto place = [&](std::size_t i) {
        return touch::cell(grid.area, 3, grid.rows, static_cast<int>(i % 3), static_cast<int>(i / 3), 10);
    };
    for (std::size_t i = 0; i < on_page(page) && first + i < kinds(page).size(); ++i) {
        draw_tile(page, place(i), kinds(page)[first + i]);
    }
    if (pages(page) > 1 && touch::button(page.glass, "more-findings", place(tiles(page) - 1),
                                         {.title = page.say("look.more-findings")})) {
        first += on_page(page);
    }
}

void draw_samples(const LookPage& page) {
    const auto& c = page.glass.colours();
    const auto& samples = page.state().samples;
    touch::panel(page.glass, {864, 104, 400, 112});
    touch::text(page.glass, "samples/head", {884, 108, 360, 32}, page.say("look.samples"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    if (samples.empty()) {
        touch::text(page.glass, "samples/none", {884, 142, 360, 66}, page.say("look.no-samples"),
                    {.colour = c.text_2});
        return;
    }
    const auto& last = samples.back().is;
    const auto words = [](const std::vector<ListItem>& list, const std::string& id) {
        const auto item =
            std::find_if(list.begin(), list.end(), [&](const ListItem& one) { return one.id == id; });
        return item == list.end() ? id : item->words;
    };
    touch::text(
        page.glass, "samples/last", {884, 140, 360, 36},
        page.say("look.sample-line", {{"n", std::to_string(last.pieces)},
                                      {"kind", words(page.scene.policy.lists.samples, last.kind)},
                                      {"site", words(page.scene.policy.lists.sample_sites, last.site)}}),
        {.em = touch::step::body, .bold = true, .lines = 1});
    auto under = page.say("look.result-by", {{"date", shown_date(page.glass, last.due)},
                                             {"name", short_name(page.scene.ahead, last.owner)}});
    if (samples.size() > 1) {
        under += " · " + page.glass.words().count("look.and-more", static_cast<long>(samples.size() - 1));
    }
    touch::text(page.glass, "samples/under", {884, 178, 360, 32}, under, {.lines = 1});
}

void draw_list_ways(const LookPage& page) {
    const Rect row{864, page.at_removal() ? 476.0F : 228.0F, 400, page.at_removal() ? 88.0F : 92.0F};
    if (touch::button(page.glass, "add-sample", touch::cell(row, 2, 1, 0, 0, 12),
                      {.title = page.say("look.add-sample")})) {
        page.to_list();
        page.drafts.part = Part::sample;
    }
    const bool all_read = page.drafts.pages_read >= pages(page);
    const bool said = page.state().no_findings.has_value();
    if (!touch::button(page.glass, all_read ? "not-seen" : "read-on", touch::cell(row, 2, 1, 1, 0, 12),
                       {.title = page.say(!all_read                       ? "look.read-on"
                                          : page.state().findings.empty() ? "look.none-seen"
                                                                          : "look.others-not-seen"),
                        .look = said ? touch::Look::chosen : touch::Look::rest})) {
        return;
    }
    if (!all_read) {
        page.drafts.first += on_page(page);
    } else if (!said) {
        page.asks.tell_said_by(NoFindings{true}, page.scene.physician);
    }
}

std::string under_the_pair(const LookPage& page) {
    const auto& no_go = page.state().no_go;
    if (go_said(page.state()) != GoSaid::no_go) {
        return page.say(page.state().go ? "look.go-said" : "look.gate-2");
    }
    const auto& list = page.scene.policy.lists.refusal_reasons;
    const auto reason = std::find_if(list.begin(), list.end(),
                                     [&](const ListItem& one) { return one.id == no_go->is.reason; });
    auto words = reason == list.end() ? no_go->is.reason : reason->words;
    if (no_go->is.look_again) {
        words += " · " + page.say("look.again-from",
                                  {{"date", shown_date(page.glass, no_go->is.look_again->not_before)}});
    }
    return words;
}

void take_go(const LookPage& page, touch::Answer answer) {
    if (answer == touch::Answer::no) {
        page.to_list();
        page.drafts.part = Part::no_go;
    } else if (go_needs_override(page.state())) {
        page.asks.override_hold = "look-stopping-finding";
    } else {
        page.asks.tell_said_by(Go{}, page.scene.physician);
    }
}

void draw_go(const LookPage& page) {
    const auto& c = page.glass.colours();
    const Rect panel{864, 332, 400, 332};
    touch::panel(page.glass, panel);
    const auto said = go_said(page.state());
    if (said == GoSaid::nothing) {
        touch::outline(page.glass, panel, c.accent, 3, touch::panel_radius);
    }
    touch::text(page.glass, "go/head", {884, 340, 360, 36},
                page.say("look.says", {{"name", whose_word(page.scene)}}),
                {.colour = c.text_2, .bold = true, .lines = 1});
    touch::AnswerPair pair{.bad = touch::Answer::no,
                           .yes_note = go_needs_override(page.state()) ? page.say("look.override-first") : "",
                           .yes_word = page.say("look.go"),
                           .no_word = page.say("look.no-go")};
    if (said != GoSaid::nothing) {
        pair.given = said == GoSaid::go ? touch::Answer::yes : touch::Answer::no;
    }
    if (const auto answer = touch::answer_pair(page.glass, "go", {880, 384, 368, 112}, pair)) {
        take_go(page, *answer);
    }
    touch::text(page.glass, "go/under", {884, 502, 360, 56}, under_the_pair(page), {.colour = c.text_2});
    if (said == GoSaid::no_go && touch::button(page.glass, "change-no-go", {880, 564, 368, 88},
                                               {.title = page.say("look.change-no-go")})) {
        page.to_list();
        page.drafts.part = Part::no_go;
    }
}

void draw_corner(const LookPage& page) {
    const auto corner = touch::layout_for(page.glass.size()).action;
    const auto tapped = [&](const touch::Action& shown) {
        return touch::action(page.glass, corner, shown) == touch::ActionTap::action;
    };
    const auto& state = page.state();
    const auto said = go_said(state);
    if (!state.scope_in) {
        if (tapped({.command = "scope-in", .title = page.say("look.scope-in")})) {
            page.asks.tell(ScopeIn{});
        }
    } else if (said == GoSaid::nothing) {
        const touch::Action next{.command = "next-go",
                                 .title = page.say("look.next-go"),
                                 .note = page.say("look.answered-above", {{"name", whose_word(page.scene)}}),
                                 .look = touch::ActionLook::next_missing};
        (void)tapped(next);  // it points to the pair, which stands outlined
    } else if (said == GoSaid::no_go && state.scope_is_in()) {
        if (tapped({.command = "scope-out",
                    .title = page.say("look.scope-out"),
                    .note = page.say("look.deferred", {{"time", clock_text(state.no_go->stamp.happened,
                                                                           page.scene.zone, true)}})})) {
            page.asks.tell(ScopeOut{});
        }
    } else if (said == GoSaid::no_go) {
        if (tapped({.command = "to-sedation",
                    .title = page.say("look.to-sedation"),
                    .note = page.say("look.scope-is-out"),
                    .look = touch::ActionLook::opens})) {
            page.asks.page = Page::sedation;
        }
    } else if (!pause_held(state, PauseKind::before_device, page.scene.policy.lists)) {
        if (tapped({.command = "to-pause",
                    .title = page.say("look.to-pause"),
                    .note = page.say("look.go-said"),
                    .look = touch::ActionLook::opens})) {
            page.asks.page = Page::pause_device;
        }
    } else if (tapped({.command = "to-place",
                       .title = page.say("look.to-place"),
                       .note = page.say("look.go-said"),
                       .look = touch::ActionLook::opens})) {
        page.asks.page = Page::place;
    }
}

/// At a removal nothing waits for a go: a no-go ends it, else the balloon is said and the needle follows.
void draw_removal_corner(const LookPage& page) {
    const auto corner = touch::layout_for(page.glass.size()).action;
    const auto& state = page.state();
    if (!state.scope_in || go_said(state) == GoSaid::no_go) {
        draw_corner(page);
        return;
    }
    const bool held = pause_held(state, PauseKind::before_device, page.scene.policy.lists);
    touch::Action face{
        .command = "to-puncture", .title = page.say("removal.to-puncture"), .look = touch::ActionLook::opens};
    if (state.balloon_seen.empty()) {
        face = {.command = "next-balloon",
                .title = page.say("removal.next-balloon"),
                .note = page.say("look.answered-above", {{"name", whose_word(page.scene)}}),
                .look = touch::ActionLook::question};
    } else if (state.standing("food-in-stomach") != nullptr) {
        face = {.command = "ask-physician",
                .title = page.say("override.ask", {{"name", whose_word(page.scene)}}),
                .note = page.say("removal.food-holds"),
                .look = touch::ActionLook::next_missing};
    } else if (!held) {
        face = {.command = "to-pause", .title = page.say("look.to-pause"), .look = touch::ActionLook::opens};
    }
    const bool open = state.balloon_seen.empty() || face.command == "ask-physician";
    const touch::GoOn go_on{page.say("place.go-on"), page.glass.words().count("place.open-items", 1)};
    const auto tap = touch::action(page.glass, corner, face, open ? std::optional{go_on} : std::nullopt);
    if (tap == touch::ActionTap::go_on) {
        page.asks.page = held ? Page::puncture : Page::pause_device;
    } else if (tap == touch::ActionTap::action && face.command == "ask-physician") {
        page.asks.override_hold = "food-in-stomach";
    } else if (tap == touch::ActionTap::action && !open) {
        page.asks.page = held ? Page::puncture : Page::pause_device;
    }
}

/// No-go beside the list of a removal; its reason once it was said.
void draw_removal_no_go(const LookPage& page) {
    const bool said = go_said(page.state()) == GoSaid::no_go;
    if (touch::button(page.glass, said ? "change-no-go" : "no-go", {864, 576, 400, 88},
                      {.title = page.say(said ? "look.change-no-go" : "look.no-go"),
                       .note = said ? under_the_pair(page)
                                    : page.say("look.said-by-note", {{"name", whose_word(page.scene)}}),
                       .look = said ? touch::Look::stopping : touch::Look::rest})) {
        page.to_list();
        page.drafts.part = Part::no_go;
    }
}

std::optional<touch::Prompt> own_prompt(const LookPage& page) {
    if (page.at_removal()) {
        return touch::Prompt{.urgency = touch::Urgency::low,
                             .title = page.say("removal.look-prompt"),
                             .why = page.say("removal.look-why")};
    }
    if (go_said(page.state()) != GoSaid::nothing) {
        return std::nullopt;
    }
    return touch::Prompt{.urgency = touch::Urgency::low,
                         .title = page.say("look.prompt", {{"name", whose_word(page.scene)}}),
                         .why = page.say("look.prompt-why", {{"name", whose_word(page.scene)}})};
}

/// Over Fill the list stays readable and answerable, and the corner counts.
void draw_foot(const LookPage& page) {
    if (over_fill(page.scene)) {
        if (draw_sheet_foot(page.glass, page.scene, std::nullopt, page.asks) == touch::SheetTap::back) {
            page.asks.page = Page::fill;
        }
        return;
    }
    (void)draw_case_prompt(page.glass, page.scene, own_prompt(page), page.asks);
    if (page.at_removal()) {
        draw_removal_corner(page);
    } else {
        draw_corner(page);
    }
}

}  // namespace

void LookPage::to_list() const {
    const auto read = drafts.pages_read;
    const auto first = drafts.first;
    drafts = {};
    drafts.pages_read = read;
    drafts.first = first;
}

bool draw_part_foot(const LookPage& page, const std::string& title, const std::string& why,
                    const std::optional<touch::Action>& own, const std::string& missing) {
    if (over_fill(page.scene)) {
        const auto tap = draw_sheet_foot(page.glass, page.scene, own, page.asks);
        if (tap == touch::SheetTap::back) {
            page.to_list();
        }
        return tap == touch::SheetTap::action;
    }
    const touch::Prompt prompt{.urgency = touch::Urgency::low,
                               .title = title,
                               .why = why,
                               .chips = {{"back", page.say("touch.back")}}};
    if (draw_case_prompt(page.glass, page.scene, prompt, page.asks).chip == "back") {
        page.to_list();
        return false;
    }
    if (!own) {
        quiet_corner(page.glass, missing);
        return false;
    }
    return touch::action(page.glass, touch::layout_for(page.glass.size()).action, *own) ==
           touch::ActionTap::action;
}

namespace {

/// The list of a removal, with the balloon above it and the canister beside it.
void draw_removal_list(const LookPage& page, RemovalDrafts& removal) {
    const auto view = removal_view_of(page.scene);
    const RemovalPage balloon{page.glass, page.scene, view, removal, page.asks};
    draw_balloon_seen(balloon);
    draw_list(page);
    if (removal.part == RemovalDrafts::Part::canister) {
        draw_canister_part(balloon);
        return;
    }
    draw_look_beside(balloon);
    draw_list_ways(page);
    draw_removal_no_go(page);
    draw_foot(page);
}

}  // namespace

Asks draw_look(Glass& glass, const Scene& scene, LookDrafts& drafts, RemovalDrafts& removal) {
    Asks asks;
    const LookPage page{glass, scene, drafts, asks};
    if (drafts.keyboard) {
        drafts.keyboard =
            !draw_letters(glass, scene, page.say("look.in-words"), drafts.words, drafts.keys, asks);
        return asks;
    }
    if (drafts.lot_keyboard) {
        drafts.lot_keyboard =
            !draw_letters(glass, scene, page.say("place.lot"), drafts.lot, drafts.keys, asks);
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    switch (drafts.part) {
        case Part::list:
            if (page.at_removal()) {
                draw_removal_list(page, removal);
                break;
            }
            draw_list(page);
            draw_samples(page);
            draw_list_ways(page);
            draw_go(page);
            draw_foot(page);
            break;
        case Part::finding:
            draw_list(page);
            draw_finding(page);
            break;
        case Part::sample:
            draw_sample(page);
            break;
        case Part::no_go:
            draw_no_go(page);
            break;
    }
    return asks;
}

}  // namespace brimline::screens
