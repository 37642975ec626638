// The sheets of Discharge: how a paper was given, whether the escort is here, where the patient goes.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/discharge_parts.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

/// A key that opens the keyboard, with what was typed on it.
void letters_key(Glass& glass, const char* name, Rect place, const std::string& typed, const char* key,
                 DischargeDrafts::Letters letters, DischargeDrafts& drafts) {
    if (touch::button(glass, name, place,
                      {.title = typed.empty() ? glass.words().say(key) : typed,
                       .look = typed.empty() ? touch::Look::rest : touch::Look::chosen,
                       .tick = false})) {
        drafts.text = touch::TextDraft{80};
        drafts.text.set(typed);
        drafts.keys = {};
        drafts.letters = letters;
    }
}

/// Makes the PDF and sends it to the printer; how the paper was given is entered apart, once it is in a hand.
void draw_print(Glass& glass, const Scene& scene, const DischargeDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const bool mine = scene.print.card == drafts.card;
    const auto state = mine ? scene.print.state : PrintState::idle;
    const bool bad = state == PrintState::kept || state == PrintState::failed;
    if (touch::button(glass, "given/print-now", {864, 488, 400, 92},
                      {.title = words.say("discharge.print-now"),
                       .note = words.say(fmt::format("discharge.print-{}", name_of(state))),
                       .look = bad                         ? touch::Look::review
                               : state == PrintState::idle ? touch::Look::rest
                                                           : touch::Look::chosen,
                       .bold = true,
                       .tick = state == PrintState::printed})) {
        asks.print = drafts.card ? PaperAsked::card : PaperAsked::sheet;
    }
}

Rect way(int row) { return {864, 176 + 104 * static_cast<float>(row), 400, 92}; }

void draw_title(Glass& glass, const std::string& title) {
    touch::panel(glass, {864, 104, 400, 60});
    touch::text(glass, "sheet/title", {884, 106, 360, 56}, title, {.em = touch::step::body, .bold = true});
}

/// The version of the sheet that is printed, and who approved it; or that nobody has.
void draw_which_sheet(Glass& glass, const Scene& scene, Rect place) {
    const auto& words = glass.words();
    const auto* sheet = scene.policy.sheet(sheet_language(*scene.ahead_state, scene.policy));
    touch::panel(glass, place);
    touch::text(glass, "sheet/version", {place.x + 16, place.y + 6, place.w - 32, place.h - 12},
                sheet == nullptr
                    ? words.say("discharge.sheet-not-approved")
                    : words.say("discharge.sheet-version", {{"version", sheet->version},
                                                            {"date", shown_date(glass, sheet->date)},
                                                            {"name", sheet->approver}}),
                {.colour = glass.colours().text_2, .lines = 2});
}

}  // namespace

void draw_given(Glass& glass, const Scene& scene, DischargeDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    draw_title(glass, words.say(drafts.card ? "discharge.how-card" : "discharge.how-sheet"));
    int row = 0;
    for (const auto how : {Given::print, Given::pdf, Given::photo}) {
        const auto name = std::string{name_of(how)};
        if (touch::button(glass, "given/" + name, way(row++),
                          {.title = words.say("discharge.given-" + name),
                           .note = words.say("discharge.given-" + name + "-note"),
                           .bold = true})) {
            if (drafts.card) {
                asks.tell(brimline::Card{how, {}});
            } else {
                asks.tell(Leaflet{how, sheet_language(*scene.ahead_state, scene.policy)});
            }
            asks.sheet = Sheet::none;
        }
    }
    if (scene.prints) {
        draw_print(glass, scene, drafts, asks);
    }
    if (!drafts.card) {
        draw_which_sheet(glass, scene, {864, 592, 400, 72});
    }
    const bool back = sheet_prompt(glass, scene,
                                   {.urgency = touch::Urgency::low,
                                    .title = words.say("discharge.enter-after"),
                                    .why = words.say("discharge.no-printer-here")},
                                   asks);
    asks.sheet = back ? std::optional{Sheet::none} : asks.sheet;
    quiet_corner(glass, words.say("discharge.how-was-it"));
}

void draw_escort_here(Glass& glass, const Scene& scene, DischargeDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const auto& escort = scene.ahead_state->escort;
    draw_title(glass, words.say("discharge.escort"));
    if (!escort) {
        touch::text(glass, "escort/none", {872, 180, 384, 120}, words.say("discharge.name-at-arrival"),
                    {.em = touch::step::body, .lines = 3});
    } else {
        touch::AnswerPair pair{.bad = touch::Answer::no, .bad_look = touch::Look::review};
        if (escort->is.present) {
            pair.given = *escort->is.present ? touch::Answer::yes : touch::Answer::no;
        }
        const auto answer = touch::card_with_answer(
            glass, "escort", {864, 176, 400, 200},
            {.kind = touch::CardKind::plain,
             .title = words.say("discharge.is-name-here", {{"name", escort->is.name}}),
             .lines = {escort->is.phone.empty() ? words.say("discharge.no-phone") : escort->is.phone}},
            pair);
        if (answer) {
            Escort says = escort->is;
            says.present = *answer == touch::Answer::yes;
            asks.tell(says);
            asks.sheet = Sheet::none;
        }
    }
    letters_key(glass, "escort-name", {864, 396, 400, 92}, drafts.escort_name, "discharge.other-name",
                DischargeDrafts::Letters::name, drafts);
    letters_key(glass, "escort-phone", {864, 500, 400, 92}, drafts.escort_phone, "discharge.other-phone",
                DischargeDrafts::Letters::phone, drafts);
    const bool back = sheet_prompt(glass, scene,
                                   {.urgency = touch::Urgency::low,
                                    .title = words.say("discharge.asked-again"),
                                    .why = words.say("discharge.other-adult")},
                                   asks);
    asks.sheet = back ? std::optional{Sheet::none} : asks.sheet;
    if (drafts.escort_name.empty() || drafts.escort_phone.empty()) {
        quiet_corner(glass, words.say("discharge.answer-above"));
        return;
    }
    const touch::Action own{.command = "enter-escort",
                            .title = words.say("discharge.is-here", {{"name", drafts.escort_name}}),
                            .note = drafts.escort_phone};
    if (touch::action(glass, touch::layout_for(glass.size()).action, own) == touch::ActionTap::action) {
        Escort says;
        says.name = drafts.escort_name;
        says.phone = drafts.escort_phone;
        says.present = true;
        asks.tell(says);
        drafts.escort_name.clear();
        drafts.escort_phone.clear();
        asks.sheet = Sheet::none;
    }
}

void draw_goes(Glass& glass, const Scene& scene, DischargeDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    draw_title(glass, words.say("discharge.where-to"));
    float y = 172;
    for (const auto where : {Disposition::home, Disposition::ward, Disposition::transfer}) {
        const bool chosen = drafts.goes == where;
        if (touch::button(glass, fmt::format("goes/{}", name_of(where)), {864, y, 400, 76},
                          {.title = goes_words(glass, scene, where),
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .bold = true})) {
            drafts.goes = where;
            asks.sheet = Sheet::none;
        }
        y += 84;
    }
    letters_key(glass, "goes-words", {864, 424, 400, 76}, drafts.words, "discharge.in-words",
                DischargeDrafts::Letters::words, drafts);
    touch::text(glass, "goes/against", {872, 502, 384, 56}, words.say("discharge.against-how"),
                {.bold = true});
    const std::array<const char*, 2> told{"discharge.told-signed", "discharge.told-refused"};
    for (std::size_t i = 0; i < told.size(); ++i) {
        const bool chosen = drafts.goes == Disposition::against_advice && drafts.told == told[i];
        if (touch::button(glass, fmt::format("goes/against-{}", i + 1),
                          touch::cell({864, 560, 400, 104}, 2, 1, static_cast<int>(i), 0, 12),
                          {.title = words.say(told[i]),
                           .look = chosen ? touch::Look::review : touch::Look::rest,
                           .em = touch::step::note,
                           .corner_tick = true})) {
            drafts.goes = Disposition::against_advice;
            drafts.told = told[i];
            asks.sheet = Sheet::none;
        }
    }
    const bool back = sheet_prompt(glass, scene,
                                   {.urgency = touch::Urgency::low,
                                    .title = words.say("discharge.chosen-is-not-gone"),
                                    .why = words.say("discharge.corner-enters")},
                                   asks);
    asks.sheet = back ? std::optional{Sheet::none} : asks.sheet;
    quiet_corner(glass, words.say("discharge.where-to"));
}

}  // namespace brimline::screens
