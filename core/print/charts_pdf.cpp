// Drawing vital signs and counts.
#include "core/print/charts_pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace brimline::print {
namespace {

constexpr double left_axis = 46, right_values = 34;
const Style tiny{6.2, Face::words, Align::left, 0.15};
const Style tiny_bold{6.4, Face::bold};

/// A stretch of time along the page.
struct Axis {
    Instant from, to;
    double x{0}, width{0};

    [[nodiscard]] double at(Instant t) const {
        const auto whole = static_cast<double>((to - from).count());
        const auto part = static_cast<double>((t - from).count());
        return x + (whole <= 0 ? width / 2 : std::clamp(part / whole, 0.0, 1.0) * width);
    }
};

/// Values from the bottom to the top of a lane.
struct Scale {
    int low{0}, high{1};
    double y{0}, height{0};

    [[nodiscard]] double at(int value) const {
        return y + height - height * (value - low) / std::max(1, high - low);
    }
};

Scale scale_of(std::vector<int> values, int step, double y, double height) {
    if (values.empty()) {
        return {0, 1, y, height};
    }
    const auto [low, high] = std::minmax_element(values.begin(), values.end());
    int from = *low / step * step;
    int to = (*high + step - 1) / step * step;
    if (to == from) {
        to += step;
    }
    return {from, to, y, height};
}

std::vector<int> values_of(const std::vector<TrendValue>& all) {
    std::vector<int> values;
    std::transform(all.begin(), all.end(), std::back_inserter(values), [](const auto& v) { return v.value; });
    return values;
}

bool across_a_gap(const std::vector<ChartSpan>& gaps, Instant a, Instant b) {
    return std::any_of(gaps.begin(), gaps.end(), [&](const auto& g) { return g.from < b && g.to > a; });
}

enum class Sign { disc, square, triangle };

void draw_sign(Canvas& c, Sign sign, double x, double y, bool corrected) {
    constexpr double half = 1.9;
    switch (sign) {
        case Sign::disc:
            c.disc(x, y, half, !corrected);
            break;
        case Sign::square:
            c.square(x, y, half, !corrected);
            break;
        case Sign::triangle:
            c.triangle(x, y, half + 0.3, !corrected);
            break;
    }
}

void lane_frame(Canvas& c, const Axis& axis, const Scale& s, const char* name, const char* unit) {
    c.line(axis.x, s.y, axis.x + axis.width, s.y, 0.25, 0.7);
    c.line(axis.x, s.y + s.height, axis.x + axis.width, s.y + s.height, 0.25, 0.7);
    c.text(axis.x - left_axis, s.y + s.height / 2 - 9, left_axis, name, tiny_bold);
    c.text(axis.x - left_axis, s.y + s.height / 2 - 1, left_axis, unit, tiny);
    const Style right{6, Face::digits, Align::right, 0.2};
    c.text(axis.x - 22, s.y - 4, 19, std::to_string(s.high), right);
    c.text(axis.x - 22, s.y + s.height - 4, 19, std::to_string(s.low), right);
}

void value_lane(Canvas& c, const Axis& axis, const Scale& s, const std::vector<TrendValue>& values,
                const std::vector<ChartSpan>& gaps, Sign sign, Dash dash) {
    std::vector<std::pair<double, double>> run;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (i > 0 && across_a_gap(gaps, values[i - 1].at, values[i].at)) {
            c.path(run, 0.8, dash);
            run.clear();
        }
        run.emplace_back(axis.at(values[i].at), s.at(values[i].value));
    }
    if (run.size() > 1) {
        c.path(run, 0.8, dash);
    }
    for (const auto& v : values) {
        draw_sign(c, sign, axis.at(v.at), s.at(v.value), v.corrected);
    }
    if (!values.empty()) {
        c.text(axis.x + axis.width + 5, s.at(values.back().value) - 5, right_values,
               std::to_string(values.back().value), {7.5, Face::digits_bold});
    }
}

void pressure_lane(Canvas& c, const Axis& axis, const Scale& s, const std::vector<TrendPressure>& values) {
    for (const auto& v : values) {
        const double x = axis.at(v.at);
        c.line(x, s.at(v.upper), x, s.at(v.lower), v.corrected ? 0.6 : 1.3, 0,
               v.corrected ? Dash::dotted : Dash::solid);
        c.line(x - 2.2, s.at(v.upper), x + 2.2, s.at(v.upper), 0.8);
        c.line(x - 2.2, s.at(v.lower), x + 2.2, s.at(v.lower), 0.8);
    }
    if (!values.empty()) {
        const auto& last = values.back();
        c.text(axis.x + axis.width + 5, s.at((last.upper + last.lower) / 2) - 5, right_values,
               fmt::format("{}/{}", last.upper, last.lower), {7, Face::digits_bold});
    }
}

/// Clock marks every so many minutes, about a dozen in all.
void clock_axis(Canvas& c, const Axis& axis, double y, double up_to, const Zone& zone) {
    using std::chrono::minutes;
    const auto length = whole_minutes(axis.to - axis.from);
    static constexpr std::array<std::int64_t, 6> steps{1, 2, 5, 10, 15, 30};
    std::int64_t step = 60;
    for (const auto candidate : steps) {
        if (length / candidate <= 12) {
            step = candidate;
            break;
        }
    }
    const auto local = zone.local(axis.from).of_day;
    const auto first = step - (whole_minutes(local) % step);
    const bool exact = whole_seconds(local) % (step * 60) == 0;
    const auto start = axis.from - Duration{local.count() % 60'000'000};
    for (auto m = exact ? 0 : first; start + minutes{m} <= axis.to; m += step) {
        const double x = axis.at(start + minutes{m});
        c.line(x, up_to, x, y, 0.25, 0.82);
        c.text(x - 15, y + 1, 30, clock_text(start + minutes{m}, zone),
               {6, Face::digits, Align::centre, 0.1});
    }
}

struct Legend {
    std::string sign;
    Instant at;
    std::string words;
    bool loud{false};
};

std::string sign_letter(std::size_t i) {
    const std::string one(1, static_cast<char>('a' + static_cast<int>(i % 26)));
    return i < 26 ? one : one + std::to_string(i / 26);
}

std::vector<Legend> legends(const std::vector<ChartMoment>& moments, bool numbers) {
    std::vector<Legend> all;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        all.push_back({numbers ? std::to_string(i + 1) : sign_letter(i), moments[i].at, moments[i].words,
                       moments[i].loud});
    }
    return all;
}

std::string legend_words(const std::vector<Legend>& all, const Zone& zone) {
    std::string words;
    for (const auto& one : all) {
        // The parts of one entry stay on one line: U+00A0 between them.
        std::string part = fmt::format("{} {} {}", one.sign, clock_text(one.at, zone, true), one.words);
        for (std::size_t at = part.find(' '); at != std::string::npos; at = part.find(' ', at)) {
            part.replace(at, 1, "\xC2\xA0");
        }
        words += (words.empty() ? "" : "   ") + part;
    }
    return words;
}

/// Signs on one line above each other where they would touch; returns the rows used.
std::size_t place_signs(Canvas* c, const Axis& axis, const std::vector<Legend>& all, double y, double row) {
    std::vector<double> ends;
    for (const auto& one : all) {
        const double half = 2.2 + 1.8 * static_cast<double>(one.sign.size());
        const double x = axis.at(one.at);
        std::size_t r = 0;
        while (r < ends.size() && ends[r] > x - half) {
            ++r;
        }
        if (r == ends.size()) {
            ends.push_back(0);
        }
        ends[r] = x + half + 0.6;
        if (c != nullptr) {
            const double at = y + row * static_cast<double>(r);
            one.loud ? c->box(x - half, at, 2 * half, row - 1, 1.1)
                     : c->box(x - half, at, 2 * half, row - 1, 0.3, 0.4);
            c->text(x - half, at - 0.6, 2 * half, one.sign,
                    {6, one.loud ? Face::bold : Face::words, Align::centre});
        }
    }
    return ends.size();
}

constexpr double sign_row = 8.4, lane = 40, between = 7;

struct Lanes {
    Scale spo2, hr, pressure, rr;
    double top{0}, bottom{0};
};

Lanes lanes_of(const VitalPanel& p, double y) {
    Lanes l;
    l.top = y;
    auto spo2 = values_of(p.values.spo2);
    for (const auto& v : p.values.airway) {
        spo2.push_back(v.value);
    }
    spo2.push_back(100);
    std::vector<int> pressure;
    for (const auto& v : p.values.pressure) {
        pressure.insert(pressure.end(), {v.upper, v.lower});
    }
    l.spo2 = scale_of(spo2, 10, y + 3, lane);
    l.hr = scale_of(values_of(p.values.hr), 20, l.spo2.y + lane + between, lane);
    l.pressure = scale_of(pressure, 20, l.hr.y + lane + between, lane + 8);
    l.rr = scale_of(values_of(p.values.rr), 10, l.pressure.y + lane + 8 + between, lane * 0.7);
    l.bottom = l.rr.y + l.rr.height + 2;
    return l;
}

void draw_lanes(Canvas& c, const VitalPanel& p, const Axis& axis, const Lanes& l, const Zone& zone) {
    clock_axis(c, axis, l.bottom, l.top, zone);
    for (const auto& gap : p.gaps) {
        const double x = axis.at(gap.from);
        c.hatch(x, l.top, axis.at(gap.to) - x, l.bottom - l.top, 0.75);
        c.text(x, l.top + 1, std::max(40.0, axis.at(gap.to) - x), "gap " + gap.words, tiny_bold);
    }
    for (const auto& e : p.events) {
        c.line(axis.at(e.at), l.top, axis.at(e.at), l.bottom, e.loud ? 0.7 : 0.3, e.loud ? 0 : 0.45,
               e.loud ? Dash::dashed : Dash::dotted);
    }
    lane_frame(c, axis, l.spo2, "SpO₂", "%");
    lane_frame(c, axis, l.hr, "HR", "/min");
    lane_frame(c, axis, l.pressure, "BP", "mmHg");
    lane_frame(c, axis, l.rr, "RR", "/min");
    value_lane(c, axis, l.spo2, p.values.spo2, p.gaps, Sign::disc, Dash::solid);
    value_lane(c, axis, l.hr, p.values.hr, p.gaps, Sign::square, Dash::dashed);
    pressure_lane(c, axis, l.pressure, p.values.pressure);
    value_lane(c, axis, l.rr, p.values.rr, p.gaps, Sign::triangle, Dash::dotted);
    for (const auto& v : p.values.airway) {
        const double x = axis.at(v.at);
        c.triangle(x, l.spo2.at(v.value), 3.2, false);
        c.text(x + 4, l.spo2.at(v.value) - 4, 20, std::to_string(v.value), {6.5, Face::digits_bold});
    }
}

/// A line of running volumes and blocks above the line of presses.
void draw_taps(Canvas& c, const CountChart& k, const Axis& axis, double y) {
    const Style number{6, Face::digits, Align::centre};
    double last = -100;
    bool up = false;
    for (const auto& tap : k.taps) {
        const double x = axis.at(tap.at);
        up = x - last < 17 ? !up : false;
        last = x;
        const double top = y + 20;
        switch (tap.kind) {
            case CountMark::Kind::syringe:
                c.fill(x - 3, top, 6, 14, 0);
                break;
            case CountMark::Kind::part:
                c.fill(x - 3, top + 7, 6, 7, 0);
                break;
            case CountMark::Kind::drawn_back:
                c.box(x - 3, top, 6, 14, 0.8);
                c.line(x - 3, top + 14, x + 3, top, 0.8);
                break;
            case CountMark::Kind::correction:
            case CountMark::Kind::meanwhile:
                c.box(x - 3, top, 6, 14, 1, 0, Dash::dashed);
                c.text(x - 14, top + 14, 28, tap.words, {6, Face::digits_bold, Align::centre});
                break;
            case CountMark::Kind::question:
                c.box(x - 3, top, 6, 14, 0.5, 0.3, Dash::dotted);
                c.text(x - 6, top + 2, 12, tap.words, {7, Face::bold, Align::centre});
                break;
        }
        if (!tap.running.empty()) {
            c.text(x - 14, top - (up ? 17 : 9), 28, tap.running, number);
        }
    }
}

void draw_stops(Canvas& c, const CountChart& k, const Axis& axis, double y, double height) {
    for (const auto& stop : k.stops) {
        const double x = axis.at(stop.from);
        const double w = std::max(2.0, axis.at(stop.to) - x);
        c.hatch(x, y, w, height, 0.6);
        c.box(x, y, w, height, 0.4, 0.4);
        const Style style{6.4, Face::bold, Align::centre};
        const double wide = c.width("stop: " + stop.words, style) + 4;
        const double middle = x + w / 2;
        c.fill(middle - wide / 2, y + 1, wide, 9, 1);
        c.text(middle - wide / 2, y + 1, wide, "stop: " + stop.words, style);
    }
}

std::string checks_words(const CountChart& k, const Zone& zone) {
    std::string words =
        "Numbers: mL in, after each tap. Dashed: by correction. Discs: the physician's pedal.";
    for (std::size_t i = 0; i < k.checks.size(); ++i) {
        const auto& check = k.checks[i];
        words += fmt::format(" Count check {} at {}: {}{}.", sign_letter(i), clock_text(check.at, zone, true),
                             check.words, check.loud ? ", DIFFERENT" : ", agreed");
    }
    if (k.parted) {
        words += fmt::format(" The counts parted at {}.", clock_text(*k.parted, zone, true));
    }
    return words;
}

}  // namespace

Chart vital_chart(const Canvas& measure, const VitalPanel& panel, const Zone& zone, double x, double width) {
    const Axis axis{panel.from, panel.to, x + left_axis, width - left_axis - right_values};
    const auto events = legends(panel.events, true);
    const auto doses = legends(panel.doses, false);
    const double above = 12 + sign_row * static_cast<double>(place_signs(nullptr, axis, events, 0, sign_row));
    const double below = sign_row * static_cast<double>(place_signs(nullptr, axis, doses, 0, sign_row));
    const double lanes = lanes_of(panel, 0).bottom;
    const auto words_1 = legend_words(events, zone);
    const auto words_2 = legend_words(doses, zone);
    const Style small{6.6};
    const double legend_1 = words_1.empty() ? 0 : measure.height(width, words_1, small) + 2;
    const double legend_2 = words_2.empty() ? 0 : measure.height(width - left_axis, words_2, small) + 2;
    Chart chart;
    chart.height = above + lanes + 10 + below + 4 + legend_1 + legend_2;
    chart.draw = [=](Canvas& c, double y) {
        c.text(x, y, width, panel.title, {8, Face::bold});
        place_signs(&c, axis, events, y + 12, sign_row);
        draw_lanes(c, panel, axis, lanes_of(panel, y + above), zone);
        double at = y + above + lanes + 10;
        if (!doses.empty()) {
            c.text(x, at - 1, left_axis, "Doses", tiny_bold);
            place_signs(&c, axis, doses, at, sign_row);
        }
        at += below + 3;
        c.text(x, at, width, words_1, small);
        at += legend_1;
        if (!words_2.empty()) {
            c.text(x, at, left_axis, "Doses", {6.6, Face::bold});
            c.text(x + left_axis, at, width - left_axis, words_2, small);
        }
    };
    return chart;
}

Chart count_chart(const Canvas& measure, const CountChart& counts, const Zone& zone, double x, double width) {
    using std::chrono::seconds;
    const Axis axis{counts.from - seconds{4}, counts.to + seconds{4}, x + left_axis, width - left_axis - 8};
    const Style small{6.8};
    const auto words = checks_words(counts, zone);
    constexpr double rows = 78;
    Chart chart;
    chart.height = 14 + rows + 14 + measure.height(width, words, small) + 2;
    chart.draw = [=](Canvas& c, double y) {
        c.text(x, y, width, counts.title.empty() ? "Both counts" : "Both counts, " + counts.title,
               {8, Face::bold});
        const double top = y + 14;
        clock_axis(c, axis, top + rows, top, zone);
        draw_stops(c, counts, axis, top, rows);
        c.text(x, top + 22, left_axis, "Taps", tiny_bold);
        c.text(x, top + 60, left_axis, "Pedal", tiny_bold);
        c.line(axis.x, top + 34, axis.x + axis.width, top + 34, 0.4, 0.3);
        c.line(axis.x, top + 64, axis.x + axis.width, top + 64, 0.4, 0.3);
        draw_taps(c, counts, axis, top);
        for (const auto press : counts.presses) {
            c.disc(axis.at(press), top + 64, 2.6, true);
        }
        for (std::size_t i = 0; i < counts.checks.size(); ++i) {
            const double at = axis.at(counts.checks[i].at);
            c.line(at, top, at, top + rows, counts.checks[i].loud ? 1.4 : 0.6, 0);
            c.text(at - 8, top + 44, 7, sign_letter(i), {7, Face::bold, Align::right});
        }
        if (counts.parted) {
            const double at = axis.at(*counts.parted);
            c.disc(at, top + 64, 5, false);
            c.disc(at, top + 64, 2.6, true);
            c.text(at - 20, top + 69, 40, "parted", {6.4, Face::bold, Align::centre});
        }
        c.text(x, top + rows + 12, width, words, small);
    };
    return chart;
}

}  // namespace brimline::print
