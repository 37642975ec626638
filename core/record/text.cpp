// The record as plain text, put together from its parts.
#include "core/record/text.h"

#include <fmt/format.h>

#include "core/record/text_parts.h"

namespace brimline {
namespace {

namespace say {
constexpr std::string_view after_seal = "Added after the seal";
constexpr std::string_view unchanged = "Nothing above was changed; what follows was added afterwards.";
}  // namespace say

/// The day the case is about: its sedation, else its plan, else its first entry.
LocalDate day_of(const CaseState& state, const Zone& zone) {
    const auto first = state.history.empty() ? Instant{} : state.history.front().first.stamp.at;
    return zone.date_of(state.sedation_start ? state.sedation_start->happened
                                             : state.planned.value_or(first));
}

Instant latest_entry(const CaseState& state) {
    Instant latest{};
    for (const auto& kept : state.history) {
        latest = std::max(latest, kept.first.stamp.at);
    }
    return latest;
}

/// What may still be written after the seal, in words; empty for everything else.
std::string after_seal_words(const Event& event, const record::Source& v) {
    if (const auto* addendum = std::get_if<Addendum>(&event)) {
        return addendum->text;
    }
    const bool shown = std::holds_alternative<PatientNow>(event) || std::holds_alternative<Flag>(event) ||
                       std::holds_alternative<Call>(event) || std::holds_alternative<EntryClosed>(event) ||
                       std::holds_alternative<LostAgreed>(event) ||
                       std::holds_alternative<EntriesMoved>(event) ||
                       std::holds_alternative<EntriesReceived>(event);
    return shown ? record::entry_words(event, v) : "";
}

}  // namespace

std::string record_text(const CaseState& state, const Desk& desk, const Policy& policy, const Zone& zone,
                        std::string_view number) {
    return record_sheet(state, desk, policy, zone, number).text();
}

record::Sheet record_sheet(const CaseState& state, const Desk& desk, const Policy& policy, const Zone& zone,
                           std::string_view number) {
    const record::Source v{state, desk, policy, zone, latest_entry(state), day_of(state, zone)};
    record::Sheet sheet;
    record::write_page_one(sheet, v, number);
    record::write_arrival(sheet, v);
    record::write_timeline(sheet, v);
    record::write_vital_signs(sheet, v);
    record::write_doses(sheet, v);
    record::write_airway(sheet, v);
    record::write_pauses(sheet, v);
    record::write_look(sheet, v);
    record::write_devices(sheet, v);
    record::write_sizing(sheet, v);
    record::write_recovery(sheet, v);
    record::write_discharge(sheet, v);
    record::write_attempts(sheet, v);
    record::write_policy(sheet, v);
    return sheet;
}

std::string addenda_text(const CaseState& state, const Desk& desk, const Zone& zone) {
    return addenda_sheet(state, desk, zone).text();
}

record::Sheet addenda_sheet(const CaseState& state, const Desk& desk, const Zone& zone) {
    record::Sheet sheet;
    if (!state.sealed) {
        return sheet;
    }
    const Policy none{};
    const record::Source v{state, desk, none, zone, latest_entry(state), day_of(state, zone)};
    for (const auto& kept : state.history) {
        const auto& stamp = kept.now.stamp;
        const auto words = stamp.seq > state.sealed->stamp.seq ? after_seal_words(kept.now.event, v) : "";
        if (words.empty()) {
            continue;
        }
        if (sheet.text().empty()) {
            sheet.section(say::after_seal);
            sheet.line(say::unchanged);
        }
        sheet.blank();
        sheet.line(fmt::format("{}, {}:", v.moment(stamp.at), v.who(stamp)));
        sheet.line(words, 3);
    }
    return sheet;
}

}  // namespace brimline
