// The timeline of the text record: every entry in the order in which things happened, with when it was
// entered, by whom and how, whose word it was, whether it came late, and the running volume beside each
// syringe.
#include <fmt/format.h>

#include <algorithm>

#include "core/record/text_parts.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view legend =
    "In order of happening. \"Entered\" stands where it differs. Without a name: what the kiosk concluded. "
    "No. = number in the journal. LATE = entered "
    "later "
    "than the policy allows unmarked.";
constexpr std::string_view withdrawn = "WITHDRAWN by a correction";
constexpr std::string_view corrected = "CORRECTED, was";
constexpr std::string_view in_practice = "entered in practice";
constexpr std::string_view not_counted = "not counted";
}  // namespace say

constexpr std::size_t widest_name = 20;

/// What happened inside one case, in the order in which it took place; equal moments keep the order of entry.
std::vector<const Kept*> by_time(const CaseState& s) {
    std::vector<const Kept*> all;
    for (const auto& kept : s.history) {
        all.push_back(&kept);
    }
    std::stable_sort(all.begin(), all.end(), [](const Kept* a, const Kept* b) {
        return a->now.stamp.happened < b->now.stamp.happened;
    });
    return all;
}

std::string corrected_from(const Source& v, std::int64_t seq) {
    std::string words;
    for (const auto& c : v.s.corrections) {
        if (c.is.entry == seq && !c.is.withdrawn) {
            words +=
                fmt::format("; {} {} (entry {})", say::corrected, fields_words(c.is.before), c.stamp.seq);
        }
    }
    return words;
}

/// The answer that a question of a double tap got; it counts only as "second".
std::string answer_to(const Source& v, std::int64_t seq) {
    for (const auto& block : v.s.devices) {
        for (const auto& question : block.questions) {
            if (question.stamp.seq == seq) {
                return !question.answer ? "; not answered yet"
                       : *question.answer == SecondOrSame::second
                           ? "; it was a second syringe"
                           : fmt::format("; the same one twice, {}", say::not_counted);
            }
        }
    }
    return "";
}

std::string marks(const Source& v, const Kept& kept) {
    const auto& stamp = kept.first.stamp;
    std::string words;
    if (is_entry(kept.first.event) && stamp.said_by && *stamp.said_by != stamp.by) {
        words += fmt::format("; said by {}", v.person(*stamp.said_by));
    }
    if (stamp.practice) {
        words += fmt::format("; {}", say::in_practice);
    }
    words += corrected_from(v, stamp.seq);
    if (kept.withdrawn) {
        words += fmt::format("; {}", say::withdrawn);
    }
    if (entered_late(stamp, v.policy)) {
        words += fmt::format("; LATE, entered {} after", span_words(stamp.at - stamp.happened));
    }
    return words;
}

std::map<std::int64_t, Millilitres> volumes(const Source& v) {
    std::map<std::int64_t, Millilitres> all;
    for (const auto& block : v.s.devices) {
        for (const auto& [seq, volume] : running_after(block)) {
            all[seq] = volume;
        }
    }
    return all;
}

Row row_of(const Source& v, const Kept& kept, const std::map<std::int64_t, Millilitres>& volume) {
    const auto& stamp = kept.now.stamp;
    auto words = entry_words(kept.now.event, v) + answer_to(v, stamp.seq);
    if (const auto found = volume.find(stamp.seq); found != volume.end()) {
        words += fmt::format("; {} in", ml_words(found->second));
    }
    words += marks(v, kept);
    const bool live = whole_seconds(kept.first.stamp.at - kept.first.stamp.happened) == 0;
    const bool same_day = v.zone.date_of(stamp.at) == v.zone.date_of(stamp.happened);
    const auto entered = live ? "" : same_day ? v.clock_s(stamp.at) : v.moment(stamp.at);
    const bool by_person = is_entry(kept.first.event) || std::holds_alternative<Attempt>(kept.first.event);
    const auto how = by_person ? std::string{name_of(stamp.how)} : "";
    const auto by = by_person ? v.person(stamp.by) : "";
    return {std::to_string(stamp.seq), v.clock_s(stamp.happened), entered, by, how, words};
}

}  // namespace

void write_timeline(Sheet& sheet, const Source& v) {
    sheet.section("Timeline of every entry");
    sheet.line(say::legend, 3);
    const auto volume = volumes(v);
    std::optional<LocalDate> day;
    std::vector<Row> rows;
    for (const auto* kept : by_time(v.s)) {
        const auto date = v.zone.date_of(kept->now.stamp.happened);
        if (date != day) {
            day = date;
            rows.push_back({"", "", "", "", "", day_words(date)});
        }
        rows.push_back(row_of(v, *kept, volume));
    }
    sheet.table({"No.", "Happened", "Entered", "By", "How", "Entry"}, rows,
                {7, 15, 15, widest_name, 5, page_columns});
}

}  // namespace brimline::record
