// Start now: a case without a list entry in three taps, what, who, weight; its clock runs from the first tap.
// Everything else is an open item.
#include <fmt/format.h>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/desk_frame.h"
#include "app/kiosk/screens/list_parts.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

void began(const Scene& scene, StartDraft& draft) {
    if (!draft.first_tap) {
        draft.first_tap = scene.now;
    }
}

void head(Glass& glass, const char* name, float x, float width) {
    touch::text(glass, fmt::format("start/{}", name), {x, 108, width, 34},
                glass.words().say(fmt::format("start.{}", name)),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
}

void draw_what(Glass& glass, const Scene& scene, StartDraft& draft) {
    head(glass, "what", 24, 392);
    int row = 0;
    for (const auto kind : {CaseKind::removal, CaseKind::placement}) {
        const bool chosen = draft.kind == kind;
        if (touch::button(glass, fmt::format("kind/{}", name_of(kind)),
                          {16, 148 + 132 * static_cast<float>(row++), 404, 120},
                          {.title = glass.words().say(fmt::format("day-list.kind-{}", name_of(kind))),
                           .look = chosen ? touch::Look::chosen : touch::Look::rest,
                           .em = touch::step::act})) {
            draft.kind = kind;
            began(scene, draft);
        }
    }
}

void draw_who(Glass& glass, const Scene& scene, StartDraft& draft) {
    const auto& words = glass.words();
    head(glass, "who", 440, 392);
    if (touch::button(glass, "who/unknown", {432, 148, 404, 120},
                      {.title = words.say("start.unknown"),
                       .note = words.say("start.name-follows"),
                       .look = draft.unknown ? touch::Look::chosen : touch::Look::rest})) {
        draft.unknown = true;
        draft.name = touch::TextDraft{40};
        began(scene, draft);
    }
    const auto& typed = draft.name.text();
    if (touch::button(glass, "who/name", {432, 280, 404, 120},
                      {.title = typed.empty() ? words.say("start.type-the-name") : typed,
                       .note = words.say("start.family-name"),
                       .look = typed.empty() ? touch::Look::rest : touch::Look::chosen})) {
        draft.typing = true;
        draft.unknown = false;
        began(scene, draft);
    }
}

void draw_weight(Glass& glass, const Scene& scene, StartDraft& draft) {
    head(glass, "weight", 856, 400);
    for (int i = 0; i < 12; ++i) {
        const int kg = 50 + 10 * i;
        if (touch::value_key(glass, fmt::format("weight/{}", kg),
                             touch::cell({864, 148, 400, 400}, 3, 4, i % 3, i / 3, 12), std::to_string(kg),
                             draft.weight == kg, touch::step::strong)) {
            draft.weight = kg;
            began(scene, draft);
        }
    }
    touch::text(glass, "weight/note", {864, 556, 400, 60}, glass.words().say("start.estimated"),
                {.colour = glass.colours().text_2});
}

void tell_start(const Scene& scene, StartDraft& draft, Asks& asks) {
    StartNow says;
    says.kind = *draft.kind;
    says.patient.family_name = draft.unknown ? std::string{"unknown"} : draft.name.text();
    says.weight_kg = Decimal::of(*draft.weight);
    says.weight_basis = WeightBasis::estimated;
    const auto name = free_name(scene.ahead, "N");
    asks.say.push_back({says, {}, {}, draft.first_tap, false, name});
    asks.open_case = name;
    asks.page = Page::sedation;
    if (scene.person.empty()) {
        asks.sheet = Sheet::vitals;  // what needs no PIN; the rest follows the sign-in
    }
    draft = {};
}

}  // namespace

Asks draw_start_now(Glass& glass, const Scene& scene, StartDraft& draft) {
    Asks asks;
    const auto& words = glass.words();
    if (draft.typing) {
        draft.typing =
            !draw_desk_letters(glass, scene, words.say("start.family-name"), draft.name, draft.keys);
        return asks;
    }
    draw_desk_strip(glass, scene, words.say("start.title"),
                    draft.first_tap ? words.say("start.clock-runs",
                                                {{"time", clock_text(*draft.first_tap, scene.zone, true)}})
                                    : words.say("start.clock-begins"));
    draw_what(glass, scene, draft);
    draw_who(glass, scene, draft);
    draw_weight(glass, scene, draft);
    touch::panel(glass, {16, 556, 820, 108});
    touch::text(glass, "start/rest", {36, 562, 780, 36}, words.say("start.rest"),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    touch::text(glass, "start/rest-list", {36, 598, 780, 60}, words.say("start.rest-list"), {});
    const auto tap = touch::prompt_bar(glass, {16, 692, 820, 96},
                                       {.urgency = touch::Urgency::medium,
                                        .title = words.say("start.gate-is-asked"),
                                        .chips = {{"back", words.say("touch.back")}}});
    if (tap.chip) {
        asks.page = scene.person.empty() ? Page::sign_in : Page::day_list;
        draft = {};
        return asks;
    }
    const bool named = draft.unknown || !draft.name.text().empty();
    if (!draft.kind || !named || !draft.weight) {
        quiet_corner(glass, words.say(!draft.kind ? "start.next-what"
                                      : !named    ? "start.next-who"
                                                  : "start.next-weight"));
        return asks;
    }
    const touch::Action open{
        .command = "open-sedation",
        .title = words.say("start.open-sedation"),
        .note = words.say("start.clock-since", {{"time", clock_text(*draft.first_tap, scene.zone)}})};
    if (touch::action(glass, touch::layout_for(glass.size()).action, open) == touch::ActionTap::action) {
        tell_start(scene, draft, asks);
    }
    return asks;
}

}  // namespace brimline::screens
