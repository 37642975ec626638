// The suction canister: which reading it is, its number, and the corner that saves it and nothing else. What
// a syringe took stands on the same pad. Also what was put in, which every page of a removal shows.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/removal_parts.h"

namespace brimline::screens {
namespace {

using touch::Rect;
using Entry = RemovalDrafts::Entry;

/// What was typed as a volume, 0 among them.
std::optional<Millilitres> typed(const touch::NumberDraft& draft) {
    const auto tenths = draft.in_tenths();
    return tenths ? std::optional{Millilitres::of_tenths(*tenths)} : std::nullopt;
}

const char* key_of(Entry entry) {
    switch (entry) {
        case Entry::reading:
            return "reading";
        case Entry::changed:
            return "changed";
        case Entry::syringe:
            return "syringe";
    }
    return "reading";
}

void draw_entries(const RemovalPage& page, Rect row, bool with_syringe) {
    const int count = with_syringe ? 3 : 2;
    int i = 0;
    for (const auto entry : {Entry::reading, Entry::changed, Entry::syringe}) {
        if (i == count) {
            break;
        }
        const auto name = fmt::format("canister/{}", key_of(entry));
        if (touch::button(page.glass, name, touch::cell(row, count, 1, i++, 0, 8),
                          {.title = page.say(fmt::format("removal.entry-{}", key_of(entry))),
                           .look = page.drafts.entry == entry ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true})) {
            page.drafts.entry = entry;
            page.drafts.clear_pad();
        }
    }
}

void draw_boxes(const RemovalPage& page, Rect row) {
    auto& drafts = page.drafts;
    const auto& mark = page.glass.words().decimal_mark();
    const auto unit = page.say("removal.ml");
    if (drafts.entry != Entry::changed) {
        const auto& now = page.view.canister.now;
        const bool syringe = drafts.entry == Entry::syringe;
        (void)touch::value_box(
            page.glass, "canister/box", row,
            {.digits = drafts.ml.shown(mark),
             .unit = unit,
             .label = syringe ? page.say("removal.in-the-syringe")
                      : now   ? page.say("removal.was", {{"ml", ml_digits(page.glass, *now)}})
                              : page.say("removal.reads-now"),
             .focused = true});
        return;
    }
    for (const bool fresh : {false, true}) {
        auto& draft = fresh ? drafts.fresh : drafts.ml;
        if (touch::value_box(page.glass, fresh ? "canister/new" : "canister/old",
                             touch::cell(row, 2, 1, fresh ? 1 : 0, 0, 8),
                             {.digits = draft.shown(mark),
                              .label = page.say(fresh ? "removal.new-one" : "removal.old-one"),
                              .focused = drafts.in_fresh == fresh,
                              .small = true,
                              .touchable = true})) {
            drafts.in_fresh = fresh;
        }
    }
}

std::string known_from(const RemovalPage& page, const Placement& placement) {
    return page.say(placement.reported ? "removal.reported" : "removal.our-record");
}

}  // namespace

void draw_canister_pad(const RemovalPage& page, bool with_syringe) {
    draw_entries(page, {864, 96, 400, 88}, with_syringe);
    draw_boxes(page, {864, 192, 400, 88});
    if (const auto key = touch::keypad(page.glass, "pad", {864, 288, 400, 376}, true, 8)) {
        (void)(page.drafts.in_fresh ? page.drafts.fresh : page.drafts.ml).press(*key);
    }
}

std::optional<touch::Action> canister_action(const RemovalPage& page) {
    const auto& drafts = page.drafts;
    const auto ml = typed(drafts.ml);
    const auto fresh = typed(drafts.fresh);
    if (!ml || (drafts.entry == Entry::changed && !fresh)) {
        return std::nullopt;
    }
    const auto title = drafts.entry == Entry::changed
                           ? page.say("removal.save-changed", {{"ml", ml_digits(page.glass, *ml)},
                                                               {"new", ml_digits(page.glass, *fresh)}})
                           : page.say(fmt::format("removal.save-{}", key_of(drafts.entry)),
                                      {{"ml", ml_words(page.glass, *ml)}});
    return touch::Action{
        .command = "save-reading", .title = title, .note = page.say("removal.saves-nothing-else")};
}

void tell_canister(const RemovalPage& page) {
    auto& drafts = page.drafts;
    const auto ml = typed(drafts.ml);
    if (!ml) {
        return;
    }
    if (drafts.entry == Entry::syringe) {
        page.asks.tell(Aspirated{*ml});
    } else if (drafts.entry == Entry::changed) {
        page.asks.tell(Canister{*ml, CanisterMoment::change, typed(drafts.fresh)});
    } else {
        page.asks.tell(
            Canister{*ml, page.state().puncture ? CanisterMoment::end : CanisterMoment::start, {}});
    }
    drafts.clear_pad();
    drafts.entry = Entry::reading;
}

void draw_canister_part(const RemovalPage& page) {
    draw_canister_pad(page, page.state().puncture.has_value());
    const touch::Prompt prompt{.urgency = touch::Urgency::low,
                               .title = page.say("removal.read-the-scale"),
                               .why = page.say("removal.only-balloon-counts"),
                               .chips = {{"back", page.say("touch.back")}}};
    if (draw_case_prompt(page.glass, page.scene, prompt, page.asks).chip == "back") {
        page.drafts = {};
        return;
    }
    const auto own = canister_action(page);
    if (!own) {
        quiet_corner(page.glass, page.say("removal.type-reading"));
    } else if (touch::action(page.glass, touch::layout_for(page.glass.size()).action, *own) ==
               touch::ActionTap::action) {
        tell_canister(page);
        page.drafts.part = RemovalDrafts::Part::page;
    }
}

std::string signed_ml_words(const touch::Glass& glass, Millilitres volume) {
    return (volume > Millilitres{} ? "+" : "") + ml_digits(glass, volume);
}

std::string signed_percent_words(const touch::Glass& glass, const Fraction& percent) {
    const auto rounded = percent.rounded(1);
    const bool negative = rounded < Decimal{};
    auto digits = decimal_words(glass, rounded);
    digits = negative ? "−" + digits.substr(1) : "+" + digits;
    return glass.words().say("unit.n-percent", {{"n", digits}});
}

std::string words_of_id(const std::vector<ListItem>& list, const std::string& id) {
    const auto item =
        std::find_if(list.begin(), list.end(), [&](const ListItem& one) { return one.id == id; });
    return item == list.end() ? id : item->words;
}

void draw_put_in(const RemovalPage& page, Rect panel) {
    const auto& placement = page.view.figures.placement;
    touch::panel(page.glass, panel);
    if (!placement) {
        panel_head(page.glass, "put-in/head", panel, page.say("removal.put-in"));
        touch::text(page.glass, "put-in/none", {panel.x + 20, panel.y + 44, panel.w - 40, panel.h - 52},
                    page.say("removal.nothing-known"), {.em = touch::step::body, .lines = 3});
        return;
    }
    panel_head(page.glass, "put-in/head", panel,
               page.say("removal.put-in-from", {{"source", known_from(page, *placement)}}),
               placement->lot ? page.say("removal.lot", {{"lot", *placement->lot}}) : std::string{});
    const std::array<std::pair<std::string, std::string>, 3> lines{{
        {shown_date(page.glass, placement->placed),
         placement->volume ? ml_words(page.glass, *placement->volume) : page.say("removal.volume-unknown")},
        {page.say("removal.in-place"),
         page.view.days_in ? page.glass.words().count("removal.days", *page.view.days_in) : std::string{"–"}},
        {page.say("removal.due"), shown_date(page.glass, placement->due)},
    }};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        list_line(page.glass, fmt::format("put-in/{}", i + 1),
                  {panel.x + 20, panel.y + 44 + 38 * static_cast<float>(i), panel.w - 40, 36}, lines[i].first,
                  lines[i].second, 170);
    }
}

}  // namespace brimline::screens
