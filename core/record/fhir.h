// A case as one FHIR R4 document: a Bundle of type "document" in JSON, every reference inside it. The same
// case gives the same bytes every time. Source: FHIR 4.0.1, as laid out in interchange.md section 1.
#pragma once
#include <string>
#include <string_view>

#include "core/case/state.h"
#include "core/clinic/policy.h"
#include "core/desk/desk.h"
#include "core/units/time.h"

namespace brimline {

/// What a document is made from. Of a sealed case `state` is as it was sealed: what came later is an addendum
/// of its own and never a changed copy.
struct FhirAsk {
    const CaseState& state;
    const Desk& desk;
    const Policy& policy;
    const Zone& zone;
    std::string_view program;    ///< version of the program that writes it
    std::string_view signature;  ///< bytes of the record's signature file; empty when it is not sealed
};

/// The record as a document, for every outcome: completed, deferred, abandoned, cancelled, under way,
/// removal. Shape: JSON, two blanks a level, one line feed at the end; no null, no empty list, object or
/// text.
[[nodiscard]] std::string fhir_document(const FhirAsk& ask);
/// One addendum (from 0) as a document that says which record it appends to. `ask.state` is the case as it
/// stands now. Shape: as above. Errors: the addendum must exist (asserted).
[[nodiscard]] std::string fhir_addendum(const FhirAsk& ask, std::size_t which);

}  // namespace brimline
