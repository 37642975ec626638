// The stage sheet: every stage with where it stands, the pages there are to open, and the way back.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/fill_page.h"
#include "core/desk/removal_view.h"

namespace brimline::screens {
namespace {

using touch::Rect;

/// Where a stage's work is entered on this kiosk; none where it is entered elsewhere. During the fill the
/// value pad opens as a sheet over it, so that the corner still counts.
struct Way {
    std::optional<Page> page;
    std::optional<Sheet> sheet;
};
Way way_of(std::size_t index, const Scene& scene) {
    const auto stage = stages_of(*scene.ahead_state).at(index);
    if (stage == Stage::sedation && over_fill(scene)) {
        return {{}, Sheet::vitals};
    }
    return {page_of(stage), {}};
}

touch::Icon icon_of(const touch::Stage& stage) {
    if (stage.state == touch::StageState::hold) {
        return touch::Icon::stop;
    }
    if (stage.on_screen) {
        return touch::Icon::wedge;
    }
    switch (stage.state) {
        case touch::StageState::done:
            return touch::Icon::tick;
        case touch::StageState::under_way:
            return touch::Icon::ring_dot;
        case touch::StageState::deferred:
            return touch::Icon::dash;
        default:
            return touch::Icon::ring;
    }
}

std::string note_of(const touch::Glass& glass, const Scene& scene, std::size_t index,
                    const touch::Stage& stage) {
    if (stages_of(*scene.ahead_state).at(index) == Stage::fill &&
        over_fill(scene)) {  // no volume while the read-back is open
        const auto view = fill_view(*scene.state, *scene.ahead_state, scene.policy, scene.now);
        return fill_volume_words(glass, view) + ", " + syringes_words(glass, view);
    }
    switch (stage.state) {
        case touch::StageState::done:
            return glass.words().say("stage.complete");
        case touch::StageState::hold:
            return glass.words().say("stage.held");
        case touch::StageState::under_way:
            return glass.words().say("stage.under-way");
        default:
            return glass.words().say("stage.not-yet");
    }
}

std::string full_name(const touch::Glass& glass, const Scene& scene, std::size_t index) {
    return glass.words().say(fmt::format("stage.{}", name_of(stages_of(*scene.ahead_state).at(index))));
}

void draw_tile(touch::Glass& glass, const Scene& scene, Rect rect, std::size_t index,
               const touch::Stage& stage, Asks& asks) {
    const auto way = way_of(index, scene);
    const auto name = fmt::format("stage/{}", index + 1);
    if (way.page || way.sheet) {
        if (touch::button(glass, name, rect,
                          {.title = "",
                           .look = stage.on_screen ? touch::Look::chosen : touch::Look::rest,
                           .tick = false})) {
            asks.page = way.page;
            asks.sheet = way.sheet.value_or(Sheet::none);
        }
    } else {
        touch::panel(glass, rect);
    }
    touch::icon(glass, icon_of(stage), {rect.x + 36, rect.y + rect.h / 2}, 26);
    const bool strong = stage.state != touch::StageState::ahead;
    touch::text(glass, name + "/words", {rect.x + 68, rect.y + 14, rect.w - 84, 38},
                full_name(glass, scene, index), {.em = touch::step::body, .bold = strong, .lines = 1});
    touch::text(glass, name + "/state", {rect.x + 68, rect.y + 52, rect.w - 84, 34},
                note_of(glass, scene, index, stage), {.colour = glass.colours().text_2, .lines = 1});
}

std::string role_holder(const Scene& scene, Role role) {
    for (const auto& id : scene.present) {
        const auto* person = scene.ahead.person(id);
        if (person != nullptr && person->has(role)) {
            return short_name(person->name);
        }
    }
    return "–";
}

void draw_this_case(touch::Glass& glass, const Scene& scene, Rect panel) {
    const auto& state = *scene.ahead_state;
    const auto& words = glass.words();
    touch::panel(glass, panel);
    touch::text(glass, "case/head", {panel.x + 20, panel.y + 8, panel.w - 40, 36},
                words.say("stage.this-case"), {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    const bool four =
        state.kind == CaseKind::placement || exchanging(state);  // a removal has the first alone
    int met = gate_identity(state) == GateState::met ? 1 : 0;
    for (const auto gate : {gate_go(state), gate_position(state), gate_read_back(state)}) {
        met += four && gate == GateState::met ? 1 : 0;
    }
    const auto holds =
        std::count_if(state.holds.begin(), state.holds.end(), [](const Hold& h) { return h.stands(); });
    const auto items =
        std::count_if(state.items.begin(), state.items.end(), [](const OpenItem& i) { return !i.closed; });
    const std::array<std::pair<std::string, std::string>, 7> lines{{
        {words.say("stage.room"), state.room.value_or("–")},
        {words.say("stage.gates-met"),
         words.say(four ? "stage.of-four" : "stage.of-one", {{"n", std::to_string(met)}})},
        {words.say("stage.physician"),
         scene.physician.empty() ? "–" : short_name(scene.ahead, scene.physician)},
        {words.say("stage.sedation-by"), role_holder(scene, Role::sedation_provider)},
        {words.say("stage.assistant"), role_holder(scene, Role::assistant)},
        {words.say("stage.holds"), holds == 0 ? words.say("stage.none") : std::to_string(holds)},
        {words.say("stage.open-items"), items == 0 ? words.say("stage.none") : std::to_string(items)},
    }};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Rect line{panel.x + 20, panel.y + 54 + 42 * static_cast<float>(i), panel.w - 40, 36};
        const auto name = fmt::format("case/{}", i + 1);
        touch::text(glass, name, line.left_part(150), lines[i].first,
                    {.colour = glass.colours().text_2, .lines = 1});
        touch::text(glass, name + "/value", line.right_part(line.w - 158), lines[i].second,
                    {.bold = true, .align = touch::Align::right, .lines = 1});
    }
}

std::string page_name(const touch::Glass& glass, const Scene& scene) {
    const auto rail = rail_of(glass, scene);
    const auto here =
        std::find_if(rail.begin(), rail.end(), [](const touch::Stage& s) { return s.on_screen; });
    return here == rail.end() ? "" : full_name(glass, scene, static_cast<std::size_t>(here - rail.begin()));
}

}  // namespace

Asks draw_stages(touch::Glass& glass, const Scene& scene) {
    Asks asks;
    draw_case_frame_bare(glass, scene, asks);
    asks.sheet = asks.sheet == Sheet::stages ? std::nullopt : asks.sheet;  // the rail opens what is open
    const auto layout = touch::layout_for(glass.size());
    const auto rail = rail_of(glass, scene);
    const std::size_t columns = rail.size() > 10 ? 3 : 2;  // an exchange has the stages of both
    for (std::size_t i = 0; i < rail.size(); ++i) {
        draw_tile(glass, scene,
                  touch::cell(layout.column_a, static_cast<int>(columns), 5, static_cast<int>(i % columns),
                              static_cast<int>(i / columns), 12),
                  i, rail[i], asks);
    }
    const Rect b = layout.column_b;
    draw_this_case(glass, scene, b.top_part(356));
    const Rect other{b.x, b.y + 368, b.w, 92};
    if (scene.practice) {
        draw_was_real(glass, touch::cell(other, 2, 1, 1, 0, 12), asks);
    }
    if (touch::button(glass, "another-case", scene.practice ? touch::cell(other, 2, 1, 0, 0, 12) : other,
                      {.title = glass.words().say("stage.another-case")})) {
        asks.page = Page::day_list;
    }
    const Rect last{b.x, b.y + 472, b.w, 88};
    const bool far = over_fill(scene);
    if (far && touch::button(glass, "to-far-view", touch::cell(last, 2, 1, 1, 0, 12),
                             {.title = glass.words().say("stage.far-view")})) {
        asks.sheet = Sheet::far_view;
    }
    if (touch::button(glass, "to-abandon", far ? touch::cell(last, 2, 1, 0, 0, 12) : last,
                      {.title = glass.words().say("stage.abandon")})) {
        asks.sheet = Sheet::abandon;
    }
    const auto back = glass.words().say("stage.back-to", {{"page", page_name(glass, scene)}});
    if (over_fill(scene)) {
        const touch::Action own{.command = "back-to-page", .title = back};
        const auto view = fill_view(*scene.state, *scene.ahead_state, scene.policy, scene.now);
        auto count = sheet_count(glass, scene, view);
        count.with_back = false;
        if (touch::sheet_row(glass, layout, own, count) == touch::SheetTap::action) {
            asks.sheet = Sheet::none;
        }
        draw_syringe_in(glass, scene, layout.action, asks);
        return asks;
    }
    draw_case_prompt(glass, scene, std::nullopt, asks);
    const touch::Action corner{.command = "back-to-page", .title = back, .look = touch::ActionLook::opens};
    if (touch::action(glass, layout.action, corner) == touch::ActionTap::action) {
        asks.sheet = Sheet::none;
    }
    return asks;
}

}  // namespace brimline::screens
