// Who and where in a FHIR document: patient, staff with their roles, clinic, room, kiosk, attendance, and who
// sealed.
#include <fmt/format.h>

#include "core/record/fhir_bytes.h"
#include "core/record/fhir_parts.h"

namespace brimline::fhir {
namespace {

Json patient(const Document& d) {
    const auto& p = d.v.s.patient;
    Json r{{"resourceType", "Patient"}};
    if (p.number && !p.number->empty()) {
        Json id{{"type", Json{{"coding", Json::array({coding(system_named("v2-0203"), "MR")})}}}};
        id.update(identifier("urn:brimline:patient-number", *p.number));
        r["identifier"] = Json::array({std::move(id)});
    }
    Json name = Json::object();
    put(name, "family", p.family_name.value_or("unknown"));
    if (p.given_name && !p.given_name->empty()) {
        name["given"] = Json::array({*p.given_name});
    }
    put(r, "name", name.empty() ? Json{} : Json::array({std::move(name)}));
    if (p.phone && !p.phone->empty()) {
        r["telecom"] = Json::array({Json{{"system", "phone"}, {"value", *p.phone}}});
    }
    r["gender"] = !p.sex_at_birth ? "unknown" : *p.sex_at_birth == Sex::f ? "female" : "male";
    if (p.born) {
        r["birthDate"] = date_text(*p.born);
    }
    if (p.language && !p.language->empty()) {
        r["communication"] = Json::array({Json{
            {"language", concept_of("urn:ietf:bcp:47", *p.language, *p.language)}, {"preferred", true}}});
    }
    return r;
}

Json practitioner(const Document& d, const std::string& id) {
    return Json{{"resourceType", "Practitioner"},
                {"identifier", Json::array({identifier("urn:brimline:person", id)})},
                {"name", Json::array({words_only(d.v.desk.name_of_person(id))})}};
}

Json role_of(Document& d, const std::string& id) {
    Json r{{"resourceType", "PractitionerRole"},
           {"practitioner", d.ref("person " + id)},
           {"organization", d.ref("clinic")}};
    Json codes = Json::array();
    if (const auto* known = d.v.desk.person(id)) {
        for (const Role role : known->roles) {
            codes.push_back(own(name_of(role), record::plain(name_of(role))));
        }
    }
    put(r, "code", std::move(codes));
    return r;
}

Json clinic(const Document& d) {
    const auto& c = d.v.policy.clinic;
    Json r{{"resourceType", "Organization"},
           {"identifier", Json::array({identifier("urn:brimline:kiosk", d.v.desk.kiosk_id)})}};
    put(r, "name", c.name);
    if (!c.phone.empty()) {
        r["telecom"] = Json::array({Json{{"system", "phone"}, {"value", c.phone}}});
    }
    if (!c.address.empty()) {
        r["address"] = Json::array({words_only(c.address)});
    }
    return r;
}

Json kiosk(const Document& d) {
    return Json{
        {"resourceType", "Device"},
        {"identifier", Json::array({identifier("urn:brimline:kiosk", d.v.desk.kiosk_id)})},
        {"deviceName", Json::array({Json{{"name", "Brimline kiosk"}, {"type", "user-friendly-name"}}})},
        {"version", Json::array({Json{{"value", std::string{d.program()}}}})},
        {"owner", d.ref("clinic")}};
}

std::optional<Instant> first_seen(const CaseState& s) {
    return !s.entered.empty() ? std::optional{s.entered.front().stamp.happened}
           : s.sedation_start ? std::optional{s.sedation_start->happened}
                              : std::nullopt;
}

std::string encounter_status(const CaseState& s) {
    return s.cancelled                ? "cancelled"
           : s.discharged || s.sealed ? "finished"
           : first_seen(s)            ? "in-progress"
                                      : "planned";
}

Json encounter(Document& d) {
    const auto& s = d.v.s;
    Json r{{"resourceType", "Encounter"},
           {"identifier", Json::array({identifier("urn:brimline:case", s.id)})},
           {"status", encounter_status(s)},
           {"class", coding(system_named("v3-ActCode"), "AMB", "ambulatory")},
           {"subject", d.ref("patient")}};
    Json team = Json::array();
    for (const auto& id : d.people()) {
        team.push_back(Json{{"individual", d.ref("role " + id)}});
    }
    put(r, "participant", std::move(team));
    put(r, "period",
        period(first_seen(s), s.discharged ? std::optional{s.discharged->stamp.happened} : std::nullopt));
    if (s.discharged) {
        const auto where = name_of(s.discharged->is.disposition);
        r["hospitalization"] = Json{{"dischargeDisposition", own(where, record::plain(where))}};
    }
    if (s.room && !s.room->empty()) {
        r["location"] = Json::array({Json{{"location", d.ref("room")}}});
    }
    r["serviceProvider"] = d.ref("clinic");
    return r;
}

Json agent(std::string_view type, Json who) {
    const auto system = system_named("provenance-participant-type");
    return Json{{"type", Json{{"coding", Json::array({coding(system, type)})}}}, {"who", std::move(who)}};
}

}  // namespace

void add_people_and_places(Document& d) {
    for (const auto& [which, held] : d.v.s.pauses) {
        for (const auto& id : held.present) {
            d.person(id);
        }
    }
    d.add("patient", patient(d));
    d.add("encounter", encounter(d));
    d.add("clinic", clinic(d));
    if (d.v.s.room && !d.v.s.room->empty()) {
        d.add("room", Json{{"resourceType", "Location"}, {"name", *d.v.s.room}});
    }
    d.add("kiosk", kiosk(d));
    for (const auto& id : d.people()) {
        d.add("person " + id, practitioner(d, id));
        d.add("role " + id, role_of(d, id));
    }
}

void add_provenance(Document& d, std::string_view signature) {
    const auto& s = d.v.s;
    if (!s.sealed) {
        return;
    }
    const auto& stamp = s.sealed->stamp;
    Json r{{"resourceType", "Provenance"},
           {"target", Json::array({d.ref("composition")})},
           {"recorded", utc_text(stamp.at)},
           {"activity", concept_of(system_named("v3-DocumentCompletion"), "LA", "legally authenticated")}};
    Json agents = Json::array();
    for (const auto& [part, signed_at] : s.signatures) {
        agents.push_back(agent("attester", d.person(signed_at.by)));
    }
    agents.push_back(agent("assembler", d.ref("kiosk")));
    r["agent"] = std::move(agents);
    Json signature_of_seal{
        {"type",
         Json::array({coding("urn:iso-astm:E1762-95:2013", "1.2.840.10065.1.12.1.1", "Author's Signature")})},
        {"when", utc_text(stamp.at)},
        {"who", d.person(stamp.by)}};
    if (!signature.empty()) {
        signature_of_seal["sigFormat"] = "application/octet-stream";
        signature_of_seal["data"] = base64(signature);
    }
    r["signature"] = Json::array({std::move(signature_of_seal)});
    d.add("provenance", std::move(r));
}

}  // namespace brimline::fhir
