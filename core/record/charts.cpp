// Gathering what the drawings of a record show.
#include "core/record/charts.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/record/text_parts.h"

namespace brimline {
namespace {

using record::Source;

namespace say {
constexpr std::string_view room = "From sedation to leaving the room";
constexpr std::string_view recovery = "Recovery";
constexpr std::string_view before = "Before sedation";
}  // namespace say

template <class T>
std::vector<T> inside(const std::vector<T>& all, const VitalPanel& panel) {
    std::vector<T> some;
    std::copy_if(all.begin(), all.end(), std::back_inserter(some),
                 [&](const T& one) { return one.at >= panel.from && one.at <= panel.to; });
    return some;
}

std::vector<ChartMoment> events_of(const Source& v) {
    std::vector<ChartMoment> events;
    for (const auto& moment : sedation_moments(v.s)) {
        using What = SedationMoment::What;
        const bool loud = moment.what == What::airway_event || moment.what == What::emergency;
        auto words = record::plain(name_of(moment.what));
        if (moment.what == What::start || moment.what == What::end) {
            words = "sedation " + words;
        }
        if (moment.what == What::airway_event && moment.episode != nullptr && moment.episode->lowest_spo2) {
            words += fmt::format(", lowest {} %", *moment.episode->lowest_spo2);
        }
        events.push_back({moment.at, words, loud});
    }
    const auto add = [&](const std::optional<Stamp>& stamp, const char* words) {
        if (stamp) {
            events.push_back({stamp->happened, words, false});
        }
    };
    const auto& block = v.s.device();
    if (const auto span = fill_span(block)) {
        events.push_back({span->first, "first syringe", false});
        events.push_back({span->last, "last syringe", false});
    }
    add(block.off, "catheter off");
    add(v.s.puncture, "puncture");
    add(v.s.seen_empty, "seen empty");
    add(v.s.out ? std::optional{v.s.out->stamp} : std::nullopt, "balloon out");
    add(v.s.left_room, "leaves the room");
    add(v.s.accepted ? std::optional{v.s.accepted->stamp} : std::nullopt, "hand-over accepted");
    add(v.s.discharged ? std::optional{v.s.discharged->stamp} : std::nullopt, "discharged");
    std::stable_sort(events.begin(), events.end(),
                     [](const ChartMoment& a, const ChartMoment& b) { return a.at < b.at; });
    return events;
}

std::vector<ChartMoment> doses_of(const Source& v) {
    std::vector<ChartMoment> doses;
    for (const auto& dose : v.s.doses) {
        const auto* drug = v.policy.drug(dose.is.drug);
        doses.push_back({dose.stamp.happened,
                         fmt::format("{} {} {}", record::drug_words(v.policy, dose.is.drug),
                                     dose.is.amount.text(), record::unit_words(name_of(dose.is.unit))),
                         drug != nullptr && drug->kind == "reversal"});
    }
    return doses;
}

VitalPanel panel_of(const Source& v, std::string_view title, Instant from, Instant to) {
    VitalPanel panel;
    panel.title = title;
    panel.from = from;
    panel.to = to;
    const auto all = trend_view(v.s, v.policy);
    panel.values.spo2 = inside(all.spo2, panel);
    panel.values.hr = inside(all.hr, panel);
    panel.values.rr = inside(all.rr, panel);
    panel.values.pressure = inside(all.pressure, panel);
    panel.values.airway = inside(all.airway, panel);
    panel.values.spo2_limit = all.spo2_limit;
    std::copy_if(all.sets.begin(), all.sets.end(), std::back_inserter(panel.values.sets),
                 [&](Instant t) { return t >= from && t <= to; });
    panel.events = inside(events_of(v), panel);
    panel.doses = inside(doses_of(v), panel);
    for (const auto& gap : record::vital_gaps(v)) {
        if (gap.from < to && gap.to > from) {
            panel.gaps.push_back(
                {std::max(gap.from, from), std::min(gap.to, to), record::span_words(gap.to - gap.from)});
        }
    }
    return panel;
}

/// The room from the start of sedation (or the first set) to leaving it, then recovery.
std::vector<VitalPanel> panels_of(const Source& v) {
    std::vector<VitalPanel> panels;
    if (v.s.vitals.empty()) {
        return panels;
    }
    auto first = v.s.vitals.front().stamp.happened;
    auto last = v.s.vitals.back().stamp.happened;
    for (const auto& dose : v.s.doses) {
        last = std::max(last, dose.stamp.happened);
    }
    last = v.s.discharged ? std::max(last, v.s.discharged->stamp.happened) : last;
    const auto start = v.s.sedation_start ? v.s.sedation_start->happened : first;
    const auto left = v.s.left_room ? v.s.left_room->happened : last;
    if (!v.s.sedation_start) {
        panels.push_back(panel_of(v, say::before, first, last));
        return panels;
    }
    panels.push_back(panel_of(v, say::room, start, std::max(start, std::min(left, last))));
    if (v.s.left_room && last > left) {
        panels.push_back(panel_of(v, say::recovery, left, last));
    }
    return panels;
}

std::string bare_ml(Millilitres ml, bool with_sign) {
    auto words = with_sign ? record::signed_ml_words(ml) : record::ml_words(ml);
    return words.substr(0, words.size() - 3);
}

CountMark::Kind kind_of(Delivery::Kind kind) {
    switch (kind) {
        case Delivery::Kind::syringe:
            return CountMark::Kind::syringe;
        case Delivery::Kind::part:
            return CountMark::Kind::part;
        case Delivery::Kind::drawn_back:
            return CountMark::Kind::drawn_back;
        case Delivery::Kind::correction:
            return CountMark::Kind::correction;
        case Delivery::Kind::meanwhile:
            return CountMark::Kind::meanwhile;
    }
    return CountMark::Kind::syringe;
}

void add_taps(CountChart& chart, const DeviceBlock& block) {
    auto ordered = block;
    std::stable_sort(
        ordered.deliveries.begin(), ordered.deliveries.end(),
        [](const Delivery& a, const Delivery& b) { return a.stamp.happened < b.stamp.happened; });
    const auto running = record::running_after(ordered);
    for (const auto& delivery : ordered.deliveries) {
        const auto kind = kind_of(delivery.kind);
        const bool by_tap = kind == CountMark::Kind::syringe || kind == CountMark::Kind::part;
        const auto found = running.find(delivery.stamp.seq);
        chart.taps.push_back({kind, delivery.stamp.happened, bare_ml(delivery.ml, !by_tap),
                              found == running.end() ? "" : bare_ml(found->second, false)});
    }
    for (const auto& question : block.questions) {
        if (question.answer != SecondOrSame::second) {
            chart.taps.push_back({CountMark::Kind::question, question.stamp.happened, "?", ""});
        }
    }
    std::stable_sort(chart.taps.begin(), chart.taps.end(),
                     [](const CountMark& a, const CountMark& b) { return a.at < b.at; });
}

CountChart count_chart(const Source& v, const DeviceBlock& block, std::size_t number) {
    CountChart chart;
    if (v.s.devices.size() > 1) {
        chart.title = fmt::format("Device {} of {}", number + 1, v.s.devices.size());
    }
    add_taps(chart, block);
    for (const auto& press : block.presses) {
        chart.presses.push_back(press.happened);
    }
    chart.from = chart.taps.front().at;
    chart.to = chart.taps.back().at;
    for (const auto t : chart.presses) {
        chart.from = std::min(chart.from, t);
        chart.to = std::max(chart.to, t);
    }
    for (const auto& stop : block.stops) {
        const auto until = stop.until.value_or(std::max(chart.to, stop.stamp.happened));
        chart.stops.push_back({stop.stamp.happened, until, record::plain(name_of(stop.reason))});
        chart.to = std::max(chart.to, until);
    }
    for (const auto& check : block.checks) {
        chart.checks.push_back({check.stamp.happened,
                                fmt::format("said {}, counted {}{}", check.is.said, check.is.own,
                                            check.is.pedal ? fmt::format(", pedal {}", *check.is.pedal) : ""),
                                !check.is.agreed});
        chart.to = std::max(chart.to, check.stamp.happened);
        chart.parted = check.is.parted_at ? check.is.parted_at : chart.parted;
    }
    return chart;
}

}  // namespace

RecordCharts record_charts(const CaseState& state, const Desk& desk, const Policy& policy, const Zone& zone) {
    Instant end{};
    for (const auto& kept : state.history) {
        end = std::max(end, kept.first.stamp.at);
    }
    const Source v{state, desk, policy, zone, end, zone.date_of(end)};
    RecordCharts charts;
    charts.vitals = panels_of(v);
    for (std::size_t i = 0; i < state.devices.size(); ++i) {
        if (!state.devices[i].deliveries.empty()) {
            charts.counts.push_back(count_chart(v, state.devices[i], i));
        }
    }
    return charts;
}

}  // namespace brimline
