// Out: grasped, out and whole, the difference and why, the second look, and the way out of the room. Complete
// and kept are answers in column B; a difference beyond policy wants the physician's reason before the seal.
#include <fmt/format.h>

#include <array>

#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/letters.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/removal_parts.h"
#include "core/case/release_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Part = RemovalDrafts::Part;
using Letters = RemovalDrafts::Letters;

void draw_figure(const RemovalPage& page, const char* name, Rect panel, const std::string& digits,
                 const std::string& note, bool loud) {
    const auto& c = page.glass.colours();
    touch::panel(page.glass, panel);
    panel_head(page.glass, fmt::format("out/{}", name), panel, page.say(fmt::format("removal.{}", name)));
    if (loud) {
        touch::fill(page.glass, {panel.x + 8, panel.y + 52, panel.w - 16, 80}, c.look_tint, 6);
    }
    touch::figure(page.glass, fmt::format("out/{}/ml", name), {panel.x + 16, panel.y + 54, panel.w - 32, 76},
                  digits, page.say("removal.ml"), touch::step::typed, touch::step::note);
    touch::text(page.glass, fmt::format("out/{}/note", name), {panel.x + 16, panel.y + 136, panel.w - 32, 52},
                note, {.colour = loud ? c.text : c.text_2, .bold = loud});
}

void draw_figures(const RemovalPage& page) {
    const auto& figures = page.view.figures;
    const auto put_in = figures.placement ? figures.placement->volume : std::nullopt;
    const auto known =
        !figures.placement ? page.say("removal.nothing-known-short")
        : figures.placement->reported
            ? page.say("removal.reported-on", {{"date", shown_date(page.glass, figures.placement->placed)}})
            : page.say("removal.our-record-on",
                       {{"date", shown_date(page.glass, figures.placement->placed)}});
    const auto place = [](int i) { return touch::cell({176, 104, 672, 196}, 3, 1, i, 0, 12); };
    draw_figure(page, "put-in", place(0), put_in ? ml_digits(page.glass, *put_in) : "–", known, false);
    const auto& canister = page.view.canister;
    const auto line =
        canister.before && canister.now
            ? page.say("removal.canister-from-to", {{"from", ml_digits(page.glass, *canister.before)},
                                                    {"to", ml_digits(page.glass, *canister.now)}})
            : page.say("removal.not-read-yet");
    draw_figure(page, "taken-out", place(1),
                figures.recovered ? ml_digits(page.glass, *figures.recovered) : "–", line, false);
    const auto& compared = figures.compared;
    const bool beyond = compared.state == rules::Recovered::less || compared.state == rules::Recovered::more;
    draw_figure(page, "difference", place(2),
                compared.difference ? signed_ml_words(page.glass, *compared.difference) : "–",
                compared.deviation ? signed_percent_words(page.glass, *compared.deviation)
                                   : page.say("removal.not-comparable"),
                beyond);
}

void tell_why(const RemovalPage& page, Explain::What what, const std::string& reason) {
    Explain says;
    says.what = what;
    says.reason = reason;
    page.asks.tell_said_by(says, page.scene.physician);
}

/// Reasons of the house for a difference; another one is typed.
void draw_why_differs(const RemovalPage& page, Rect area) {
    constexpr std::array<const char*, 4> whys{"leak", "spilled", "doubtful", "other"};
    for (std::size_t i = 0; i < whys.size(); ++i) {
        const auto place = touch::cell(area, 2, 2, static_cast<int>(i % 2), static_cast<int>(i / 2), 12);
        const auto words = page.say(fmt::format("removal.why-{}", whys[i]));
        if (!touch::button(page.glass, fmt::format("why/{}", whys[i]), place, {.title = words})) {
            continue;
        }
        if (i + 1 == whys.size()) {
            page.drafts.text = touch::TextDraft{80};
            page.drafts.letters = Letters::why_differs;
        } else {
            tell_why(page, Explain::What::recovered_differs, words);
        }
    }
}

void draw_why_early(const RemovalPage& page, Rect area) {
    const auto& reasons = page.scene.policy.lists.early_reasons;
    for (std::size_t i = 0; i < reasons.size() && i < 12; ++i) {
        const auto place = touch::cell(area, 4, 3, static_cast<int>(i % 4), static_cast<int>(i / 4), 10);
        if (touch::button(page.glass, "early/" + reasons[i].id, place,
                          {.title = reasons[i].words, .em = touch::step::note})) {
            tell_why(page, Explain::What::early_removal, reasons[i].id);
        }
    }
}

/// What was said of the difference and of an early removal.
std::string said_words(const RemovalPage& page) {
    std::string all;
    if (page.view.differs) {
        all = page.say("removal.why-said", {{"why", *page.view.differs}});
    }
    if (page.view.early) {
        all += (all.empty() ? "" : "\n") +
               page.say("removal.early-said",
                        {{"why", words_of_id(page.scene.policy.lists.early_reasons, *page.view.early)}});
    }
    return all.empty() ? page.say("removal.no-reason-needed") : all;
}

void draw_why(const RemovalPage& page) {
    const Rect panel{176, 312, 672, 352};
    touch::panel(page.glass, panel);
    const Rect area{192, 352, 640, 296};
    if (page.view.why_differs) {
        panel_head(page.glass, "why/head", panel,
                   page.say("removal.why-differs", {{"name", whose_word(page.scene)}}));
        draw_why_differs(page, area);
    } else if (page.view.why_early) {
        panel_head(page.glass, "why/head", panel,
                   page.say("removal.why-early", {{"name", whose_word(page.scene)}}));
        draw_why_early(page, area);
    } else {
        panel_head(page.glass, "why/head", panel, page.say("removal.reasons"));
        touch::text(page.glass, "why/said", {area.x + 4, area.y + 12, area.w - 8, area.h - 12},
                    said_words(page), {.em = touch::step::body, .stand = touch::Stand::top, .lines = 6});
    }
}

// Column B

void draw_in_order(const RemovalPage& page) {
    const auto& s = page.state();
    const Rect panel{864, 104, 400, 232};
    touch::panel(page.glass, panel);
    panel_head(page.glass, "order/head", {panel.x, panel.y - 6, panel.w, panel.h},
               page.say("removal.in-order"));
    const auto time = [&](const Stamp& stamp) { return clock_text(stamp.happened, page.scene.zone, true); };
    struct Line {
        const char* key;
        std::optional<std::string> at;
    };
    const std::array<Line, 6> lines{
        {{"punctured", s.puncture ? std::optional{time(*s.puncture)} : std::nullopt},
         {"taken-out", page.view.canister.ended && page.view.canister.at
                           ? std::optional{clock_text(*page.view.canister.at, page.scene.zone, true)}
                           : std::nullopt},
         {"seen-empty-done", s.seen_empty ? std::optional{time(*s.seen_empty)} : std::nullopt},
         {"grasped", s.grasp ? std::optional{time(*s.grasp)} : std::nullopt},
         {"is-out", s.out ? std::optional{time(s.out->stamp)} : std::nullopt},
         {"second-look",
          s.second_looks.empty() ? std::nullopt : std::optional{time(s.second_looks.back().stamp)}}}};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Rect line{panel.x + 20, panel.y + 32 + 32 * static_cast<float>(i), panel.w - 40, 32};
        touch::icon(page.glass, lines[i].at ? touch::Icon::tick : touch::Icon::ring,
                    {line.x + 10, line.y + 16}, 18);
        list_line(page.glass, fmt::format("order/{}", lines[i].key), line.right_part(line.w - 30),
                  page.say(fmt::format("removal.{}", lines[i].key)), lines[i].at.value_or("–"), 210);
    }
}

/// The balloon is out once both are answered. Once it is out they say what stands.
void draw_whole(const RemovalPage& page) {
    const auto& s = page.state();
    const Rect panel{864, 348, 400, 212};
    touch::panel(page.glass, panel);
    const bool now = removal_step(s) == RemovalStep::out;
    if (now) {
        touch::outline(page.glass, panel, page.glass.colours().accent, 3, touch::panel_radius);
    }
    struct Question {
        const char* name;
        std::optional<bool>& draft;
        std::optional<bool> entered;
    };
    std::array<Question, 2> questions{
        {{"complete", page.drafts.complete, s.out ? std::optional{s.out->is.complete} : std::nullopt},
         {"kept", page.drafts.kept, s.out ? std::optional{s.out->is.kept} : std::nullopt}}};
    float y = panel.y + 10;
    for (auto& one : questions) {
        touch::text(page.glass, fmt::format("{}/ask", one.name), {panel.x + 16, y, 160, 92},
                    page.say(fmt::format("removal.ask-{}", one.name)),
                    {.em = touch::step::body, .bold = now, .lines = 3});
        const bool is_complete = std::string_view{one.name} == "complete";
        touch::AnswerPair pair{.bad = is_complete ? std::optional{touch::Answer::no} : std::nullopt};
        const auto stands = one.entered ? one.entered : one.draft;
        if (stands) {
            pair.given = *stands ? touch::Answer::yes : touch::Answer::no;
        }
        const auto answer = touch::answer_pair(page.glass, one.name, {panel.x + 182, y, 206, 92}, pair);
        if (answer && !s.out) {
            one.draft = *answer == touch::Answer::yes;
        } else if (answer) {
            Correct says;
            says.entry = EntryRef{s.out->stamp.seq, {}};
            says.reason = page.say("look.looked-again");
            says.changes = fmt::format(R"({{"{}":{}}})", one.name, *answer == touch::Answer::yes);
            page.asks.tell(says);
        }
        y += 100;
    }
    if (!s.out && page.drafts.complete && page.drafts.kept) {
        page.asks.tell(Out{*page.drafts.complete, *page.drafts.kept});
        page.drafts.complete.reset();
        page.drafts.kept.reset();
    }
}

void draw_ways(const RemovalPage& page) {
    const Rect row{864, 572, 400, 92};
    if (touch::button(page.glass, "more-fluid", touch::cell(row, 2, 1, 0, 0, 12),
                      {.title = page.say("removal.more-fluid"), .em = touch::step::note})) {
        page.asks.page = Page::aspirate;
    }
    if (page.state().out && !page.state().left_room) {
        if (touch::button(page.glass, "new-balloon", touch::cell(row, 2, 1, 1, 0, 12),
                          {.title = page.say("removal.new-balloon"), .em = touch::step::note})) {
            page.asks.page = Page::look;
        }
    } else if (!page.state().out &&
               touch::button(page.glass, "to-abandon", touch::cell(row, 2, 1, 1, 0, 12),
                             {.title = page.say("removal.problem"), .em = touch::step::note})) {
        page.asks.sheet = Sheet::abandon;
    }
}

/// What leads out of the room, in the order of Release.
void draw_way_out(const RemovalPage& page, Rect corner) {
    const auto step = release_step(page.state());
    touch::Action face{.command = "to-handover",
                       .title = page.say("release.to-handover"),
                       .note = page.say("release.out-of-the-room"),
                       .look = touch::ActionLook::opens};
    if (step) {
        face = {.command = std::string{name_of(*step)},
                .title = page.say(fmt::format("release.step-{}", name_of(*step))),
                .look = *step == ReleaseStep::pause ? touch::ActionLook::opens : touch::ActionLook::ready};
    }
    if (touch::action(page.glass, corner, face) != touch::ActionTap::action) {
        return;
    }
    if (!step) {
        page.asks.page = Page::recovery;
    } else if (*step == ReleaseStep::scope_out) {
        page.asks.tell(ScopeOut{});
    } else if (*step == ReleaseStep::end_sedation) {
        tell_as(page.scene, Role::sedation_provider, EndSedation{}, page.asks);
    } else if (*step == ReleaseStep::pause) {
        page.asks.page = Page::pause_leaving;
    } else {
        page.asks.tell(LeaveRoom{});
    }
}

void draw_corner(const RemovalPage& page) {
    const auto corner = touch::layout_for(page.glass.size()).action;
    const touch::GoOn one{page.say("removal.grasped"), page.glass.words().count("place.open-items", 1)};
    switch (removal_step(page.state())) {
        case RemovalStep::seen_empty: {
            const auto tap = touch::action(page.glass, corner,
                                           {.command = "next-empty",
                                            .title = page.say("removal.next-empty"),
                                            .note = page.say("removal.on-aspirate"),
                                            .look = touch::ActionLook::next_missing},
                                           one);
            if (tap == touch::ActionTap::go_on) {
                page.asks.tell(Grasp{});
            } else if (tap == touch::ActionTap::action) {
                page.asks.page = Page::aspirate;
            }
            return;
        }
        case RemovalStep::grasp:
            if (touch::action(page.glass, corner,
                              {.command = "grasped", .title = page.say("removal.grasped")}) ==
                touch::ActionTap::action) {
                page.asks.tell(Grasp{});
            }
            return;
        case RemovalStep::out:
            (void)touch::action(page.glass, corner,
                                {.command = "next-out",
                                 .title = page.say("removal.next-out"),
                                 .note = page.say("removal.answer-above"),
                                 .look = touch::ActionLook::question});
            return;
        case RemovalStep::second_look: {
            const auto tap =
                touch::action(page.glass, corner,
                              {.command = "to-second-look",
                               .title = page.say("removal.to-second-look"),
                               .look = touch::ActionLook::next_missing},
                              touch::GoOn{page.say("place.go-on"), page.say("removal.without-look")});
            if (tap == touch::ActionTap::go_on) {
                page.asks.tell(ScopeOut{});
            } else if (tap == touch::ActionTap::action) {
                page.drafts.part = Part::second_look;
            }
            return;
        }
        case RemovalStep::over:
            draw_way_out(page, corner);
            return;
    }
}

touch::Prompt own_prompt(const RemovalPage& page) {
    const auto& compared = page.view.figures.compared;
    if (page.view.why_differs && compared.difference) {
        const bool less = *compared.difference < Millilitres{};
        const auto ml =
            ml_words(page.glass, less ? Millilitres{-*compared.difference} : *compared.difference);
        return {.urgency = touch::Urgency::medium,
                .title = page.say(less ? "removal.less-than-in" : "removal.more-than-in", {{"ml", ml}}),
                .why = page.say("removal.reason-before-seal")};
    }
    if (page.view.why_early) {
        return {.urgency = touch::Urgency::medium,
                .title = page.say("removal.early"),
                .why = page.say("removal.reason-before-seal")};
    }
    return {.urgency = touch::Urgency::low,
            .title = page.say("removal.out-prompt"),
            .why = page.say("removal.out-why")};
}

/// The second look may be left out only while the scope is in; after it there is nothing to look at.
bool over_but_for_look(const CaseState& s) {
    return removal_step(s) == RemovalStep::second_look && !s.scope_is_in() && s.scope_out;
}

}  // namespace

Asks draw_out(Glass& glass, const Scene& scene, RemovalDrafts& drafts) {
    Asks asks;
    const auto view = removal_view_of(scene);
    const RemovalPage page{glass, scene, view, drafts, asks};
    if (drafts.letters != Letters::none) {
        const bool why = drafts.letters == Letters::why_differs;
        if (draw_letters(glass, scene, page.say(why ? "removal.type-why" : "removal.type-finding"),
                         drafts.text, drafts.keys, asks)) {
            if (why && !drafts.text.text().empty()) {
                tell_why(page, Explain::What::recovered_differs, drafts.text.text());
            } else if (!why) {
                drafts.words = drafts.text.text();
            }
            drafts.letters = Letters::none;
        }
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    if (drafts.part == Part::second_look) {
        draw_second_look(page);
        return asks;
    }
    draw_figures(page);
    draw_why(page);
    draw_in_order(page);
    draw_whole(page);
    draw_ways(page);
    (void)draw_case_prompt(glass, scene, own_prompt(page), asks);
    if (over_but_for_look(page.state())) {
        draw_way_out(page, touch::layout_for(glass.size()).action);
    } else {
        draw_corner(page);
    }
    return asks;
}

}  // namespace brimline::screens
