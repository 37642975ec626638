// Recovery of the text record: hand-over, scores with their parts, symptoms and drinks.
#include <fmt/format.h>

#include "core/record/text_parts.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view not_fit = "the policy's criteria were not met";
}  // namespace say

std::string part(const std::optional<int>& value) { return value ? std::to_string(*value) : ""; }

void hand_over(Sheet& sheet, const Source& v) {
    if (v.s.left_room) {
        sheet.field("Left the room", v.clock(v.s.left_room->happened));
    }
    if (v.s.offered) {
        sheet.field("Hand-over offered",
                    fmt::format("{}, {} to {}", v.clock(v.s.offered->stamp.happened),
                                v.person(v.s.offered->stamp.by), v.person(v.s.offered->is.to)));
    }
    if (v.s.accepted) {
        sheet.field("Accepted", fmt::format("{}, {}", v.clock(v.s.accepted->stamp.happened),
                                            v.person(v.s.accepted->stamp.by)));
    }
}

void scores(Sheet& sheet, const Source& v) {
    std::vector<Row> aldrete;
    std::vector<Row> padss;
    for (const auto& score : v.s.scores) {
        const auto& s = score.is;
        const auto total = std::to_string(total_of(s));
        const auto at = v.clock(score.stamp.happened);
        const auto by = v.person(score.stamp.by);
        if (s.scale == Scale::aldrete) {
            aldrete.push_back({at, total, part(s.activity), part(s.respiration), part(s.circulation),
                               part(s.consciousness), part(s.oxygen), by});
        } else {
            padss.push_back({at, total, part(s.vital_signs), part(s.walking), part(s.nausea), part(s.pain),
                             part(s.bleeding), by});
        }
    }
    if (!aldrete.empty()) {
        sheet.line("Recovery score (modified Aldrete)", 3);
        sheet.table({"Time", "Total", "Activity", "Breathing", "Circulation", "Awareness", "SpO2", "By"},
                    aldrete, {15, 5, 8, 9, 11, 9, 5, page_columns});
    }
    if (!padss.empty()) {
        sheet.line("Readiness for home (PADSS)", 3);
        sheet.table({"Time", "Total", "Vital signs", "Walking", "Nausea", "Pain", "Bleeding", "By"}, padss,
                    {15, 5, 11, 9, 11, 9, 8, page_columns});
    }
}

void symptoms(Sheet& sheet, const Source& v) {
    std::map<Instant, std::vector<std::string>> by_time;
    for (const auto& one : v.s.symptoms) {
        by_time[one.stamp.happened].push_back(entry_words(Event{one.is}, v));
    }
    for (const auto& one : v.s.drinks) {
        by_time[one.stamp.happened].push_back(lowered(entry_words(Event{one.is}, v)));
    }
    if (by_time.empty()) {
        return;
    }
    sheet.line("Symptoms and drinks", 3);
    for (const auto& [t, words] : by_time) {
        sheet.field(v.clock(t), joined(words));
    }
}

}  // namespace

void write_recovery(Sheet& sheet, const Source& v) {
    if (!v.s.offered && !v.s.accepted && v.s.scores.empty() && v.s.symptoms.empty()) {
        return;
    }
    sheet.section("Recovery");
    hand_over(sheet, v);
    if (v.s.accepted) {
        const auto fit = fit_since(v.s, v.policy);
        sheet.field("Fit since", fit && *fit <= v.end ? v.clock(*fit) : std::string{say::not_fit});
    }
    scores(sheet, v);
    symptoms(sheet, v);
}

}  // namespace brimline::record
