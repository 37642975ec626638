// Matter check, opened by Filling done: the row of syringes, the bag on its scale, or no third witness.
#include <fmt/format.h>

#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {
namespace {

using touch::Rect;

/// What is being said, when it is complete.
std::optional<Matter> typed_matter(const FillPage& page) {
    const auto& saline = page.block().saline;
    if (!saline || saline->is.method == SalineMethod::pair) {
        return Matter{};
    }
    if (saline->is.method == SalineMethod::row) {
        return page.drafts.left ? std::optional{Matter{page.drafts.left, {}}} : std::nullopt;
    }
    const auto tenths = page.drafts.grams.in_tenths();
    return tenths ? std::optional{Matter{{}, Decimal::of_millionths(*tenths * (Decimal::scale / 10))}}
                  : std::nullopt;
}

int laid_out(const FillPage& page) {
    int full = page.block().saline->is.laid_out.value_or(0);
    for (const auto& added : page.block().saline_added) {
        full += added.is.full.value_or(0);
    }
    return full;
}

void draw_row(const FillPage& page, Rect panel) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    touch::panel(glass, panel);
    const auto& saline = *page.block().saline;
    draw_pair_head(
        page, "matter/head", panel,
        page.say("fill.row-laid-out", {{"time", page.time(saline.stamp.happened)}}),
        page.say("fill.each-filled-to", {{"ml", page.ml(saline.is.filled_to.value_or(page.view.nominal))}}));
    const int all = laid_out(page);
    const int columns = std::max(6, (all + 2) / 3);
    const int rows = std::max(1, (all + columns - 1) / columns);
    const Rect area{panel.x + 20, panel.y + 44, panel.w - 48, 218};
    const int left = page.drafts.left.value_or(0);
    for (int i = 0; i < all; ++i) {
        const auto place = touch::cell(area, columns, std::max(2, rows), i % columns, i / columns, 12);
        const bool full = page.drafts.left && i >= all - left;
        touch::fill(glass, place, full ? c.fluid : c.bg, 8);
        if (!full) {
            touch::outline(glass, place, c.line, 2, 8);
        }
        touch::text(glass, fmt::format("matter/syringe-{}", i + 1), place.inset(2, 2),
                    full ? page.say("fill.full") : std::to_string(i + 1),
                    {.colour = full ? c.fluid_ink : c.text_2,
                     .bold = full,
                     .align = touch::Align::centre,
                     .lines = 1});
    }
    const auto words = page.drafts.left
                           ? page.say("fill.empty-and-taps", {{"empty", std::to_string(all - left)},
                                                              {"taps", std::to_string(page.view.syringes)}})
                           : page.say("fill.how-many-full");
    touch::text(glass, "matter/empty", {area.x, panel.bottom() - 40, area.w, 34}, words,
                {.colour = c.text_2, .lines = 1});
}

/// "Row agrees: 12 laid out − 2 left = 10", or that it does not.
void draw_verdict(const FillPage& page, Rect rect, const std::optional<MatterReading>& reading) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    const bool judged = reading && reading->judged;
    const bool agrees = judged && reading->agrees;
    touch::fill(glass, rect, agrees ? c.good_tint : judged ? c.stop_tint : c.panel, touch::control_radius);
    const auto which = agrees ? touch::Icon::good : judged ? touch::Icon::stop : touch::Icon::ring;
    touch::icon(glass, which, {rect.x + 44, rect.y + rect.h / 2}, 36);
    std::string title = page.say("fill.nothing-judged");
    if (judged && reading->row_used) {
        title = page.say(agrees ? "fill.row-agrees" : "fill.row-differs",
                         {{"laid", std::to_string(laid_out(page))},
                          {"left", std::to_string(laid_out(page) - *reading->row_used)},
                          {"used", std::to_string(*reading->row_used)}});
    } else if (judged) {
        title = page.say(agrees ? "fill.bag-agrees" : "fill.bag-differs",
                         {{"bag", page.ml(*reading->matter_ml)}, {"counted", page.ml(*reading->counted_ml)}});
    } else if (!page.block().saline || page.block().saline->is.method == SalineMethod::pair) {
        title = page.say("fill.no-third-witness");
    }
    const Rect words{rect.x + 80, rect.y + 8, rect.w - 96, rect.h - 16};
    touch::text(glass, "matter/verdict", words.top_part(42), title,
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(glass, "matter/verdict-note", words.bottom_part(32), page.say("fill.third-witness"),
                {.lines = 1});
}

/// The numbers that are known at the end; the pedal's only where a count check has uncovered it.
void draw_said(const FillPage& page, Rect panel, const std::optional<MatterReading>& reading) {
    touch::panel(page.glass, panel);
    draw_head(page, "matter/said", panel, page.say("fill.said-so-far"));
    std::vector<std::pair<std::string, std::string>> lines{
        {page.say("fill.taps"), std::to_string(page.view.syringes)}};
    const auto& checks = page.block().checks;
    if (!checks.empty() && checks.back().is.pedal) {
        lines.emplace_back(page.say("fill.pedal-of", {{"physician", page.physician()}}),
                           std::to_string(*checks.back().is.pedal));
    }
    if (reading && reading->row_used) {
        lines.emplace_back(page.say("fill.row"), std::to_string(*reading->row_used));
    } else if (reading && reading->matter_ml) {
        lines.emplace_back(page.say("fill.bag"), page.ml(*reading->matter_ml));
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        draw_pair(page, fmt::format("matter/said-{}", i + 1),
                  {panel.x + 20, panel.y + 42 + 36 * static_cast<float>(i), panel.w - 40, 34}, lines[i].first,
                  lines[i].second);
    }
}

void draw_again_and_back(const FillPage& page, Rect again, Rect back) {
    if (touch::button(page.glass, "count-again", again,
                      {.title = page.say("fill.count-taps-again"), .bold = true})) {
        page.open(Sheet::count_check);
    }
    if (touch::button(
            page.glass, "back", back,
            {.title = page.say("fill.back-to-fill"), .note = page.say("fill.more-goes-in"), .bold = true})) {
        page.open(Sheet::none);
    }
}

void draw_bag_side(const FillPage& page, const std::optional<MatterReading>& reading) {
    auto& glass = page.glass;
    const Rect a = page.layout.column_a;
    const Rect b = page.layout.column_b;
    const auto& saline = *page.block().saline;
    draw_note_panel(page, "matter/note-1", a.top_part(200),
                    page.say("fill.bag-hung", {{"time", page.time(saline.stamp.happened)}}),
                    page.say("fill.bag-was",
                             {{"g", saline.is.scale_g ? decimal_words(glass, *saline.is.scale_g) : "–"}}));
    draw_verdict(page, {a.x, a.y + 212, a.w, 92}, reading);
    draw_again_and_back(page, {a.x, a.y + 316, 330, 96}, {a.x + 342, a.y + 316, 330, 96});
    draw_said(page, {a.x, a.y + 424, a.w, 136}, reading);
    touch::panel(glass, b.top_part(72));
    touch::text(glass, "pad/question", b.top_part(72).inset(20, 4), page.say("fill.bag-now"),
                {.em = touch::step::body, .bold = true});
    auto& draft = page.drafts.grams;
    touch::value_box(glass, "pad/box", {b.x, b.y + 82, b.w, 82},
                     {.digits = draft.shown(glass.words().decimal_mark()),
                      .unit = page.say("unit.g-alone"),
                      .label = page.say("fill.on-the-scale"),
                      .focused = true});
    if (const auto pressed = touch::keypad(glass, "pad", {b.x, b.y + 174, b.w, b.h - 174}, true)) {
        draft.press(*pressed);
    }
}

void draw_row_side(const FillPage& page, const std::optional<MatterReading>& reading) {
    const Rect a = page.layout.column_a;
    const Rect b = page.layout.column_b;
    const bool row = page.block().saline && page.block().saline->is.method == SalineMethod::row;
    if (row) {
        draw_row(page, a.top_part(304));
        touch::panel(page.glass, b.top_part(176));
        draw_head(page, "matter/left-head", b, page.say("fill.full-left"));
        const auto left = touch::stepper(page.glass, "left", {b.x + 16, b.y + 44, b.w - 32, 116},
                                         {.value = page.drafts.left, .most = laid_out(page), .first = 0});
        page.drafts.left = left ? left : page.drafts.left;
    } else {
        draw_note_panel(page, "matter/note-2", a.top_part(304), page.say("fill.drawn-as-pair"),
                        page.say("fill.pair-explained"));
    }
    draw_verdict(page, {a.x, a.y + 316, a.w, 92}, reading);
    draw_note_panel(page, "matter/note-3", a.bottom_part(140), page.say("fill.if-it-differs"),
                    page.say("fill.a-count-hold"));
    draw_again_and_back(page, {b.x, b.y + 188, b.w, 88}, {b.x, b.y + 288, b.w, 88});
    draw_said(page, b.bottom_part(172), reading);
}

touch::Action corner(const FillPage& page, bool complete, const std::optional<MatterReading>& reading) {
    if (!complete) {
        return {.command = "matter-missing",
                .title = page.say(page.block().saline->is.method == SalineMethod::row ? "fill.full-left"
                                                                                      : "fill.bag-now"),
                .look = touch::ActionLook::question};
    }
    if (!reading || !reading->judged) {
        return {.command = "no-third-witness",
                .title = page.say("fill.no-third-witness"),
                .note = page.say("fill.then-size")};
    }
    if (!reading->agrees) {
        return {.command = "matter-differs",
                .title = page.say("fill.put-it-right"),
                .note = page.say("fill.a-hold-stands")};
    }
    const auto title = reading->row_used
                           ? page.say("fill.row-agrees-n", {{"n", std::to_string(*reading->row_used)}})
                           : page.say("fill.bag-agrees-ml", {{"ml", page.ml(*reading->matter_ml)}});
    return {.command = "matter-agrees", .title = title, .note = page.say("fill.then-size")};
}

}  // namespace

void draw_matter(const FillPage& page) {
    const auto matter = typed_matter(page);
    const auto reading =
        matter ? matter_as_said(*page.scene.ahead_state, *matter, page.scene.policy) : std::nullopt;
    const bool bag = page.block().saline && page.block().saline->is.method == SalineMethod::closed_tap;
    if (bag) {
        draw_bag_side(page, reading);
    } else {
        draw_row_side(page, reading);
    }
    draw_case_prompt(page.glass, page.scene,
                     touch::Prompt{.urgency = touch::Urgency::medium,
                                   .title = page.say("fill.done-look-at-once"),
                                   .why = page.say("fill.sizing-after")},
                     page.asks);
    if (touch::action(page.glass, page.layout.action, corner(page, matter.has_value(), reading)) !=
            touch::ActionTap::action ||
        !matter) {
        return;
    }
    tell_as_assistant(page.scene, *matter, page.asks);
    if (reading && reading->judged && !reading->agrees) {
        page.open(Sheet::counts_differ);
    } else {
        page.drafts = {};
        page.asks.page = Page::size;
    }
}

}  // namespace brimline::screens
