// The two-line record of a count: taps above, pedal below, on one time axis.
// Where they parted is told by the caller; nothing is matched or counted here.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/kiosk/touch/geometry.h"

namespace brimline::touch {

class Glass;

/// A tap or a press: seconds since any common start.
struct Beat {
    double at{0};
    bool alone{false};    ///< without a partner on the other line: amber bar, and a dashed ring over there
    std::string label{};  ///< number between the lines, may be empty
};

/// A stop of the filling.
struct StopSpan {
    double from{0};
    double to{0};
    std::string label{};  ///< "stopped 72 s"
};

/// What the record shows.
struct TwoLineRecord {
    std::vector<Beat> taps{};
    std::vector<Beat> pedal{};
    std::vector<StopSpan> stops{};
    std::string taps_word{};  ///< empty = no words before the lines
    std::string pedal_word{};
};

/// The two lines (632x150 on the page).
void two_line_record(Glass& glass, std::string_view name, Rect rect, const TwoLineRecord& shown);

}  // namespace brimline::touch
