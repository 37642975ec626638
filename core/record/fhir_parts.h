// The parts of a FHIR document, each written by a file of its own. Not for other files than those of the
// document.
#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/case/codec.h"
#include "core/record/text_parts.h"

namespace brimline::fhir {

inline constexpr std::string_view own_codes = "urn:brimline:codes";
inline constexpr std::string_view loinc = "http://loinc.org";
inline constexpr std::string_view snomed = "http://snomed.info/sct";
inline constexpr std::string_view ucum = "http://unitsofmeasure.org";
inline constexpr std::string_view terminology = "http://terminology.hl7.org/CodeSystem/";
inline constexpr std::string_view definition = "http://hl7.org/fhir/StructureDefinition/";

/// A document while it is written: resources by a key that never changes, so that references are known
/// beforehand.
class Document {
public:
    Document(const record::Source& source, std::string_view program) : v{source}, program_{program} {}
    /// {"reference": "urn:uuid:..."}: what stands, or will stand, under that key.
    [[nodiscard]] Json ref(std::string_view key) const;
    /// "urn:uuid:...", the same for a key of a case every time.
    [[nodiscard]] std::string url(std::string_view key) const;
    /// Puts a resource in and gives the reference to it.
    Json add(std::string_view key, Json resource);
    /// The same, and lists it in a section of the Composition.
    void add_to(std::string_view section, std::string_view key, Json resource);
    /// Lists what is there under another key in a section.
    void list_in(std::string_view section, std::string_view key);
    /// Whether anything stands in the section.
    [[nodiscard]] std::vector<Json> listed(std::string_view section) const;
    /// A Practitioner; made when first asked for.
    Json person(std::string_view id);
    /// Who is named for an entry: whose word it was, else who entered it. Empty for what the kiosk did by
    /// itself.
    [[nodiscard]] static std::string who(const Stamp& stamp);
    /// Adds `name: [reference]` when a person stands behind the entry.
    void put_performer(Json& resource, std::string_view name, const Stamp& stamp);
    [[nodiscard]] const std::vector<std::string>& people() const { return people_; }
    [[nodiscard]] std::string_view program() const { return program_; }
    /// Entries of the bundle in their order: the first key first, then as they were added.
    [[nodiscard]] Json entries(std::string_view first) const;

    const record::Source& v;

private:
    std::string_view program_;
    std::vector<std::pair<std::string, Json>> resources_;
    std::map<std::string, std::vector<Json>> sections_;
    std::vector<std::string> people_;
};

/// A code system of the FHIR terminology by the last part of its name.
[[nodiscard]] std::string system_named(std::string_view name);
/// "2026-11-25T09:38:23Z", in UTC.
[[nodiscard]] std::string utc_text(Instant t);
[[nodiscard]] Json coding(std::string_view system, std::string_view code, std::string_view display = "");
/// A CodeableConcept of one coding with its words.
[[nodiscard]] Json concept_of(std::string_view system, std::string_view code, std::string_view words);
[[nodiscard]] Json own(std::string_view code, std::string_view words);
[[nodiscard]] Json words_only(std::string_view words);
/// A number with the digits it is written with.
[[nodiscard]] Json number(Decimal d);
/// A Quantity; `unit` in words, `code` of UCUM.
[[nodiscard]] Json quantity(Json value, std::string_view unit, std::string_view code);
[[nodiscard]] Json quantity(Decimal value, std::string_view unit, std::string_view code);
[[nodiscard]] Json quantity(Millilitres value);
[[nodiscard]] Json identifier(std::string_view system, std::string_view value);
/// {"start": ..., "end": ...} as far as they are known; empty object when neither is.
[[nodiscard]] Json period(const std::optional<Instant>& start, const std::optional<Instant>& end);
/// `name: value` unless the value is empty.
void put(Json& into, std::string_view name, Json value);
/// An Observation of this case without a value: status, category, code, subject, encounter, times, performer.
[[nodiscard]] Json observation(Document& d, std::string_view category, Json code, const Stamp& stamp);
/// A component of an Observation.
[[nodiscard]] Json component(Json code, std::string_view value_name, Json value);
/// A QuestionnaireResponse of this case without items.
[[nodiscard]] Json answers(Document& d, std::string_view name, const Stamp& stamp);
/// One item with a coded answer; `words` empty = the code in words.
[[nodiscard]] Json coded_item(std::string_view id, std::string_view question, std::string_view code,
                              std::string_view words = "");
/// One item answered by text.
[[nodiscard]] Json text_item(std::string_view id, std::string_view question, std::string_view text);
/// "case" and the number of the entry: the key of what an entry becomes.
[[nodiscard]] std::string key_of(std::string_view what, const Stamp& stamp);
/// Whether an entry was corrected.
[[nodiscard]] bool corrected(const Document& d, const Stamp& stamp);

void add_people_and_places(Document& d);  // last: it names everybody who was asked for
void add_vital_signs(Document& d);
void add_body(Document& d);
void add_sedation(Document& d);
void add_doses(Document& d);
void add_answers(Document& d);
void add_recovery(Document& d);
void add_look(Document& d);
void add_devices(Document& d);
void add_fill(Document& d);
void add_removal(Document& d);
void add_procedures(Document& d);
/// The people who signed or sealed, as a Provenance; nothing while the case is not sealed.
void add_provenance(Document& d, std::string_view signature);

}  // namespace brimline::fhir
