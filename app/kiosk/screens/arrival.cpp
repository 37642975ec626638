// Arrival: the pre-visit confirmed block by block, or the tiles with their holds; what is missing is named
// and led to, and may stay missing.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/kiosk/screens/arrival_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/letters.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;
using Section = ArrivalDrafts::Section;

constexpr std::array blocks{Block::contraindications, Block::medicines, Block::airway,
                            Block::history,           Block::consent,   Block::escort};

touch::CardKind kind_of(PartState state) {
    switch (state) {
        case PartState::open:
            return touch::CardKind::to_do;
        case PartState::done:
            return touch::CardKind::done;
        case PartState::held:
            return touch::CardKind::hold;
    }
    return touch::CardKind::to_do;
}

/// A part as a tile or row; a tap opens what answers it.
void draw_part(const ArrivalPage& page, Rect place, ArrivalPart part) {
    const auto standing = part_state(page.state(), page.scene.policy, part);
    const touch::Card card{.kind = kind_of(standing),
                           .title = page.say(fmt::format("arrival.part-{}", name_of(part))),
                           .lines = {part_note(page, part)},
                           .opens = standing == PartState::held};
    if (touch::card(page.glass, fmt::format("part/{}", name_of(part)), place, card)) {
        open_part(page, part);
    }
}

ArrivalPart part_of(Block block) {
    switch (block) {
        case Block::contraindications:
            return ArrivalPart::screen;
        case Block::medicines:
            return ArrivalPart::medicines;
        case Block::airway:
        case Block::history:
            return ArrivalPart::airway;
        case Block::consent:
            return ArrivalPart::consent;
        case Block::escort:
            return ArrivalPart::escort;
    }
    return ArrivalPart::screen;
}

std::string block_note(const ArrivalPage& page, Block block) {
    if (block == Block::medicines) {
        const auto& all = page.state().medicines;
        return all.empty() ? page.say("arrival.no-medicine") : all.back().is.name;
    }
    if (block == Block::history) {
        return page.say("arrival.history-note");
    }
    return part_note(page, part_of(block));
}

void draw_block(const ArrivalPage& page, float y, Block block, LocalDate since) {
    const auto& c = page.glass.colours();
    const Rect row{176, y, 672, 79};
    const auto name = fmt::format("block/{}", name_of(block));
    const bool settled = block_settled(page.state(), block, page.scene.zone, page.scene.now);
    touch::panel(page.glass, row);
    touch::icon(page.glass, settled ? touch::Icon::good : touch::Icon::ring, {row.x + 30, row.y + 40}, 28);
    touch::text(page.glass, name, {row.x + 60, row.y + 4, 276, 38},
                page.say(fmt::format("arrival.block-{}", name_of(block))),
                {.em = touch::step::body, .bold = true, .lines = 1});
    touch::text(page.glass, name + "/note", {row.x + 60, row.y + 42, 276, 32}, block_note(page, block),
                {.colour = c.text_2, .lines = 1, .may_cut = true});
    if (arrival_key(page, fmt::format("unchanged/{}", name_of(block)), {520, y + 3, 196, 73},
                    page.say("arrival.unchanged"), settled) &&
        !settled) {
        page.asks.tell(Unchanged{block, since});
    }
    if (touch::button(page.glass, fmt::format("open/{}", name_of(block)), {728, y + 3, 110, 73},
                      {.title = page.say("arrival.open")})) {
        open_part(page, part_of(block));
    }
}

std::size_t blocks_left(const ArrivalPage& page) {
    return static_cast<std::size_t>(std::count_if(blocks.begin(), blocks.end(), [&](Block block) {
        return !block_settled(page.state(), block, page.scene.zone, page.scene.now);
    }));
}

void draw_unchanged(const ArrivalPage& page, LocalDate since) {
    arrival_head(page, "arrival.answered", {184, 104, 284, 40});
    touch::text(page.glass, "arrival/since", {472, 104, 368, 40},
                page.say("arrival.one-tap-each", {{"date", shown_date(page.glass, since)}}),
                {.colour = page.glass.colours().text_2, .align = touch::Align::right, .lines = 1});
    float y = 148;
    for (const auto block : blocks) {
        draw_block(page, y, block, since);
        y += 87;
    }
    arrival_head(page, "arrival.only-today", {872, 104, 384, 40});
    y = 148;
    for (const auto part : {ArrivalPart::identity, ArrivalPart::allergies, ArrivalPart::body,
                            ArrivalPart::fasting, ArrivalPart::medicines, ArrivalPart::pregnancy}) {
        draw_part(page, {864, y, 400, 79}, part);
        y += 87;
    }
}

void draw_tiles(const ArrivalPage& page) {
    const auto screen = page.state().kind == CaseKind::removal ? ArrivalPart::balloon : ArrivalPart::screen;
    const std::array tiles{ArrivalPart::identity, ArrivalPart::allergies, ArrivalPart::body,
                           ArrivalPart::fasting,  ArrivalPart::medicines, screen,
                           ArrivalPart::airway,   ArrivalPart::escort,    ArrivalPart::baseline,
                           ArrivalPart::pregnancy};
    for (std::size_t i = 0; i < tiles.size(); ++i) {
        draw_part(
            page,
            touch::cell({176, 104, 672, 560}, 2, 5, static_cast<int>(i % 2), static_cast<int>(i / 2), 12),
            tiles[i]);
    }
    arrival_head(page, "arrival.holds", {872, 104, 384, 40});
    draw_hold_cards(page, {864, 148, 400, 416});
    const auto waiting = reviews_waiting(page.state());
    const int ways = waiting > 0 ? 3 : 2;
    if (waiting > 0) {
        draw_reviews_way(page, touch::cell({864, 576, 400, 88}, ways, 1, 2, 0, 12), waiting);
    }
    if (touch::button(page.glass, "defer", touch::cell({864, 576, 400, 88}, ways, 1, 0, 0, 12),
                      {.title = page.say("arrival.defer")})) {
        page.drafts.open(Section::defer);
    }
    if (touch::button(page.glass, "move", touch::cell({864, 576, 400, 88}, ways, 1, 1, 0, 12),
                      {.title = page.say("arrival.move")})) {
        page.asks.page = Page::day_list;
    }
}

/// The corner of the overview: the next missing part, a hold for the physician, or the way to the room.
void draw_corner(const ArrivalPage& page) {
    const auto corner = touch::layout_for(page.glass.size()).action;
    const auto missing = arrival_missing(page.state(), page.scene.policy);
    const auto holds = arrival_holds(page.state());
    const auto hold =
        std::find_if(holds.begin(), holds.end(), [](const Hold* one) { return may_be_overridden(*one); });
    const auto open = missing.size() + (hold == holds.end() ? 0 : 1);
    const touch::GoOn go_on{page.say("place.go-on"),
                            page.glass.words().count("place.open-items", static_cast<long>(open))};
    touch::Action shown{.command = "to-room",
                        .title = page.say("arrival.to-room"),
                        .note = page.state().room.value_or(""),
                        .look = touch::ActionLook::opens};
    if (!missing.empty()) {
        shown = {
            .command = fmt::format("next-{}", name_of(missing.front())),
            .title = page.say("arrival.next",
                              {{"part", page.say(fmt::format("arrival.next-{}", name_of(missing.front())))}}),
            .look = touch::ActionLook::next_missing};
    } else if (hold != holds.end()) {
        shown = {.command = "ask-physician",
                 .title = page.say("override.ask", {{"name", whose_word(page.scene)}}),
                 .look = touch::ActionLook::next_missing};
    }
    const auto tapped =
        touch::action(page.glass, corner, shown, open == 0 ? std::nullopt : std::optional{go_on});
    if (tapped == touch::ActionTap::go_on || (tapped == touch::ActionTap::action && open == 0)) {
        page.asks.page = Page::enter_room;
    } else if (tapped == touch::ActionTap::action && !missing.empty()) {
        open_part(page, missing.front());
    } else if (tapped == touch::ActionTap::action) {
        page.asks.override_hold = (*hold)->code;
    }
}

void draw_overview(const ArrivalPage& page, const std::optional<LocalDate>& since) {
    const bool tiles = page.drafts.section == Section::tiles || !since;
    if (tiles) {
        draw_tiles(page);
    } else {
        draw_unchanged(page, *since);
    }
    touch::Prompt prompt{.urgency = touch::Urgency::low, .title = page.say("arrival.prompt")};
    if (since) {
        const auto days = days_between(*since, page.today());
        prompt.title =
            page.glass.words().count("arrival.pre-visit", days, {{"date", shown_date(page.glass, *since)}});
        prompt.why = page.glass.words().count("arrival.blocks-left", static_cast<long>(blocks_left(page)));
        prompt.chips = {{tiles ? "show-blocks" : "show-tiles",
                         page.say(tiles ? "arrival.pre-visit-chip" : "arrival.holds-chip")}};
    }
    const auto chip = draw_case_prompt(page.glass, page.scene, prompt, page.asks).chip;
    if (!chip.empty()) {
        page.drafts.open(chip == "show-tiles" ? Section::tiles : Section::start);
    }
    draw_corner(page);
}

std::string letters_label(const ArrivalPage& page) {
    using Letters = ArrivalDrafts::Letters;
    switch (page.drafts.letters) {
        case Letters::substance:
            return page.say("arrival.type-substance");
        case Letters::reaction:
            return page.say("arrival.type-reaction");
        case Letters::medicine:
            return page.say("arrival.type-medicine");
        case Letters::escort_name:
            return page.say("arrival.type-escort");
        case Letters::escort_phone:
            return page.say("arrival.type-phone");
        case Letters::language:
            return page.say("arrival.type-language");
        case Letters::consent:
            return page.say(page.drafts.form == ConsentForm::not_possible ? "arrival.type-why-not"
                                                                          : "arrival.type-witness");
        case Letters::name:
            return page.say("arrival.type-name");
        case Letters::note:
            return page.say("arrival.type-note");
        case Letters::lot:
            return page.say("place.lot");
        case Letters::person:
            return page.say("arrival.person-" + page.drafts.field);
        case Letters::defer:
            return page.say("arrival.type-defer");
        case Letters::none:
            break;
    }
    return "";
}

}  // namespace

void ArrivalPage::type(ArrivalDrafts::Letters what, std::string_view known) const {
    drafts.letters = what;
    drafts.text = touch::TextDraft{60};
    drafts.text.set(known);
    drafts.keys = {};
}

void arrival_head(const ArrivalPage& page, const char* key, Rect place) {
    touch::text(page.glass, key, place, page.say(key),
                {.colour = page.glass.colours().text_2, .bold = true, .lines = place.h >= 54 ? 2 : 1});
}

bool arrival_key(const ArrivalPage& page, const std::string& name, Rect place, const std::string& title,
                 bool chosen, const std::string& note) {
    return touch::button(page.glass, name, place,
                         {.title = title,
                          .note = note,
                          .look = chosen ? touch::Look::chosen : touch::Look::rest,
                          .tick = false,
                          .corner_tick = true});
}

bool draw_section_foot(const ArrivalPage& page, const touch::Prompt& prompt,
                       const std::optional<touch::Action>& own, const std::string& missing) {
    auto shown = prompt;
    shown.chips.push_back({"back", page.say("touch.back")});
    if (draw_case_prompt(page.glass, page.scene, shown, page.asks).chip == "back") {
        page.drafts.open(Section::start);
        return false;
    }
    if (!own) {
        quiet_corner(page.glass, missing);
        return false;
    }
    return touch::action(page.glass, touch::layout_for(page.glass.size()).action, *own) ==
           touch::ActionTap::action;
}

void draw_section_next(const ArrivalPage& page, const touch::Prompt& prompt) {
    auto shown = prompt;
    shown.chips.push_back({"back", page.say("touch.back")});
    if (draw_case_prompt(page.glass, page.scene, shown, page.asks).chip == "back") {
        page.drafts.open(Section::start);
        return;
    }
    draw_corner(page);
}

void open_part(const ArrivalPage& page, ArrivalPart part) {
    switch (part) {
        case ArrivalPart::identity:
        case ArrivalPart::consent:
            page.drafts.open(Section::identity);
            break;
        case ArrivalPart::allergies:
            page.drafts.open(Section::identity);
            page.drafts.part = ArrivalDrafts::Part::allergies;
            break;
        case ArrivalPart::body:
            page.drafts.open(Section::identity);
            page.drafts.part = ArrivalDrafts::Part::body;
            break;
        case ArrivalPart::fasting:
            page.drafts.open(page.state().intakes.empty() ? Section::intake : Section::fasting);
            break;
        case ArrivalPart::screen:
            page.drafts.open(Section::fasting);
            break;
        case ArrivalPart::medicines:
            page.drafts.open(Section::medicines);
            break;
        case ArrivalPart::pregnancy:
            page.drafts.open(Section::pregnancy);
            break;
        case ArrivalPart::airway:
            page.drafts.open(Section::airway);
            break;
        case ArrivalPart::escort:
            page.drafts.open(Section::escort);
            break;
        case ArrivalPart::balloon:
            page.drafts.open(Section::balloon);
            break;
        case ArrivalPart::baseline:
            page.asks.sheet = Sheet::vitals;
            break;
    }
}

Asks draw_arrival(Glass& glass, const Scene& scene, ArrivalDrafts& drafts) {
    Asks asks;
    const ArrivalPage page{glass, scene, drafts, asks};
    if (drafts.letters != ArrivalDrafts::Letters::none) {
        if (draw_letters(glass, scene, letters_label(page), drafts.text, drafts.keys, asks)) {
            take_letters(page);
        }
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    switch (drafts.section) {
        case Section::start:
        case Section::tiles:
            draw_overview(page, pre_visit_day(*scene.ahead_state, scene.policy, scene.zone, scene.now));
            break;
        case Section::identity:
            draw_arrival_identity(page);
            break;
        case Section::fasting:
            draw_arrival_fasting(page);
            break;
        case Section::intake:
            draw_arrival_intake(page);
            break;
        case Section::medicines:
            draw_arrival_medicines(page);
            break;
        case Section::pregnancy:
            draw_arrival_pregnancy(page);
            break;
        case Section::airway:
            draw_arrival_airway(page);
            break;
        case Section::escort:
            draw_arrival_escort(page);
            break;
        case Section::balloon:
            draw_arrival_balloon(page);
            break;
        case Section::person:
            draw_arrival_person(page);
            break;
        case Section::defer:
            draw_arrival_defer(page);
            break;
    }
    return asks;
}

}  // namespace brimline::screens
