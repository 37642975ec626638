// Vital signs, body, depth, oxygen and airway events of a FHIR document. Codes, units and shapes: the R4
// vital-sign profiles, as laid out in interchange.md 1.3.
#include <fmt/format.h>

#include "core/record/fhir_parts.h"
#include "core/rules/body.h"
#include "core/rules/depth.h"
#include "core/rules/vitals.h"

namespace brimline::fhir {
namespace {

constexpr std::string_view vitals_section = "8716-3";
constexpr std::string_view sedation_section = "11485-0";

struct Sign {
    std::string_view key, profile, code, words, unit, ucum_code;
};
constexpr Sign heart_rate{"hr", "heartrate", "8867-4", "Heart rate", "per minute", "/min"};
constexpr Sign breathing{"rr", "resprate", "9279-1", "Respiratory rate", "per minute", "/min"};
constexpr Sign saturation{"spo2", "oxygensat", "2708-6", "Oxygen saturation", "%", "%"};
constexpr Sign weight_sign{"weight", "bodyweight", "29463-7", "Body weight", "kg", "kg"};
constexpr Sign height_sign{"height", "bodyheight", "8302-2", "Body height", "cm", "cm"};
constexpr Sign bmi_sign{"bmi", "bmi", "39156-5", "Body mass index", "kg/m2", "kg/m2"};

Json profiled(std::string_view profile, Json resource) {
    Json r{{"resourceType", "Observation"},
           {"meta", Json{{"profile", Json::array({std::string{definition} + std::string{profile}})}}}};
    r.update(resource);
    return r;
}

Json sign_observation(Document& d, const Sign& sign, const Stamp& stamp, Json value) {
    auto o = observation(d, "vital-signs", concept_of(loinc, sign.code, sign.words), stamp);
    o["valueQuantity"] = quantity(std::move(value), sign.unit, sign.ucum_code);
    return profiled(sign.profile, std::move(o));
}

void add_sign(Document& d, const Sign& sign, const Stamp& stamp, const std::optional<int>& value) {
    if (!value) {
        return;
    }
    auto o = sign_observation(d, sign, stamp, *value);
    if (sign.code == saturation.code) {  // pulse oximetry stands beside the code of the profile, never alone
        o["code"]["coding"].push_back(coding(loinc, "59408-5"));
    }
    d.add_to(vitals_section, key_of(sign.key, stamp), std::move(o));
}

Json absent(std::string_view code) {
    return Json{{"coding", Json::array({coding(system_named("data-absent-reason"), code)})}};
}

Json pressure_part(std::string_view code, std::string_view words, const std::optional<int>& value) {
    Json part{{"code", concept_of(loinc, code, words)}};
    value ? part["valueQuantity"] = quantity(*value, "mmHg", "mm[Hg]")
          : part["dataAbsentReason"] = absent("unknown");
    return part;
}

void add_pressure(Document& d, const Noted<Vitals>& set) {
    const auto& is = set.is;
    if (!is.systolic && !is.diastolic) {
        return;
    }
    auto o = observation(d, "vital-signs", concept_of(loinc, "85354-9", "Blood pressure"), set.stamp);
    o["component"] = Json::array({pressure_part("8480-6", "Systolic", is.systolic),
                                  pressure_part("8462-4", "Diastolic", is.diastolic)});
    if (is.systolic && is.diastolic) {
        if (const auto mean = rules::mean_pressure(*is.systolic, *is.diastolic)) {
            o["component"].push_back(component(concept_of(loinc, "8478-0", "Mean"), "valueQuantity",
                                               quantity(Json::parse(mean->text(0)), "mmHg", "mm[Hg]")));
        }
    }
    d.add_to(vitals_section, key_of("bp", set.stamp), profiled("bp", std::move(o)));
}

void add_set(Document& d, const Noted<Vitals>& set) {
    const auto& is = set.is;
    if (is.not_taken) {
        auto o =
            observation(d, "vital-signs", concept_of(loinc, "85353-1", "Vital signs, not taken"), set.stamp);
        auto why = absent("not-performed");
        put(why, "text", *is.not_taken);
        o["dataAbsentReason"] = std::move(why);
        d.add_to(vitals_section, key_of("not taken", set.stamp), std::move(o));
    }
    add_sign(d, heart_rate, set.stamp, is.hr);
    add_pressure(d, set);
    add_sign(d, saturation, set.stamp, is.spo2);
    add_sign(d, breathing, set.stamp, is.rr);
    if (is.etco2) {
        auto o = observation(
            d, "vital-signs",
            concept_of(loinc, "19889-5", "Carbon dioxide, partial pressure at the end of a breath"),
            set.stamp);
        o["valueQuantity"] = quantity(*is.etco2, "mmHg", "mm[Hg]");
        d.add_to(vitals_section, key_of("etco2", set.stamp), std::move(o));
    }
}

void add_body_mass_index(Document& d, const Stamp& stamp) {
    const auto weight = weight_of(d.v.s);
    const auto height = height_of(d.v.s);
    if (weight && height) {
        const auto exact = rules::bmi(weight->weight, *height);
        auto o = sign_observation(d, bmi_sign, stamp, Json::parse(exact.text(1)));
        o["derivedFrom"] = Json::array({d.ref("weight"), d.ref("height")});
        d.add_to(vitals_section, "bmi", std::move(o));
    }
}

void add_airway_event(Document& d, const AirwayEpisode& episode) {
    auto o = observation(d, "procedure", own("airway-event", "Airway event"), episode.start);
    o.erase("effectiveDateTime");
    o["effectivePeriod"] = period(episode.start.happened, episode.end);
    std::vector<std::string> actions;
    for (const auto& action : episode.actions) {
        actions.push_back(record::words_of(d.v.policy.lists.airway_actions, action));
    }
    o["valueString"] = actions.empty() ? std::string{"no action recorded"} : record::joined(actions);
    if (episode.lowest_spo2) {
        o["component"] = Json::array({component(own("lowest-spo2", "Lowest oxygen saturation of the event"),
                                                "valueQuantity", quantity(*episode.lowest_spo2, "%", "%"))});
    }
    d.add_to("55109-3", key_of("airway", episode.start), std::move(o));
}

void add_emergency(Document& d, const EmergencyEpisode& episode) {
    auto o = observation(d, "procedure", own("emergency", "Emergency"), episode.start);
    o.erase("effectiveDateTime");
    o["effectivePeriod"] = period(episode.start.happened,
                                  episode.end ? std::optional{episode.end->stamp.happened} : std::nullopt);
    std::string words = "kind not recorded";
    if (episode.end) {
        words = record::words_of(d.v.policy.lists.emergency_kinds, episode.end->is.kind);
        words += episode.end->is.action ? ": " + *episode.end->is.action : "";
    }
    o["valueString"] = words;
    d.add_to("55109-3", key_of("emergency", episode.start), std::move(o));
}

}  // namespace

void add_vital_signs(Document& d) {
    for (const auto& set : d.v.s.vitals) {
        add_set(d, set);
    }
}

void add_body(Document& d) {
    const auto weight = weight_of(d.v.s);
    const auto height = height_of(d.v.s);
    const bool measured = d.v.s.measure.has_value();
    if (!weight || (!measured && !d.v.s.weight_known)) {
        return;
    }
    const auto& stamp = measured ? d.v.s.measure->stamp : d.v.s.weight_known->stamp;
    const auto tenths = [](std::int64_t n) {
        return number(Decimal::of_millionths(n * (Decimal::scale / 10)));
    };
    auto o = sign_observation(d, weight_sign, stamp, tenths(weight->weight.in_tenths()));
    o["method"] = own(name_of(weight->basis), name_of(weight->basis));
    d.add_to(vitals_section, "weight", std::move(o));
    if (height) {
        d.add_to(vitals_section, "height",
                 sign_observation(d, height_sign, stamp, tenths(height->in_tenths())));
        add_body_mass_index(d, stamp);
    }
}

void add_sedation(Document& d) {
    for (const auto& depth : d.v.s.depths) {
        auto o = observation(d, "survey", own("moaas", "MOAA/S, depth of sedation, 0 to 5"), depth.stamp);
        o["valueInteger"] = depth.is.moaas;
        d.add_to(sedation_section, key_of("depth", depth.stamp), std::move(o));
    }
    for (const auto& oxygen : d.v.s.oxygen) {
        auto o =
            observation(d, "therapy", concept_of(loinc, "3151-8", "Inhaled oxygen flow rate"), oxygen.stamp);
        o["valueQuantity"] = quantity(oxygen.is.l_min, "L/min", "L/min");
        d.add_to(sedation_section, key_of("oxygen", oxygen.stamp), std::move(o));
    }
    if (const auto lowest = lowest_spo2(d.v.s)) {
        Stamp stamp = d.v.s.sedation_start.value_or(Stamp{});
        stamp.happened = lowest->at;
        auto o = observation(d, "procedure",
                             own("lowest-spo2", "Lowest oxygen saturation from sedation start on"), stamp);
        o.erase("performer");  // worked out from what was entered
        o.erase("issued");
        o["valueQuantity"] = quantity(lowest->value, "%", "%");
        d.add_to(sedation_section, "lowest spo2", std::move(o));
    }
    for (const auto& episode : d.v.s.airway_events) {
        add_airway_event(d, episode);
    }
    for (const auto& episode : d.v.s.emergencies) {
        add_emergency(d, episode);
    }
}

}  // namespace brimline::fhir
