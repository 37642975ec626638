// Discharge: every check in its cell, the patient's sheet beside them, and the corner that says what is next
// and at last who takes the patient where.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/discharge_parts.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/letters.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

std::string note_of(const Glass& glass, const Scene& scene, const HomeLine& line,
                    const DischargeDrafts& drafts) {
    const auto& words = glass.words();
    const auto time = line.at ? clock_text(*line.at, scene.zone) : std::string{};
    if (line.check == HomeCheck::goes && drafts.goes && !line.met) {
        return words.say(fmt::format("discharge.to-{}", name_of(*drafts.goes)));
    }
    if (line.check == HomeCheck::escort) {
        const auto& escort = scene.ahead_state->escort;
        return !escort ? words.say("discharge.nobody-named")
                       : words.say(line.met ? "discharge.is-here" : "discharge.not-here-yet",
                                   {{"name", escort->is.name}});
    }
    if (line.value) {
        return fmt::format("{} · {}", *line.value, time);
    }
    if (line.ml) {
        return ml_words(glass, *line.ml) + " · " + time;
    }
    return time.empty() ? words.say("discharge.not-yet") : time;
}

/// Where a tap on a cell leads: an answer in one tap, or what the answer needs.
void follow(const Scene& scene, const HomeLine& line, DischargeDrafts& drafts, RecoveryDrafts& recovery,
            Asks& asks) {
    const auto answer = [&](const char* check) {
        Answer says;
        says.check = check;
        says.value = Answered::yes;
        asks.tell(says);
    };
    switch (line.check) {
        case HomeCheck::fit:
            asks.page = Page::recovery;
            break;
        case HomeCheck::score:
            recovery.score = {};
            recovery.score.scale = Scale::padss;
            asks.page = Page::recovery;
            asks.sheet = Sheet::score;
            break;
        case HomeCheck::drink:
        case HomeCheck::nausea:
        case HomeCheck::pain:
            asks.page = Page::recovery;
            asks.sheet = Sheet::symptoms;
            break;
        case HomeCheck::cannula:
        case HomeCheck::prescriptions:
        case HomeCheck::advice:
            if (!line.met) {
                answer(std::string{name_of(line.check)}.c_str());
            }
            break;
        case HomeCheck::sheet:
        case HomeCheck::card:
            drafts.card = line.check == HomeCheck::card;
            asks.sheet = Sheet::given;
            break;
        case HomeCheck::escort:
            asks.sheet = Sheet::escort_here;
            break;
        case HomeCheck::goes:
            if (!scene.ahead_state->discharged) {
                asks.sheet = Sheet::goes;
            }
            break;
    }
}

bool draw_cell(Glass& glass, const Scene& scene, Rect place, const HomeLine& line, bool next,
               const DischargeDrafts& drafts) {
    const auto& c = glass.colours();
    const auto name = fmt::format("home/{}", name_of(line.check));
    const bool chosen = line.check == HomeCheck::goes && drafts.goes && !line.met;
    const bool tapped = touch::button(glass, name, place,
                                      {.title = "",
                                       .look = line.met ? touch::Look::chosen
                                               : next   ? touch::Look::accent
                                                        : touch::Look::rest,
                                       .tick = false});
    touch::icon(glass, line.met || chosen ? touch::Icon::tick : touch::Icon::ring,
                {place.x + 22, place.y + 24}, 20);
    touch::text(glass, name + "/words", {place.x + 40, place.y + 2, place.w - 46, 54},
                glass.words().say(fmt::format("discharge.{}", name_of(line.check))),
                {.bold = line.met || next});
    touch::text(glass, name + "/note", {place.x + 14, place.y + 56, place.w - 22, 28},
                note_of(glass, scene, line, drafts),
                {.colour = line.met ? c.text : c.text_2, .lines = 1, .may_cut = true});
    return tapped;
}

std::size_t missing_but_goes(const std::vector<HomeLine>& lines) {
    return static_cast<std::size_t>(std::count_if(lines.begin(), lines.end(), [](const HomeLine& line) {
        return !line.met && line.required && line.check != HomeCheck::goes;
    }));
}

void draw_corner(Glass& glass, const Scene& scene, const std::vector<HomeLine>& lines,
                 DischargeDrafts& drafts, RecoveryDrafts& recovery, Asks& asks) {
    const auto& words = glass.words();
    const auto corner = touch::layout_for(glass.size()).action;
    if (scene.ahead_state->discharged) {
        const touch::Action on{
            .command = "to-record",
            .title = words.say("discharge.to-record"),
            .note =
                words.say("discharge.gone-at",
                          {{"time", clock_text(scene.ahead_state->discharged->stamp.happened, scene.zone)}}),
            .look = touch::ActionLook::opens};
        if (touch::action(glass, corner, on) == touch::ActionTap::action) {
            asks.page = Page::record;
        }
        return;
    }
    const auto missing = missing_but_goes(lines);
    const auto first =
        std::find_if(lines.begin(), lines.end(), [](const HomeLine& l) { return !l.met && l.required; });
    const bool leaves = drafts.goes.has_value();
    touch::Action face{.command = "leave", .title = words.say("discharge.leaves")};
    if (leaves) {
        face.title = goes_words(glass, scene, *drafts.goes);
    }
    std::optional<touch::GoOn> go_on;
    if (missing > 0 || !leaves) {
        face = {.command = fmt::format("next-{}", name_of(first->check)),
                .title = words.say(fmt::format("discharge.{}", name_of(first->check))),
                .note = missing > 0 ? words.count("discharge.more-then", static_cast<long>(missing))
                                    : words.say("discharge.where-to"),
                .look = touch::ActionLook::next_missing};
        if (missing > 0) {
            go_on = touch::GoOn{words.say("place.go-on"),
                                words.count("place.open-items", static_cast<long>(missing))};
        }
    }
    const auto tap = touch::action(glass, corner, face, go_on);
    if (tap == touch::ActionTap::go_on && !leaves) {
        asks.sheet = Sheet::goes;
    } else if (tap == touch::ActionTap::go_on ||
               (tap == touch::ActionTap::action && face.command == "leave")) {
        tell_discharge(glass, scene, drafts, asks);
    } else if (tap == touch::ActionTap::action) {
        follow(scene, *first, drafts, recovery, asks);
    }
}

std::string letters_label(const Glass& glass, DischargeDrafts::Letters letters) {
    switch (letters) {
        case DischargeDrafts::Letters::name:
            return glass.words().say("arrival.type-escort");
        case DischargeDrafts::Letters::phone:
            return glass.words().say("arrival.type-phone");
        case DischargeDrafts::Letters::words:
        case DischargeDrafts::Letters::none:
            break;
    }
    return glass.words().say("discharge.in-words");
}

void take_letters(DischargeDrafts& drafts) {
    auto& into = drafts.letters == DischargeDrafts::Letters::name    ? drafts.escort_name
                 : drafts.letters == DischargeDrafts::Letters::phone ? drafts.escort_phone
                                                                     : drafts.words;
    into = drafts.text.text();
    drafts.letters = DischargeDrafts::Letters::none;
}

touch::Prompt own_prompt(const Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const auto who =
        scene.ahead_state->patient.given_name.value_or(scene.ahead_state->patient.family_name.value_or("–"));
    return {.urgency = touch::Urgency::low,
            .title = words.say("discharge.read-with", {{"name", who}}),
            .why = words.say("discharge.says-back")};
}

}  // namespace

std::string goes_words(const Glass& glass, const Scene& scene, Disposition where) {
    const auto& words = glass.words();
    const auto& escort = scene.ahead_state->escort;
    if (where == Disposition::home && escort && escort->is.present.value_or(false)) {
        return words.say("discharge.home-with", {{"name", escort->is.name}});
    }
    return words.say(fmt::format("discharge.to-{}", name_of(where)));
}

void tell_discharge(const Glass& glass, const Scene& scene, const DischargeDrafts& drafts, Asks& asks) {
    Discharge says;
    says.disposition = *drafts.goes;
    const auto& escort = scene.ahead_state->escort;
    if (says.disposition == Disposition::home && escort && escort->is.present.value_or(false)) {
        says.with = escort->is.name;
    }
    if (says.disposition == Disposition::against_advice) {
        says.words = glass.words().say(drafts.told);
    }
    if (!drafts.words.empty()) {
        says.words = says.words ? *says.words + ". " + drafts.words : drafts.words;
    }
    asks.tell(says);
    asks.page = Page::record;
}

Asks draw_discharge(Glass& glass, const Scene& scene, DischargeDrafts& drafts, RecoveryDrafts& recovery) {
    Asks asks;
    if (drafts.letters != DischargeDrafts::Letters::none) {
        if (draw_letters(glass, scene, letters_label(glass, drafts.letters), drafts.text, drafts.keys,
                         asks)) {
            take_letters(drafts);
        }
        return asks;
    }
    draw_case_frame_bare(glass, scene, asks);
    draw_home_sheet(glass, scene);
    if (scene.sheet == Sheet::given) {
        draw_given(glass, scene, drafts, asks);
        return asks;
    }
    if (scene.sheet == Sheet::escort_here) {
        draw_escort_here(glass, scene, drafts, asks);
        return asks;
    }
    if (scene.sheet == Sheet::goes) {
        draw_goes(glass, scene, drafts, asks);
        return asks;
    }
    const auto lines = home_lines(*scene.ahead_state, scene.policy, scene.now);
    const auto first =
        std::find_if(lines.begin(), lines.end(), [](const HomeLine& l) { return !l.met && l.required; });
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto place =
            touch::cell({864, 104, 400, 560}, 2, 6, static_cast<int>(i % 2), static_cast<int>(i / 2), 8);
        const bool next = first != lines.end() && first->check == lines[i].check;
        if (draw_cell(glass, scene, place, lines[i], next, drafts)) {
            follow(scene, lines[i], drafts, recovery, asks);
        }
    }
    draw_case_prompt(glass, scene, own_prompt(glass, scene), asks);
    draw_corner(glass, scene, lines, drafts, recovery, asks);
    return asks;
}

}  // namespace brimline::screens
