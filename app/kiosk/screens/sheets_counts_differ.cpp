// Two counts differ: both on one line, what the matter says, and the ways out. No winner is proposed.
#include <fmt/format.h>

#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {
namespace {

using touch::Rect;

/// What the taps are held against: the pedal, what was said where there is none, or the matter alone.
struct Other {
    enum class From : std::uint8_t { pedal, said, row, bag } from{};
    int syringes{0};
    Millilitres ml;
    bool more{false};  ///< it says more than the taps
};
Other other_count(const FillPage& page) {
    const auto& view = page.view;
    const auto counted = [&](Other::From from, int syringes) {
        return Other{from, syringes, view.nominal * syringes, syringes > view.syringes};
    };
    const auto reading = matter_reading(*page.scene.ahead_state, page.scene.policy);
    if (page.scene.ahead_state->standing("count-differs") == nullptr && reading && reading->judged) {
        if (reading->row_used) {
            return counted(Other::From::row, *reading->row_used);
        }
        return {Other::From::bag, 0, *reading->matter_ml, *reading->matter_ml > *reading->counted_ml};
    }
    if (!page.block().presses.empty()) {
        return counted(Other::From::pedal, static_cast<int>(page.block().presses.size()));
    }
    const auto& checks = page.block().checks;
    return counted(Other::From::said, checks.empty() ? view.syringes : checks.back().is.said);
}

void draw_count(const FillPage& page, const std::string& name, Rect rect, const std::string& head,
                const std::string& number, const std::string& equals, const std::string& note) {
    touch::panel(page.glass, rect);
    draw_head(page, name + "/head", rect, head);
    touch::figure(page.glass, name, {rect.x + 20, rect.y + 50, rect.w - 30, 72}, number, equals, 76,
                  touch::step::act);
    touch::text(page.glass, name + "/note", {rect.x + 20, rect.y + 116, rect.w - 40, 38}, note,
                {.colour = page.glass.colours().text_2, .lines = 1});
}

void draw_both(const FillPage& page, Rect a, const Other& other) {
    const auto& checks = page.block().checks;
    const auto own_note =
        checks.empty() ? syringes_words(page.glass, page.view)
                       : page.say("fill.check-at", {{"syringes", syringes_words(page.glass, page.view)},
                                                    {"time", page.time(checks.back().stamp.happened)}});
    draw_count(page, "differ/taps", {a.x, a.y, 330, 160}, page.say("fill.counted-by-taps"),
               std::to_string(page.view.syringes),
               page.say("fill.equals", {{"ml", page.ml(page.view.counted)}}), own_note);
    const Rect place{a.x + 342, a.y, 330, 160};
    const auto equals = page.say("fill.equals", {{"ml", page.ml(other.ml)}});
    switch (other.from) {
        case Other::From::pedal:
            draw_count(page, "differ/other", place,
                       page.say("fill.pedal-of", {{"physician", page.physician()}}),
                       std::to_string(other.syringes), equals, page.say("fill.silent-until"));
            return;
        case Other::From::said:
            draw_count(page, "differ/other", place,
                       page.say("fill.said-number", {{"physician", page.physician()}}),
                       std::to_string(other.syringes), equals, page.say("fill.before-uncovered"));
            return;
        case Other::From::row:
            draw_count(page, "differ/other", place, page.say("fill.from-the-row"),
                       std::to_string(other.syringes), equals, page.say("fill.laid-out-less-left"));
            return;
        case Other::From::bag:
            draw_count(page, "differ/other", place, page.say("fill.from-the-bag"),
                       ml_digits(page.glass, other.ml), page.say("unit.ml-alone"),
                       page.say("fill.on-the-scale"));
            return;
    }
}

void draw_parting(const FillPage& page, Rect rect, std::optional<Instant> parted, const Other& other) {
    draw_record_panel(page, rect);
    if (!page.block().deliveries.empty()) {
        touch::two_line_record(page.glass, "differ/record", {rect.x + 20, rect.y + 50, rect.w - 40, 120},
                               counts_record(page, true));
    }
    if (!parted) {
        return;
    }
    const auto& c = page.glass.colours();
    touch::icon(page.glass, touch::Icon::look, {rect.x + 30, rect.bottom() - 24}, 24);
    const bool press_alone = other.more;
    touch::text(
        page.glass, "differ/parted", {rect.x + 52, rect.bottom() - 44, rect.w - 70, 40},
        page.say(press_alone ? "fill.parted-press" : "fill.parted-tap", {{"time", page.time(*parted)}}),
        {.colour = c.look, .bold = true, .lines = 1});
}

void draw_bag(const FillPage& page, Rect rect, const MatterReading& reading) {
    const auto& block = page.block();
    auto start = block.saline->is.scale_g.value_or(Decimal{});
    for (const auto& added : block.saline_added) {
        start = start + added.is.bag_g.value_or(Decimal{});
    }
    const auto left = block.matters.back().is.scale_g.value_or(Decimal{});
    const auto words = page.say("fill.grams", {{"start", decimal_words(page.glass, start)},
                                               {"left", decimal_words(page.glass, left)},
                                               {"lost", decimal_words(page.glass, start - left)}});
    const Rect first{rect.x + 20, rect.y + 42, rect.w - 40, 36};
    draw_pair(page, "differ/grams", first, words, page.ml(Millilitres::of_tenths(*reading.saline_tenths)));
    touch::fill(page.glass, {first.x, first.bottom() + 2, first.w, 2}, page.glass.colours().hairline);
    draw_pair(page, "differ/dye", {first.x, first.y + 44, first.w, 36}, page.say("fill.with-dye"),
              page.ml(*reading.matter_ml));
    touch::text(page.glass, "differ/matter-note", {first.x, rect.bottom() - 42, first.w, 36},
                page.say("fill.printed-scale"), {.colour = page.glass.colours().text_2, .lines = 1});
}

void draw_matter_says(const FillPage& page, Rect rect) {
    touch::panel(page.glass, rect);
    const auto& saline = page.block().saline;
    const auto reading = matter_reading(*page.scene.ahead_state, page.scene.policy);
    const auto key = saline ? fmt::format("fill.matter-{}", name_of(saline->is.method)) : "fill.matter-none";
    draw_head(page, "differ/matter", rect, page.say(key));
    if (reading && reading->judged && reading->matter_ml) {
        draw_bag(page, rect, *reading);
        return;
    }
    const bool row = reading && reading->judged && reading->row_used;
    const auto words = row ? page.say("fill.row-says", {{"used", std::to_string(*reading->row_used)},
                                                        {"counted", std::to_string(*reading->row_counted)}})
                           : page.say("fill.matter-not-asked");
    touch::text(page.glass, "differ/matter-words", {rect.x + 20, rect.y + 46, rect.w - 40, rect.h - 56},
                words, {.em = touch::step::body, .lines = 3});
}

/// One of the ways out; the next place below it comes back.
bool way(const FillPage& page, Rect& place, const std::string& name, const std::string& title,
         const std::string& note) {
    const bool tapped = touch::button(page.glass, name, place, {.title = title, .note = note, .bold = true});
    place.y += place.h + 10;
    return tapped;
}

void draw_ways_out(const FillPage& page, Rect b, std::optional<Instant> parted, const Other& other) {
    touch::panel(page.glass, b);
    draw_head(page, "differ/put-right", b, page.say("fill.put-it-right-together"));
    Rect place{b.x + 16, b.y + 44, b.w - 32, 98};
    const bool missed = other.more;
    const Millilitres makes = page.view.counted + page.view.nominal * (missed ? 1 : -1);
    const auto at = parted ? page.time(*parted) + " · " : "";
    if (way(page, place, "not-tapped", page.say(missed ? "fill.was-not-tapped" : "fill.tap-too-many"),
            at + page.say("fill.makes", {{"ml", page.ml(makes)}}))) {
        page.open(Sheet::correct);
        page.drafts.happened = missed ? FillDrafts::Happened::not_tapped : FillDrafts::Happened::no_syringe;
        page.drafts.missed = missed ? parted : std::nullopt;
        page.drafts.entry = missed ? 0 : entry_at(page.block(), parted);
    }
    if (missed && other.from == Other::From::pedal &&
        way(page, place, "press-too-many", page.say("fill.press-too-many"),
            page.say("fill.stays", {{"ml", page.ml(page.view.counted)}}))) {
        page.open(Sheet::correct);
        page.drafts.entry = press_at(page.block(), parted);
        page.drafts.happened = FillDrafts::Happened::no_press;
    }
    const auto& saline = page.block().saline;
    if (saline && saline->is.method != SalineMethod::pair &&
        way(page, place, "look-again",
            page.say(saline->is.method == SalineMethod::row ? "fill.look-at-the-row" : "fill.weigh-again"),
            page.say("fill.then-back-here"))) {
        page.open(Sheet::matter);
    }
    if (way(page, place, "count-again", page.say("fill.count-again"), page.say("fill.both-stay-open"))) {
        page.open(Sheet::none);
    }
    touch::text(page.glass, "differ/no-winner", {b.x + 20, b.bottom() - 82, b.w - 36, 40},
                page.say("fill.no-winner"), {.colour = page.glass.colours().text_2, .lines = 1});
    touch::text(page.glass, "differ/relied", {b.x + 20, b.bottom() - 46, b.w - 36, 40},
                page.say("fill.next-relied"), {.bold = true, .lines = 1});
}

}  // namespace

void draw_counts_differ(const FillPage& page) {
    const bool holds = page.scene.ahead_state->standing("count-differs") != nullptr ||
                       page.scene.ahead_state->standing("matter-differs") != nullptr;
    if (!holds) {
        page.open(Sheet::none);  // corrected meanwhile, on another kiosk or by the pedal
    }
    const auto a = page.layout.column_a;
    const auto other = other_count(page);
    const auto parted = parted_at(page.block(), page.scene.now, page.scene.policy.fill.double_tap);
    const bool with_presses = !page.block().presses.empty();
    draw_both(page, a, other);
    draw_parting(page, {a.x, a.y + 172, a.w, 212}, with_presses ? parted : std::nullopt, other);
    draw_matter_says(page, {a.x, a.y + 396, a.w, 164});
    draw_ways_out(page, page.layout.column_b, with_presses ? parted : std::nullopt, other);
    const bool by_matter = other.from == Other::From::row || other.from == Other::From::bag;
    const int apart = std::abs(other.syringes - page.view.syringes);
    draw_case_prompt(page.glass, page.scene,
                     touch::Prompt{.urgency = touch::Urgency::high,
                                   .title = by_matter ? page.say("fill.matter-differs-from")
                                                      : page.glass.words().count("fill.differ-by", apart),
                                   .why = page.say("prompt.counts-differ-why")},
                     page.asks);
    draw_syringe_in(page.glass, page.scene, page.layout.action, page.asks);
}

}  // namespace brimline::screens
