// Look, devices, fill, sizing and removal of a FHIR document: findings, samples, the balloon with its label,
// volumes and how they were agreed.
#include <fmt/format.h>

#include "core/desk/register.h"
#include "core/label/gs1.h"
#include "core/record/fhir_bytes.h"
#include "core/record/fhir_parts.h"

namespace brimline::fhir {
namespace {

constexpr std::string_view findings = "59776-5";
constexpr std::string_view device_section = "46264-8";
constexpr std::string_view balloon_name = "Fluid-filled gastric balloon";

std::string entry_type(LabelHow how) {
    return how == LabelHow::scan ? "barcode" : how == LabelHow::typed ? "manual" : "unknown";
}

/// The label in the form for people, "(01)...(17)...".
std::string readable(const DeviceOpened& label) {
    std::string text;
    for (const auto& element : label.elements) {
        text += fmt::format("({}){}", element.ai, element.value);
    }
    return text;
}

std::string made_on(const DeviceOpened& label, LocalDate day) {
    for (const auto& element : label.elements) {
        if (element.ai == "11") {
            const auto date = label_date(element.value, day);
            return date ? date_text(*date) : "";
        }
    }
    return "";
}

Json balloon(const Document& d, const DeviceBlock& block, bool inside) {
    const auto& label = block.label->is;
    Json r{{"resourceType", "Device"}};
    Json carrier = Json::object();
    put(carrier, "deviceIdentifier", label.gtin.value_or(""));
    if (label.gtin) {
        carrier["issuer"] = "http://hl7.org/fhir/NamingSystem/gs1-di";
    }
    put(carrier, "carrierAIDC", base64(label.how == LabelHow::scan ? label.raw.value_or("") : ""));
    put(carrier, "carrierHRF", readable(label));
    carrier["entryType"] = entry_type(label.how);
    r["udiCarrier"] = Json::array({std::move(carrier)});
    r["status"] = inside ? "active" : "inactive";
    put(r, "manufactureDate", made_on(label, d.v.day));
    put(r, "expirationDate", label.expiry ? date_text(*label.expiry) : "");
    put(r, "lotNumber", label.lot.value_or(""));
    put(r, "serialNumber", label.serial.value_or(""));
    const auto* profile = profile_of(block, d.v.policy);
    r["deviceName"] =
        Json::array({Json{{"name", std::string{balloon_name}}, {"type", "user-friendly-name"}}});
    if (profile != nullptr && !profile->words.empty()) {
        r["deviceName"].push_back(Json{{"name", profile->words}, {"type", "model-name"}});
    }
    r["type"] = own("gastric-balloon", balloon_name);
    if (inside) {
        r["patient"] = d.ref("patient");
    }
    return r;
}

void volume(Document& d, std::string_view key, Json code, const Stamp& stamp, Millilitres ml) {
    auto o = observation(d, "procedure", std::move(code), stamp);
    o["valueQuantity"] = quantity(ml);
    o["device"] = d.ref("device");
    d.add_to(device_section, key, std::move(o));
}

void add_plan(Document& d) {
    if (!d.v.s.plan) {
        return;
    }
    const auto& [stamp, is] = *d.v.s.plan;
    auto o = observation(d, "procedure", own("fill-plan", "Volume as planned"), stamp);
    o["valueQuantity"] = quantity(is.aim);
    o["component"] =
        Json::array({component(own("band-low", "Band from"), "valueQuantity", quantity(is.band_low)),
                     component(own("band-high", "Band to"), "valueQuantity", quantity(is.band_high))});
    if (is.ceiling) {
        o["component"].push_back(
            component(own("ceiling", "Ceiling"), "valueQuantity", quantity(*is.ceiling)));
    }
    d.add_to(device_section, "plan", std::move(o));
}

void add_counts(Document& d, const DeviceBlock& block) {
    for (const auto& check : block.checks) {
        const auto& is = check.is;
        auto o = observation(d, "procedure", own("count-check", "Syringes by each count"), check.stamp);
        o["valueBoolean"] = is.agreed;
        const auto part = [](const char* code, const char* words, int n) {
            return component(own(code, words), "valueQuantity", quantity(n, "syringes", "{syringe}"));
        };
        o["component"] = Json::array({part("taps", "By taps", is.own), part("said", "As said", is.said)});
        if (is.pedal) {
            o["component"].push_back(part("pedal", "By the physician's pedal", *is.pedal));
        }
        if (is.parted_at) {
            o["component"].push_back(
                component(own("parted-at", "The counts part at"), "valueDateTime", utc_text(*is.parted_at)));
        }
        d.add_to(device_section, key_of("count", check.stamp), std::move(o));
    }
}

void add_read_backs(Document& d, const DeviceBlock& block) {
    for (const auto& one : block.read_backs) {
        auto o = observation(d, "procedure", own("read-back", "Volume as read back, blind"), one.stamp);
        o["valueQuantity"] = quantity(one.is.ml);
        o["component"] =
            Json::array({component(own("counted", "Counted"), "valueQuantity", quantity(one.is.counted)),
                         component(own("agreed", "Agreed"), "valueBoolean", one.is.agreed)});
        d.add_to(device_section, key_of("read back", one.stamp), std::move(o));
    }
}

void add_sizings(Document& d, const DeviceBlock& block) {
    for (const auto& one : block.sizings) {
        const auto& is = one.is;
        auto o = observation(d, "exam", own("sizing", "Room around the balloon"), one.stamp);
        const bool well = is.gap && is.passes && is.not_wedged && is.no_blanching;
        o["valueCodeableConcept"] = own(well ? "well" : "not-well", well ? "all well" : "not all well");
        const auto part = [](const char* code, const char* words, bool yes) {
            return component(own(code, words), "valueBoolean", yes);
        };
        o["component"] =
            Json::array({part("gap", "Gap all round", is.gap), part("passes", "The scope passes", is.passes),
                         part("not-wedged", "Not wedged", is.not_wedged),
                         part("no-blanching", "No blanching", is.no_blanching),
                         component(own("position", "Position"), "valueCodeableConcept",
                                   own(name_of(is.position), name_of(is.position)))});
        d.add_to(device_section, key_of("sizing", one.stamp), std::move(o));
    }
}

void add_dye(Document& d, const DeviceBlock& block) {
    if (!block.dye) {
        return;
    }
    const auto& [stamp, is] = *block.dye;
    auto o = observation(d, "procedure", own("dye", "Dye in the fluid"), stamp);
    o["valueString"] = is.agent.value_or("none");
    if (is.ml) {
        o["component"] =
            Json::array({component(own("dye-volume", "Dye"), "valueQuantity", quantity(*is.ml))});
    }
    d.add_to(device_section, key_of("dye", stamp), std::move(o));
}

/// The balloon that a removal takes out, as far as it is known.
void add_removed_device(Document& d, const Placement& placement) {
    Json r{{"resourceType", "Device"}, {"status", d.v.s.out ? "inactive" : "active"}};
    put(r, "lotNumber", placement.lot.value_or(""));
    put(r, "serialNumber", placement.serial.value_or(""));
    r["deviceName"] =
        Json::array({Json{{"name", std::string{balloon_name}}, {"type", "user-friendly-name"}}});
    r["type"] = own("gastric-balloon", balloon_name);
    r["patient"] = d.ref("patient");
    d.add_to(device_section, "removed device", std::move(r));
    Json use{{"resourceType", "DeviceUseStatement"},
             {"status", d.v.s.out ? "completed" : "active"},
             {"subject", d.ref("patient")}};
    use["timingPeriod"] = Json{{"start", date_text(placement.placed)}};
    if (d.v.s.out) {
        use["timingPeriod"]["end"] = date_text(d.v.zone.date_of(d.v.s.out->stamp.happened));
    }
    use["device"] = d.ref("removed device");
    use["note"] = Json::array(
        {Json{{"text", placement.reported ? "Placed elsewhere; as reported." : "By our own record."}}});
    d.add_to(device_section, "removed use", std::move(use));
}

Json figure(Document& d, const char* code, const char* words, const Stamp& stamp, Json value) {
    auto o = observation(d, "procedure", own(code, words), stamp);
    o.erase("performer");  // worked out, not said
    o.erase("issued");
    o["valueQuantity"] = std::move(value);
    return o;
}

void add_weight_outcome(Document& d, const Stamp& stamp) {
    const auto loss = weight_outcome(d.v.s, d.v.desk, d.v.policy, d.v.zone);
    if (!loss) {
        return;
    }
    const auto percent = [](const Fraction& f) { return quantity(Json::parse(f.text(1)), "%", "%"); };
    d.add_to(device_section, "tbwl",
             figure(d, "tbwl", "Total body weight lost", stamp, percent(loss->tbwl_percent)));
    if (loss->ewl_percent) {
        d.add_to(device_section, "ewl",
                 figure(d, "ewl", "Excess weight lost", stamp, percent(*loss->ewl_percent)));
    }
}

}  // namespace

void add_look(Document& d) {
    const auto& lists = d.v.policy.lists;
    for (const auto& one : d.v.s.findings) {
        auto o = observation(d, "exam", own("finding", "Finding of the look"), one.stamp);
        o["valueCodeableConcept"] = own(one.is.kind, record::words_of(lists.findings, one.is.kind));
        Json parts = Json::array();
        if (one.is.size_cm) {
            parts.push_back(
                component(own("size", "Size"), "valueQuantity", quantity(*one.is.size_cm, "cm", "cm")));
        }
        if (one.is.grade && !one.is.grade->empty()) {
            parts.push_back(component(own("grade", "Grade"), "valueString", *one.is.grade));
        }
        put(o, "component", std::move(parts));
        if (one.is.note && !one.is.note->empty()) {
            o["note"] = Json::array({Json{{"text", *one.is.note}}});
        }
        d.add_to(findings, key_of("finding", one.stamp), std::move(o));
    }
    if (d.v.s.no_findings) {
        auto o = observation(d, "exam", own("finding", "Finding of the look"), *d.v.s.no_findings);
        const bool none = d.v.s.findings.empty();
        o["valueCodeableConcept"] =
            own(none ? "none" : "no-others", none ? "none of the list" : "no others of the list");
        d.add_to(findings, "no findings", std::move(o));
    }
    for (const auto& one : d.v.s.samples) {
        auto o = observation(d, "procedure", own("sample", "Sample taken"), one.stamp);
        o["valueString"] =
            fmt::format("{}, {}, {}; owner {}, due {}", record::words_of(lists.samples, one.is.kind),
                        record::words_of(lists.sample_sites, one.is.site),
                        record::counted(one.is.pieces, "piece", "pieces"), d.v.person(one.is.owner),
                        date_text(one.is.due));
        d.add_to(findings, key_of("sample", one.stamp), std::move(o));
    }
}

void add_devices(Document& d) {
    const auto& s = d.v.s;
    for (std::size_t i = 0; i < s.devices.size(); ++i) {
        const auto& block = s.devices[i];
        if (!block.label) {
            continue;
        }
        const bool last = i + 1 == s.devices.size();
        const bool inside = last && placed_at(s).has_value() && !block.not_left_in;
        const auto key = last ? std::string{"device"} : fmt::format("device {}", i + 1);
        d.add_to(device_section, key, balloon(d, block, inside));
        if (inside) {
            Json use{
                {"resourceType", "DeviceUseStatement"}, {"status", "active"}, {"subject", d.ref("patient")}};
            use["timingPeriod"] = period(placed_at(s), std::nullopt);
            use["device"] = d.ref(key);
            if (const auto due = dates_given(s, d.v.desk, d.v.policy, d.v.zone).due) {
                use["note"] = Json::array({Json{{"text", "Due out on " + date_text(*due)}}});
            }
            d.add_to(device_section, "use", std::move(use));
        }
    }
}

void add_fill(Document& d) {
    add_plan(d);
    const auto& block = d.v.s.device();
    if (!block.label) {
        return;
    }
    add_dye(d, block);
    if (!block.deliveries.empty()) {
        Stamp stamp = block.deliveries.back().stamp;
        volume(d, "final volume", own("final-volume", "Volume in the balloon, counted"), stamp,
               running_volume(block));
    }
    add_counts(d, block);
    add_sizings(d, block);
    add_read_backs(d, block);
}

void add_removal(Document& d) {
    if (d.v.s.kind != CaseKind::removal) {
        return;
    }
    const auto figures = removal_figures(d.v.s, d.v.desk, d.v.policy, d.v.zone);
    if (figures.placement) {
        add_removed_device(d, *figures.placement);
    }
    if (!figures.recovered) {
        return;
    }
    const auto& read = d.v.s.canister.empty() ? d.v.s.aspirated.back().stamp : d.v.s.canister.back().stamp;
    d.add_to(device_section, "recovered",
             figure(d, "recovered-volume", "Volume that came out", read, quantity(*figures.recovered)));
    if (figures.placement && figures.placement->volume) {
        d.add_to(device_section, "filled",
                 figure(d, "filled-volume",
                        figures.placement->reported ? "Volume put in, as reported" : "Volume put in", read,
                        quantity(*figures.placement->volume)));
    }
    if (!d.v.s.fluid.empty()) {
        auto o = observation(d, "exam", own("fluid-colour", "Colour of the fluid"), d.v.s.fluid.back().stamp);
        o["valueString"] = record::words_of(d.v.policy.lists.fluid_colours, d.v.s.fluid.back().is.colour);
        d.add_to(device_section, "colour", std::move(o));
    }
    add_weight_outcome(d, read);
}

}  // namespace brimline::fhir
