// A role changes hands: offered to another person, who accepts it. What that person takes over stands beside.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/dose_words.h"
#include "app/kiosk/screens/fill_corner.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

std::string role_id() { return std::string{name_of(Role::sedation_provider)}; }

/// Those who could take it: everybody with the role but the one who has it now.
std::vector<std::string> takers(const Scene& scene) {
    std::vector<std::string> ids;
    const auto& holders = scene.ahead_state->role_holder;
    const auto holder = holders.find(role_id());
    const auto now = holder == holders.end() ? scene.person : holder->second;
    for (const auto& [id, person] : scene.ahead.people) {
        if (person.active && person.has(Role::sedation_provider) && id != now) {
            ids.push_back(id);
        }
    }
    constexpr std::size_t room = 4;
    ids.resize(std::min(ids.size(), room));
    return ids;
}

/// What is handed over, as it stands now.
void draw_state(Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const auto& state = *scene.ahead_state;
    const Rect panel{176, 104, 672, 560};
    touch::panel(glass, panel);
    touch::text(glass, "state/head", {196, 112, 632, 40}, words.say("role.taken-over"),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    std::vector<std::string> lines;
    for (const auto& total : dose_totals(state, scene.now)) {
        lines.push_back(drug_words(scene.policy, total.drug) + " " + decimal_words(glass, total.total) + " " +
                        words.say("unit.dose-" + total.unit));
    }
    for (const auto* run : running_infusions(state)) {
        lines.push_back(words.say("role.infusion", {{"drug", drug_words(scene.policy, run->start.is.drug)},
                                                    {"rate", decimal_words(glass, run->start.is.rate)},
                                                    {"unit", unit_words(glass, run->start.is.unit)}}));
    }
    if (!state.depths.empty()) {
        lines.push_back(
            words.say("role.depth", {{"n", std::to_string(state.depths.back().is.moaas)},
                                     {"time", clock_text(state.depths.back().stamp.happened, scene.zone)}}));
    }
    if (const auto lowest = lowest_spo2(state)) {
        lines.push_back(words.say("role.lowest", {{"n", std::to_string(lowest->value)},
                                                  {"time", clock_text(lowest->at, scene.zone)}}));
    }
    if (const auto due = next_vitals_due(state, scene.policy)) {
        lines.push_back(words.say("role.next-set", {{"time", clock_text(*due, scene.zone)}}));
    }
    if (lines.empty()) {
        lines.push_back(words.say("role.nothing-yet"));
    }
    for (std::size_t i = 0; i < lines.size() && i < 10; ++i) {
        touch::text(glass, fmt::format("state/{}", i + 1), {196, 160 + 48 * static_cast<float>(i), 632, 42},
                    lines[i], {.em = touch::step::body, .lines = 1});
    }
}

/// Offered and not yet accepted: the one named accepts as the chosen person.
void draw_offered(Glass& glass, const Scene& scene, const std::string& to, Asks& asks) {
    const auto& words = glass.words();
    const bool own = to == scene.person;
    touch::card(glass, "offered", {864, 104, 400, 160},
                {.kind = touch::CardKind::review,
                 .title = words.say("role.offered", {{"name", short_name(scene.ahead, to)}}),
                 .lines = {words.say(own ? "role.accept-below" : "role.choose-chip")}});
    if (own && touch::button(glass, "accept-role", {864, 276, 400, 112},
                             {.title = words.say("role.accept"),
                              .note = words.say("role.accept-note"),
                              .look = touch::Look::filled,
                              .em = touch::step::act})) {
        asks.tell(AcceptRole{role_id()});
    }
}

void draw_takers(Glass& glass, const Scene& scene, Asks& asks) {
    const auto ids = takers(scene);
    touch::text(glass, "takers/head", {872, 104, 384, 56},
                glass.words().say(ids.empty() ? "role.nobody" : "role.to-whom"),
                {.colour = glass.colours().text_2, .bold = true});
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (touch::button(glass, "to/" + ids[i], {864, 168 + 108 * static_cast<float>(i), 400, 96},
                          {.title = short_name(scene.ahead, ids[i]), .em = touch::step::act})) {
            asks.tell(HandOverRole{role_id(), ids[i]});
        }
    }
}

}  // namespace

Asks draw_hand_role(Glass& glass, const Scene& scene) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    draw_state(glass, scene);
    const auto& offered = scene.ahead_state->role_offered;
    const auto to = offered.find(role_id());
    if (to != offered.end()) {
        draw_offered(glass, scene, to->second, asks);
    } else {
        draw_takers(glass, scene, asks);
    }
    const auto& words = glass.words();
    if (over_fill(scene)) {
        (void)draw_sheet_foot(glass, scene, std::nullopt, asks);
        return asks;
    }
    (void)draw_case_prompt(
        glass, scene,
        touch::Prompt{
            .urgency = touch::Urgency::low, .title = words.say("role.prompt"), .why = words.say("role.why")},
        asks);
    const touch::Action back{
        .command = "go-back", .title = words.say("place.go-back"), .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, back) == touch::ActionTap::action) {
        asks.sheet = Sheet::none;
    }
    return asks;
}

}  // namespace brimline::screens
