// Fill: the corner counts syringes, the rest of the page says how much is in. Its sheets are files of their
// own.
#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {
namespace {

using touch::Rect;

/// One of the six keys beside the corner.
bool key(const FillPage& page, std::string_view name, int column, int row, touch::Button face) {
    const auto& b = page.layout.column_b;
    const bool tall = page.layout.portrait;
    face.em = tall ? touch::step::note : face.em;
    face.bold = tall || face.bold;
    const Rect area = tall ? b : b.top_part(324);
    return touch::button(page.glass, name, touch::cell(area, 2, 3, column, row, tall ? 8.0F : 12.0F), face);
}

bool above_ceiling(const FillPage& page) {
    return page.scene.ahead_state->standing("ceiling-passed") != nullptr &&
           page.view.too_much > Millilitres{};
}

void draw_keys(const FillPage& page) {
    const bool above = above_ceiling(page);
    if (key(page, "part-syringe", 0, 0, {.title = page.say("fill.part-syringe")})) {
        page.open(Sheet::part_syringe);
    }
    touch::Button back{.title = page.say("fill.draw-back")};
    if (above) {
        back.note = page.say("fill.draw-back-to", {{"ml", ml_digits(page.glass, page.view.too_much)},
                                                   {"ceiling", ml_digits(page.glass, *page.view.ceiling)}});
        back.look = touch::Look::filled;
        back.bold = true;
    }
    if (key(page, "draw-back", 1, 0, back)) {
        page.open(Sheet::draw_back);
    }
    if (key(page, "correct-a-tap", 0, 1, {.title = page.say("fill.correct-a-tap")})) {
        page.open(Sheet::correct);
    }
    if (key(page, "count-check", 1, 1, {.title = page.say("fill.count-check")})) {
        page.open(Sheet::count_check);
    }
    if (key(page, "problem", 0, 2, {.title = page.say("fill.problem")})) {
        page.open(Sheet::problem);
    }
    if (above) {
        if (key(page, "left-as-it-is", 1, 2,
                {.title = page.say("fill.left-as-it-is"), .note = page.say("fill.reason-said")})) {
            page.drafts.reasons = true;
        }
    } else if (key(page, "filling-done", 1, 2, {.title = page.say("fill.filling-done")})) {
        page.open(Sheet::matter);
    }
}

/// The physician's reason for leaving the volume above the ceiling, from the policy's list, in the keys'
/// place.
void draw_reasons(const FillPage& page) {
    const auto& reasons = page.scene.policy.lists.override_reasons;
    constexpr std::size_t most = 5;
    for (std::size_t i = 0; i < reasons.size() && i < most; ++i) {
        const auto name = "reason/" + reasons[i].id;
        if (key(page, name, static_cast<int>(i % 2), static_cast<int>(i / 2),
                {.title = reasons[i].words, .em = touch::step::note})) {
            page.asks.tell_said_by(Explain{Explain::What::left_above_ceiling, reasons[i].id, {}},
                                   page.scene.physician);
            page.drafts.reasons = false;
        }
    }
    if (key(page, "reasons-back", 1, 2, {.title = page.say("touch.back")})) {
        page.drafts.reasons = false;
    }
}

/// What Fill itself reminds of, with its figures, which no other page may show.
std::optional<touch::Prompt> own_prompt(const FillPage& page) {
    const auto& view = page.view;
    if (page.scene.far_tap) {
        return touch::Prompt{.urgency = touch::Urgency::medium,
                             .title = page.say("fill.not-counted"),
                             .why = page.say("fill.not-counted-why")};
    }
    if (page.drafts.reasons) {
        return touch::Prompt{.urgency = touch::Urgency::medium,
                             .title = page.say("fill.which-reason", {{"physician", page.physician()}}),
                             .why = page.say("fill.which-reason-why")};
    }
    if (above_ceiling(page)) {
        return touch::Prompt{.urgency = touch::Urgency::high,
                             .title = page.say("fill.stop-is-in", {{"ml", page.ml(view.possible)}}),
                             .why = page.say("fill.device-maximum", {{"ml", page.ml(*view.ceiling)}})};
    }
    if (view.next_band == FillBand::above_ceiling) {
        touch::Prompt prompt{.urgency = touch::Urgency::medium, .title = page.say("fill.next-passes")};
        if (view.above_band_since) {
            prompt.why = page.say("fill.above-band-since", {{"time", page.time(*view.above_band_since)}});
        }
        return prompt;
    }
    if (view.stalled) {
        return touch::Prompt{.urgency = touch::Urgency::low,
                             .title = page.say("fill.still-in", {{"n", std::to_string(view.syringes)},
                                                                 {"ml", page.ml(view.counted)},
                                                                 {"time", page.time(*view.last)}}),
                             .why = page.say("fill.nothing-since")};
    }
    return std::nullopt;
}

void draw_page(const FillPage& page) {
    const Rect a = page.layout.column_a;
    draw_gauge(page, a.left_part(252));
    draw_balloon(page);
    page.drafts.reasons = page.drafts.reasons && above_ceiling(page);
    if (page.drafts.reasons) {
        draw_reasons(page);
    } else {
        draw_keys(page);
    }
    draw_case_prompt(page.glass, page.scene, own_prompt(page), page.asks);
    draw_syringe_in(page.glass, page.scene, page.layout.fill_action, page.asks);
}

void draw_sheet_or_page(const FillPage& page) {
    if (page.scene.sheet == Sheet::none || page.scene.sheet == Sheet::resume) {
        const auto pushed = pushed_question(*page.scene.ahead_state, page.scene.started, page.scene.now);
        if (pushed) {
            draw_resume(page, *pushed);
            return;
        }
    }
    switch (page.scene.sheet) {
        case Sheet::part_syringe:
            draw_part_syringe(page);
            return;
        case Sheet::draw_back:
            draw_draw_back(page);
            return;
        case Sheet::correct:
            draw_correct(page);
            return;
        case Sheet::problem:
            draw_problem(page);
            return;
        case Sheet::count_check:
            draw_count_check(page);
            return;
        case Sheet::counts_differ:
            draw_counts_differ(page);
            return;
        case Sheet::matter:
            draw_matter(page);
            return;
        default:  // a sheet of another page, or none
            draw_page(page);
            return;
    }
}

}  // namespace

std::string FillPage::settle() const {
    if (!drafts.said || !scene.last) {
        return "";
    }
    const auto& last = *scene.last;
    if (last.result == Reply::Result::refused && last.refusal) {
        return last.refusal->say;
    }
    if (last.result == Reply::Result::asked && last.asked) {
        return last.asked->say;
    }
    drafts = {};
    asks.sheet = Sheet::none;
    return "";
}

Asks draw_fill(touch::Glass& glass, const Scene& scene, FillDrafts& drafts) {
    Asks asks;
    if (drafts.sheet != scene.sheet) {
        drafts = {};
        drafts.sheet = scene.sheet;
    }
    draw_case_frame_bare(glass, scene, asks);
    const auto layout = touch::layout_for(glass.size());
    const auto view = fill_view(*scene.state, *scene.ahead_state, scene.policy, scene.now);
    draw_sheet_or_page({glass, scene, drafts, view, layout, asks});
    return asks;
}

}  // namespace brimline::screens
