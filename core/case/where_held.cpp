// Hold codes and their stages. A code that stands here by no name belongs to Arrival, where most are raised.
#include "core/case/where_held.h"

#include <algorithm>
#include <array>
#include <utility>

namespace brimline {
namespace {

constexpr std::array<std::pair<std::string_view, Stage>, 18> places{{
    {"pause", Stage::sedation},
    {"look-stopping-finding", Stage::look},
    {"gate-go", Stage::look},
    {"food-in-stomach", Stage::look},
    {"balloon-incomplete", Stage::out},
    {"label-expired", Stage::place},
    {"label-recall", Stage::place},
    {"dye-g6pd", Stage::place},
    {"gate-position", Stage::place},
    {"resistance", Stage::fill},
    {"position-lost", Stage::fill},
    {"ceiling-passed", Stage::fill},
    {"count-differs", Stage::fill},
    {"matter-differs", Stage::fill},
    {"sizing-not-met", Stage::size},
    {"gate-read-back", Stage::size},
    {"valve-not-dry", Stage::release},
    {"catheter-incomplete", Stage::release},
}};

}  // namespace

Stage stage_of_hold(std::string_view code) {
    const auto* found =
        std::find_if(places.begin(), places.end(), [&](const auto& place) { return place.first == code; });
    return found == places.end() ? Stage::arrival : found->second;
}

std::vector<Stage> stages_with_holds(const CaseState& state) {
    std::vector<Stage> stages;
    for (const auto& hold : state.holds) {
        if (hold.stands()) {
            stages.push_back(stage_of_hold(hold.code));
        }
    }
    std::sort(stages.begin(), stages.end());
    stages.erase(std::unique(stages.begin(), stages.end()), stages.end());
    return stages;
}

}  // namespace brimline
