// A dose or an infusion: drug, amount, when. The unit is that of the ampoule. An unusual amount is asked
// about once, in words, and answered in column B; the corner then only goes back to the keypad.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/dose_words.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/letters.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t tiles = 6;
constexpr std::size_t most_reversals = 3;
constexpr std::array<int, 4> minutes_back{0, 1, 2, 5};

/// One frame of the sheet.
struct DosePage {
    Glass& glass;
    const Scene& scene;
    DoseDraft& draft;
    Asks& asks;
    bool infusion;

    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    [[nodiscard]] Instant when() const { return scene.now - std::chrono::minutes{draft.back_min}; }
    [[nodiscard]] std::optional<Instant> happened() const {
        return draft.back_min == 0 ? std::nullopt : std::optional{when()};
    }
};

bool is_reversal(const Drug& drug) { return drug.kind == "reversal"; }

/// Reversal drugs, for their own row; none for an infusion.
std::vector<const Drug*> reversals(const DosePage& page) {
    std::vector<const Drug*> found;
    for (const auto& drug : page.scene.policy.formulary) {
        if (is_reversal(drug) && found.size() < most_reversals && !page.infusion) {
            found.push_back(&drug);
        }
    }
    return found;
}

/// All others in the order of the formulary; null stands for a drug that it does not have.
std::vector<const Drug*> others(const DosePage& page) {
    std::vector<const Drug*> found;
    const auto apart = reversals(page);
    for (const auto& drug : page.scene.policy.formulary) {
        if (std::find(apart.begin(), apart.end(), &drug) == apart.end()) {
            found.push_back(&drug);
        }
    }
    if (!page.infusion) {
        found.push_back(nullptr);  // the core takes a free name for a dose only
    }
    return found;
}

std::string drug_name(const DosePage& page) {
    return page.draft.free ? page.draft.name.text() : drug_words(page.scene.policy, page.draft.drug);
}

bool has_drug(const DosePage& page) {
    return page.draft.free ? !page.draft.name.text().empty() : !page.draft.drug.empty();
}

std::optional<DoseUnit> dose_unit(const DosePage& page) {
    if (page.draft.free) {
        return page.draft.unit;
    }
    const auto* drug = page.scene.policy.drug(page.draft.drug);
    return drug == nullptr ? std::nullopt : std::optional{unit_of(*drug)};
}

std::optional<Decimal> amount_of(const DosePage& page) {
    const auto amount = Decimal::parse(page.draft.amount.text());
    return amount && *amount > Decimal{} ? amount : std::nullopt;
}

void choose(const DosePage& page, const Drug* drug) {
    page.draft.free = drug == nullptr;
    page.draft.keyboard = drug == nullptr;
    page.draft.drug = drug == nullptr ? "" : drug->id;
    page.draft.amount.clear();
    page.draft.said = false;
}

void draw_tile(const DosePage& page, Rect place, const Drug* drug) {
    const bool chosen = drug == nullptr ? page.draft.free : !page.draft.free && page.draft.drug == drug->id;
    const bool named = drug == nullptr && page.draft.free && !page.draft.name.text().empty();
    const auto name = drug == nullptr ? std::string{"drug-free"} : "drug/" + drug->id;
    if (touch::button(
            page.glass, name, place,
            {.title = "", .look = chosen ? touch::Look::chosen : touch::Look::rest, .tick = false})) {
        choose(page, drug);
    }
    const auto title = drug != nullptr ? drug->words
                       : named         ? page.draft.name.text()
                                       : page.say("dose.another");
    const auto& c = page.glass.colours();
    touch::text(page.glass, name + "/words", {place.x + 16, place.y + 4, place.w - 32, 54}, title,
                {.em = touch::step::body, .bold = chosen, .align = touch::Align::centre});
    touch::text(page.glass, name + "/unit", {place.x + 16, place.y + 58, place.w - 32, 27},
                drug != nullptr ? drug->unit_words : page.say("dose.name-and-unit"),
                {.colour = chosen ? c.text : c.text_2, .align = touch::Align::centre, .lines = 1});
    if (chosen) {
        touch::icon(page.glass, touch::Icon::tick, {place.right() - 18, place.y + 17}, 15);
    }
}

void draw_drugs(const DosePage& page) {
    const auto drugs = others(page);
    const bool paged = drugs.size() > tiles;
    const std::size_t on_page = paged ? tiles - 1 : tiles;
    auto& first = page.draft.first;
    first = first >= drugs.size() ? 0 : first;
    const auto place = [](std::size_t i) {
        return touch::cell({176, 148, 672, 188}, 3, 2, static_cast<int>(i % 3), static_cast<int>(i / 3), 12);
    };
    for (std::size_t i = 0; i < on_page && first + i < drugs.size(); ++i) {
        draw_tile(page, place(i), drugs[first + i]);
    }
    if (paged && touch::button(page.glass, "more-drugs", place(tiles - 1),
                               {.title = page.say("dose.more"), .note = page.say("dose.more-note")})) {
        first += on_page;
    }
}

void draw_allergies(const DosePage& page) {
    const auto& c = page.glass.colours();
    const auto& said = page.scene.ahead_state->allergies;
    std::string all = page.say("frame.allergies-not-asked");
    if (said) {
        all.clear();
        for (const auto& allergy : said->is.list.value_or(std::vector<Allergy>{})) {
            all += (all.empty() ? "" : ", ") + allergy.substance;
        }
        all = all.empty() ? page.say("frame.allergies-none-known") : all;
    }
    touch::text(page.glass, "dose/head", {184, 92, 280, 54},
                page.say(page.infusion ? "dose.infusion-head" : "dose.head"),
                {.colour = c.text_2, .bold = true});
    touch::text(page.glass, "dose/allergies", {470, 92, 370, 54}, page.say("dose.allergies", {{"all", all}}),
                {.colour = said ? c.text : c.stop, .bold = true, .align = touch::Align::right});
}

void draw_reversals(const DosePage& page) {
    const auto drugs = reversals(page);
    if (drugs.empty()) {
        return;
    }
    const auto& c = page.glass.colours();
    touch::text(page.glass, "reversal/head", {184, 340, 656, 30}, page.say("dose.reversal-head"),
                {.colour = c.look, .bold = true, .lines = 1});
    for (std::size_t i = 0; i < drugs.size(); ++i) {
        const auto place =
            touch::cell({176, 372, 672, 88}, static_cast<int>(drugs.size()), 1, static_cast<int>(i), 0, 12);
        const bool chosen = page.draft.drug == drugs[i]->id;
        const auto name = "drug/" + drugs[i]->id;
        const auto touch = page.glass.touch(
            {.name = name, .rect = place, .hit = place, .kind = touch::Kind::button, .checked = chosen});
        touch::fill(page.glass, place, touch.pressed || chosen ? c.chosen : c.look_tint,
                    touch::control_radius);
        touch::outline(page.glass, place, chosen ? c.text : c.look, chosen ? 3 : 2, touch::control_radius);
        touch::icon(page.glass, chosen ? touch::Icon::tick : touch::Icon::look, {place.x + 36, place.y + 44},
                    chosen ? 24 : 38);
        const Rect words{place.x + 66, place.y + 10, place.w - 76, place.h - 20};
        touch::text(page.glass, name + "/title", words.top_part(36), drugs[i]->words,
                    {.em = touch::step::body, .bold = true, .lines = 1});
        touch::text(page.glass, name + "/note", words.bottom_part(28), drugs[i]->unit_words, {.lines = 1});
        if (touch.fired) {
            choose(page, drugs[i]);
        }
    }
}

/// Infusions that run, each with the way to stop it.
void draw_running(const DosePage& page) {
    const auto& c = page.glass.colours();
    const auto running = running_infusions(*page.scene.ahead_state);
    touch::text(page.glass, "running/head", {184, 340, 656, 30},
                page.say(running.empty() ? "dose.none-running" : "dose.running-head"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    for (std::size_t i = 0; i < running.size() && i < most_reversals; ++i) {
        const auto& start = running[i]->start;
        const touch::Button face{
            .title = page.say("dose.stop", {{"drug", drug_words(page.scene.policy, start.is.drug)}}),
            .note = page.say("dose.runs", {{"rate", decimal_words(page.glass, start.is.rate)},
                                           {"unit", unit_words(page.glass, start.is.unit)},
                                           {"time", clock_text(start.stamp.happened, page.scene.zone)}}),
            .bold = true};
        const auto place =
            touch::cell({176, 372, 672, 88}, static_cast<int>(std::min(running.size(), most_reversals)), 1,
                        static_cast<int>(i), 0, 12);
        if (touch::button(page.glass, "stop/" + start.is.drug, place, face)) {
            page.asks.say.push_back({InfusionStop{start.is.drug}, {}, {}, page.happened(), false});
        }
    }
}

void draw_when(const DosePage& page) {
    const auto& c = page.glass.colours();
    touch::text(page.glass, "when/head", {184, 466, 656, 34},
                page.say("dose.when", {{"time", clock_text(page.scene.now, page.scene.zone, true)}}),
                {.colour = c.text_2, .bold = true, .lines = 1});
    for (std::size_t i = 0; i < minutes_back.size(); ++i) {
        const auto title = minutes_back[i] == 0
                               ? page.say("dose.now")
                               : page.say("fill.min-ago", {{"n", std::to_string(minutes_back[i])}});
        const bool chosen = page.draft.back_min == minutes_back[i];
        if (touch::button(page.glass, fmt::format("back/{}", minutes_back[i]),
                          touch::cell({176, 504, 672, 92}, 4, 1, static_cast<int>(i), 0, 10),
                          {.title = title,
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::note,
                           .tick = false,
                           .corner_tick = true})) {
            page.draft.back_min = minutes_back[i];
        }
    }
}

void draw_given(const DosePage& page) {
    const auto totals = dose_totals(*page.scene.ahead_state, page.scene.now);
    const auto weight = weight_of(*page.scene.ahead_state);
    std::string all;
    for (const auto& total : totals) {
        all += (all.empty() ? "" : " · ") + drug_words(page.scene.policy, total.drug) + " " +
               decimal_words(page.glass, total.total) + " " + page.say("unit.dose-" + total.unit);
        if (total.per_kg && weight && (totals.size() < 3 || total.drug == totals.back().drug)) {
            all +=
                ", " + page.say("dose.per-kg",
                                {{"n", *total.per_kg},
                                 {"unit", page.say("unit.dose-" + total.unit)},
                                 {"basis", page.say("dose.basis-" + std::string{name_of(weight->basis)})}});
        }
    }
    touch::text(page.glass, "dose/given", {184, 602, 656, 60},
                all.empty() ? page.say("dose.nothing-yet") : page.say("dose.so-far", {{"all", all}}),
                {.colour = page.glass.colours().text_2});
}

/// One key of a row of units.
void unit_key(const DosePage& page, int index, int count, const std::string& name, const std::string& title,
              bool chosen, const std::function<void()>& take) {
    if (touch::button(page.glass, name, touch::cell({864, 96, 400, 88}, count, 1, index, 0, 8),
                      {.title = title, .look = chosen ? touch::Look::chosen : touch::Look::rest})) {
        take();
    }
}

/// The head of column B: the drug and its route, or the units to choose from.
void draw_head(const DosePage& page) {
    auto& draft = page.draft;
    if (page.infusion) {
        int i = 0;
        for (const auto unit : {RateUnit::mg_h, RateUnit::ml_h}) {
            unit_key(page, i++, 2, fmt::format("rate/{}", unit == RateUnit::mg_h ? "mg-h" : "ml-h"),
                     unit_words(page.glass, unit), draft.rate_unit == unit,
                     [&, unit] { draft.rate_unit = unit; });
        }
        return;
    }
    if (draft.free) {
        int i = 0;
        for (const auto unit : {DoseUnit::mg, DoseUnit::ug, DoseUnit::ml}) {
            unit_key(page, i++, 3, fmt::format("unit/{}", name_of(unit)), unit_words(page.glass, unit),
                     draft.unit == unit, [&, unit] { draft.unit = unit; });
        }
        return;
    }
    const auto& c = page.glass.colours();
    touch::panel(page.glass, {864, 104, 400, 76});
    const auto* drug = page.scene.policy.drug(draft.drug);
    touch::text(page.glass, "dose/drug", {884, 108, 236, 68},
                drug == nullptr ? page.say("dose.tap-a-drug") : drug->words,
                {.em = touch::step::act, .bold = true});
    touch::text(page.glass, "dose/route", {1124, 108, 120, 68}, drug == nullptr ? "" : drug->route,
                {.colour = c.text_2, .align = touch::Align::right});
}

void draw_box(const DosePage& page) {
    const auto unit = dose_unit(page);
    const auto amount = amount_of(page);
    touch::ValueBox box{.digits = page.draft.amount.shown(page.glass.words().decimal_mark()),
                        .focused = true};
    if (page.infusion) {
        box.unit = page.draft.rate_unit ? unit_words(page.glass, *page.draft.rate_unit) : "";
    } else if (unit) {
        box.unit = unit_words(page.glass, *unit);
        const auto said = amount ? amount_said(*amount, *unit, *page.scene.ahead_state) : AmountSaid{};
        if (said.in_mg) {
            box.label = amount_words(page.glass, *said.in_mg, DoseUnit::mg);
        }
        if (said.per_kg) {
            box.label += (box.label.empty() ? "" : "\n") +
                         page.say("dose.each-kg", {{"n", *said.per_kg}, {"unit", box.unit}});
        }
    }
    (void)touch::value_box(page.glass, "dose/box", {864, 192, 400, 76}, box);
}

const Asked* asked_of(const DosePage& page) {
    const auto& last = page.scene.last;
    return page.draft.said && last && last->asked && last->asked->question == "implausible" ? &*last->asked
                                                                                            : nullptr;
}

void tell(const DosePage& page, bool sure) {
    if (page.infusion) {
        page.asks.say.push_back({InfusionStart{page.draft.drug, *amount_of(page), *page.draft.rate_unit},
                                 {},
                                 {},
                                 page.happened(),
                                 sure});
    } else {
        Dose says;
        says.drug = drug_name(page);
        says.amount = *amount_of(page);
        says.unit = *dose_unit(page);
        if (page.draft.free) {
            says.free = true;
        } else {
            says.drug = page.draft.drug;
        }
        page.asks.say.push_back({says, {}, {}, page.happened(), sure});
    }
    page.draft.said = true;
    page.asks.sheet = Sheet::none;  // stays open where the core refuses or asks
}

/// The core's question, and the one answer that records; the corner goes back.
void draw_question(const DosePage& page, const Asked& asked) {
    const auto amount = amount_words(page.glass, *amount_of(page), *dose_unit(page));
    const auto& c = page.glass.colours();
    const Rect card{864, 280, 400, 220};
    touch::fill(page.glass, card, c.look_tint, touch::control_radius);
    touch::outline(page.glass, card, c.look, 3, touch::control_radius);
    touch::icon(page.glass, touch::Icon::look, {card.x + 40, card.y + 44}, 38);
    touch::text(page.glass, "dose/asked", {card.x + 72, card.y + 14, 312, 60},
                page.say("dose.sure", {{"amount", amount}}), {.em = touch::step::act, .bold = true});
    touch::text(page.glass, "dose/asked-why", {card.x + 20, card.y + 80, 360, 130}, asked.say, {.lines = 4});
    if (touch::button(page.glass, "dose-sure", {864, 512, 400, 152},
                      {.title = page.say("dose.yes", {{"amount", amount}}),
                       .note = page.say("dose.as-confirmed"),
                       .bold = true,
                       .em = touch::step::act,
                       .group = "dose-sure",
                       .watched = true})) {
        tell(page, true);
    }
}

/// What is still missing, in words; empty when it can be recorded.
std::string missing_words(const DosePage& page) {
    if (!has_drug(page)) {
        return page.say("dose.tap-a-drug");
    }
    if (page.infusion ? !page.draft.rate_unit : !dose_unit(page)) {
        return page.say("dose.tap-a-unit");
    }
    return amount_of(page) ? "" : page.say("dose.type-amount");
}

touch::Action record_action(const DosePage& page) {
    const auto time = clock_text(page.when(), page.scene.zone, true);
    if (page.infusion) {
        return {
            .command = "start-infusion",
            .title = page.say("dose.start-rate", {{"rate", decimal_words(page.glass, *amount_of(page))},
                                                  {"unit", unit_words(page.glass, *page.draft.rate_unit)}}),
            .note = page.say("dose.at", {{"drug", drug_name(page)}, {"time", time}})};
    }
    return {.command = "record-dose",
            .title = page.say("dose.record",
                              {{"amount", amount_words(page.glass, *amount_of(page), *dose_unit(page))}}),
            .note = page.say("dose.at", {{"drug", drug_name(page)}, {"time", time}})};
}

std::optional<touch::Action> own_action(const DosePage& page, const Asked* asked) {
    if (asked != nullptr) {
        return touch::Action{.command = "type-again",
                             .title = page.say("dose.type-again"),
                             .note = page.say("place.nothing-recorded"),
                             .look = touch::ActionLook::opens};
    }
    return missing_words(page).empty() ? std::optional{record_action(page)} : std::nullopt;
}

void take(const DosePage& page, const Asked* asked) {
    if (asked != nullptr) {
        page.draft.said = false;
        page.draft.amount.clear();
    } else {
        tell(page, false);
    }
}

void draw_corner(const DosePage& page, const Asked* asked) {
    const auto own = own_action(page, asked);
    if (over_fill(page.scene)) {
        if (draw_sheet_foot(page.glass, page.scene, own, page.asks) == touch::SheetTap::action) {
            take(page, asked);
        }
        return;
    }
    const touch::Prompt prompt{
        .urgency = asked != nullptr ? touch::Urgency::medium : touch::Urgency::low,
        .title = page.say(asked != nullptr ? "dose.asked-once" : "dose.unit-is-the-ampoules"),
        .why = page.say(asked != nullptr ? "dose.answered-above" : "dose.rare-is-asked"),
        .chips = {{"back", page.say("touch.back")}}};
    if (draw_case_prompt(page.glass, page.scene, prompt, page.asks).chip == "back") {
        page.asks.sheet = Sheet::none;
    }
    if (!own) {
        quiet_corner(page.glass, missing_words(page));
    } else if (touch::action(page.glass, touch::layout_for(page.glass.size()).action, *own) ==
               touch::ActionTap::action) {
        take(page, asked);
    }
}

}  // namespace

Asks draw_dose(Glass& glass, const Scene& scene, DoseDraft& draft) {
    Asks asks;
    const DosePage page{glass, scene, draft, asks, scene.sheet == Sheet::infusion};
    if (draft.keyboard) {
        draft.keyboard = !draw_letters(glass, scene, page.say("dose.its-name"), draft.name, draft.keys, asks);
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    const auto* asked = asked_of(page);
    draw_allergies(page);
    draw_drugs(page);
    if (page.infusion) {
        draw_running(page);
    } else {
        draw_reversals(page);
    }
    draw_when(page);
    draw_given(page);
    draw_head(page);
    draw_box(page);
    if (asked != nullptr) {
        draw_question(page, *asked);
    } else if (const auto key = touch::keypad(glass, "pad", {864, 278, 400, 386}, true, 8)) {
        (void)draft.amount.press(*key);
        draft.said = false;
    }
    draw_corner(page, asked);
    return asks;
}

}  // namespace brimline::screens
