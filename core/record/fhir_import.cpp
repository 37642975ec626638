// Reading a document.
#include "core/record/fhir_import.h"

#include <fmt/format.h>

#include "core/case/codec_fields.h"

namespace brimline {
namespace {

namespace say {
constexpr const char* not_one = "This is no FHIR document: a Bundle of type \"document\" in JSON is needed.";
constexpr const char* no_balloon = "This document tells of no balloon that was left in.";
constexpr const char* next = "Ask the other clinic for its record, or enter what the card says.";
}  // namespace say

/// The value at a path of names, and of 0 for the first of a list; null where there is none.
const Json& at(const Json& value, std::initializer_list<const char*> path) {
    static const Json none;
    const Json* here = &value;
    for (const char* step : path) {
        if (here->is_array() && !here->empty()) {
            here = &here->front();
        }
        const auto found = here->is_object() ? here->find(step) : here->end();
        if (!here->is_object() || found == here->end()) {
            return none;
        }
        here = &*found;
    }
    return here->is_array() && !here->empty() ? here->front() : *here;
}

std::optional<std::string> text_at(const Json& value, std::initializer_list<const char*> path) {
    const auto& found = at(value, path);
    return found.is_string() && !found.get_ref<const std::string&>().empty()
               ? std::optional{found.get<std::string>()}
               : std::nullopt;
}

/// Resources of one kind, in their order.
std::vector<const Json*> all_of(const Json& bundle, std::string_view kind) {
    std::vector<const Json*> found;
    const auto entries = bundle.find("entry");
    if (entries == bundle.end() || !entries->is_array()) {
        return found;
    }
    for (const auto& entry : *entries) {
        const auto& resource = at(entry, {"resource"});
        if (text_at(resource, {"resourceType"}) == kind) {
            found.push_back(&resource);
        }
    }
    return found;
}

bool has_code(const Json& resource, std::string_view code) {
    const auto& codings = at(resource, {"code"});
    const auto list = codings.is_object() ? codings.find("coding") : codings.end();
    if (!codings.is_object() || list == codings.end() || !list->is_array()) {
        return false;
    }
    return std::any_of(list->begin(), list->end(),
                       [&](const Json& one) { return text_at(one, {"code"}) == code; });
}

const Json* observed(const Json& bundle, std::string_view code) {
    const Json* latest = nullptr;
    for (const auto* one : all_of(bundle, "Observation")) {
        latest = has_code(*one, code) ? one : latest;
    }
    return latest;
}

std::optional<Decimal> quantity_of(const Json* observation, std::string_view unit) {
    if (observation == nullptr || text_at(*observation, {"valueQuantity", "code"}) != unit) {
        return std::nullopt;
    }
    return codec::decimal_of(at(*observation, {"valueQuantity", "value"}));
}

/// The use that goes on: a DeviceUseStatement that is active and has no end.
const Json* use_in_place(const Json& bundle) {
    for (const auto* use : all_of(bundle, "DeviceUseStatement")) {
        if (text_at(*use, {"status"}) == "active" && !text_at(*use, {"timingPeriod", "end"})) {
            return use;
        }
    }
    return nullptr;
}

const Json* device_of(const Json& bundle, const Json& use) {
    const auto wanted = text_at(use, {"device", "reference"});
    for (const auto& entry : bundle["entry"]) {
        if (wanted && text_at(entry, {"fullUrl"}) == wanted) {
            return &entry["resource"];
        }
    }
    return nullptr;
}

std::optional<LocalDate> day_of(const std::optional<std::string>& text, const Zone& zone) {
    if (!text) {
        return std::nullopt;
    }
    const auto moment = parse_instant(*text);
    return moment ? std::optional{zone.date_of(*moment)} : parse_date(*text);
}

std::string written_by(const Json& bundle) {
    std::string name = "another clinic";
    for (const auto* one : all_of(bundle, "Organization")) {
        name = text_at(*one, {"name"}).value_or(name);
    }
    const auto number = text_at(bundle, {"identifier", "value"});
    return name + (number ? fmt::format(", FHIR document {}", *number) : ", FHIR document");
}

void read_volumes(const Json& bundle, PlacedElsewhere& placed) {
    if (const auto ml = quantity_of(observed(bundle, "final-volume"), "mL")) {
        const auto tenths = ml->whole(10);
        placed.ml = tenths && *tenths > 0 ? std::optional{Millilitres::of_tenths(*tenths)} : std::nullopt;
    }
    if (const auto* dye = observed(bundle, "dye")) {
        const auto agent = text_at(*dye, {"valueString"});
        placed.dye = agent ? std::optional{Loose{*agent == "none" ? "no" : *agent}} : std::nullopt;
    }
    placed.weight_kg = quantity_of(observed(bundle, "29463-7"), "kg");
}

}  // namespace

Expected<PlacedElsewhere> placement_in_document(std::string_view json, const Zone& zone) {
    if (json.size() > longest_bundle) {
        return refuse("bundle-too-long",
                      fmt::format("A document of at most {} bytes is read.", longest_bundle));
    }
    const auto bundle = parse_json(json);
    if (!bundle || text_at(*bundle, {"resourceType"}) != "Bundle" ||
        text_at(*bundle, {"type"}) != "document") {
        return refuse("bundle-not-one", say::not_one, say::next);
    }
    const auto* use = use_in_place(*bundle);
    if (use == nullptr) {
        return refuse("bundle-no-balloon", say::no_balloon, say::next);
    }
    const auto start = text_at(*use, {"timingPeriod", "start"});
    const auto placed_on = day_of(start, zone);
    if (!placed_on) {
        return refuse("bundle-field",
                      fmt::format("The day of the placement, \"{}\", is no date.", start.value_or("")),
                      say::next);
    }
    PlacedElsewhere placed;
    placed.placed = *placed_on;
    placed.source = ElsewhereSource::letter;
    placed.clinic = written_by(*bundle);
    if (const auto* device = device_of(*bundle, *use)) {
        placed.lot = text_at(*device, {"lotNumber"});
        placed.serial = text_at(*device, {"serialNumber"});
        placed.device = text_at(*device, {"udiCarrier", "deviceIdentifier"});
        placed.device = placed.device ? placed.device : text_at(*device, {"deviceName", "name"});
    }
    read_volumes(*bundle, placed);
    return placed;
}

}  // namespace brimline
