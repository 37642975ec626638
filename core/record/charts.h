// What the drawings of a printed record show: vital signs with events, doses and gaps, and both counts of a
// fill as a timeline. Figures and words only; where a line goes is for whoever draws it. The same entries
// stand as words in the record, so nothing is known from a drawing alone.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/case/sedation_view.h"
#include "core/desk/desk.h"
#include "core/units/time.h"

namespace brimline {

struct ChartMoment {
    Instant at{};
    std::string words;
    bool loud{false};  ///< airway event, emergency, reversal
};
struct ChartSpan {
    Instant from{}, to{};
    std::string words;
};
/// One stretch of time with its own scale: the room, or recovery.
struct VitalPanel {
    std::string title;
    Instant from{}, to{};
    TrendView values;  ///< those of the stretch, both ends included
    std::vector<ChartMoment> events, doses;
    std::vector<ChartSpan> gaps;
};

/// One change of the volume as it was counted.
struct CountMark {
    enum class Kind : std::uint8_t { syringe, part, drawn_back, correction, meanwhile, question } kind{};
    Instant at{};
    std::string words;    ///< "50", "+50", "20": mL without the unit
    std::string running;  ///< "450": mL in, after it; empty for a question that was not counted
};
/// The taps of one device over the presses of the physician's pedal.
struct CountChart {
    std::string title;
    Instant from{}, to{};
    std::vector<CountMark> taps;
    std::vector<Instant> presses;
    std::vector<ChartSpan> stops;
    std::vector<ChartMoment> checks;  ///< loud where the counts differed
    std::optional<Instant> parted;
};

struct RecordCharts {
    std::vector<VitalPanel> vitals;  ///< empty when no set was entered
    std::vector<CountChart> counts;  ///< one for each device that was filled
};
[[nodiscard]] RecordCharts record_charts(const CaseState& state, const Desk& desk, const Policy& policy,
                                         const Zone& zone);

}  // namespace brimline
