// What the strip has no room for: the names in full, numbers, and every allergy with its reaction. The birth
// date stays covered while it is being asked. Over Fill the corner stays Syringe in.
#include <fmt/format.h>

#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/pages.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t room = 7;

void draw_who(Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const auto& patient = scene.ahead_state->patient;
    const Rect panel{176, 104, 672, 560};
    touch::panel(glass, panel);
    panel_head(glass, "who/head", panel, words.say("patient.head"));
    touch::text(glass, "who/family", {196, 148, 632, 72}, in_capitals(patient.family_name.value_or("–")),
                {.em = touch::step::act, .bold = true});
    touch::text(glass, "who/given", {196, 224, 632, 56}, patient.given_name.value_or("–"),
                {.em = touch::step::act});
    const auto language = patient.language.value_or("");
    const auto key = "language." + language;
    const auto sex = patient.sex_at_birth
                         ? words.say(fmt::format("book.sex-{}", name_of(*patient.sex_at_birth)))
                         : std::string{"–"};
    const std::array<std::pair<const char*, std::string>, 5> lines{
        {{"born", patient.born ? shown_date(glass, *patient.born) : "–"},
         {"sex", sex},
         {"number", patient.number.value_or("–")},
         {"phone", patient.phone.value_or("–")},
         {"language", language.empty() ? "–"
                      : words.has(key) ? words.say(key)
                                       : language}}};
    float y = 300;
    for (const auto& [name, value] : lines) {
        const Rect line{196, y, 632, 46};
        const auto slot = fmt::format("who/{}", name);
        if (std::string_view{name} == "born" && born_is_asked(scene)) {
            touch::text(glass, slot, line.left_part(240), words.say("patient.born"),
                        {.colour = glass.colours().text_2, .lines = 1});
            touch::covered(glass, "who/born-covered", line.right_part(300));
        } else {
            list_line(glass, slot, line, words.say(fmt::format("patient.{}", name)), value, 240);
        }
        y += 56;
    }
}

/// Drugs and materials as they were entered; false when that is all of them.
bool draw_allergies(Glass& glass, const CaseState& state, PatientDraft& draft) {
    const auto& words = glass.words();
    const Rect panel{864, 104, 400, 464};
    touch::panel(glass, panel);
    panel_head(glass, "all-allergies/head", panel, words.say("arrival.allergies-head"));
    if (!state.allergies) {
        touch::text(glass, "all-allergies/none", {884, 148, 360, 60}, words.say("frame.allergies-not-asked"),
                    {.em = touch::step::body, .bold = true});
        return false;
    }
    const auto list = state.allergies->is.list.value_or(std::vector<Allergy>{});
    if (list.empty()) {
        touch::text(glass, "all-allergies/none", {884, 148, 360, 60}, words.say("frame.allergies-none-known"),
                    {.em = touch::step::body, .bold = true});
        return false;
    }
    draft.first = draft.first >= list.size() ? 0 : draft.first;
    for (std::size_t i = 0; i < room && draft.first + i < list.size(); ++i) {
        const auto& one = list[draft.first + i];
        const float y = 148 + 58 * static_cast<float>(i);
        touch::icon(glass, touch::Icon::look, {896, y + 27}, 26);
        touch::text(glass, fmt::format("all-allergies/{}", i + 1), {924, y, 320, 54},
                    with_capital(one.substance) + (one.reaction ? ", " + *one.reaction : std::string{}),
                    {.bold = true});
    }
    return list.size() > room;
}

}  // namespace

Asks draw_patient(Glass& glass, const Scene& scene, PatientDraft& draft) {
    Asks asks;
    const auto& words = glass.words();
    draw_case_frame_bare(glass, scene, asks);
    draw_who(glass, scene);
    const bool more = draw_allergies(glass, *scene.ahead_state, draft);
    if (more &&
        touch::button(glass, "more-allergies", {864, 576, 400, 88}, {.title = words.say("patient.more")})) {
        draft.first += room;
    }
    draw_foot_to_read(glass, scene,
                      {.urgency = touch::Urgency::low,
                       .title = words.say("patient.prompt"),
                       .why = words.say("patient.changed-at-arrival")},
                      asks);
    return asks;
}

}  // namespace brimline::screens
