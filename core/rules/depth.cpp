// Steps of the depth scale in our words, and the classes of airway events.
#include "core/rules/depth.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <iterator>

namespace brimline::rules {
namespace {

// Our wording of the modified scale (J Clin Psychopharmacol 1990;10:244-251), step 0 first.
constexpr std::array<std::string_view, 6> steps{
    "no answer even to a painful squeeze",          "answers only to a painful squeeze",
    "answers only to mild prodding or shaking",     "answers only when called loudly or repeatedly",
    "answers slowly to the name in a normal voice", "answers readily to the name in a normal voice",
};
// Source: Br J Anaesth 2012;108:13-20 (fixed).
constexpr int severe_below = 75;
constexpr int prolonged_below = 90;
constexpr int minor_through = 90;
constexpr std::chrono::seconds prolonged_after{60};

}  // namespace

std::string_view name_of(Depth depth) {
    static constexpr std::array<std::string_view, 4> names{"minimal", "moderate", "deep",
                                                           "general-anaesthesia"};
    return names[static_cast<std::size_t>(depth)];
}

Expected<Depth> depth_of(int moaas) {
    if (moaas < 0 || moaas > 5) {
        return refuse("out-of-range", "The depth scale goes from 0 to 5.", "Choose one of the six steps.");
    }
    static constexpr std::array<Depth, 6> depths{Depth::general_anaesthesia,
                                                 Depth::deep,
                                                 Depth::moderate,
                                                 Depth::moderate,
                                                 Depth::moderate,
                                                 Depth::minimal};
    return depths[static_cast<std::size_t>(moaas)];
}

std::string_view moaas_words(int moaas) {
    assert(moaas >= 0 && moaas <= 5);
    return steps[static_cast<std::size_t>(moaas)];
}

std::optional<int> moaas_worded(std::string_view words) {
    const auto found = std::find(steps.begin(), steps.end(), words);
    return found == steps.end() ? std::nullopt
                                : std::optional{static_cast<int>(std::distance(steps.begin(), found))};
}

Priority depth_prompt(int moaas, int prompt_at_or_below) {
    if (moaas > prompt_at_or_below) {
        return Priority::none;
    }
    return moaas == 0 ? Priority::high : Priority::medium;
}

std::string_view name_of(Desaturation d) {
    static constexpr std::array<std::string_view, 4> names{"none", "minor", "prolonged", "severe"};
    return names[static_cast<std::size_t>(d)];
}

Desaturation desaturation(int lowest_spo2, Duration lasted) {
    if (lowest_spo2 < severe_below) {
        return Desaturation::severe;
    }
    if (lowest_spo2 < prolonged_below && lasted > prolonged_after) {
        return Desaturation::prolonged;
    }
    return lowest_spo2 <= minor_through ? Desaturation::minor : Desaturation::none;
}

bool apnoea_prolonged(Duration lasted) { return lasted > prolonged_after; }

}  // namespace brimline::rules
