// Doses and infusions of a FHIR document: one MedicationAdministration each, in the unit in which it was
// entered.
#include <fmt/format.h>

#include "core/record/fhir_parts.h"

namespace brimline::fhir {
namespace {

constexpr std::string_view section = "11485-0";

/// The route in words; with the code of the intravenous route where the clinic's words are those.
Json route(std::string_view words) {
    const bool vein = words == "into a vein" || words == "intravenous" || words == "iv";
    return vein ? concept_of(snomed, "47625008", words) : words_only(words);
}

std::string route_words(const Document& d, const std::string& drug, const std::optional<std::string>& said) {
    const auto* known = d.v.policy.drug(drug);
    return said ? *said : known == nullptr ? "" : known->route;
}

Json drug_concept(const Document& d, const std::string& id) {
    return d.v.policy.drug(id) == nullptr ? words_only(id) : own(id, record::drug_words(d.v.policy, id));
}

Json administration(Document& d, const std::string& drug, std::string_view status, const Stamp& stamp) {
    Json r{{"resourceType", "MedicationAdministration"},
           {"status", std::string{status}},
           {"medicationCodeableConcept", drug_concept(d, drug)},
           {"subject", d.ref("patient")},
           {"context", d.ref("encounter")}};
    r["effectiveDateTime"] = utc_text(stamp.happened);
    if (const auto id = Document::who(stamp); !id.empty()) {
        r["performer"] = Json::array({Json{{"actor", d.person(id)}}});
    }
    return r;
}

void add_dose(Document& d, const Dose& dose, const Stamp& stamp, std::string_view status) {
    auto r = administration(d, dose.drug, status, stamp);
    const auto unit = name_of(dose.unit);
    const auto how = route_words(d, dose.drug, dose.route);
    Json dosage{{"text", fmt::format("{} {}{}", dose.amount.text(), record::unit_words(unit),
                                     how.empty() ? "" : ", " + how)}};
    if (!how.empty()) {
        dosage["route"] = route(how);
    }
    dosage["dose"] = quantity(dose.amount, record::unit_words(unit), unit);
    r["dosage"] = std::move(dosage);
    d.add_to(section, key_of("dose", stamp), std::move(r));
}

void add_infusion(Document& d, const InfusionRun& run) {
    const auto& is = run.start.is;
    auto r = administration(d, is.drug, run.stop ? "completed" : "in-progress", run.start.stamp);
    r.erase("effectiveDateTime");
    r["effectivePeriod"] =
        period(run.start.stamp.happened, run.stop ? std::optional{run.stop->happened} : std::nullopt);
    const auto unit = name_of(is.unit);
    const auto how = route_words(d, is.drug, std::nullopt);
    Json dosage{{"text", fmt::format("{} {}, infusion", is.rate.text(), unit)}};
    if (!how.empty()) {
        dosage["route"] = route(how);
    }
    dosage["rateQuantity"] = quantity(is.rate, unit, unit);
    r["dosage"] = std::move(dosage);
    d.add_to(section, key_of("infusion", run.start.stamp), std::move(r));
}

}  // namespace

void add_doses(Document& d) {
    for (const auto& dose : d.v.s.doses) {
        add_dose(d, dose.is, dose.stamp, "completed");
    }
    for (const auto& run : d.v.s.infusions) {
        add_infusion(d, run);
    }
    for (const auto& kept : d.v.s.history) {  // what never happened stays visible as such
        const auto* dose = kept.withdrawn ? std::get_if<Dose>(&kept.now.event) : nullptr;
        if (dose != nullptr) {
            add_dose(d, *dose, kept.now.stamp, "entered-in-error");
        }
    }
}

}  // namespace brimline::fhir
