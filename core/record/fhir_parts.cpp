// Pieces that every part of a FHIR document is made of: references, codes, quantities, observations.
#include "core/record/fhir_parts.h"

#include <fmt/format.h>

#include "core/record/fhir_bytes.h"

namespace brimline::fhir {

std::string Document::url(std::string_view key) const {
    return "urn:uuid:" + uuid_of(brimline_names(), fmt::format("{}/{}", v.s.id, key));
}

Json Document::ref(std::string_view key) const { return Json{{"reference", url(key)}}; }

Json Document::add(std::string_view key, Json resource) {
    Json with_id = Json::object();  // the id comes second, as readers expect it
    with_id["resourceType"] = resource["resourceType"];
    with_id["id"] = url(key).substr(std::string_view{"urn:uuid:"}.size());
    for (auto& [name, value] : resource.items()) {
        with_id[name] = std::move(value);
    }
    resources_.emplace_back(std::string{key}, std::move(with_id));
    return ref(key);
}

void Document::add_to(std::string_view section, std::string_view key, Json resource) {
    add(key, std::move(resource));
    list_in(section, key);
}

void Document::list_in(std::string_view section, std::string_view key) {
    sections_[std::string{section}].push_back(ref(key));
}

std::vector<Json> Document::listed(std::string_view section) const {
    const auto found = sections_.find(std::string{section});
    return found == sections_.end() ? std::vector<Json>{} : found->second;
}

Json Document::person(std::string_view id) {
    if (std::find(people_.begin(), people_.end(), id) == people_.end()) {
        people_.emplace_back(id);
    }
    return ref(fmt::format("person {}", id));
}

std::string Document::who(const Stamp& stamp) {
    const auto id = stamp.said_by.value_or(stamp.by);
    return id == "kiosk" ? "" : id;
}

void Document::put_performer(Json& resource, std::string_view name, const Stamp& stamp) {
    if (const auto id = who(stamp); !id.empty()) {
        resource[std::string{name}] = Json::array({person(id)});
    }
}

Json Document::entries(std::string_view first) const {
    Json list = Json::array();
    const auto put_entry = [&](const auto& pair) {
        list.push_back(Json{{"fullUrl", url(pair.first)}, {"resource", pair.second}});
    };
    for (const auto& one : resources_) {
        if (one.first == first) {
            put_entry(one);
        }
    }
    for (const auto& one : resources_) {
        if (one.first != first) {
            put_entry(one);
        }
    }
    return list;
}

std::string system_named(std::string_view name) { return fmt::format("{}{}", terminology, name); }

std::string utc_text(Instant t) {
    auto text = instant_text(t, Zone{});
    return text.replace(text.find_last_of('+'), std::string::npos, "Z");
}

Json coding(std::string_view system, std::string_view code, std::string_view display) {
    Json c{{"system", std::string{system}}, {"code", std::string{code}}};
    put(c, "display", std::string{display});
    return c;
}

Json concept_of(std::string_view system, std::string_view code, std::string_view words) {
    return Json{{"coding", Json::array({coding(system, code)})}, {"text", std::string{words}}};
}

Json own(std::string_view code, std::string_view words) { return concept_of(own_codes, code, words); }

Json words_only(std::string_view words) { return Json{{"text", std::string{words}}}; }

Json number(Decimal d) { return Json::parse(d.text()); }

Json quantity(Json value, std::string_view unit, std::string_view code) {
    return Json{{"value", std::move(value)},
                {"unit", std::string{unit}},
                {"system", std::string{ucum}},
                {"code", std::string{code}}};
}

Json quantity(Decimal value, std::string_view unit, std::string_view code) {
    return quantity(number(value), unit, code);
}

Json quantity(Millilitres value) {
    return quantity(Decimal::of_millionths(value.in_tenths() * (Decimal::scale / 10)), "mL", "mL");
}

Json identifier(std::string_view system, std::string_view value) {
    return Json{{"system", std::string{system}}, {"value", std::string{value}}};
}

Json period(const std::optional<Instant>& start, const std::optional<Instant>& end) {
    Json p = Json::object();
    if (start) {
        p["start"] = utc_text(*start);
    }
    if (end && (!start || *end >= *start)) {
        p["end"] = utc_text(*end);
    }
    return p;
}

void put(Json& into, std::string_view name, Json value) {
    const bool empty_text = value.is_string() && value.get_ref<const std::string&>().empty();
    if (!value.is_null() && !empty_text && !(value.is_structured() && value.empty())) {
        into[std::string{name}] = std::move(value);
    }
}

bool corrected(const Document& d, const Stamp& stamp) {
    const auto& all = d.v.s.corrections;
    return std::any_of(all.begin(), all.end(), [&](const auto& one) { return one.is.entry == stamp.seq; });
}

std::string key_of(std::string_view what, const Stamp& stamp) {
    return fmt::format("{} {}", what, stamp.seq);
}

Json observation(Document& d, std::string_view category, Json code, const Stamp& stamp) {
    Json o{{"resourceType", "Observation"}, {"status", corrected(d, stamp) ? "corrected" : "final"}};
    const auto system = system_named("observation-category");
    o["category"] = Json::array({Json{{"coding", Json::array({coding(system, category)})}}});
    o["code"] = std::move(code);
    o["subject"] = d.ref("patient");
    o["encounter"] = d.ref("encounter");
    o["effectiveDateTime"] = utc_text(stamp.happened);
    o["issued"] = utc_text(stamp.at);
    d.put_performer(o, "performer", stamp);
    return o;
}

Json component(Json code, std::string_view value_name, Json value) {
    Json c{{"code", std::move(code)}};
    c[std::string{value_name}] = std::move(value);
    return c;
}

Json answers(Document& d, std::string_view name, const Stamp& stamp) {
    Json r{{"resourceType", "QuestionnaireResponse"},
           {"questionnaire", fmt::format("urn:brimline:questionnaire:{}", name)},
           {"status", "completed"},
           {"subject", d.ref("patient")},
           {"encounter", d.ref("encounter")},
           {"authored", utc_text(stamp.at)}};
    if (stamp.by != "kiosk") {
        r["author"] = d.person(stamp.by);
    }
    return r;
}

Json coded_item(std::string_view id, std::string_view question, std::string_view code,
                std::string_view words) {
    const auto shown = words.empty() ? record::plain(code) : std::string{words};
    return Json{{"linkId", std::string{id}},
                {"text", std::string{question}},
                {"answer", Json::array({Json{{"valueCoding", coding(own_codes, code, shown)}}})}};
}

Json text_item(std::string_view id, std::string_view question, std::string_view text) {
    return Json{{"linkId", std::string{id}},
                {"text", std::string{question}},
                {"answer", Json::array({Json{{"valueString", std::string{text}}}})}};
}

}  // namespace brimline::fhir
