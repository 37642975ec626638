// Gates, holds with their overrides and provisos, and corrections, as page one of the text record shows them.
// What was skipped, overridden or rests on memory alone is marked in the margin.
#include <fmt/format.h>

#include "core/record/text_parts.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view crossed = "CROSSED: passed before it was met";
constexpr std::string_view done_later = "CROSSED: passed before it was met; done later, at";
constexpr std::string_view not_reached = "not reached";
constexpr std::string_view none = "none";
constexpr std::string_view still_stands = "STILL STANDS.";
constexpr std::string_view to_countersign = "entered for the physician, to countersign";
constexpr std::string_view countersigned =
    "entered for the physician, countersigned by the physician's signature";
constexpr std::string_view memory_only = "MEMORY ONLY: neither the matter nor the pedal was the witness";
constexpr std::string_view no_evidence = "no witness named";
constexpr std::string_view not_answered = "NOT ANSWERED";
}  // namespace say

void gate(Sheet& sheet, const Source& v, const char* name, GateState state, std::optional<Instant> met) {
    const auto label = fmt::format("Gate: {}", name);
    if (state == GateState::crossed) {
        return sheet.loud(
            label, met ? fmt::format("{} {}", say::done_later, v.when(*met)) : std::string{say::crossed});
    }
    sheet.field(label, state == GateState::met && met
                           ? fmt::format("met at {}", v.when(*met))
                           : std::string{state == GateState::met ? "met" : say::not_reached});
}

std::optional<Instant> time_of(const std::optional<Stamp>& stamp) {
    return stamp ? std::optional{stamp->happened} : std::nullopt;
}

std::optional<Instant> identity_met(const CaseState& s) {
    if (!s.identity_settled()) {
        return std::nullopt;
    }
    return std::max(s.identity->stamp.happened, s.consent->stamp.happened);
}

std::optional<Instant> read_back_met(const DeviceBlock& block) {
    if (block.read_backs.empty() || !block.read_backs.back().is.agreed) {
        return std::nullopt;
    }
    return block.read_backs.back().stamp.happened;
}

std::string how_ended(const Source& v, const Hold& hold) {
    if (!hold.ended) {
        return std::string{say::still_stands};
    }
    const auto at = v.when(*hold.ended);
    switch (*hold.ended_how) {
        case HoldEnd::time:
            return fmt::format("Ended by itself at {}.", at);
        case HoldEnd::resolved:
            return fmt::format("Resolved at {}.", at);
        case HoldEnd::overridden:
            return fmt::format("Overridden at {}.", at);
        case HoldEnd::plan_moved:
            return fmt::format("Ended at {} because the plan was moved.", at);
        case HoldEnd::explained:
            return fmt::format("Explained at {}.", at);
    }
    return at;
}

void overrides(Sheet& sheet, const Source& v, const Hold& hold) {
    for (const auto& one : hold.overrides) {
        auto words = fmt::format("{} at {}: {}", v.who(one.stamp), v.when(one.stamp.happened),
                                 lowered(words_of(v.policy.lists.override_reasons, one.is.reason)));
        words += one.is.words ? fmt::format(", \"{}\"", *one.is.words) : "";
        if (one.is.to_countersign) {
            const bool done = v.s.signatures.contains(Part::physician);
            words += fmt::format("; {}", done ? say::countersigned : say::to_countersign);
        }
        sheet.loud("  override", words);
    }
}

void provisos(Sheet& sheet, const Source& v, const Hold& hold) {
    for (const auto& proviso : v.s.provisos) {
        if (proviso.hold != hold.code) {
            continue;
        }
        const auto asked = fmt::format("at {}: {}", plain(proviso.said.stage), proviso.said.condition);
        if (!proviso.answer) {
            sheet.loud("  proviso", fmt::format("{}; {}", asked, say::not_answered));
            continue;
        }
        const auto& answer = *proviso.answer;
        sheet.field("  proviso", fmt::format("{}; answered {} at {}, {}{}", asked, name_of(answer.is.value),
                                             v.when(answer.stamp.happened), v.who(answer.stamp),
                                             answer.is.note ? ", \"" + *answer.is.note + "\"" : ""));
    }
}

std::string evidence_words(const std::optional<Evidence>& evidence) {
    if (!evidence) {
        return std::string{say::no_evidence};
    }
    return *evidence == Evidence::memory ? std::string{say::memory_only}
                                         : fmt::format("witness: {}", name_of(*evidence));
}

/// The entry that was corrected, by the name of what it is.
std::string entry_named(const Source& v, std::int64_t seq) {
    for (const auto& kept : v.s.history) {
        if (kept.first.stamp.seq == seq) {
            return fmt::format("{} of {} (entry {})", plain(kind_of(kept.first.event)),
                               v.when(kept.first.stamp.happened), seq);
        }
    }
    return fmt::format("entry {}", seq);
}

void count_correction(Sheet& sheet, const Source& v, const Noted<CountCorrected>& c) {
    Millilitres before;
    for (const auto& block : v.s.devices) {
        const auto after = running_after(block);
        if (const auto found = after.find(c.stamp.seq); found != after.end()) {
            before = found->second - c.is.ml;
        }
    }
    sheet.loud("Count corrected",
               fmt::format("{} for {}, {} became {}: \"{}\"; {}{}; {}; entered {}", signed_ml_words(c.is.ml),
                           v.when(c.stamp.happened), ml_words(before), ml_words(before + c.is.ml),
                           c.is.reason, v.who(c.stamp), c.is.with ? " with " + v.person(*c.is.with) : "",
                           evidence_words(c.is.evidence), v.when(c.stamp.at)));
}

void entry_correction(Sheet& sheet, const Source& v, const CorrectionKept& c) {
    const auto what = entry_named(v, c.is.entry);
    auto words = c.is.withdrawn ? fmt::format("{} withdrawn: it never happened", what)
                                : fmt::format("{}: {} became {}", what, fields_words(c.is.before),
                                              fields_words(c.is.after));
    if (c.is.happened_now) {
        words += fmt::format("; it took place at {}", v.when(*c.is.happened_now));
    }
    words += fmt::format(": \"{}\"; {}{} at {}", c.is.reason, v.who(c.stamp),
                         c.is.with ? " with " + v.person(*c.is.with) : "", v.when(c.stamp.at));
    words += c.is.evidence ? "; " + evidence_words(c.is.evidence) : "";
    sheet.loud("Corrected", words);
}

/// A second device opens two gates again; what was crossed with an earlier one stays said.
void gates_of_earlier_devices(Sheet& sheet, const Source& v) {
    for (std::size_t i = 0; i + 1 < v.s.devices.size(); ++i) {
        const auto& block = v.s.devices[i];
        if (block.position_crossed) {
            sheet.loud(fmt::format("Device {}: position", i + 1), say::crossed);
        }
        if (block.read_back_crossed) {
            sheet.loud(fmt::format("Device {}: read-back", i + 1), say::crossed);
        }
    }
}

}  // namespace

void write_gates(Sheet& sheet, const Source& v) {
    gate(sheet, v, "identity", gate_identity(v.s), identity_met(v.s));
    if (v.s.kind == CaseKind::removal) {
        return;
    }
    const auto& block = v.s.device();
    gates_of_earlier_devices(sheet, v);
    gate(sheet, v, "go", gate_go(v.s), time_of(v.s.go));
    gate(sheet, v, "position", gate_position(v.s), time_of(block.position_seen));
    gate(sheet, v, "read-back", gate_read_back(v.s), read_back_met(block));
}

void write_holds(Sheet& sheet, const Source& v) {
    if (v.s.holds.empty()) {
        sheet.field("Holds", say::none);
    }
    for (const auto& hold : v.s.holds) {
        auto words = fmt::format("{}, since {}", name_of(hold.hold_class), v.when(hold.since));
        words += hold.until ? fmt::format(", until {}", v.when(*hold.until)) : "";
        sheet.loud("Hold", fmt::format("{}: {} {}", words, hold.say, how_ended(v, hold)));
        overrides(sheet, v, hold);
        provisos(sheet, v, hold);
    }
}

void write_corrections(Sheet& sheet, const Source& v) {
    if (v.s.count_corrections.empty() && v.s.corrections.empty()) {
        sheet.field("Corrections", say::none);
    }
    for (const auto& c : v.s.count_corrections) {
        count_correction(sheet, v, c);
    }
    for (const auto& c : v.s.corrections) {
        entry_correction(sheet, v, c);
    }
}

}  // namespace brimline::record
