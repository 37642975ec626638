// Draws the corner of the fill and the foot of its sheets.
#include "app/kiosk/screens/fill_corner.h"

#include <fmt/format.h>

#include "app/kiosk/screens/fill_words.h"

namespace brimline::screens {
namespace {

touch::Action syringe_in(const touch::Glass& glass, const Scene& scene, const FillView& view) {
    const auto& words = glass.words();
    touch::Action shown{.command = "syringe-in",
                        .title = words.say("fill.syringe-in"),
                        .note = words.say("fill.number", {{"n", std::to_string(view.syringes + 1)}}),
                        .more = words.say("fill.plus", {{"ml", ml_words(glass, view.nominal)}}),
                        .acts_on_press = true};
    if (view.waiting_taps > 0) {
        shown.note = words.say("fill.the-next-one");
    }
    if (scene.waiting.late) {
        shown.pending = true;
        shown.more = words.say("fill.kept-until-saved");
    }
    if (view.next_band == FillBand::above_ceiling) {
        shown.warning = words.say("fill.makes-above-ceiling", {{"ml", ml_words(glass, view.next_makes)}});
        shown.more = words.say("fill.still-counts");
    }
    return shown;
}

/// The chosen person when he or she counts, else the first of those present who does.
std::optional<std::string> counts(const Scene& scene) {
    const auto* chosen = scene.ahead.person(scene.person);
    if (chosen != nullptr && chosen->has(Role::assistant)) {
        return std::nullopt;  // the chosen person enters by default
    }
    for (const auto& id : scene.present) {
        const auto* person = scene.ahead.person(id);
        if (person != nullptr && person->has(Role::assistant)) {
            return id;
        }
    }
    return std::nullopt;
}

}  // namespace

bool over_fill(const Scene& scene) { return fill_in_hand(scene.ahead_state->device()); }

void tell_as_assistant(const Scene& scene, Statement says, Asks& asks, bool sure) {
    asks.say.push_back({std::move(says), {}, counts(scene), {}, sure});
}

void draw_syringe_in(touch::Glass& glass, const Scene& scene, touch::Rect corner, Asks& asks) {
    const auto view = fill_view(*scene.state, *scene.ahead_state, scene.policy, scene.now);
    if (touch::action(glass, corner, syringe_in(glass, scene, view)) == touch::ActionTap::action) {
        tell_as_assistant(scene, SyringeIn{}, asks);
    }
}

touch::SheetCount sheet_count(const touch::Glass& glass, const Scene& scene, const FillView& view) {
    const auto& words = glass.words();
    const auto volume = fill_volume_words(glass, view);
    touch::SheetCount count{.title = words.say("fill.sheet-count", {{"ml", volume}}),
                            .note = syringes_words(glass, view)};
    const auto* differs = scene.ahead_state->standing("count-differs");
    const auto& checks = scene.ahead_state->device().checks;
    if (scene.waiting.late || !scene.broken.empty()) {
        count.urgency = touch::Urgency::high;
        count.note = words.say("fill.not-yet-saved", {{"ml", ml_words(glass, view.unsaved)}});
    } else if (differs != nullptr && !checks.empty()) {
        const auto& last = checks.back().is;
        count.urgency = touch::Urgency::high;
        count.note = words.say(
            "fill.counts-differ-short",
            {{"taps", std::to_string(last.own)}, {"other", std::to_string(last.pedal.value_or(last.said))}});
    } else if (view.waiting_taps > 0) {
        count.urgency = touch::Urgency::medium;
        count.note = words.count("fill.taps-waiting", view.waiting_taps);
    }
    return count;
}

touch::SheetTap draw_sheet_foot(touch::Glass& glass, const Scene& scene,
                                const std::optional<touch::Action>& own, Asks& asks) {
    const auto layout = touch::layout_for(glass.size());
    const auto view = fill_view(*scene.state, *scene.ahead_state, scene.policy, scene.now);
    const auto tap = touch::sheet_row(glass, layout, own, sheet_count(glass, scene, view));
    draw_syringe_in(glass, scene, layout.action, asks);
    if (tap == touch::SheetTap::back) {
        asks.sheet = Sheet::none;
    }
    return tap;
}

}  // namespace brimline::screens
