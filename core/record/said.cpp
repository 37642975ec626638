// Gathering what was said, and the record's lines.
#include "core/record/said.h"

#include <algorithm>

#include "core/record/text.h"
#include "core/record/text_parts.h"

namespace brimline {

std::vector<SaidEntry> said_entries(const CaseState& state, const Desk& desk, const Policy& policy,
                                    const Zone& zone, std::string_view person) {
    Instant end{};
    for (const auto& kept : state.history) {
        end = std::max(end, kept.first.stamp.at);
    }
    const record::Source source{state, desk, policy, zone, end, zone.date_of(state.planned.value_or(end))};
    std::vector<SaidEntry> entries;
    for (const auto& kept : state.history) {
        const auto& stamp = kept.now.stamp;
        const bool mine = stamp.said_by ? *stamp.said_by == person : stamp.by == person;
        const bool signature = std::holds_alternative<Signed>(kept.now.event);
        if (mine && !signature && !kept.withdrawn && record::is_entry(kept.now.event)) {
            entries.push_back(
                {stamp.seq, stamp.happened, record::entry_words(kept.now.event, source), stamp.by});
        }
    }
    std::stable_sort(entries.begin(), entries.end(),
                     [](const SaidEntry& a, const SaidEntry& b) { return a.at < b.at; });
    return entries;
}

std::vector<std::string> record_lines(const CaseState& state, const Desk& desk, const Policy& policy,
                                      const Zone& zone) {
    auto text = record_text(state, desk, policy, zone, state.sealed ? state.sealed->is.number : "");
    text += addenda_text(state, desk, zone);
    std::vector<std::string> lines;
    for (std::size_t from = 0; from < text.size();) {
        const auto end = std::min(text.find('\n', from), text.size());
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

}  // namespace brimline
