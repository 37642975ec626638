// One lane of the trend a sign, with its own scale: discs, squares, bars or triangles, told apart without
// colour. Gaps stay gaps; a corrected value has a ring around it.
#pragma once
#include "app/kiosk/screens/scene.h"
#include "core/case/sedation_view.h"

namespace brimline::screens {

/// The time axis: the sets stand at equal distances, a moment between two sets between them.
class TrendAxis {
public:
    TrendAxis(std::vector<Instant> sets, touch::Rect room) : sets_{std::move(sets)}, room_{room} {}
    [[nodiscard]] float x(Instant t) const;
    /// The sets whose minutes have room below the lanes.
    [[nodiscard]] std::vector<std::size_t> labelled() const;

private:
    [[nodiscard]] float x_of(std::size_t index) const;
    std::vector<Instant> sets_;
    touch::Rect room_;
};

enum class LaneStyle : std::uint8_t { discs, squares, triangles };

void draw_spo2_lane(touch::Glass& glass, touch::Rect place, const TrendAxis& axis, const TrendView& view);
/// Where the limit of the SpO2 lane is drawn.
[[nodiscard]] float spo2_limit_y(touch::Rect place, const TrendView& view);
void draw_value_lane(touch::Glass& glass, touch::Rect place, const TrendAxis& axis,
                     const std::vector<TrendValue>& values, LaneStyle style);
void draw_pressure_lane(touch::Glass& glass, touch::Rect place, const TrendAxis& axis,
                        const std::vector<TrendPressure>& values);

/// The four lanes in their panel at the place of column A, each with its last figure and the minute.
void draw_trend_lanes(touch::Glass& glass, const Scene& scene, const TrendView& view);

}  // namespace brimline::screens
