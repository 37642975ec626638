// Release: five facts as No and Yes under view, the balloon card, and the corner that leads out of the room.
// The catheter coming off meets gate 4, so it is a Yes in column A and never in the corner.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/release_parts.h"
#include "app/kiosk/screens/size_parts.h"
#include "app/kiosk/screens/whose_word.h"

namespace brimline::screens {
namespace {

using touch::Answer;
using touch::Glass;
using touch::Rect;

constexpr std::array facts{ReleaseFact::off, ReleaseFact::dry, ReleaseFact::complete, ReleaseFact::position,
                           ReleaseFact::bleeding};

/// The answer as it stands: what is entered, else what is being answered.
std::optional<bool> standing(const Scene& scene, const ReleaseDrafts& drafts, ReleaseFact fact) {
    const auto entered = fact_of(*scene.ahead_state, fact).yes;
    switch (fact) {
        case ReleaseFact::off:
            return entered ? entered : drafts.off_no ? std::optional{false} : std::nullopt;
        case ReleaseFact::position:
            return drafts.position_same ? drafts.position_same : entered;
        case ReleaseFact::bleeding:
            return drafts.bleeding ? drafts.bleeding : entered;
        case ReleaseFact::dry:
        case ReleaseFact::complete:
            return entered;
    }
    return entered;
}

/// Missing as the page shows it: answered in the drafts counts.
std::vector<ReleaseFact> missing_here(const Scene& scene, const ReleaseDrafts& drafts) {
    std::vector<ReleaseFact> missing;
    for (const auto fact : release_missing(*scene.ahead_state)) {
        const auto stands = standing(scene, drafts, fact);
        const bool answered = stands && (fact == ReleaseFact::position || fact == ReleaseFact::bleeding);
        if (!answered) {
            missing.push_back(fact);
        }
    }
    return missing;
}

std::string note_of(const Glass& glass, const Scene& scene, ReleaseFact fact, bool answered) {
    if (const auto at = fact_of(*scene.ahead_state, fact).at) {
        return clock_text(*at, scene.zone, true);
    }
    return glass.words().say(answered ? "release.with-the-next" : "release.not-answered");
}

/// An entry that turned out not to be so is withdrawn; both stay in the record.
void take_back_off(const Glass& glass, const Scene& scene, Asks& asks) {
    Correct says;
    says.entry = EntryRef{scene.ahead_state->device().off->seq, {}};
    says.reason = glass.words().say("release.changed-to-no");
    says.withdrawn = true;
    says.changes = "{}";
    asks.tell(says);
}

void take_off(const Glass& glass, const Scene& scene, bool yes, ReleaseDrafts& drafts, Asks& asks) {
    drafts.off_no = !yes;
    if (!yes && scene.ahead_state->device().off) {
        take_back_off(glass, scene, asks);
    } else if (yes && release_asks_read_back(*scene.ahead_state)) {
        asks.sheet = Sheet::gate_release;
    } else if (yes) {
        asks.tell(DeviceOff{});
    }
}

void take(const Glass& glass, const Scene& scene, ReleaseFact fact, bool yes, ReleaseDrafts& drafts,
          Asks& asks) {
    switch (fact) {
        case ReleaseFact::off:
            take_off(glass, scene, yes, drafts, asks);
            break;
        case ReleaseFact::dry:
            if (yes) {
                asks.tell(ValveDry{static_cast<int>(scene.policy.fill.valve_dry.count())});
            } else {
                asks.tell(ValveNotDry{glass.words().say("release.did-nothing")});
                asks.sheet = Sheet::valve;
            }
            break;
        case ReleaseFact::complete:
            asks.tell(CatheterComplete{yes});
            break;
        case ReleaseFact::position:
            drafts.position_same = yes;
            break;
        case ReleaseFact::bleeding:
            drafts.bleeding = yes;
            break;
    }
    const auto same = standing(scene, drafts, ReleaseFact::position);
    const auto bleeding = standing(scene, drafts, ReleaseFact::bleeding);
    const bool looked = fact == ReleaseFact::position || fact == ReleaseFact::bleeding;
    if (looked && same && bleeding) {
        asks.tell_said_by(ReleaseLook{*same, *bleeding}, scene.physician);
        drafts.position_same.reset();
        drafts.bleeding.reset();
    }
}

void draw_fact(Glass& glass, const Scene& scene, std::size_t index, bool next, ReleaseDrafts& drafts,
               Asks& asks) {
    const auto& c = glass.colours();
    const auto fact = facts[index];
    const float y = 152 + 102 * static_cast<float>(index);
    const auto name = fmt::format("release/{}", name_of(fact));
    const auto stands = standing(scene, drafts, fact);
    const auto seconds = std::to_string(scene.policy.fill.valve_dry.count());
    touch::text(glass, name + "/question", {196, y + 2, 394, 56},
                glass.words().say(fmt::format("release.{}", name_of(fact)), {{"s", seconds}}),
                {.em = touch::step::body, .bold = next});
    touch::text(glass, name + "/note", {196, y + 59, 394, 28},
                note_of(glass, scene, fact, stands.has_value()), {.colour = c.text_2, .lines = 1});
    if (next) {
        touch::outline(glass, {184, y - 5, 656, 98}, c.accent, 3, touch::control_radius);
    } else if (index + 1 < facts.size()) {
        touch::line(glass, {196, y + 95}, {828, y + 95}, c.hairline, 2);
    }
    const bool should_be = fact != ReleaseFact::bleeding;
    touch::AnswerPair pair{.bad = should_be ? Answer::no : Answer::yes, .bad_look = touch::Look::review};
    if (stands) {
        pair.given = *stands ? Answer::yes : Answer::no;
    }
    if (const auto tapped = touch::answer_pair(glass, name, {602, y, 226, 88}, pair)) {
        take(glass, scene, fact, *tapped == Answer::yes, drafts, asks);
    }
}

std::string date_or_dash(const touch::Glass& glass, const std::optional<LocalDate>& date) {
    return date ? shown_date(glass, *date) : std::string{"–"};
}

std::string join_known(const std::string& a, const std::string& b) {
    return a.empty() ? (b.empty() ? "–" : b) : b.empty() ? a : a + ", " + b;
}

void draw_card(Glass& glass, const Scene& scene) {
    const auto& c = glass.colours();
    const auto& words = glass.words();
    const auto& patient = scene.ahead_state->patient;
    const auto card = balloon_card(*scene.ahead_state, scene.policy, scene.zone, scene.now);
    touch::panel(glass, {864, 104, 400, 448});
    panel_head(glass, "card/head", {864, 104, 400, 448}, words.say("release.card"));
    touch::fill(glass, {880, 152, 368, 384}, c.bg, touch::control_radius);
    const auto given = patient.given_name ? *patient.given_name + " " : std::string{};
    touch::text(glass, "card/name", {900, 160, 328, 38}, given + patient.family_name.value_or("–"),
                {.em = touch::step::body, .bold = true, .lines = 1});
    const auto born = patient.born ? shown_date(glass, *patient.born) : std::string{"–"};
    touch::text(glass, "card/born", {900, 198, 328, 30}, born + " · " + patient.number.value_or("–"),
                {.colour = c.text_2, .lines = 1});
    touch::line(glass, {900, 236}, {1228, 236}, c.hairline, 2);
    auto volume = ml_words(glass, card.volume);
    if (card.dye) {
        volume += ", " + words.say("release.dye", {{"ml", ml_words(glass, *card.dye)}});
    }
    const std::array<std::pair<const char*, std::string>, 5> lines{
        {{"placed", date_or_dash(glass, card.placed)},
         {"volume", volume},
         {"lot", join_known(card.lot, card.serial)},
         {"book-by", date_or_dash(glass, card.book_by)},
         {"due", date_or_dash(glass, card.due)}}};
    float y = 248;
    for (const auto& [name, value] : lines) {
        list_line(glass, fmt::format("card/{}", name), {900, y, 328, 34},
                  words.say(fmt::format("release.{}", name)), value, 124);
        y += 37;
    }
    touch::line(glass, {900, 474}, {1228, 474}, c.hairline, 2);
    touch::text(glass, "card/clinic", {900, 478, 328, 26}, scene.policy.clinic.name,
                {.colour = c.text_2, .lines = 1});
    touch::text(glass, "card/phone", {900, 504, 328, 28}, scene.policy.clinic.phone,
                {.bold = true, .align = touch::Align::right, .lines = 1});
}

/// What the corner is once the facts are there; nothing is asked of a hand that may not.
touch::Action step_action(const Glass& glass, const Scene& scene, ReleaseStep step) {
    const auto& words = glass.words();
    touch::Action face{.command = std::string{name_of(step)},
                       .title = words.say(fmt::format("release.step-{}", name_of(step)))};
    if (step == ReleaseStep::pause) {
        face.look = touch::ActionLook::opens;
    } else if (step == ReleaseStep::end_sedation && !present_with(scene, Role::sedation_provider)) {
        face.note = words.say("release.tap-a-chip");
    } else if (step == ReleaseStep::end_sedation) {
        face.note = short_name(scene.ahead, *present_with(scene, Role::sedation_provider));
    }
    return face;
}

void follow_step(const Scene& scene, ReleaseStep step, Asks& asks) {
    switch (step) {
        case ReleaseStep::scope_out:
            asks.tell(ScopeOut{});
            break;
        case ReleaseStep::end_sedation:
            tell_as(scene, Role::sedation_provider, EndSedation{}, asks);
            break;
        case ReleaseStep::pause:
            asks.page = Page::pause_leaving;
            break;
        case ReleaseStep::leave_room:
            asks.tell(LeaveRoom{});
            break;
    }
}

void draw_corner(Glass& glass, const Scene& scene, const ReleaseDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    const auto corner = touch::layout_for(glass.size()).action;
    const auto missing = missing_here(scene, drafts);
    if (!missing.empty() && !scene.ahead_state->device().not_left_in) {
        const touch::Action next{.command = fmt::format("next-{}", name_of(missing.front())),
                                 .title = words.say(fmt::format("release.next-{}", name_of(missing.front()))),
                                 .note = words.say("release.answer-at-left"),
                                 .look = touch::ActionLook::question};
        const touch::GoOn go_on{words.say("place.go-on"),
                                words.count("place.open-items", static_cast<long>(missing.size()))};
        if (touch::action(glass, corner, next, go_on) == touch::ActionTap::go_on) {
            asks.page = Page::recovery;
        }
        return;
    }
    const auto step = release_step(*scene.ahead_state);
    if (!step) {
        const touch::Action on{.command = "to-handover",
                               .title = words.say("release.to-handover"),
                               .note = words.say("release.out-of-the-room"),
                               .look = touch::ActionLook::opens};
        if (touch::action(glass, corner, on) == touch::ActionTap::action) {
            asks.page = Page::recovery;
        }
        return;
    }
    if (touch::action(glass, corner, step_action(glass, scene, *step)) == touch::ActionTap::action) {
        follow_step(scene, *step, asks);
    }
}

std::optional<touch::Prompt> own_prompt(const Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const auto agreed = agreed_by(*scene.ahead_state, scene.policy);
    if (!agreed) {
        return touch::Prompt{.urgency = touch::Urgency::medium,
                             .title = words.say("release.not-agreed"),
                             .why = words.say("release.not-agreed-why")};
    }
    const auto volume = ml_words(glass, running_volume(scene.ahead_state->device()));
    return touch::Prompt{.urgency = touch::Urgency::low,
                         .title = words.say("release.confirmed", {{"ml", volume}}),
                         .why = page_one_words(glass, *agreed)};
}

void draw_ways(Glass& glass, const Scene& scene, Asks& asks) {
    const auto& words = glass.words();
    const Rect place{864, 564, 400, 100};
    if (scene.ahead_state->left_room || scene.ahead_state->device().not_left_in) {
        return;
    }
    const bool drips = valve_watch(*scene.ahead_state, scene.policy).has_value();
    if (drips) {
        if (touch::button(glass, "valve-watch", touch::cell(place, 2, 1, 0, 0, 12),
                          {.title = words.say("release.valve-watch"), .bold = true})) {
            asks.sheet = Sheet::valve;
        }
    }
    if (touch::button(glass, "another-device", drips ? touch::cell(place, 2, 1, 1, 0, 12) : place,
                      {.title = words.say("release.another-device"),
                       .note = drips ? std::string{} : words.say("release.not-left-in-note")})) {
        asks.sheet = Sheet::not_left_in;
    }
}

}  // namespace

Asks draw_release(Glass& glass, const Scene& scene, ReleaseDrafts& drafts) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    if (scene.sheet == Sheet::valve && valve_watch(*scene.ahead_state, scene.policy)) {
        draw_valve(glass, scene, drafts, asks);
        return asks;
    }
    if (scene.sheet == Sheet::not_left_in) {
        draw_not_left_in(glass, scene, drafts, asks);
        return asks;
    }
    touch::panel(glass, {176, 104, 672, 560});
    panel_head(glass, "release/head", {176, 104, 672, 560},
               glass.words().say("release.under-view", {{"name", whose_word(scene)}}));
    const auto missing = missing_here(scene, drafts);
    for (std::size_t i = 0; i < facts.size(); ++i) {
        draw_fact(glass, scene, i, !missing.empty() && missing.front() == facts[i], drafts, asks);
    }
    if (scene.sheet == Sheet::gate_release && release_asks_read_back(*scene.ahead_state)) {
        draw_gate_release(glass, scene, asks);
        return asks;
    }
    draw_card(glass, scene);
    draw_ways(glass, scene, asks);
    draw_case_prompt(glass, scene, own_prompt(glass, scene), asks);
    draw_corner(glass, scene, drafts, asks);
    return asks;
}

}  // namespace brimline::screens
