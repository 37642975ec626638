// Findings and samples, the device with its preparation, sizing and read-backs of the text record.
#include <fmt/format.h>

#include "core/record/text_parts.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view none_seen = "None of these findings; the whole list was read through";
constexpr std::string_view others_not_seen = "None of the other findings; the whole list was read through";
constexpr std::string_view go = "GO";
constexpr std::string_view passed = "Balloon passed";
constexpr std::string_view position = "Position seen: wholly below the junction";
constexpr std::string_view ready = "Ready to fill";
constexpr std::string_view off = "Catheter off";
constexpr std::string_view not_gone_on = "not gone on";
constexpr std::string_view not_recorded = "not recorded";
constexpr std::string_view no_profile =
    "Not among the clinic's device profiles: the ceiling comes from the plan";
}  // namespace say

/// One line: when, what it says, who.
template <class T>
void entry(Sheet& sheet, const Source& v, const Noted<T>& one, bool loud = false) {
    const auto words = fmt::format("{}; {}", entry_words(Event{one.is}, v), v.who(one.stamp));
    loud ? sheet.loud(v.clock_s(one.stamp.happened), words)
         : sheet.field(v.clock_s(one.stamp.happened), words);
}

void moment(Sheet& sheet, const Source& v, std::string_view words, const std::optional<Stamp>& stamp) {
    if (stamp) {
        sheet.field(v.clock_s(stamp->happened), fmt::format("{}; {}", words, v.who(*stamp)));
    }
}

void matter(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    for (const auto& one : block.matters) {
        entry(sheet, v, one);
    }
    const auto reading = &block == &v.s.device() ? matter_reading(v.s, v.policy) : std::nullopt;
    if (!reading || !reading->judged) {
        return;
    }
    std::string words;
    if (reading->row_used) {
        words = fmt::format("{} used, {} counted", *reading->row_used, *reading->row_counted);
    } else {
        const auto saline = Millilitres::of_tenths(*reading->saline_tenths);
        words = fmt::format("{} of saline by the scale", ml_words(saline));
        words += *reading->matter_ml == saline ? "" : ", with dye " + ml_words(*reading->matter_ml);
        words += ", counted " + ml_words(*reading->counted_ml);
    }
    reading->agrees ? sheet.field("", words + ": agrees") : sheet.loud("", words + ": DIFFERS");
}

void stops(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    for (const auto& stop : block.stops) {
        const auto end = stop.until ? fmt::format("went on {}, {} stopped", v.clock_s(*stop.until),
                                                  span_words(*stop.until - stop.stamp.happened))
                                    : std::string{say::not_gone_on};
        sheet.field(v.clock_s(stop.stamp.happened),
                    fmt::format("Stop of the fill: {}, {}", plain(name_of(stop.reason)), end));
    }
}

void preparation(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    if (block.label) {
        entry(sheet, v, *block.label);
        const auto* profile = profile_of(block, v.policy);
        sheet.field("", profile != nullptr ? fmt::format("Profile: {}, {} to {}", profile->words,
                                                         ml_words(profile->least), ml_words(profile->ceiling))
                                           : std::string{say::no_profile});
    }
    if (block.saline) {
        entry(sheet, v, *block.saline);
    }
    for (const auto& added : block.saline_added) {
        entry(sheet, v, added);
    }
    if (block.dye) {
        entry(sheet, v, *block.dye);
    }
    moment(sheet, v, say::passed, block.passed);
    moment(sheet, v, say::position, block.position_seen);
    moment(sheet, v, say::ready, block.ready);
}

void one_device(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    preparation(sheet, v, block);
    if (!block.deliveries.empty()) {
        sheet.field("Filled", ml_words(running_volume(block)) + " = " + made_of_words(block));
    }
    stops(sheet, v, block);
    for (const auto& check : block.checks) {
        entry(sheet, v, check, !check.is.agreed);
    }
    matter(sheet, v, block);
    moment(sheet, v, say::off, block.off);
    if (block.not_left_in) {
        entry(sheet, v, *block.not_left_in, true);
    }
}

void valve(Sheet& sheet, const Source& v) {
    for (const auto& one : v.s.valve_not_dry) {
        entry(sheet, v, one, true);
    }
    for (const auto& one : v.s.valve_dry) {
        entry(sheet, v, one);
    }
    if (v.s.catheter) {
        entry(sheet, v, *v.s.catheter, !v.s.catheter->is.complete);
    }
    if (v.s.release_look) {
        entry(sheet, v, *v.s.release_look,
              !v.s.release_look->is.position_same || v.s.release_look->is.bleeding);
    }
    if (!v.s.presses_outside.empty()) {
        const auto presses = static_cast<std::int64_t>(v.s.presses_outside.size());
        sheet.field("Pedal",
                    fmt::format("{} outside a fill, not counted", counted(presses, "press", "presses")));
    }
}

}  // namespace

std::string label_words(const Noted<DeviceOpened>& label, const Source& v) {
    const auto& is = label.is;
    std::vector<std::string> parts;
    parts.push_back("lot " + is.lot.value_or(std::string{say::not_recorded}));
    parts.push_back("serial " + is.serial.value_or(std::string{say::not_recorded}));
    parts.push_back("expiry " + (is.expiry ? date_words(*is.expiry) : std::string{say::not_recorded}));
    if (is.gtin) {
        parts.push_back("GTIN " + *is.gtin);
    }
    switch (is.how) {
        case LabelHow::scan:
            parts.emplace_back("scanned");
            break;
        case LabelHow::typed:
            parts.push_back("TYPED" + (is.verified_by ? ", read by " + v.person(*is.verified_by) : ""));
            break;
        case LabelHow::unreadable:
            parts.emplace_back("LABEL UNREADABLE");
            break;
    }
    return joined(parts);
}

void write_look(Sheet& sheet, const Source& v) {
    if (v.s.findings.empty() && !v.s.no_findings && v.s.samples.empty() && !v.s.go && !v.s.no_go) {
        return;
    }
    sheet.section("Look");
    for (const auto& one : v.s.findings) {
        entry(sheet, v, one);
    }
    moment(sheet, v, v.s.findings.empty() ? say::none_seen : say::others_not_seen, v.s.no_findings);
    for (const auto& one : v.s.samples) {
        entry(sheet, v, one);
    }
    moment(sheet, v, say::go, v.s.go);
    if (v.s.no_go) {
        entry(sheet, v, *v.s.no_go, true);
    }
}

void write_devices(Sheet& sheet, const Source& v) {
    const auto& first = v.s.devices.front();
    if (v.s.devices.size() == 1 && !first.label && !first.saline && first.deliveries.empty() && !v.s.plan) {
        return;
    }
    sheet.section("Device and preparation");
    sheet.figure(Figure::counts);
    if (v.s.plan) {
        entry(sheet, v, *v.s.plan);
    }
    for (std::size_t i = 0; i < v.s.devices.size(); ++i) {
        if (v.s.devices.size() > 1) {
            sheet.line(fmt::format("Device {} of {}", i + 1, v.s.devices.size()), 3);
        }
        one_device(sheet, v, v.s.devices[i]);
    }
    valve(sheet, v);
}

void write_sizing(Sheet& sheet, const Source& v) {
    bool headed = false;
    for (const auto& block : v.s.devices) {
        if (!headed && (!block.sizings.empty() || !block.read_backs.empty())) {
            sheet.section("Sizing and read-back");
            headed = true;
        }
        for (const auto& one : block.sizings) {
            const auto& is = one.is;
            entry(sheet, v, one, !is.gap || !is.passes || !is.not_wedged || !is.no_blanching);
        }
        for (const auto& one : block.read_backs) {
            entry(sheet, v, one, !one.is.agreed);
        }
    }
}

}  // namespace brimline::record
