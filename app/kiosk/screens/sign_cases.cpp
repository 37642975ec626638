// Signing several cases in one sitting: what was said is read to its last page, then the PIN for this case
// only. A physician's signature is followed by the seal where the other parts are signed.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/size_parts.h"
#include "core/desk/signing.h"
#include "core/record/said.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t cases_on_page = 3;
constexpr std::size_t entries_on_page = 6;

/// One frame of the page.
struct SignPage {
    Glass& glass;
    const Scene& scene;
    const std::vector<CaseToSign>& list;
    const CaseToSign* chosen;
    RecordDrafts& drafts;
    Asks& asks;

    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
};

std::string parts_words(const Glass& glass, const CaseToSign& one) {
    if (one.open.empty()) {
        return glass.words().say("sign.others-signed");
    }
    std::string open;
    for (const auto part : one.open) {
        open += (open.empty() ? "" : ", ") + glass.words().say(fmt::format("sign.part-{}", name_of(part)));
    }
    return glass.words().say("sign.open-parts", {{"parts", open}});
}

std::string case_note(const SignPage& page, const CaseState& state) {
    const auto kind = page.say(fmt::format("day-list.kind-{}", name_of(state.kind)));
    const auto left = clock_text(state.discharged->stamp.happened, page.scene.zone);
    return kind + " · " + page.say("sign.left-at", {{"time", left}});
}

void draw_cases(const SignPage& page) {
    auto& glass = page.glass;
    touch::text(glass, "cases/head", {24, 106, 392, 36}, page.say("sign.waiting"),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    auto& first = page.drafts.first_case;
    first = first >= page.list.size() ? 0 : first;
    for (std::size_t i = 0; i < cases_on_page && first + i < page.list.size(); ++i) {
        const auto& one = page.list[first + i];
        const Rect place{16, 148 + 112 * static_cast<float>(i), 400, 102};
        const auto name = "sign/" + one.state->name;
        const bool chosen = page.chosen != nullptr && page.chosen->state == one.state;
        if (touch::button(
                glass, name, place,
                {.title = "", .look = chosen ? touch::Look::chosen : touch::Look::rest, .tick = false})) {
            page.drafts.begin(one.state->name);
        }
        touch::icon(glass, one.open.empty() ? touch::Icon::good : touch::Icon::ring,
                    {place.x + 36, place.y + 50}, 28);
        touch::text(glass, name + "/name", {place.x + 68, place.y + 6, place.w - 80, 34},
                    listed_name(one.state->patient),
                    {.em = touch::step::body, .bold = true, .lines = 1, .may_cut = true});
        touch::text(glass, name + "/note", {place.x + 68, place.y + 40, place.w - 80, 28},
                    case_note(page, *one.state), {.lines = 1});
        touch::text(glass, name + "/parts", {place.x + 68, place.y + 68, place.w - 80, 28},
                    parts_words(glass, one), {.colour = glass.colours().text_2, .lines = 1});
    }
    if (page.list.size() > cases_on_page &&
        touch::button(glass, "more-cases", {16, 484, 400, 76}, {.title = page.say("day-list.next-part")})) {
        first += cases_on_page;
    }
}

/// Corrections of the case and what they relied on; memory alone stands in amber.
void draw_corrections(const SignPage& page) {
    auto& glass = page.glass;
    const Rect panel{16, 568, 400, 96};
    touch::panel(glass, panel);
    panel_head(glass, "corrections/head", {panel.x, panel.y - 4, panel.w, panel.h},
               page.say("sign.corrections"));
    const auto& state = *page.chosen->state;
    const auto count = state.corrections.size() + state.count_corrections.size();
    const bool memory = std::any_of(state.count_corrections.begin(), state.count_corrections.end(),
                                    [](const auto& c) { return c.is.evidence == Evidence::memory; });
    auto line = count == 0 ? page.say("sign.none") : glass.words().count("sign.n", static_cast<long>(count));
    if (memory) {
        line += " · " + page.say("sign.memory-only");
    }
    touch::text(glass, "corrections/line", {panel.x + 20, panel.y + 38, panel.w - 40, 54}, line,
                {.colour = memory ? glass.colours().look : glass.colours().text, .bold = memory});
}

void draw_entries(const SignPage& page, const std::vector<SaidEntry>& entries, std::size_t pages) {
    auto& glass = page.glass;
    const auto& c = glass.colours();
    const Rect panel{428, 104, 424, 560};
    touch::panel(glass, panel);
    panel_head(glass, "said/head", panel,
               page.chosen->state->patient.family_name.value_or("–") + ": " + page.say("sign.said-by-you"),
               page.say("unit.page-of",
                        {{"n", std::to_string(page.drafts.page + 1)}, {"all", std::to_string(pages)}}));
    const std::size_t first = page.drafts.page * entries_on_page;
    for (std::size_t i = 0; i < entries_on_page && first + i < entries.size(); ++i) {
        const auto& entry = entries[first + i];
        const Rect row{436, 148 + 80 * static_cast<float>(i), 408, 72};
        const auto name = fmt::format("said/{}", entry.seq);
        const bool chosen = page.drafts.chosen == entry.seq;
        if (touch::button(
                glass, name, row,
                {.title = "", .look = chosen ? touch::Look::review : touch::Look::rest, .tick = false})) {
            page.drafts.chosen = chosen ? 0 : entry.seq;
        }
        const auto ink = chosen ? c.look_ink : c.text;
        touch::text(glass, name + "/time", {row.x + 12, row.y + 4, 60, 30},
                    clock_text(entry.at, page.scene.zone), {.colour = ink, .bold = true, .lines = 1});
        touch::text(glass, name + "/words", {row.x + 76, row.y + 4, row.w - 86, row.h - 8}, entry.words,
                    {.colour = ink, .bold = true, .lines = 2, .may_cut = true});
        touch::text(glass, name + "/by", {row.x + 12, row.y + 38, 60, 30},
                    initials_of(page.scene.desk.name_of_person(entry.by)),
                    {.colour = chosen ? c.look_ink : c.text_2, .lines = 1});
    }
    if (entries.empty()) {
        touch::text(glass, "said/none", {448, 152, 384, 60}, page.say("sign.nothing-said"),
                    {.em = touch::step::body});
    }
}

void line_of(const SignPage& page, const char* name, int row, const std::string& value) {
    list_line(page.glass, fmt::format("page-one/{}", name),
              {884, 148 + 44 * static_cast<float>(row), 360, 36}, page.say(fmt::format("sign.{}", name)),
              value, 140);
}

std::string pauses_words(const CaseState& state) {
    std::string all;
    for (const auto& [which, held] : state.pauses) {
        const auto took = held.last.at - held.first.happened;
        all += (all.empty() ? "" : ", ") + duration_words(took);
    }
    return all.empty() ? "–" : all;
}

void draw_page_one(const SignPage& page) {
    auto& glass = page.glass;
    const auto& state = *page.chosen->state;
    const Rect panel{864, 104, 400, 560};
    touch::panel(glass, panel);
    panel_head(glass, "page-one/head", panel, page.say("sign.page-one"));
    const auto agreed = agreed_by(state, page.scene.policy);
    const bool placed = placed_at(state).has_value();
    line_of(page, "filled", 0,
            placed ? ml_words(glass, running_volume(state.device())) : page.say("sign.no-balloon"));
    int crossed = 0;
    for (const auto gate :
         {gate_identity(state), gate_go(state), gate_position(state), gate_read_back(state)}) {
        crossed += gate == GateState::crossed ? 1 : 0;
    }
    line_of(page, "gates", 1,
            crossed == 0 ? page.say("sign.none-crossed")
                         : glass.words().count("sign.crossed", static_cast<long>(crossed)));
    line_of(page, "pauses", 2, pauses_words(state));
    const auto holds = state.holds.size();
    line_of(page, "holds", 3, holds == 0 ? page.say("sign.none") : std::to_string(holds));
    touch::text(glass, "page-one/agreed", {884, 336, 360, 32}, page.say("sign.agreed"),
                {.colour = glass.colours().text_2, .lines = 1});
    touch::text(glass, "page-one/agreed/value", {884, 368, 360, 60},
                agreed ? page_one_words(glass, *agreed) : page.say("sign.not-agreed"), {.bold = true});
    touch::text(glass, "page-one/pin", {884, 560, 360, 90}, page.say("sign.pin-after-last"),
                {.colour = glass.colours().text_2, .lines = 3});
}

void press(RecordDrafts& drafts, touch::PadKey key, std::size_t most) {
    if (key == touch::PadKey::erase) {
        if (!drafts.pin.empty()) {
            drafts.pin.pop_back();
        }
    } else if (key != touch::PadKey::point && drafts.pin.size() < most) {
        drafts.pin += static_cast<char>('0' + static_cast<int>(key));
    }
}

void draw_pin(const SignPage& page) {
    auto& glass = page.glass;
    const auto& rules = page.scene.policy.rules;
    touch::panel(glass, {864, 104, 400, 148});
    panel_head(glass, "pin/head", {864, 104, 400, 148},
               page.say("sign.pin-for", {{"name", short_name(page.scene.desk, page.scene.person)}}));
    touch::pin_dots(glass, {884, 160, 360, 60}, static_cast<int>(page.drafts.pin.size()),
                    std::max(rules.pin_digits_least, static_cast<int>(page.drafts.pin.size())));
    if (const auto key = touch::keypad(glass, "pad", {864, 264, 400, 400}, false)) {
        press(page.drafts, *key, static_cast<std::size_t>(rules.pin_digits_most));
    }
}

void tell_sign(const SignPage& page) {
    const auto& one = *page.chosen;
    const auto tell = [&](Statement says) {
        page.asks.say.push_back({std::move(says), {}, {}, {}, false, one.state->name});
    };
    if (one.part) {
        tell(Sign{*one.part, page.drafts.pin});
    }
    if (one.seals) {
        tell(Seal{page.drafts.pin});
        page.asks.open_case = one.state->name;
        page.asks.page = Page::record;
    }
    page.drafts.pin.clear();
}

void draw_corner(const SignPage& page, std::size_t pages) {
    auto& glass = page.glass;
    const auto corner = touch::layout_for(glass.size()).action;
    if (page.drafts.chosen != 0) {
        const touch::Action own{.command = "not-what-i-said",
                                .title = page.say("sign.not-said"),
                                .note = page.say("sign.withdraws")};
        if (touch::action(glass, corner, own) == touch::ActionTap::action) {
            Correct says;
            says.entry = EntryRef{page.drafts.chosen, {}};
            says.reason = page.say("sign.reason-not-said");
            says.withdrawn = true;
            says.changes = "{}";
            page.asks.say.push_back({says, {}, {}, {}, false, page.chosen->state->name});
            page.drafts.chosen = 0;
        }
        return;
    }
    if (page.drafts.seen.size() < pages || page.drafts.page + 1 < pages) {
        const touch::Action next{
            .command = "next-page",
            .title = page.say("unit.page-of",
                              {{"n", std::to_string(page.drafts.page + 2)}, {"all", std::to_string(pages)}}),
            .note = page.say("sign.then-the-pin"),
            .look = touch::ActionLook::opens};
        if (touch::action(glass, corner, next) == touch::ActionTap::action) {
            page.drafts.page = (page.drafts.page + 1) % pages;
        }
        return;
    }
    const auto need = static_cast<std::size_t>(page.scene.policy.rules.pin_digits_least);
    if (page.drafts.pin.size() < need) {
        quiet_corner(glass,
                     glass.words().count("sign-in.to-go", static_cast<long>(need - page.drafts.pin.size())));
        return;
    }
    const touch::Action sign{.command = page.chosen->seals ? "sign-and-seal" : "sign",
                             .title = page.say(page.chosen->seals ? "sign.sign-and-seal" : "sign.sign"),
                             .note = page.say("sign.this-case-only")};
    if (touch::action(glass, corner, sign) == touch::ActionTap::action) {
        tell_sign(page);
    }
}

void draw_foot(const SignPage& page, std::size_t pages) {
    auto& glass = page.glass;
    const auto open = page.chosen == nullptr
                          ? 0
                          : std::count_if(page.chosen->state->items.begin(), page.chosen->state->items.end(),
                                          [](const OpenItem& i) { return !i.closed; });
    touch::Prompt prompt{.urgency = touch::Urgency::low,
                         .title = page.chosen == nullptr ? page.say("sign.nobody-waits")
                                                         : glass.words().count("sign.open-items", open),
                         .chips = {{"back", page.say("touch.back")}}};
    if (pages > 1) {
        prompt.chips.insert(prompt.chips.begin(), {"page-back", page.say("sign.page-back")});
    }
    const Rect bar{16, 692, 836, 96};
    if (page.scene.last && page.scene.last->result == Reply::Result::refused && page.scene.last->refusal) {
        prompt.urgency = touch::Urgency::medium;
        prompt.title = page.scene.last->refusal->say;
        prompt.why = page.scene.last->refusal->next;
    }
    const auto tap = touch::prompt_bar(glass, bar, prompt);
    if (!tap.chip) {
        return;
    }
    if (prompt.chips[*tap.chip].name == "back") {
        page.asks.page = Page::day_list;
        page.drafts.begin("");
    } else {
        page.drafts.page = page.drafts.page == 0 ? pages - 1 : page.drafts.page - 1;
    }
}

const CaseToSign* chosen_of(const std::vector<CaseToSign>& list, const RecordDrafts& drafts) {
    const auto found = std::find_if(list.begin(), list.end(),
                                    [&](const CaseToSign& c) { return c.state->name == drafts.name; });
    return found != list.end() ? &*found : list.empty() ? nullptr : &list.front();
}

}  // namespace

Asks draw_sign_cases(Glass& glass, const Scene& scene, RecordDrafts& drafts) {
    Asks asks;
    draw_desk_strip(glass, scene, glass.words().say("sign.title"), glass.words().say("sign.title-note"));
    const auto list = cases_to_sign(scene.desk, scene.person);
    const SignPage page{glass, scene, list, chosen_of(list, drafts), drafts, asks};
    if (page.chosen != nullptr && drafts.name != page.chosen->state->name) {
        drafts.begin(page.chosen->state->name);
    }
    draw_cases(page);
    if (page.chosen == nullptr) {
        draw_foot(page, 1);
        quiet_corner(glass, page.say("sign.nobody-waits"));
        return asks;
    }
    const auto entries =
        said_entries(*page.chosen->state, scene.desk, scene.policy, scene.zone, scene.person);
    const auto pages = std::max<std::size_t>(1, (entries.size() + entries_on_page - 1) / entries_on_page);
    drafts.page = std::min(drafts.page, pages - 1);
    drafts.seen.insert(drafts.page);
    draw_corrections(page);
    draw_entries(page, entries, pages);
    if (drafts.seen.size() < pages) {
        draw_page_one(page);
    } else {
        draw_pin(page);
    }
    draw_foot(page, pages);
    draw_corner(page, pages);
    return asks;
}

}  // namespace brimline::screens
