// The vital signs of the text record: every set with its mean pressure, depth and oxygen, what was not taken
// and why, where a set is missing, and each corrected value with the one it replaced.
#include <fmt/format.h>

#include <set>

#include "core/case/codec.h"
#include "core/record/text_parts.h"
#include "core/rules/depth.h"
#include "core/rules/vitals.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view typed = "Typed by hand. No alarm.";
constexpr std::string_view units =
    "HR per minute, BP and MAP mmHg, SpO2 %, RR per minute, EtCO2 mmHg, oxygen L/min.";
constexpr std::string_view none = "No vital signs were entered.";
constexpr std::string_view gap = "GAP";
}  // namespace say

enum Column : std::size_t { time, hr, bp, map, spo2, rr, etco2, depth, oxygen, note, columns };

/// The values that a set had before it was corrected, by field.
std::map<std::string, std::string> old_values(const Source& v, std::int64_t seq) {
    std::map<std::string, std::string> old;
    for (const auto& c : v.s.corrections) {
        const auto before = parse_json(c.is.before);
        if (c.is.entry != seq || c.is.withdrawn || !before || !before->is_object()) {
            continue;
        }
        for (const auto& [key, value] : before->items()) {
            old.emplace(key, value.is_number() ? value.dump() : "none");
        }
    }
    return old;
}

std::string value_words(const std::optional<int>& value, const std::map<std::string, std::string>& old,
                        const char* key) {
    if (!value) {
        return "";
    }
    const auto found = old.find(key);
    return std::to_string(*value) + (found == old.end() ? "" : fmt::format(" (was {})", found->second));
}

void fill_set(Row& row, const Source& v, const Noted<Vitals>& set) {
    const auto old = old_values(v, set.stamp.seq);
    const auto& is = set.is;
    row[hr] = value_words(is.hr, old, "hr");
    row[spo2] = value_words(is.spo2, old, "spo2");
    row[rr] = value_words(is.rr, old, "rr");
    row[etco2] = value_words(is.etco2, old, "etco2");
    if (is.systolic || is.diastolic) {
        const auto upper = value_words(is.systolic, old, "systolic");
        const auto lower = value_words(is.diastolic, old, "diastolic");
        row[bp] = fmt::format("{}/{}", upper.empty() ? "?" : upper, lower.empty() ? "?" : lower);
    }
    if (is.systolic && is.diastolic) {
        const auto mean = rules::mean_pressure(*is.systolic, *is.diastolic);
        row[map] = mean ? rules::map_text(*mean, v.policy.vitals.map_below) : "";
    }
    std::vector<std::string> notes;
    if (is.not_taken) {
        notes.push_back("not taken: " + *is.not_taken);
    }
    if (entered_late(set.stamp, v.policy)) {
        notes.emplace_back("LATE");
    }
    row[note] = joined(notes, "; ");
}

/// How long the next set may take after one at this moment, by policy; empty outside sedation and recovery.
std::optional<seconds> interval_after(const Source& v, Instant t) {
    if (v.s.accepted && t >= v.s.accepted->stamp.happened) {
        const auto fit = fit_since(v.s, v.policy);
        const auto& p = v.policy.recovery;
        return fit && *fit <= t ? p.vitals_when_fit : p.vitals;
    }
    const bool in_room = v.s.sedation_start && t >= v.s.sedation_start->happened &&
                         !(v.s.left_room && t >= v.s.left_room->happened);
    return in_room ? std::optional{v.policy.vitals.interval} : std::nullopt;
}

/// From when a missing set is missed: an emergency answers the sets that fell due in it.
Instant missed_from(const Source& v, Instant before, Instant after) {
    Instant from = v.s.sedation_start ? std::max(before, v.s.sedation_start->happened) : before;
    for (const auto& episode : v.s.emergencies) {
        if (episode.end && episode.end->stamp.happened > from && episode.start.happened < after) {
            from = std::min(episode.end->stamp.happened, after);
        }
    }
    return from;
}

/// Where a set is missing: longer than the policy's interval by a whole minute or more. Room and recovery
/// each have their own interval, so a gap across the hand-over ends and begins there.
void add_gaps(std::vector<VitalGap>& gaps, const Source& v, Instant before, Instant after, Instant until) {
    if (v.s.accepted && before < v.s.accepted->stamp.happened && after > v.s.accepted->stamp.happened) {
        add_gaps(gaps, v, before, v.s.accepted->stamp.happened, until);
        return add_gaps(gaps, v, v.s.accepted->stamp.happened, after, until);
    }
    const auto from = missed_from(v, before, after);
    const auto interval = interval_after(v, from);
    if (interval && after - from >= *interval + std::chrono::minutes{1}) {
        gaps.push_back({from, after, *interval, until});
    }
}

/// A row in place of the sets that are missing.
Row gap_row(const VitalGap& gap) {
    Row row(columns);
    row[time] = std::string{say::gap};
    row[note] = fmt::format("{} without a set; due every {}", span_words(gap.to - gap.from),
                            span_words(gap.due_every));
    return row;
}

/// Until when sets are due: going home, else the latest entry.
Instant due_until(const Source& v) { return v.s.discharged ? v.s.discharged->stamp.happened : v.end; }

std::map<Instant, Row> rows_by_time(const Source& v) {
    std::map<Instant, Row> rows;
    const auto at = [&](Instant t) -> Row& {
        auto& row = rows[t];
        row.resize(columns);
        row[time] = v.clock_s(t);
        return row;
    };
    for (const auto& set : v.s.vitals) {
        fill_set(at(set.stamp.happened), v, set);
    }
    for (const auto& one : v.s.depths) {
        at(one.stamp.happened)[depth] = std::to_string(one.is.moaas);
    }
    for (const auto& one : v.s.oxygen) {
        at(one.stamp.happened)[oxygen] = one.is.l_min.text();
    }
    return rows;
}

std::string depth_legend(const Source& v) {
    std::set<int> used;
    for (const auto& one : v.s.depths) {
        used.insert(one.is.moaas);
    }
    std::vector<std::string> parts;
    for (const int step : used) {
        parts.push_back(fmt::format("{} = {}", step, rules::moaas_words(step)));
    }
    return parts.empty() ? "" : "MOAA/S: " + joined(parts, "; ") + ".";
}

}  // namespace

std::vector<VitalGap> vital_gaps(const Source& v) {
    std::vector<VitalGap> gaps;
    if (!v.s.sedation_start) {
        return gaps;
    }
    std::set<Instant> sets;
    for (const auto& set : v.s.vitals) {
        sets.insert(set.stamp.happened);
    }
    auto last = v.s.sedation_start->happened;
    for (const auto t : sets) {
        if (t > last) {
            add_gaps(gaps, v, last, t, t);
            last = t;
        }
    }
    if (due_until(v) > last) {
        add_gaps(gaps, v, last, due_until(v), due_until(v));
    }
    return gaps;
}

void write_vital_signs(Sheet& sheet, const Source& v) {
    sheet.section("Vital signs");
    sheet.line(say::typed, 3);
    if (v.s.vitals.empty()) {
        return sheet.line(say::none, 3);
    }
    sheet.figure(Figure::vital_signs);
    std::vector<Row> rows;
    const auto gaps = vital_gaps(v);
    const auto last_set = v.s.vitals.back().stamp.happened;
    for (auto& [t, row] : rows_by_time(v)) {
        for (const auto& gap : gaps) {
            if (gap.until == t && t <= last_set) {
                rows.push_back(gap_row(gap));
            }
        }
        rows.push_back(row);
    }
    for (const auto& gap : gaps) {
        if (gap.until > last_set) {
            rows.push_back(gap_row(gap));
        }
    }
    sheet.table({"Time", "HR", "BP", "MAP", "SpO2", "RR", "EtCO2", "MOAA/S", "O2", ""}, rows,
                {15, 14, 14, 5, 14, 14, 14, 6, 5, page_columns});
    sheet.line(say::units, 3);
    if (const auto legend = depth_legend(v); !legend.empty()) {
        sheet.line(legend, 3);
    }
    if (v.s.secured) {
        sheet.line(fmt::format("Airway secured at {}: the sedation scale does not apply from then on{}.",
                               v.clock_s(v.s.secured->stamp.happened),
                               v.s.freed ? fmt::format(" until {}", v.clock_s(v.s.freed->happened)) : ""),
                   3);
    }
}

}  // namespace brimline::record
