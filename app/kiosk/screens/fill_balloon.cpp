// Draws what is in the balloon: gauge, running volume, what the next one makes, and the moments of the fill.
#include <fmt/format.h>

#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_page.h"
#include "core/case/figures.h"

namespace brimline::screens {
namespace {

using touch::Rect;

int tenths(Millilitres volume) { return static_cast<int>(volume.in_tenths()); }

touch::BlockLook look_of(BlockState state) {
    switch (state) {
        case BlockState::counted:
            return touch::BlockLook::counted;
        case BlockState::above_ceiling:
            return touch::BlockLook::above;
        case BlockState::waiting:
            return touch::BlockLook::waiting;
        case BlockState::unsaved:
            return touch::BlockLook::unsaved;
        case BlockState::corrected:
            return touch::BlockLook::corrected;
    }
    return touch::BlockLook::counted;
}

std::string label_of(const FillPage& page, const FillBlock& block) {
    if (block.state == BlockState::waiting) {
        return "?";
    }
    const auto label =
        block.part ? ml_digits(page.glass, block.to - block.from) : std::to_string(block.number);
    return block.dye ? page.say("fill.block-dye", {{"n", label}}) : label;
}

/// What is above the tube's top is cut there; the figure beside it stays true.
void add_block(touch::Gauge& gauge, touch::Block block) {
    const int top = gauge.ceiling_tenths + 500;
    block.to_tenths = std::min(block.to_tenths, top);
    if (block.to_tenths > block.from_tenths) {
        gauge.blocks.push_back(std::move(block));
    }
}

void draw_moments(const FillPage& page, Rect first, float pitch) {
    const auto& view = page.view;
    const auto& c = page.glass.colours();
    std::vector<std::pair<std::string, touch::Colour>> lines;
    if (view.last) {
        lines.emplace_back(page.say("fill.last", {{"time", page.time(*view.last)},
                                                  {"ago", duration_words(page.scene.now - *view.last)}}),
                           c.text);
    }
    if (view.pace_ml_min && view.span) {
        lines.emplace_back(page.say("fill.pace", {{"pace", std::to_string(*view.pace_ml_min)},
                                                  {"time", page.time(view.span->first)}}),
                           c.text);
    }
    if (view.agreed) {
        lines.emplace_back(page.say("fill.agreed-at", {{"n", std::to_string(view.agreed->own)},
                                                       {"time", page.time(view.agreed_at)}}),
                           c.text);
    }
    if (view.possible > Millilitres{}) {
        const auto across =
            Decimal::of_millionths(view.across.in_tenths() * (Decimal::scale / 10)).rounded(1);
        lines.emplace_back(page.say("fill.across", {{"cm", across}, {"g", view.mass_g}}), c.text_2);
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Rect line{first.x, first.y + static_cast<float>(i) * pitch, first.w, 32};
        touch::text(page.glass, fmt::format("fill/moment-{}", i + 1), line, lines[i].first,
                    {.colour = lines[i].second, .lines = 1});
    }
}

/// Number of whole syringes to the target, on its own ground.
void draw_to_target(const FillPage& page, Rect rect, touch::Colour ground) {
    if (!page.view.to_aim) {
        return;
    }
    const auto& c = page.glass.colours();
    touch::fill(page.glass, rect, ground, touch::control_radius);
    touch::text(page.glass, "fill/to-target", rect.inset(20, 4).left_part(rect.w - 110),
                page.say("fill.to-target", {{"ml", ml_digits(page.glass, page.view.planned->aim)}}),
                {.em = touch::step::body, .colour = c.text_2});
    touch::numeral(page.glass, "fill/to-target-syringes", rect.inset(22, 4).right_part(66),
                   std::to_string(*page.view.to_aim),
                   {.em = touch::step::glance, .align = touch::Align::right});
}

void draw_next(const FillPage& page, Rect rect) {
    const auto next = standing_of(page.view.next_makes, *page.scene.ahead_state, page.scene.policy);
    draw_standing(page, "fill/next", rect,
                  page.say("fill.next-makes", {{"ml", page.ml(page.view.next_makes)}}), {next.band, false});
}

/// The head of the panel; at its right end what waits, before which the head gives way.
void draw_balloon_head(const FillPage& page, Rect panel) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    const Rect line = panel.inset(20, 0).top_part(52);
    const bool unsaved = page.view.unsaved_taps > 0;
    const int waiting = unsaved ? page.view.unsaved_taps : page.view.waiting_taps;
    const bool felt = page.view.felt && waiting == 0;
    const auto words = felt          ? page.say("fill.felt")
                       : waiting > 0 ? glass.words().count("fill.taps-waiting", waiting)
                                     : std::string{};
    const auto head = page.say("fill.in-the-balloon");
    const auto width = [&](const std::string& text) {
        return glass.type().width(touch::Face::words_bold, touch::step::note, text);
    };
    const float right = words.empty() ? 0 : width(words) + 30;
    if (width(head) + right <= line.w) {
        draw_head(page, "fill/in-the-balloon", panel.left_part(panel.w - right), head);
    }
    if (felt) {
        const auto ink = touch::text(glass, "fill/felt", line.right_part(right), words,
                                     {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
        glass.ink().AddCircleFilled({ink.x - 14, ink.y + ink.h / 2}, 6, c.text);
    } else if (waiting > 0) {
        touch::text(
            glass, "fill/waiting", line.right_part(right), words,
            {.colour = unsaved ? c.stop : c.look, .bold = true, .align = touch::Align::right, .lines = 1});
    }
}

/// Second syringe, or the same one twice?
void draw_question(const FillPage& page, Rect rect) {
    const auto open = open_questions(page.block());
    const auto& asked = *open.front();
    const auto before = tap_before(page.block(), asked);
    const auto line =
        before
            ? page.say("fill.then-again",
                       {{"time", page.time(before->happened)},
                        {"after",
                         page.say("unit.s", {{"n", seconds_text(asked.stamp.happened - before->happened)}})}})
            : page.time(asked.stamp.happened);
    const auto way = touch::card_with_ways(
        page.glass, "fill/question", rect,
        {.kind = touch::CardKind::question, .title = page.say("fill.second-or-same"), .lines = {line}},
        {{.name = "second-syringe", .title = page.say("fill.second")},
         {.name = "same-one-twice", .title = page.say("fill.same")}},
        96);
    if (way) {
        page.asks.tell(DoubleTapWas{asked.id, *way == 0 ? SecondOrSame::second : SecondOrSame::same});
    }
}

/// What the disk has and what is only kept here, each tap with its moment.
void draw_unsaved(const FillPage& page, Rect rect) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    touch::fill(glass, rect, c.stop_tint, touch::control_radius);
    touch::outline(glass, rect, c.stop, 3, touch::control_radius);
    touch::icon(glass, touch::Icon::stop, {rect.x + 40, rect.y + 30}, 34);
    touch::text(glass, "fill/kept-here", {rect.x + 72, rect.y + 8, rect.w - 84, 44},
                page.say("fill.kept-here", {{"saved", ml_digits(glass, page.view.saved)},
                                            {"unsaved", ml_digits(glass, page.view.unsaved)}}),
                {.em = touch::step::body, .bold = true});
    const auto unsaved = unsaved_moments(*page.scene.state, *page.scene.ahead_state);
    constexpr std::size_t most = 4;
    for (std::size_t i = 0; i < unsaved.size() && i < most; ++i) {
        const Rect place = touch::cell({rect.x + 16, rect.y + 58, rect.w - 32, 128}, 2, 2,
                                       static_cast<int>(i % 2), static_cast<int>(i / 2), 8);
        touch::fill(glass, place, c.bg);
        touch::dashed(glass, place, c.stop, 2);
        const auto number = unsaved[i].number > 0
                                ? page.say("fill.syringe-number", {{"n", std::to_string(unsaved[i].number)}})
                                : page.say("fill.a-question");
        touch::text(glass, fmt::format("fill/unsaved-{}", i + 1), place.inset(14, 2).top_part(30), number,
                    {.bold = true, .lines = 1});
        touch::text(glass, fmt::format("fill/unsaved-{}/time", i + 1), place.inset(14, 2).bottom_part(28),
                    page.time(unsaved[i].happened), {.lines = 1});
    }
    touch::text(glass, "fill/kept-order", {rect.x + 20, rect.bottom() - 32, rect.w - 40, 28},
                page.say("fill.kept-in-order"), {.colour = c.text_2, .lines = 1});
}

/// The last moment, that this is nobody, and the way out if it was somebody after all.
void draw_practised(const FillPage& page, Rect rect) {
    if (page.view.last) {
        touch::text(page.glass, "fill/moment-1", rect.top_part(32),
                    page.say("fill.last", {{"time", page.time(*page.view.last)},
                                           {"ago", duration_words(page.scene.now - *page.view.last)}}),
                    {.lines = 1});
    }
    touch::text(
        page.glass, "fill/practised", {rect.x, rect.y + 32, rect.w, 34},
        page.say("practice.no-real-one", {{"number", page.scene.ahead_state->patient.number.value_or("")}}),
        {.bold = true, .lines = 1});
    draw_was_real(page.glass, {rect.x, rect.y + 76, rect.w, 88}, page.asks);
}

/// Head, span and figure at the top, and a question or the unsaved taps below them.
void draw_in_doubt(const FillPage& page, Rect rect, bool unsaved) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    const Rect panel = rect.top_part(unsaved ? 208 : 200);
    touch::panel(glass, panel);
    draw_balloon_head(page, panel);
    if (unsaved) {
        draw_volume(page, {panel.x + 20, panel.y + 50, panel.w - 40, 110});
        touch::text(glass, "fill/unsaved", {panel.x + 20, panel.y + 164, panel.w - 40, 42},
                    page.say("fill.not-yet-saved", {{"ml", page.ml(page.view.unsaved)}}),
                    {.em = touch::step::act, .colour = c.stop, .bold = true, .lines = 1});
        draw_unsaved(page, {rect.x, rect.y + 216, rect.w, 220});
    } else {
        touch::text(glass, "fill/span", {panel.x + 20, panel.y + 40, panel.w - 40, 42},
                    page.say("fill.span-from", {{"from", ml_digits(glass, page.view.counted)}}),
                    {.em = touch::step::glance, .colour = c.look, .bold = true, .lines = 1});
        draw_volume(page, {panel.x + 20, panel.y + 83, panel.w - 40, 110});
        draw_question(page, {rect.x, rect.y + 208, rect.w, 228});
    }
    draw_next(page, {rect.x, rect.y + 448, rect.w, 52});
    draw_to_target(page, {rect.x, rect.y + 508, rect.w, 52}, c.panel);
}

void draw_above_ceiling(const FillPage& page, Rect rect) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    touch::fill(glass, rect, c.stop_tint, touch::panel_radius);
    touch::outline(glass, rect, c.stop, 3, touch::panel_radius);
    touch::icon(glass, touch::Icon::stop, {rect.x + 40, rect.y + 40}, 36);
    touch::text(glass, "fill/above-ceiling", {rect.x + 72, rect.y + 16, rect.w - 92, 48},
                page.say("fill.above-ceiling-head"), {.em = touch::step::body, .bold = true, .lines = 1});
    draw_volume(page, {rect.x + 20, rect.y + 81, rect.w - 40, 110});
    touch::text(glass, "fill/syringes", {rect.x + 20, rect.y + 196, rect.w - 40, 52},
                syringes_words(glass, page.view), {.em = touch::step::glance, .bold = true, .lines = 1});
    const Rect box{rect.x + 20, rect.y + 260, rect.w - 40, 76};
    touch::fill(glass, box, c.bg, touch::control_radius);
    touch::text(glass, "fill/too-much", box.inset(20, 4),
                page.say("fill.too-much", {{"ml", page.ml(page.view.too_much)}}),
                {.em = touch::step::act, .colour = c.stop, .bold = true});
    const Rect words{rect.x + 20, box.bottom() + 20, rect.w - 40, 64};
    if (page.view.last) {
        touch::text(glass, "fill/went-in", words,
                    page.say("fill.went-in-at", {{"n", std::to_string(page.view.syringes)},
                                                 {"time", page.time(*page.view.last)}}),
                    {.lines = 2});
    }
    touch::text(glass, "fill/to-go-on", {words.x, words.bottom() + 10, words.w, 124},
                page.say("fill.to-go-on", {{"ceiling", page.ml(*page.view.ceiling)}}), {.lines = 4});
}

}  // namespace

void draw_gauge(const FillPage& page, Rect rect, std::optional<Millilitres> typed) {
    const auto& view = page.view;
    if (!view.ceiling) {
        touch::panel(page.glass, rect);
        touch::text(page.glass, "gauge/no-ceiling", rect.inset(20), page.say("fill.no-ceiling"),
                    {.em = touch::step::body, .lines = 6});
        return;
    }
    touch::Gauge gauge{.ceiling_tenths = tenths(*view.ceiling), .target_word = page.say("unit.target")};
    if (view.planned) {
        gauge.band_from_tenths = tenths(view.planned->low);
        gauge.band_to_tenths = tenths(view.planned->high);
        gauge.target_tenths = tenths(view.planned->aim);
    }
    for (const auto& block : view.blocks) {
        add_block(gauge, {.from_tenths = tenths(block.from),
                          .to_tenths = tenths(block.to),
                          .label = label_of(page, block),
                          .look = look_of(block.state)});
    }
    if (typed) {
        add_block(gauge, {.from_tenths = tenths(view.possible),
                          .to_tenths = tenths(view.possible + *typed),
                          .label = ml_digits(page.glass, *typed),
                          .look = touch::BlockLook::proposed});
    }
    touch::gauge(page.glass, rect, gauge);
}

void draw_head(const FillPage& page, std::string_view name, Rect panel, std::string_view words) {
    touch::text(page.glass, name, {panel.x + 20, panel.y + 8, panel.w - 40, 36}, words,
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
}

void draw_volume(const FillPage& page, Rect room) {
    touch::figure(page.glass, "running-volume", room, ml_digits(page.glass, page.view.possible),
                  page.say("unit.ml-alone"), touch::step::count, touch::step::glance);
}

void draw_pair(const FillPage& page, const std::string& name, Rect line, const std::string& words,
               const std::string& value) {
    const float right = page.glass.type().width(touch::Face::words_bold, touch::step::note, value) + 4;
    const float most = std::min(right, line.w * 0.6F);
    touch::text(page.glass, name, line.left_part(line.w - most - 10), words,
                {.colour = page.glass.colours().text_2});
    touch::text(page.glass, name + "/value", line.right_part(most), value,
                {.bold = true, .align = touch::Align::right});
}

void draw_standing(const FillPage& page, std::string_view name, Rect rect, const std::string& title,
                   const Standing& standing) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    const auto band = standing.band.value_or(FillBand::below_band);
    const bool good = band == FillBand::in_band;
    const bool above = band == FillBand::above_band;
    const bool stop = band == FillBand::above_ceiling;
    touch::fill(glass, rect,
                good    ? c.good_tint
                : above ? c.look_tint
                : stop  ? c.stop_tint
                        : c.bg,
                touch::control_radius);
    if (above || stop) {
        touch::outline(glass, rect, above ? c.look : c.stop, 2, touch::control_radius);
    }
    const bool low = rect.h < 60;
    const auto which = good    ? touch::Icon::good
                       : above ? touch::Icon::look
                       : stop  ? touch::Icon::stop
                               : touch::Icon::ring;
    touch::icon(glass, which, {rect.x + (low ? 26.0F : 32.0F), rect.y + rect.h / 2}, low ? 30.0F : 32.0F);
    const auto where = standing_words(glass, standing, page.view);
    const Rect words{rect.x + (low ? 52.0F : 60.0F), rect.y + 4, rect.w - (low ? 60.0F : 68.0F), rect.h - 8};
    const auto slot = std::string{name};
    if (low || where.empty()) {
        touch::text(glass, slot, words, where.empty() ? title : title + ", " + where,
                    {.em = touch::step::body, .bold = true});
        return;
    }
    touch::text(glass, slot, words.top_part(36), title, {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(glass, slot + "/where", words.bottom_part(32), where, {.lines = 1});
}

void draw_balloon_panel(const FillPage& page, Rect rect) {
    touch::panel(page.glass, rect);
    draw_balloon_head(page, rect);
    draw_volume(page, {rect.x + 20, rect.y + 57, rect.w - 40, 112});
    const auto& c = page.glass.colours();
    const Rect below{rect.x + 20, rect.y + 174, rect.w - 40, 48};
    if (page.view.unsaved_taps > 0) {
        touch::text(page.glass, "fill/unsaved", below,
                    page.say("fill.not-yet-saved", {{"ml", page.ml(page.view.unsaved)}}),
                    {.em = touch::step::act, .colour = c.stop, .bold = true, .lines = 1});
    } else if (page.view.waiting_taps > 0) {
        touch::text(page.glass, "fill/span", below, fill_volume_words(page.glass, page.view),
                    {.em = touch::step::act, .colour = c.look, .bold = true, .lines = 1});
    } else {
        touch::text(page.glass, "fill/syringes", below, syringes_words(page.glass, page.view),
                    {.em = touch::step::glance, .bold = true, .lines = 1});
    }
}

void draw_balloon(const FillPage& page) {
    const Rect rect = page.layout.portrait ? Rect{284, 268, 500, 612} : page.layout.column_a.right_part(404);
    const auto& c = page.glass.colours();
    const bool late = page.scene.waiting.late && page.view.unsaved_taps > 0;
    if (late || page.view.waiting_taps > 0) {
        draw_in_doubt(page, rect, late);
        return;
    }
    if (page.scene.ahead_state->standing("ceiling-passed") != nullptr && page.view.ceiling &&
        page.view.too_much > Millilitres{}) {
        draw_above_ceiling(page, rect);
        return;
    }
    if (page.layout.portrait) {
        draw_balloon_panel(page, rect.top_part(352));
        draw_next(page, {rect.x + 20, rect.y + 244, rect.w - 40, 88});
        draw_to_target(page, {rect.x, rect.y + 364, rect.w, 76}, c.panel);
        touch::panel(page.glass, {rect.x, rect.y + 452, rect.w, 160});
        draw_moments(page, {rect.x + 20, rect.y + 464, rect.w - 40, 32}, 36);
        return;
    }
    draw_balloon_panel(page, rect);
    draw_next(page, {rect.x + 20, rect.y + 232, rect.w - 40, 76});
    if (page.scene.practice) {
        draw_to_target(page, {rect.x + 20, rect.y + 316, rect.w - 40, 60}, c.bg);
        draw_practised(page, {rect.x + 20, rect.y + 384, rect.w - 40, 168});
        return;
    }
    draw_to_target(page, {rect.x + 20, rect.y + 320, rect.w - 40, 76}, c.bg);
    draw_moments(page, {rect.x + 20, rect.y + 413, rect.w - 40, 32}, 36);
}

}  // namespace brimline::screens
