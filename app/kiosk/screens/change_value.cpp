// A typed value is changed: both values stay in the record, and everything that follows from it is worked out
// anew.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/dose_words.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t rows = 4;
constexpr std::array<const char*, 3> reasons{"mistyped", "misread", "misheard"};

/// One value of an entry: its field, its name on the glass, and what it is.
struct Field {
    std::string field, title;
    std::optional<Decimal> value;
};

/// One frame of the sheet.
struct ChangePage {
    Glass& glass;
    const Scene& scene;
    ChangeDraft& draft;
    Asks& asks;

    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
};

std::optional<Decimal> whole(const std::optional<int>& value) {
    return value ? std::optional{Decimal::of(*value)} : std::nullopt;
}

std::vector<Field> fields_of(const ChangePage& page, const Event& event) {
    if (const auto* set = std::get_if<Vitals>(&event)) {
        return {{"hr", page.say("vitals.hr"), whole(set->hr)},
                {"systolic", page.say("vitals.systolic"), whole(set->systolic)},
                {"diastolic", page.say("vitals.diastolic"), whole(set->diastolic)},
                {"spo2", page.say("sedation.spo2"), whole(set->spo2)},
                {"rr", page.say("sedation.rr"), whole(set->rr)}};
    }
    if (const auto* dose = std::get_if<Dose>(&event)) {
        return {{"amount", unit_words(page.glass, dose->unit), dose->amount}};
    }
    if (const auto* depth = std::get_if<Depth>(&event)) {
        return {{"moaas", page.say("sedation.moaas"), Decimal::of(depth->moaas)}};
    }
    if (const auto* oxygen = std::get_if<Oxygen>(&event)) {
        return {{"l_min", page.say("unit.l-min"), oxygen->l_min}};
    }
    return {};
}

/// "HR 76 · 122/74 · 97 % · 14", without what was not taken.
std::string set_words(const ChangePage& page, const Vitals& set) {
    std::vector<std::string> parts;
    if (set.hr) {
        parts.push_back(page.say("change.set-hr", {{"n", std::to_string(*set.hr)}}));
    }
    if (set.systolic && set.diastolic) {
        parts.push_back(fmt::format("{}/{}", *set.systolic, *set.diastolic));
    }
    if (set.spo2) {
        parts.push_back(page.say("unit.n-percent", {{"n", std::to_string(*set.spo2)}}));
    }
    if (set.rr) {
        parts.push_back(std::to_string(*set.rr));
    }
    return fmt::format("{}", fmt::join(parts, " · "));
}

std::string row_title(const ChangePage& page, const Event& event) {
    if (const auto* dose = std::get_if<Dose>(&event)) {
        return drug_words(page.scene.policy, dose->drug) + " " +
               amount_words(page.glass, dose->amount, dose->unit);
    }
    if (const auto* set = std::get_if<Vitals>(&event)) {
        return set_words(page, *set);
    }
    const auto field = fields_of(page, event).front();
    return field.title + " " + decimal_words(page.glass, field.value.value_or(Decimal{}));
}

void draw_entries(const ChangePage& page, const std::vector<ChangeableEntry>& entries) {
    touch::text(page.glass, "change/head", {184, 104, 656, 34}, page.say("change.which"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    auto& first = page.draft.first;
    first = first >= entries.size() ? 0 : first;
    for (std::size_t i = 0; i < rows && first + i < entries.size(); ++i) {
        const auto& entry = entries[first + i];
        const bool last = i + 1 == rows && entries.size() > rows;
        const Rect place{176, 142 + 100 * static_cast<float>(i), last ? 540.0F : 672.0F, 90};
        if (touch::row(page.glass, fmt::format("entry/{}", first + i + 1), place,
                       {.time = clock_text(entry.at, page.scene.zone),
                        .title = row_title(page, *entry.event),
                        .current = page.draft.entry == entry.seq,
                        .opens = false})) {
            const auto keep = first;
            page.draft = {};
            page.draft.first = keep;
            page.draft.entry = entry.seq;
            const auto fields = fields_of(page, *entry.event);
            page.draft.field = fields.size() == 1 ? fields.front().field : "";
        }
    }
    if (entries.size() > rows && touch::button(page.glass, "more-entries", {728, 442, 120, 90},
                                               {.title = page.say("change.earlier")})) {
        first += rows;
    }
}

void draw_reasons(const ChangePage& page) {
    touch::text(page.glass, "change/why", {184, 538, 656, 32}, page.say("change.why"),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = 1});
    for (std::size_t i = 0; i < reasons.size(); ++i) {
        const bool chosen = page.draft.reason == reasons[i];
        if (touch::button(page.glass, fmt::format("reason/{}", reasons[i]),
                          touch::cell({176, 572, 672, 92}, 3, 1, static_cast<int>(i), 0, 12),
                          {.title = page.say(fmt::format("change.reason-{}", reasons[i])),
                           .look = chosen ? touch::Look::chosen : touch::Look::rest})) {
            page.draft.reason = reasons[i];
        }
    }
}

void draw_fields(const ChangePage& page, const std::vector<Field>& fields) {
    const Rect area{864, 96, 400, 184};
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const bool here = page.draft.field == fields[i].field;
        const auto shown = here && !page.draft.value.empty()
                               ? page.draft.value.shown(page.glass.words().decimal_mark())
                           : fields[i].value ? decimal_words(page.glass, *fields[i].value)
                                             : std::string{};
        if (touch::value_box(page.glass, "field/" + fields[i].field,
                             touch::cell(area, 3, 2, static_cast<int>(i % 3), static_cast<int>(i / 3), 8),
                             {.digits = shown,
                              .label = fields[i].title,
                              .focused = here,
                              .small = true,
                              .touchable = true})) {
            page.draft.field = fields[i].field;
            page.draft.value.clear();
        }
    }
    if (touch::button(page.glass, "never-happened", touch::cell(area, 3, 2, 2, 1, 8),
                      {.title = page.say("change.strike"),
                       .look = page.draft.field == "never" ? touch::Look::chosen : touch::Look::rest,
                       .em = touch::step::note,
                       .tick = false,
                       .corner_tick = true})) {
        page.draft.field = "never";
        page.draft.value.clear();
    }
}

/// What is still missing, in words; empty when it can be entered.
std::string missing_words(const ChangePage& page) {
    const auto& draft = page.draft;
    if (draft.entry == 0) {
        return page.say("change.tap-entry");
    }
    if (draft.field.empty()) {
        return page.say("change.tap-value");
    }
    if (draft.field != "never" && draft.value.empty()) {
        return page.say("change.type-value");
    }
    return draft.reason.empty() ? page.say("change.tap-reason") : "";
}

const Asked* asked_of(const ChangePage& page) {
    const auto& last = page.scene.last;
    return page.draft.said && last && last->asked && last->asked->question == "implausible" ? &*last->asked
                                                                                            : nullptr;
}

/// The trend of Sedation, or the page under the sheet.
Sheet came_from(const ChangePage& page) {
    return page.scene.page == Page::sedation ? Sheet::trend : Sheet::none;
}

void tell(const ChangePage& page, bool sure) {
    Correct says;
    says.entry = EntryRef{page.draft.entry, {}};
    says.reason = page.say("change.reason-" + page.draft.reason);
    says.changes = "{}";
    if (page.draft.field == "never") {
        says.withdrawn = true;
    } else {
        const auto value = Decimal::parse(page.draft.value.text());
        says.changes = fmt::format(R"({{"{}":{}}})", page.draft.field, value.value_or(Decimal{}).text());
    }
    page.asks.say.push_back({says, {}, {}, {}, sure});
    page.draft.said = true;
    page.asks.sheet = came_from(page);  // stays open where the core refuses or asks
}

std::optional<touch::Action> own_action(const ChangePage& page, const std::vector<Field>& fields) {
    if (!missing_words(page).empty()) {
        return std::nullopt;
    }
    const bool asked = asked_of(page) != nullptr;
    if (page.draft.field == "never") {
        return touch::Action{.command = "change-never",
                             .title = page.say("change.never"),
                             .note = page.say("airway.both-stay")};
    }
    const auto field = std::find_if(fields.begin(), fields.end(),
                                    [&](const Field& f) { return f.field == page.draft.field; });
    const auto before =
        field != fields.end() && field->value ? decimal_words(page.glass, *field->value) : std::string{"–"};
    return touch::Action{
        .command = asked ? "change-sure" : "change",
        .title =
            page.say("change.from-to",
                     {{"from", before}, {"to", page.draft.value.shown(page.glass.words().decimal_mark())}}),
        .note = page.say(asked ? "vitals.it-is-right" : "airway.both-stay")};
}

void draw_foot(const ChangePage& page, const std::optional<touch::Action>& own) {
    const auto* asked = asked_of(page);
    if (over_fill(page.scene)) {
        if (draw_sheet_foot(page.glass, page.scene, own, page.asks) == touch::SheetTap::action) {
            tell(page, asked != nullptr);
        }
        return;
    }
    const touch::Prompt prompt{.urgency = asked != nullptr ? touch::Urgency::medium : touch::Urgency::low,
                               .title = asked != nullptr ? asked->say : page.say("change.prompt"),
                               .why = asked != nullptr ? "" : page.say("change.prompt-why"),
                               .chips = {{"back", page.say("touch.back")}}};
    if (draw_case_prompt(page.glass, page.scene, prompt, page.asks).chip == "back") {
        page.asks.sheet = came_from(page);
    }
    if (!own) {
        quiet_corner(page.glass, missing_words(page));
    } else if (touch::action(page.glass, touch::layout_for(page.glass.size()).action, *own) ==
               touch::ActionTap::action) {
        tell(page, asked != nullptr);
    }
}

}  // namespace

Asks draw_change_value(Glass& glass, const Scene& scene, ChangeDraft& draft) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    const ChangePage page{glass, scene, draft, asks};
    const auto entries = changeable_entries(*scene.ahead_state);
    draw_entries(page, entries);
    draw_reasons(page);
    const auto entry = std::find_if(entries.begin(), entries.end(),
                                    [&](const ChangeableEntry& e) { return e.seq == draft.entry; });
    std::vector<Field> fields;
    if (entry != entries.end()) {
        fields = fields_of(page, *entry->event);
        draw_fields(page, fields);
    }
    if (const auto key = touch::keypad(glass, "pad", {864, 288, 400, 376}, true, 8)) {
        if (!draft.field.empty() && draft.field != "never") {
            (void)draft.value.press(*key);
            draft.said = false;
        }
    }
    draw_foot(page, own_action(page, fields));
    return asks;
}

}  // namespace brimline::screens
