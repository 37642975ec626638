// Findings and samples, the device with its preparation, sizing and read-backs of the text record.
#include <fmt/format.h>

#include "core/record/text_parts.h"

namespace brimline::record {
namespace {

namespace say {
constexpr std::string_view none_seen = "none of these; the whole list was read through";
constexpr std::string_view not_recorded = "not recorded";
constexpr std::string_view no_profile =
    "not among the clinic's device profiles; the ceiling comes from the plan";
}  // namespace say

std::string stamped(const Source& v, const Stamp& stamp) {
    return fmt::format("{}, {}", v.clock_s(stamp.happened), v.who(stamp));
}

void saline(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    if (block.saline) {
        sheet.field("Saline", fmt::format("{}; {}", entry_words(Event{block.saline->is}, v),
                                          stamped(v, block.saline->stamp)));
    }
    for (const auto& added : block.saline_added) {
        sheet.field("", fmt::format("{}; {}", entry_words(Event{added.is}, v), stamped(v, added.stamp)));
    }
    if (block.dye) {
        sheet.field(
            "Dye", fmt::format("{}; {}", entry_words(Event{block.dye->is}, v), stamped(v, block.dye->stamp)));
    }
}

void matter(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    for (const auto& one : block.matters) {
        sheet.field("Matter", fmt::format("{}; {}", entry_words(Event{one.is}, v), stamped(v, one.stamp)));
    }
    const auto reading = &block == &v.s.device() ? matter_reading(v.s, v.policy) : std::nullopt;
    if (!reading || !reading->judged) {
        return;
    }
    const auto words =
        reading->row_used ? fmt::format("{} used, {} counted", *reading->row_used, *reading->row_counted)
                          : fmt::format("{} of saline by the scale{}; counted {}",
                                        ml_words(Millilitres::of_tenths(*reading->saline_tenths)),
                                        *reading->matter_ml == Millilitres::of_tenths(*reading->saline_tenths)
                                            ? ""
                                            : ", with dye " + ml_words(*reading->matter_ml),
                                        ml_words(*reading->counted_ml));
    reading->agrees ? sheet.field("", words + ": agrees") : sheet.loud("", words + ": DIFFERS");
}

void one_device(Sheet& sheet, const Source& v, const DeviceBlock& block) {
    if (block.label) {
        sheet.field("Label", label_words(*block.label, v));
        sheet.field("Opened", stamped(v, block.label->stamp));
        const auto* profile = profile_of(block, v.policy);
        sheet.field("Profile", profile != nullptr
                                   ? fmt::format("{}, {} to {}", profile->words, ml_words(profile->least),
                                                 ml_words(profile->ceiling))
                                   : std::string{say::no_profile});
    }
    saline(sheet, v, block);
    const auto moment = [&](const char* label, const std::optional<Stamp>& stamp) {
        if (stamp) {
            sheet.field(label, stamped(v, *stamp));
        }
    };
    moment("Balloon passed", block.passed);
    moment("Position seen", block.position_seen);
    moment("Ready to fill", block.ready);
    if (!block.deliveries.empty()) {
        sheet.field("Filled", ml_words(running_volume(block)) + " = " + made_of_words(block));
    }
    for (const auto& stop : block.stops) {
        sheet.field("Stopped",
                    fmt::format("{}, {}{}", v.clock_s(stop.stamp.happened), plain(name_of(stop.reason)),
                                stop.until ? fmt::format(", went on {}, {} stopped", v.clock_s(*stop.until),
                                                         span_words(*stop.until - stop.stamp.happened))
                                           : ", not gone on"));
    }
    for (const auto& check : block.checks) {
        sheet.field("Count check",
                    fmt::format("{}; {}", entry_words(Event{check.is}, v), stamped(v, check.stamp)));
    }
    matter(sheet, v, block);
    moment("Catheter off", block.off);
    if (block.not_left_in) {
        sheet.loud("Not left in", fmt::format("{}; {}", entry_words(Event{block.not_left_in->is}, v),
                                              stamped(v, block.not_left_in->stamp)));
    }
}

void valve(Sheet& sheet, const Source& v) {
    for (const auto& one : v.s.valve_not_dry) {
        sheet.loud("Valve", fmt::format("{}; {}", entry_words(Event{one.is}, v), stamped(v, one.stamp)));
    }
    for (const auto& one : v.s.valve_dry) {
        sheet.field("Valve", fmt::format("{}; {}", entry_words(Event{one.is}, v), stamped(v, one.stamp)));
    }
    if (v.s.catheter) {
        const auto words =
            fmt::format("{}; {}", entry_words(Event{v.s.catheter->is}, v), stamped(v, v.s.catheter->stamp));
        v.s.catheter->is.complete ? sheet.field("Catheter", words) : sheet.loud("Catheter", words);
    }
    if (v.s.release_look) {
        sheet.field("Second look", fmt::format("{}; {}", entry_words(Event{v.s.release_look->is}, v),
                                               stamped(v, v.s.release_look->stamp)));
    }
    if (!v.s.presses_outside.empty()) {
        sheet.field("Pedal", fmt::format("{} outside a fill, not counted",
                                         counted(static_cast<std::int64_t>(v.s.presses_outside.size()),
                                                 "press", "presses")));
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
        sheet.field("Seen", fmt::format("{}; {}", entry_words(Event{one.is}, v), stamped(v, one.stamp)));
    }
    if (v.s.no_findings) {
        sheet.field("Seen", fmt::format("{}; {}", say::none_seen, stamped(v, *v.s.no_findings)));
    }
    for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
        const auto& one = v.s.samples[i];
        sheet.field(fmt::format("Sample {}", i + 1),
                    fmt::format("{}; {}", entry_words(Event{one.is}, v), stamped(v, one.stamp)));
    }
    if (v.s.go) {
        sheet.field("Go", stamped(v, *v.s.go));
    }
    if (v.s.no_go) {
        sheet.loud("No-go",
                   fmt::format("{}; {}", entry_words(Event{v.s.no_go->is}, v), stamped(v, v.s.no_go->stamp)));
    }
}

void write_devices(Sheet& sheet, const Source& v) {
    const auto& first = v.s.devices.front();
    if (v.s.devices.size() == 1 && !first.label && !first.saline && first.deliveries.empty() && !v.s.plan) {
        return;
    }
    sheet.section("Device and preparation");
    if (v.s.plan) {
        sheet.field("Plan",
                    fmt::format("{}; {}", entry_words(Event{v.s.plan->is}, v), stamped(v, v.s.plan->stamp)));
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
            sheet.field("Sizing",
                        fmt::format("{}; {}", entry_words(Event{one.is}, v), stamped(v, one.stamp)));
        }
        for (const auto& one : block.read_backs) {
            const auto words = fmt::format("{}; {}", entry_words(Event{one.is}, v), stamped(v, one.stamp));
            one.is.agreed ? sheet.field("Read-back", words) : sheet.loud("Read-back", words);
        }
    }
}

}  // namespace brimline::record
