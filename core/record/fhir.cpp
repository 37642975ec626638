// The FHIR document as a whole: Composition with its sections, then everything that it refers to.
#include "core/record/fhir.h"

#include <fmt/format.h>

#include <cassert>
#include <functional>

#include "core/record/fhir_bytes.h"
#include "core/record/fhir_parts.h"

namespace brimline {
namespace {

using fhir::Document;
using record::Sheet;
using record::Source;

/// A section: its LOINC code (document section codes of R4), its title, and who writes its words.
struct Section {
    std::string_view code, title;
    std::vector<void (*)(Sheet&, const Source&)> words;
};
const std::vector<Section>& sections() {
    static const std::vector<Section> all{
        {"29554-3", "Procedure", {record::write_removal, record::write_agreed, record::write_gates}},
        {"59776-5", "Findings", {record::write_look}},
        {"11485-0", "Sedation", {record::write_doses}},
        {"8716-3", "Vital signs", {record::write_vital_signs}},
        {"29752-3", "Arrival and pauses", {record::write_arrival, record::write_pauses}},
        {"46264-8", "Device and volume", {record::write_devices, record::write_sizing}},
        {"55109-3", "Complications", {record::write_airway}},
        {"8653-8", "Recovery and discharge", {record::write_recovery, record::write_discharge}},
        {"18776-5", "Dates", {record::write_dates}},
        {"48767-8",
         "Holds, corrections and timeline",
         {record::write_holds, record::write_corrections, record::write_timeline, record::write_policy}}};
    return all;
}

/// Text as XHTML; what has no place in XML 1.0 was taken out by the Sheet.
std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string{c};
    }
    return out;
}

Json narrative(const std::string& text) {
    return Json{{"status", "generated"},
                {"div", fmt::format("<div xmlns=\"http://www.w3.org/1999/xhtml\"><pre>{}</pre></div>",
                                    escaped(text))}};
}

Json section_of(const Document& d, const Section& section) {
    Sheet sheet;
    for (const auto write : section.words) {
        write(sheet, d.v);
    }
    const auto text = sheet.text().empty() ? std::string{"Nothing was recorded here."} : sheet.text();
    Json s{{"title", std::string{section.title}},
           {"code", fhir::concept_of(fhir::loinc, section.code, section.title)},
           {"text", narrative(text)}};
    const auto listed = d.listed(section.code);
    if (!listed.empty()) {
        s["entry"] = listed;
    } else if (sheet.text().empty()) {
        const auto system = fhir::system_named("list-empty-reason");
        s["emptyReason"] = Json{{"coding", Json::array({fhir::coding(system, "unavailable")})}};
    }
    return s;
}

Json attesters(Document& d) {
    Json list = Json::array();
    for (const auto& [part, stamp] : d.v.s.signatures) {
        list.push_back(Json{
            {"mode", "professional"}, {"time", fhir::utc_text(stamp.at)}, {"party", d.person(stamp.by)}});
    }
    return list;
}

Json authors(Document& d) {
    Json list = Json::array();
    for (const auto& [part, stamp] : d.v.s.signatures) {
        auto one = d.person(stamp.by);
        if (std::find(list.begin(), list.end(), one) == list.end()) {
            list.push_back(std::move(one));
        }
    }
    return list.empty() ? Json::array({d.ref("kiosk")}) : list;
}

Json composition(Document& d, Instant date) {
    const auto& s = d.v.s;
    Json c{{"resourceType", "Composition"},
           {"language", "en"},
           {"identifier", s.sealed ? fhir::identifier("urn:brimline:record", s.sealed->is.number)
                                   : fhir::identifier("urn:brimline:case", s.id)},
           {"status", s.sealed ? "final" : "preliminary"},
           {"type", fhir::concept_of(fhir::loinc, "28570-0", "Procedure note")},
           {"subject", d.ref("patient")},
           {"encounter", d.ref("encounter")},
           {"date", fhir::utc_text(date)},
           {"author", authors(d)},
           {"title", s.kind == CaseKind::placement ? "Record of a gastric balloon placement"
                                                   : "Record of a gastric balloon removal"},
           {"confidentiality", "R"}};
    fhir::put(c, "attester", attesters(d));
    c["custodian"] = d.ref("clinic");
    return c;
}

std::string bundle_text(const Document& d, Json id, Instant when) {
    Json bundle{{"resourceType", "Bundle"},
                {"identifier", std::move(id)},
                {"type", "document"},
                {"timestamp", fhir::utc_text(when)},
                {"entry", d.entries("composition")}};
    return bundle.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Instant latest_entry(const CaseState& s) {
    Instant latest{};
    for (const auto& kept : s.history) {
        latest = std::max(latest, kept.first.stamp.at);
    }
    return latest;
}

LocalDate day_of(const CaseState& s, const Zone& zone) {
    return zone.date_of(s.sedation_start ? s.sedation_start->happened : s.planned.value_or(latest_entry(s)));
}

void add_what_happened(Document& d, std::string_view signature) {
    fhir::add_procedures(d);
    fhir::add_look(d);
    fhir::add_sedation(d);
    fhir::add_doses(d);
    fhir::add_body(d);
    fhir::add_vital_signs(d);
    fhir::add_answers(d);
    fhir::add_devices(d);
    fhir::add_fill(d);
    fhir::add_removal(d);
    fhir::add_recovery(d);
    fhir::add_provenance(d, signature);
}

}  // namespace

std::string fhir_document(const FhirAsk& ask) {
    const auto& s = ask.state;
    const auto when = latest_entry(s);
    const Source source{s, ask.desk, ask.policy, ask.zone, when, day_of(s, ask.zone)};
    Document d{source, ask.program};
    auto head = composition(d, when);
    add_what_happened(d, ask.signature);
    Json list = Json::array();
    for (const auto& section : sections()) {
        list.push_back(section_of(d, section));
    }
    head["section"] = std::move(list);
    d.add("composition", std::move(head));
    fhir::add_people_and_places(d);
    const auto name = s.sealed ? s.sealed->is.number : "case-" + s.id;
    return bundle_text(d, fhir::identifier("urn:brimline:document", name), when);
}

std::string fhir_addendum(const FhirAsk& ask, std::size_t which) {
    const auto& s = ask.state;
    assert(s.sealed && which < s.addenda.size());
    const auto& addendum = s.addenda[which];
    const Source source{s, ask.desk, ask.policy, ask.zone, addendum.stamp.at, day_of(s, ask.zone)};
    Document d{source, ask.program};
    const auto name = fmt::format("{}-addendum-{}", s.sealed->is.number, which + 1);
    Json c{{"resourceType", "Composition"},
           {"language", "en"},
           {"identifier", fhir::identifier("urn:brimline:record", name)},
           {"status", "final"},
           {"type", fhir::concept_of(fhir::loinc, "28570-0", "Procedure note")},
           {"subject", d.ref("patient")},
           {"encounter", d.ref("encounter")},
           {"date", fhir::utc_text(addendum.stamp.at)},
           {"author", Json::array({d.person(addendum.stamp.by)})},
           {"title", "Addendum to the record of a gastric balloon"},
           {"confidentiality", "R"},
           {"custodian", d.ref("clinic")}};
    c["relatesTo"] = Json::array(
        {Json{{"code", "appends"},
              {"targetIdentifier", fhir::identifier("urn:brimline:record", s.sealed->is.number)}}});
    Sheet sheet;
    sheet.line(addendum.text);
    c["section"] = Json::array({Json{{"title", "Addendum"},
                                     {"code", fhir::concept_of(fhir::loinc, "48767-8", "Comment")},
                                     {"text", narrative(sheet.text())}}});
    d.add("composition " + name, std::move(c));
    fhir::add_people_and_places(d);
    Json bundle{{"resourceType", "Bundle"},
                {"identifier", fhir::identifier("urn:brimline:document", name)},
                {"type", "document"},
                {"timestamp", fhir::utc_text(addendum.stamp.at)},
                {"entry", d.entries("composition " + name)}};
    return bundle.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace brimline
