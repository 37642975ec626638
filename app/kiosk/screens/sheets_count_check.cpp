// Count check: never opens by itself. Taps and pedal are uncovered together; without a pedal the physician's
// number is typed before the taps are shown.
#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {
namespace {

using touch::Rect;

/// A number of syringes in a panel of its own, or covered.
void draw_number(const FillPage& page, const std::string& name, Rect rect, const std::string& head,
                 std::optional<int> number, const std::string& note) {
    auto& glass = page.glass;
    touch::panel(glass, rect);
    draw_head(page, name + "/head", rect, head);
    if (!number) {
        touch::covered(glass, name.c_str(), {rect.x + 20, rect.y + 52, rect.w - 40, 76});
    } else {
        touch::figure(glass, name, {rect.x + 20, rect.y + 50, rect.w - 30, 86}, std::to_string(*number),
                      glass.words().count("fill.syringes-word", *number), touch::step::score,
                      touch::step::act);
    }
    touch::text(glass, name + "/note", {rect.x + 20, rect.y + 146, rect.w - 40, 38}, note,
                {.colour = glass.colours().text_2});
}

int pedal_count(const FillPage& page) { return static_cast<int>(page.block().presses.size()); }

void draw_verdict(const FillPage& page, Rect rect) {
    const auto& view = page.view;
    const bool equal = view.syringes == pedal_count(page);
    auto& glass = page.glass;
    const auto& c = glass.colours();
    touch::fill(glass, rect, equal ? c.good_tint : c.stop_tint, touch::control_radius);
    touch::icon(glass, equal ? touch::Icon::good : touch::Icon::stop, {rect.x + 44, rect.y + rect.h / 2}, 38);
    const auto title = equal ? glass.words().count("fill.equal-at", view.syringes)
                             : page.say("fill.they-differ", {{"taps", std::to_string(view.syringes)},
                                                             {"pedal", std::to_string(pedal_count(page))}});
    const auto standing = standing_of(view.counted, *page.scene.ahead_state, page.scene.policy);
    const auto where = standing_words(glass, standing, view);
    const auto across = Decimal::of_millionths(view.across.in_tenths() * (Decimal::scale / 10)).rounded(1);
    const auto note =
        page.say("fill.sphere", {{"ml", page.ml(view.counted) + (where.empty() ? "" : ", " + where)},
                                 {"cm", across},
                                 {"g", view.mass_g}});
    const Rect words{rect.x + 80, rect.y + 8, rect.w - 96, rect.h - 16};
    touch::text(glass, "count/verdict", words.top_part(42), title,
                {.em = touch::step::act, .bold = true, .lines = 1});
    touch::text(glass, "count/verdict-note", words.bottom_part(32), note, {.lines = 1});
}

void draw_uncovered(const FillPage& page, Rect a) {
    const int pedal = pedal_count(page);
    draw_number(page, "count/taps", {a.x, a.y, 330, 196}, page.say("fill.counted-by-taps"),
                page.view.syringes, page.assistant() + " · " + syringes_words(page.glass, page.view));
    draw_number(page, "count/pedal", {a.x + 342, a.y, 330, 196},
                page.say("fill.pedal-of", {{"physician", page.physician()}}), pedal,
                page.glass.words().count("fill.presses-silent", pedal));
    draw_verdict(page, {a.x, a.y + 208, a.w, 92});
    const Rect panel{a.x, a.y + 312, a.w, 248};
    draw_record_panel(page, panel);
    touch::two_line_record(page.glass, "count/record", {panel.x + 20, panel.y + 54, panel.w - 40, 150},
                           counts_record(page, false));
    const auto note = page.view.agreed
                          ? page.say("fill.taps-above-agreed", {{"n", std::to_string(page.view.agreed->own)},
                                                                {"time", page.time(page.view.agreed_at)}})
                          : page.say("fill.taps-above");
    touch::text(page.glass, "count/record-note", {panel.x + 20, panel.bottom() - 42, panel.w - 40, 34}, note,
                {.colour = page.glass.colours().text_2, .lines = 1});
}

/// The number is typed while the taps are covered.
void draw_typing(const FillPage& page, Rect a) {
    auto& glass = page.glass;
    draw_number(page, "count/taps", {a.x, a.y, 240, 196}, page.say("fill.taps"), std::nullopt,
                page.say("fill.shown-after"));
    draw_note_panel(page, "count-check/note-1", {a.x, a.y + 208, 240, 352}, page.say("fill.asked-first"),
                    page.say("fill.asked-first-why", {{"physician", page.physician()}}));
    auto& draft = page.drafts.count;
    const Rect right = a.right_part(420);
    touch::value_box(glass, "count/box", right.top_part(88),
                     {.digits = draft.shown(""),
                      .unit = page.say("fill.syringes-unit"),
                      .label = page.say("fill.says", {{"physician", page.physician()}}),
                      .focused = true});
    if (const auto pressed = touch::keypad(glass, "pad", {right.x, right.y + 100, right.w, 460}, false)) {
        draft.press(*pressed);
    }
}

/// Taps that wait for an answer come first: a count with them in doubt is none.
void draw_questions_first(const FillPage& page, Rect a) {
    const auto open = open_questions(page.block());
    const auto& asked = *open.front();
    const auto way = touch::card_with_ways(
        page.glass, "count/question", a.top_part(228),
        {.kind = touch::CardKind::question,
         .title = page.say("fill.second-or-same"),
         .lines = {page.say("fill.tap-at", {{"time", page.time(asked.stamp.happened)}})}},
        {{.name = "second-syringe", .title = page.say("fill.second")},
         {.name = "same-one-twice", .title = page.say("fill.same")}},
        96);
    if (way) {
        page.asks.tell(DoubleTapWas{asked.id, *way == 0 ? SecondOrSame::second : SecondOrSame::same});
    }
    draw_note_panel(page, "count-check/note-2", {a.x, a.y + 240, a.w, 130},
                    page.glass.words().count("fill.taps-waiting", static_cast<long>(open.size())),
                    page.say("fill.answer-first"));
}

Rect place(const FillPage& page, int column, int row) {
    return touch::cell(page.layout.column_b.top_part(324), 2, 3, column, row, 12);
}

void record(const FillPage& page, int count) {
    page.asks.tell_said_by(CountCheck{count}, page.scene.physician);
    page.drafts.said = true;
}

/// The two keys above the corner: back, and what the count comes to.
void draw_keys(const FillPage& page, bool typing, bool questions) {
    auto& glass = page.glass;
    if (touch::button(
            glass, "back", place(page, 0, 2),
            {.title = page.say("fill.back-to-fill"), .note = page.say("fill.stays-due"), .bold = true})) {
        page.open(Sheet::none);
    }
    if (questions) {
        return;
    }
    const auto typed = page.drafts.count.whole();
    if (typing && typed) {
        if (touch::sheet_action(glass, place(page, 1, 2),
                                {.command = "record-count",
                                 .title = page.say("fill.record-n", {{"n", std::to_string(*typed)}})})) {
            record(page, static_cast<int>(*typed));
        }
    } else if (!typing && page.view.syringes == pedal_count(page)) {
        if (touch::sheet_action(
                glass, place(page, 1, 2),
                {.command = "agreed",
                 .title = page.say("fill.agreed-n", {{"n", std::to_string(page.view.syringes)}})})) {
            record(page, page.view.syringes);
        }
    } else if (!typing) {
        if (touch::sheet_action(glass, place(page, 1, 2),
                                {.command = "record-difference", .title = page.say("fill.put-it-right")})) {
            record(page, pedal_count(page));
        }
    }
}

void draw_other_number(const FillPage& page, bool typing) {
    const Rect b = page.layout.column_b;
    const bool has_pedal = pedal_count(page) > 0;
    if (has_pedal) {
        const auto title = typing ? page.say("fill.look-at-the-pedal")
                                  : page.say("fill.says-another", {{"physician", page.physician()}});
        if (touch::button(page.glass, "another-number", b.top_part(100),
                          {.title = title,
                           .note = page.say(typing ? "fill.typed-so-far" : "fill.type-it"),
                           .bold = true})) {
            page.drafts.keypad = !typing;
        }
        draw_note_panel(page, "count-check/no-pedal", {b.x, b.y + 112, b.w, 100}, page.say("fill.no-pedal"),
                        page.say("fill.no-pedal-why"));
    } else {
        draw_note_panel(page, "count-check/no-pedal", b.top_part(212), page.say("fill.no-pedal-here"),
                        page.say("fill.number-is-typed"));
    }
}

}  // namespace

void draw_count_check(const FillPage& page) {
    if (page.drafts.said && page.scene.last && page.scene.last->result != Reply::Result::refused) {
        const bool differs = page.scene.ahead_state->standing("count-differs") != nullptr;
        page.open(differs ? Sheet::counts_differ : Sheet::none);
    }
    const bool questions = page.view.waiting_taps > 0;
    const bool typing = !questions && (page.drafts.keypad || pedal_count(page) == 0);
    const Rect a = page.layout.column_a;
    if (questions) {
        draw_questions_first(page, a);
    } else if (typing) {
        draw_typing(page, a);
    } else {
        draw_uncovered(page, a);
    }
    if (!questions) {
        draw_other_number(page, typing);
    }
    draw_keys(page, typing, questions);
    draw_case_prompt(
        page.glass, page.scene,
        touch::Prompt{.urgency = touch::Urgency::medium,
                      .title = page.say("fill.say-aloud", {{"physician", page.physician()}}),
                      .why = page.say(pedal_count(page) > 0 ? "fill.pedal-was-silent" : "fill.type-first")},
        page.asks);
    draw_syringe_in(page.glass, page.scene, page.layout.fill_action, page.asks);
}

}  // namespace brimline::screens
