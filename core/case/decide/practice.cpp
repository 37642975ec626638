// Carrying a case of practice over, entry by entry, with numbers of this journal.
#include "core/case/decide/practice.h"

#include <fmt/format.h>

#include <map>

namespace brimline::deciding {
namespace {

/// Numbers there to numbers here.
using Numbers = std::map<std::int64_t, std::int64_t>;

/// False when the event speaks of an entry that was left behind.
bool renumber(Event& event, const Numbers& numbers) {
    const auto here = [&](std::int64_t& seq) {
        const auto found = numbers.find(seq);
        seq = found == numbers.end() ? seq : found->second;
        return found != numbers.end();
    };
    if (auto* corrected = std::get_if<Corrected>(&event)) {
        return here(corrected->entry);
    }
    if (auto* end = std::get_if<AirwayEventEnd>(&event)) {
        return here(end->event.seq);
    }
    return true;
}

}  // namespace

Outcome as_real(const Command& command, const Setting& setting, const WasReal& says) {
    auto entries = read_entries(says.entries);
    if (!entries) {
        return refused(coded("out-of-range", fmt::format("The entries of practice cannot be read: {} {}.",
                                                         entries.error().field, entries.error().say)));
    }
    for (const auto& [id, known] : setting.desk.cases) {
        if (known.practised == says.from) {
            return refused(coded("case-exists", fmt::format("Practice case {} is here already, as case {}.",
                                                            says.from, known.name)));
        }
    }
    Booked booked;
    booked.id = setting.new_case_id;
    booked.name = command.case_name;
    booked.kind = says.kind;
    booked.planned = command.at;
    booked.started_now = true;
    booked.practised = says.from;
    std::vector<NewEvent> events{{Event{booked}, {}, false}};
    Numbers numbers;
    for (auto& entry : *entries) {
        if (!moves_with_the_block(entry.event) || !renumber(entry.event, numbers)) {
            continue;
        }
        numbers[entry.stamp.seq] = setting.desk.last_seq + 1 + static_cast<std::int64_t>(events.size());
        entry.stamp.practice = true;
        NewEvent carried{std::move(entry.event), entry.stamp.happened, false};
        carried.entered = std::move(entry.stamp);
        events.push_back(std::move(carried));
    }
    if (numbers.empty()) {
        return refused(coded("out-of-range", "Nothing was entered in this case of practice."));
    }
    return recorded(std::move(events));
}

}  // namespace brimline::deciding
