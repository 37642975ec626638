// The drawings of a record: vital signs in lanes with their own scales, and the two counts of a fill.
#pragma once
#include "core/print/flow.h"
#include "core/record/charts.h"

namespace brimline::print {

/// How high the drawing of a panel is, and the drawing itself. Lengths as in Canvas.
struct Chart {
    double height{0};
    Drawing draw;
};
/// Source of the signs: 4-screens.md section 4 (discs, squares, bars, triangles; a gap stays a gap).
[[nodiscard]] Chart vital_chart(const Canvas& measure, const VitalPanel& panel, const Zone& zone, double x,
                                double width);
[[nodiscard]] Chart count_chart(const Canvas& measure, const CountChart& counts, const Zone& zone, double x,
                                double width);

}  // namespace brimline::print
