// Going on after a stop or a restart: what was pushed meanwhile? None of the three answers is preset.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {
namespace {

using touch::Rect;

std::string minute(const FillPage& page, Instant t) { return clock_text(t, page.scene.zone); }

std::string drug_words(const Policy& policy, const std::string& id) {
    const auto* drug = policy.drug(id);
    return drug == nullptr ? id : drug->words;
}

/// What happened since the last syringe, each with its moment.
void draw_meanwhile(const FillPage& page, Rect rect, const PushedQuestion& question) {
    touch::panel(page.glass, rect);
    draw_head(page, "resume/head", rect,
              page.say(question.stopped ? "fill.while-stopped" : "fill.while-off"));
    std::vector<std::pair<std::string, std::string>> lines;
    const auto& state = *page.scene.ahead_state;
    for (const auto& dose : state.doses) {
        if (dose.stamp.happened >= question.since) {
            lines.emplace_back(drug_words(page.scene.policy, dose.is.drug),
                               fmt::format("{} {}, {}", decimal_words(page.glass, dose.is.amount),
                                           page.say(fmt::format("unit.dose-{}", name_of(dose.is.unit))),
                                           page.time(dose.stamp.happened)));
        }
    }
    if (lines.size() > 2) {
        lines.erase(lines.begin(), lines.end() - 2);
    }
    if (const auto due = next_vitals_due(state, page.scene.policy)) {
        lines.emplace_back(page.say("fill.vital-signs"),
                           page.say("fill.due-at", {{"time", minute(page, *due)}}));
    }
    lines.emplace_back(page.say("fill.pedal-of", {{"physician", page.physician()}}),
                       page.say("fill.kept-silent"));
    const auto& seen = page.block().position_seen;
    lines.emplace_back(
        page.say("fill.wholly-in-the-stomach"),
        seen ? page.say("fill.seen-at", {{"time", page.time(seen->happened)}}) : page.say("fill.not-seen"));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        draw_pair(page, fmt::format("resume/{}", i + 1),
                  {rect.x + 20, rect.y + 54 + 44 * static_cast<float>(i), rect.w - 40, 36}, lines[i].first,
                  lines[i].second);
    }
}

/// Resistance or a lost position hold until the position was seen again: a Yes, said by the physician.
void draw_seen_again(const FillPage& page, Rect rect) {
    if (touch::button(page.glass, "position-seen-again", rect,
                      {.title = page.say("fill.position-seen-again"),
                       .note = page.say("fill.said-by", {{"physician", page.physician()}}),
                       .bold = true})) {
        page.asks.tell_said_by(PositionSeen{}, page.scene.physician);
    }
}

struct Way {
    const char* name;
    std::string title, note;
    Pushed pushed;
};

void draw_ways(const FillPage& page, Rect b, const PushedQuestion& question) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    touch::fill(glass, b, c.look_tint, touch::control_radius);
    touch::outline(glass, b, c.look, 3, touch::control_radius);
    touch::icon(glass, touch::Icon::look, {b.x + 40, b.y + 45}, 42);
    touch::text(glass, "resume/question", {b.x + 74, b.y + 16, b.w - 90, 56},
                page.say("fill.pushed-since", {{"time", minute(page, question.since)}}),
                {.em = touch::step::act, .bold = true});
    touch::text(glass, "resume/after", {b.x + 24, b.y + 74, b.w - 48, 38},
                page.say("fill.after-the-syringe-of", {{"time", page.time(question.since)}}), {.lines = 1});
    const auto& view = page.view;
    const Way ways[]{
        {"pushed-none", page.say("fill.none"), page.say("fill.stays", {{"ml", page.ml(view.possible)}}),
         Pushed::none},
        {"pushed-one", page.say("fill.one"),
         page.say("fill.makes", {{"ml", page.ml(view.possible + view.nominal)}}), Pushed::one},
        {"pushed-more", page.say("fill.more-or-a-part"), page.say("fill.opens-the-keypad"), Pushed::more}};
    float y = b.y + 124;
    for (const auto& way : ways) {
        const bool chosen = page.drafts.pushed == way.pushed;
        if (touch::button(glass, way.name, {b.x + 16, y, b.w - 32, 106},
                          {.title = way.title,
                           .note = way.note,
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .bold = true,
                           .em = touch::step::act})) {
            page.drafts.pushed = way.pushed;
            page.drafts.keypad = way.pushed == Pushed::more;
        }
        y += 118;
    }
    touch::text(glass, "resume/none-preset", {b.x + 24, y + 4, b.w - 40, b.bottom() - y - 12},
                page.say("fill.none-preset"), {.lines = 2});
}

/// The command of the answer that was chosen; none while something is missing.
std::optional<GoOnFilling> chosen_answer(const FillPage& page) {
    const auto& drafts = page.drafts;
    if (!drafts.pushed) {
        return std::nullopt;
    }
    if (*drafts.pushed != Pushed::more) {
        return GoOnFilling{*drafts.pushed, {}, {}};
    }
    const auto typed = typed_ml(drafts.ml);
    return typed ? std::optional{GoOnFilling{Pushed::more, {}, *typed}} : std::nullopt;
}

Millilitres answer_makes(const FillPage& page, const GoOnFilling& answer) {
    if (answer.pushed_meanwhile == Pushed::one) {
        return page.view.possible + page.view.nominal;
    }
    return page.view.possible + answer.ml.value_or(Millilitres{});
}

/// The count of the sheet row says that the filling stands still, since when and why.
touch::SheetCount stopped_count(const FillPage& page, const PushedQuestion& question) {
    auto count = sheet_count(page.glass, page.scene, page.view);
    if (count.urgency == touch::Urgency::high) {
        return count;
    }
    count.urgency = touch::Urgency::medium;
    const auto lasted = fmt::format("{} s", whole_seconds(question.lasted));
    if (question.stopped) {
        count.title = page.say("fill.sheet-stopped", {{"ml", fill_volume_words(page.glass, page.view)}});
        count.note = page.say(
            "fill.stopped-for",
            {{"lasted", lasted}, {"why", page.say(fmt::format("fill.stop-{}", name_of(*question.stopped)))}});
    } else {
        count.note =
            page.say("fill.off-for", {{"n", std::to_string(page.view.syringes)}, {"lasted", lasted}});
    }
    return count;
}

}  // namespace

void draw_resume(const FillPage& page, const PushedQuestion& question) {
    const auto a = page.layout.column_a;
    const Rect right = a.right_part(404);
    draw_gauge(page, a.left_part(252));
    draw_balloon_panel(page, right.top_part(280));
    touch::text(page.glass, "fill/last", {right.x + 20, right.y + 232, right.w - 40, 38},
                page.say("fill.last-at", {{"time", page.time(question.since)}}),
                {.colour = page.glass.colours().text_2, .lines = 1});
    const bool again = position_asked_again(*page.scene.ahead_state);
    const Rect below{right.x, right.y + 292, right.w, 268};
    if (again) {
        draw_seen_again(page, below.top_part(96));
    } else {
        draw_meanwhile(page, below, question);
    }
    if (page.drafts.keypad) {
        draw_ml_pad(page, page.say("fill.how-much-meanwhile"), page.say("fill.meanwhile"), "");
    } else {
        draw_ways(page, page.layout.column_b, question);
    }
    const auto answer = chosen_answer(page);
    touch::Action own{.command = "go-on-filling",
                      .title = page.say("fill.next-pushed"),
                      .note = page.say("fill.then-go-on"),
                      .look = touch::ActionLook::next_missing};
    if (answer) {
        own = {.command = "go-on-filling",
               .title = page.say("fill.go-on"),
               .note = page.say("fill.makes", {{"ml", page.ml(answer_makes(page, *answer))}})};
    }
    auto count = stopped_count(page, question);
    count.with_back = page.drafts.keypad;  // back to the three answers
    const auto tap = touch::sheet_row(page.glass, page.layout, own, count);
    if (tap == touch::SheetTap::action && answer) {
        page.asks.tell(*answer);
        page.open(Sheet::none);
    } else if (tap == touch::SheetTap::action) {
        page.drafts.keypad = false;  // shows the question that is missing
    } else if (tap == touch::SheetTap::back) {
        page.drafts = {};
    }
    draw_syringe_in(page.glass, page.scene, page.layout.action, page.asks);
}

}  // namespace brimline::screens
