// The facts beside the checks of the pauses. No volume before the read-back has agreed.
#include "app/kiosk/screens/pause_facts.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/capitals.h"
#include "app/kiosk/screens/fill_words.h"
#include "core/case/figures.h"

namespace brimline::screens {
namespace {

std::string allergies_fact(const touch::Glass& glass, const CaseState& state) {
    if (!state.allergies) {
        return glass.words().say("frame.allergies-not-asked");
    }
    std::string all;
    for (const auto& allergy : state.allergies->is.list.value_or(std::vector<Allergy>{})) {
        all +=
            (all.empty() ? "" : ", ") + (all.empty() ? with_capital(allergy.substance) : allergy.substance);
    }
    return all.empty() ? glass.words().say("frame.allergies-none-known") : all;
}

std::string fasting_fact(const touch::Glass& glass, const CaseState& state) {
    const bool held = std::any_of(state.holds.begin(), state.holds.end(), [](const Hold& hold) {
        return hold.stands() && hold.code.rfind("fasting-", 0) == 0;
    });
    if (state.intakes.empty()) {
        return glass.words().say("pause.fasting-not-asked");
    }
    return glass.words().say(held ? "pause.fasting-held" : "pause.fasting-met");
}

std::string airway_fact(const touch::Glass& glass, const CaseState& state) {
    if (!state.airway) {
        return glass.words().say("pause.airway-not-looked");
    }
    return glass.words().say("pause.airway-is",
                             {{"asa", std::to_string(state.airway->is.asa)},
                              {"mallampati", std::to_string(state.airway->is.mallampati)}});
}

std::string plan_fact(const touch::Glass& glass, const Scene& scene) {
    const auto& plan = scene.ahead_state->plan;
    if (!plan) {
        return glass.words().say("pause.plan-not-said");
    }
    auto words = glass.words().say("place.target-is", {{"ml", ml_words(glass, plan->is.aim)}});
    if (const auto ceiling = ceiling_of(*scene.ahead_state, scene.policy)) {
        words += ", " + glass.words().say("place.ceiling-is", {{"ml", ml_words(glass, *ceiling)}});
    }
    return words;
}

std::string saline_fact(const touch::Glass& glass, const CaseState& state) {
    const auto& saline = state.device().saline;
    if (!saline || !saline->is.filled_to) {
        return glass.words().say("pause.which-mark");
    }
    return glass.words().say("place.each-to-mark", {{"ml", ml_digits(glass, *saline->is.filled_to)}});
}

/// Numbers of syringes only.
std::string counts_fact(const touch::Glass& glass, const CaseState& state) {
    const auto& block = state.device();
    if (!block.saline || !block.saline->is.laid_out || block.matters.empty() ||
        !block.matters.back().is.full_left) {
        return "";
    }
    const int laid = *block.saline->is.laid_out;
    const int left = *block.matters.back().is.full_left;
    return glass.words().say("pause.row-is", {{"laid", std::to_string(laid)},
                                              {"left", std::to_string(left)},
                                              {"used", std::to_string(laid - left)}});
}

}  // namespace

std::string pause_fact(const touch::Glass& glass, const Scene& scene, const std::string& check) {
    const auto& state = *scene.ahead_state;
    if (check == "allergies") {
        return allergies_fact(glass, state);
    }
    if (check == "fasting") {
        return fasting_fact(glass, state);
    }
    if (check == "airway-plan") {
        return airway_fact(glass, state);
    }
    if (check == "target-and-ceiling") {
        return plan_fact(glass, scene);
    }
    if (check == "saline-and-dye") {
        return saline_fact(glass, state);
    }
    if (check == "counts-explained") {
        return counts_fact(glass, state);
    }
    if (check == "procedure-and-volume" && state.device().read_back_stands) {
        return ml_words(glass, running_volume(state.device()));
    }
    if (check == "device-fits" && !state.presses_outside.empty()) {
        return glass.words().say("pause.pedal-felt");
    }
    return "";
}

}  // namespace brimline::screens
