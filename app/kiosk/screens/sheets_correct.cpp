// Correct a tap: an entry beside the one it corrects, at its place in time, with two names and what it relied
// on.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/fill_page.h"

namespace brimline::screens {
namespace {

using Happened = FillDrafts::Happened;
using touch::Rect;

/// One row of the list: an entry, or the syringe that is being added.
struct Line {
    std::int64_t seq{0};
    std::string number;
    Millilitres ml;
    Instant happened{};
    std::string note;
};

/// When a syringe that was not tapped went in: as found by the counts, or set back with the chips.
std::optional<Instant> missed_at(const FillPage& page) {
    if (page.drafts.happened != Happened::not_tapped) {
        return std::nullopt;
    }
    if (page.drafts.missed) {
        return page.drafts.missed;
    }
    const auto& back = page.drafts.set_back_min;
    return back ? std::optional{page.scene.now - std::chrono::minutes{*back}} : std::nullopt;
}

std::vector<Line> entries(const FillPage& page) {
    std::vector<Line> lines;
    int number = 0;
    const Delivery* before = nullptr;
    for (const auto& d : page.block().deliveries) {
        number += d.syringes;
        std::string note;
        if (page.view.agreed && page.view.agreed->own == number) {
            note = page.say("fill.counts-agreed");
        } else if (before != nullptr) {
            note = page.say("fill.after-number",
                            {{"ago", duration_words(d.stamp.happened - before->stamp.happened)},
                             {"n", lines.back().number}});
        }
        const auto shown =
            d.syringes > 0 ? std::to_string(number) : std::string{d.ml < Millilitres{} ? "−" : "+"};
        lines.push_back({d.stamp.seq, shown, d.ml, d.stamp.happened, note});
        before = &d;
    }
    if (const auto missed = missed_at(page)) {
        const auto later =
            std::find_if(lines.begin(), lines.end(), [&](const Line& l) { return l.happened > *missed; });
        lines.insert(later, {0, "+", page.view.nominal, *missed, page.say("fill.here")});
    }
    std::reverse(lines.begin(), lines.end());
    return lines;
}

void draw_line(const FillPage& page, Rect rect, const Line& line) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    const bool chosen = line.seq == 0 || line.seq == page.drafts.entry;
    const auto name = line.seq == 0 ? std::string{"entry/missed"} : fmt::format("entry/{}", line.number);
    if (line.seq == 0) {
        touch::fill(glass, rect, c.chosen, touch::control_radius);
        touch::outline(glass, rect, c.text, 3, touch::control_radius);
    } else if (touch::button(
                   glass, name, rect,
                   {.title = "", .look = chosen ? touch::Look::chosen : touch::Look::rest, .tick = false})) {
        page.drafts.entry = line.seq;
        page.drafts.missed = std::nullopt;
        page.drafts.happened =
            page.drafts.happened == Happened::not_tapped ? Happened::nothing : page.drafts.happened;
    }
    touch::text(glass, name + "/number", {rect.x + 20, rect.y + 8, 70, rect.h - 16}, line.number,
                {.em = touch::step::glance, .bold = true, .lines = 1});
    touch::text(glass, name + "/ml", {rect.x + 100, rect.y + 8, 130, rect.h - 16}, page.ml(line.ml),
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(glass, name + "/time", {rect.x + 244, rect.y + 8, 120, rect.h - 16}, page.time(line.happened),
                {.em = touch::step::body, .bold = chosen, .lines = 1});
    touch::text(glass, name + "/note", {rect.x + 372, rect.y + 8, rect.w - (chosen ? 436 : 392), rect.h - 16},
                line.note, {.colour = chosen ? c.text : c.text_2, .align = touch::Align::right});
    if (chosen) {
        touch::icon(glass, touch::Icon::tick, {rect.right() - 32, rect.y + rect.h / 2}, 26);
    }
}

/// The chips that set the time back, in the place of the last row.
void draw_set_back(const FillPage& page, Rect rect) {
    constexpr std::array<int, 4> minutes{0, 1, 2, 5};
    for (std::size_t i = 0; i < minutes.size(); ++i) {
        const auto title = minutes[i] == 0 ? page.say("fill.just-now")
                                           : page.say("fill.min-ago", {{"n", std::to_string(minutes[i])}});
        const bool chosen = page.drafts.set_back_min == minutes[i];
        if (touch::button(page.glass, fmt::format("set-back/{}", minutes[i]),
                          touch::cell(rect, 4, 1, static_cast<int>(i), 0, 10),
                          {.title = title,
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .corner_tick = true})) {
            page.drafts.set_back_min = minutes[i];
        }
    }
}

void draw_list(const FillPage& page, Rect a) {
    const auto& c = page.glass.colours();
    touch::text(page.glass, "correct/head", {a.x + 8, a.y - 9, 500, 52}, page.say("fill.which-one"),
                {.colour = c.text_2, .bold = true});
    touch::text(page.glass, "correct/order", {a.x + 520, a.y - 9, 144, 52}, page.say("fill.newest-first"),
                {.colour = c.text_2, .align = touch::Align::right});
    const auto lines = entries(page);
    const bool chips = page.drafts.happened == Happened::not_tapped && !page.drafts.missed;
    const std::size_t room = chips ? 4 : 5;
    auto& first = page.drafts.first;
    const auto missed = std::find_if(lines.begin(), lines.end(), [](const Line& l) { return l.seq == 0; });
    const auto place = static_cast<std::size_t>(missed - lines.begin());
    if (missed != lines.end() && (place < first || place >= first + room)) {
        first = place < 2 ? 0 : place - 2;  // the added one is in the middle of what is shown
    }
    const bool more = lines.size() > room;
    first = first >= lines.size() ? 0 : first;
    const auto row = [&](std::size_t i) {
        return Rect{a.x, a.y + 44 + 104 * static_cast<float>(i), a.w, 94};
    };
    const std::size_t shown = more && !chips && missed == lines.end() ? room - 1 : room;
    for (std::size_t i = 0; i < shown && first + i < lines.size(); ++i) {
        draw_line(page, row(i), lines[first + i]);
    }
    if (chips) {
        draw_set_back(page, row(4));
    } else if (shown < room &&
               touch::button(page.glass, "earlier", row(shown), {.title = page.say("fill.earlier")})) {
        first += shown;
    }
}

struct What {
    const char* name;
    const char* title;
    std::string note;
    Happened is;
};

void draw_what(const FillPage& page, Rect panel) {
    touch::panel(page.glass, panel);
    draw_head(page, "correct/what", panel, page.say("fill.what-happened"));
    const auto missed = missed_at(page);
    std::vector<What> ways{
        {"one-not-tapped", "fill.one-not-tapped",
         missed ? page.say("fill.pushed-at", {{"time", page.time(*missed)}}) : page.say("fill.set-its-time"),
         Happened::not_tapped},
        {"no-syringe", "fill.no-syringe", page.say("fill.slip-of-the-finger"), Happened::no_syringe},
        {"other-volume", "fill.other-volume", page.say("fill.opens-the-keypad"), Happened::other_volume}};
    if (page.drafts.happened == Happened::no_press) {
        ways = {{"no-press", "fill.press-too-many", page.say("fill.foot-slipped"), Happened::no_press}};
    }
    float y = panel.y + 43;
    for (const auto& way : ways) {
        const bool chosen = page.drafts.happened == way.is;
        if (touch::button(page.glass, way.name, {panel.x + 16, y, panel.w - 32, 88},
                          {.title = page.say(way.title),
                           .note = way.note,
                           .look = chosen ? touch::Look::chosen : touch::Look::rest})) {
            page.drafts.happened = way.is;
            page.drafts.entry = way.is == Happened::not_tapped ? 0 : page.drafts.entry;
            page.drafts.keypad = way.is == Happened::other_volume;
        }
        y += 96;
    }
}

struct Witness {
    const char* name;
    const char* title;
    std::string value;
    Evidence is;
};

void draw_evidence(const FillPage& page, Rect panel) {
    touch::panel(page.glass, panel);
    draw_head(page, "correct/relies", panel, page.say("fill.what-relies"));
    const auto reading = matter_reading(*page.scene.ahead_state, page.scene.policy);
    std::vector<Witness> witnesses;
    if (reading && reading->judged) {
        witnesses.push_back(
            {"evidence/matter", "unit.evidence-matter",
             reading->matter_ml ? page.ml(*reading->matter_ml) : std::to_string(*reading->row_used),
             Evidence::matter});
    }
    if (!page.block().presses.empty()) {
        // The pedal's number is uncovered by a count check alone.
        const bool uncovered = page.scene.ahead_state->standing("count-differs") != nullptr;
        witnesses.push_back({"evidence/pedal", "unit.evidence-pedal",
                             uncovered ? std::to_string(page.block().presses.size()) : std::string{},
                             Evidence::pedal});
    }
    witnesses.push_back({"evidence/memory", "unit.evidence-memory", "", Evidence::memory});
    const Rect row{panel.x + 8, panel.y + 38, panel.w - 16, 88};
    for (std::size_t i = 0; i < witnesses.size(); ++i) {
        const bool chosen = page.drafts.evidence == witnesses[i].is;
        if (touch::button(page.glass, witnesses[i].name, touch::cell(row, 3, 1, static_cast<int>(i), 0, 8),
                          {.title = page.say(witnesses[i].title),
                           .note = witnesses[i].value,
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true})) {
            page.drafts.evidence = witnesses[i].is;
        }
    }
}

/// Those whose name may stand beside that of the one who enters; the physician first.
std::vector<std::string> partners(const FillPage& page) {
    std::vector<std::string> ids;
    if (!page.scene.physician.empty() && page.scene.physician != page.scene.person) {
        ids.push_back(page.scene.physician);
    }
    for (const auto& id : page.scene.present) {
        if (id != page.scene.person && id != page.scene.physician) {
            ids.push_back(id);
        }
    }
    return ids;
}

std::optional<std::string> partner(const FillPage& page) {
    const auto ids = partners(page);
    return ids.empty() ? std::nullopt : std::optional{ids[page.drafts.with % ids.size()]};
}

void draw_with(const FillPage& page, Rect rect) {
    const auto with = partner(page);
    if (!with) {
        return;
    }
    if (touch::button(page.glass, "with", rect,
                      {.title = page.say(*with == page.scene.physician ? "fill.with-said" : "fill.with",
                                         {{"name", short_name(page.scene.ahead, *with)}}),
                       .note = page.say("fill.two-names", {{"name", page.assistant()}}),
                       .bold = true})) {
        ++page.drafts.with;
    }
}

const Delivery* chosen_entry(const FillPage& page) {
    for (const auto& d : page.block().deliveries) {
        if (d.stamp.seq == page.drafts.entry) {
            return &d;
        }
    }
    return nullptr;
}

/// What is complete enough to be said: the correction, and what it makes.
struct Ready {
    Correct says;
    std::optional<Instant> happened;
    Millilitres change;
};

std::optional<Ready> ready(const FillPage& page) {
    const auto& drafts = page.drafts;
    if (!drafts.evidence || drafts.happened == Happened::nothing) {
        return std::nullopt;
    }
    Ready all;
    all.says.with = partner(page);
    all.says.evidence = drafts.evidence;
    all.says.changes = "{}";
    if (drafts.happened == Happened::not_tapped) {
        all.happened = missed_at(page);
        all.change = page.view.nominal;
        all.says.syringes = 1;
        all.says.reason = page.say("fill.reason-not-tapped");
    } else if (drafts.happened == Happened::no_press) {
        all.says.entry = EntryRef{drafts.entry, {}};
        all.says.withdrawn = true;
        all.says.reason = page.say("fill.reason-no-press");
        return drafts.entry != 0 ? std::optional{all} : std::nullopt;
    } else {
        const auto* entry = chosen_entry(page);
        const auto typed = typed_ml(drafts.ml);
        const bool volume = drafts.happened == Happened::other_volume;
        if (entry == nullptr || (volume && !typed)) {
            return std::nullopt;
        }
        all.happened = entry->stamp.happened;
        all.change = volume ? *typed - entry->ml : -entry->ml;
        all.says.syringes = volume ? 0 : entry->syringes;
        all.says.reason = page.say(volume ? "fill.reason-volume" : "fill.reason-no-syringe");
    }
    all.says.ml = all.change;
    return all.happened && all.change != Millilitres{} ? std::optional{all} : std::nullopt;
}

touch::Action own_action(const FillPage& page, const std::optional<Ready>& all) {
    if (page.drafts.keypad) {
        return {.command = "volume-typed", .title = page.say("fill.volume-typed")};
    }
    if (!all) {
        const auto missing = page.drafts.happened == Happened::nothing ? "fill.what-happened-short"
                             : !page.drafts.evidence                   ? "fill.what-relies-short"
                                                                       : "fill.which";
        return {.command = "record-correction",
                .title = page.say("fill.next-missing"),
                .note = page.say(missing),
                .look = touch::ActionLook::next_missing};
    }
    const bool plus = all->change > Millilitres{};
    const auto change = (plus ? "+" : "") + page.ml(all->change);
    const auto title =
        all->says.withdrawn ? page.say("fill.record-no-press") : page.say("fill.record", {{"ml", change}});
    return {.command = "record-correction",
            .title = title,
            .note = page.say("fill.makes", {{"ml", page.ml(page.view.counted + all->change)}})};
}

}  // namespace

void draw_correct(const FillPage& page) {
    const auto refused = page.settle();
    const auto a = page.layout.column_a;
    const auto b = page.layout.column_b;
    draw_list(page, a);
    if (page.drafts.keypad) {
        draw_ml_pad(page, page.say("fill.how-much-really"), page.say("fill.other-volume"), refused);
    } else {
        draw_what(page, b.top_part(334));
        draw_evidence(page, {b.x, b.y + 342, b.w, 130});
        draw_with(page, {b.x, b.y + 480, b.w, 88});
    }
    const auto all = ready(page);
    const auto tap = draw_sheet_foot(page.glass, page.scene, own_action(page, all), page.asks);
    if (tap == touch::SheetTap::action && all && !page.drafts.keypad) {
        page.asks.say.push_back({all->says, {}, {}, all->happened, false});
        page.drafts.said = true;
    } else if (tap == touch::SheetTap::action) {
        page.drafts.keypad = false;  // to what is missing
    }
}

}  // namespace brimline::screens
