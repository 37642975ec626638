// The lanes of a trend in their panel: each sign with its name, its lane and its last figure with the minute.
#include <fmt/format.h>

#include "app/kiosk/screens/trend_lane.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr Rect lanes_panel{176, 104, 672, 348};
constexpr float lane_height = 63;

Rect lane_place(int i) { return {308, 148 + 69 * static_cast<float>(i), 364, lane_height}; }

/// The last figure of a lane at its right end; older than one interval in a frame, older than two a dash.
void draw_last(Glass& glass, const Scene& scene, const std::string& name, int lane, const std::string& value,
               std::optional<Instant> at, int em) {
    const auto& c = glass.colours();
    const auto place = lane_place(lane);
    const Rect number{704, place.y - 4, 124, 42};
    const Rect under{676, place.y + 36, 152, 30};
    auto age = FigureAge::gone;
    if (at) {
        age = age_of_figure(*at, scene.now, interval_of_sets(*scene.ahead_state, scene.policy));
    }
    const bool gone = age == FigureAge::gone;
    if (age == FigureAge::framed) {
        touch::outline(glass, number, c.text_2, 2);
    }
    touch::numeral(
        glass, name + "/last", number.inset(6, 0), gone ? "–" : value,
        {.em = em, .colour = age == FigureAge::plain ? c.text : c.text_2, .align = touch::Align::right});
    if (at) {
        touch::text(glass, name + "/at", under,
                    glass.words().say("sedation.typed", {{"time", clock_text(*at, scene.zone)}}),
                    {.colour = c.text_2, .align = touch::Align::right, .lines = 1});
    }
}

void draw_lane_name(Glass& glass, int lane, const std::string& name, const std::string& unit) {
    const auto place = lane_place(lane);
    touch::text(glass, name + "/name", {196, place.y, 80, 30}, glass.words().say("sedation." + name),
                {.colour = glass.colours().text_2, .bold = true, .lines = 1});
    touch::text(glass, name + "/unit", {196, place.y + 30, 96, 30}, glass.words().say(unit),
                {.colour = glass.colours().text_2, .lines = 1});
}

template <class Value>
std::optional<Instant> last_at(const std::vector<Value>& lane) {
    return lane.empty() ? std::nullopt : std::optional{lane.back().at};
}
std::string last_value(const std::vector<TrendValue>& lane) {
    return lane.empty() ? "" : std::to_string(lane.back().value);
}

void draw_last_figures(Glass& glass, const Scene& scene, const TrendView& view) {
    draw_last(glass, scene, "spo2", 0, last_value(view.spo2), last_at(view.spo2), touch::step::strong);
    draw_last(glass, scene, "hr", 1, last_value(view.hr), last_at(view.hr), touch::step::strong);
    const auto pressure = view.pressure.empty()
                              ? std::string{}
                              : fmt::format("{}/{}", view.pressure.back().upper, view.pressure.back().lower);
    draw_last(glass, scene, "bp", 2, pressure, last_at(view.pressure), touch::step::act);
    draw_last(glass, scene, "rr", 3, last_value(view.rr), last_at(view.rr), touch::step::strong);
}

}  // namespace

void draw_trend_lanes(Glass& glass, const Scene& scene, const TrendView& view) {
    const auto& c = glass.colours();
    touch::panel(glass, lanes_panel);
    touch::text(glass, "trend/no-alarm", {196, 112, 632, 34}, glass.words().say("vitals.no-alarm"),
                {.colour = c.text_2, .bold = true, .lines = 1});
    const TrendAxis axis{view.sets, lane_place(0).inset(14, 0)};
    draw_spo2_lane(glass, lane_place(0), axis, view);
    touch::text(glass, "spo2/limit", {276, spo2_limit_y(lane_place(0), view) - 14, 28, 28},
                std::to_string(view.spo2_limit),
                {.colour = c.look, .align = touch::Align::right, .lines = 1});
    draw_value_lane(glass, lane_place(1), axis, view.hr, LaneStyle::squares);
    draw_pressure_lane(glass, lane_place(2), axis, view.pressure);
    draw_value_lane(glass, lane_place(3), axis, view.rr, LaneStyle::triangles);
    draw_lane_name(glass, 0, "spo2", "unit.percent");
    draw_lane_name(glass, 1, "hr", "unit.per-min");
    draw_lane_name(glass, 2, "bp", "unit.mmhg");
    draw_lane_name(glass, 3, "rr", "unit.per-min");
    draw_last_figures(glass, scene, view);
    for (const auto i : axis.labelled()) {
        touch::text(glass, fmt::format("trend/time-{}", i + 1), {axis.x(view.sets[i]) - 36, 422, 72, 28},
                    clock_text(view.sets[i], scene.zone),
                    {.colour = c.text_2, .align = touch::Align::centre, .lines = 1});
    }
}

}  // namespace brimline::screens
