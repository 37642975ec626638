// A balloon that another clinic placed, read out of its FHIR document. Tolerant of what it does not know,
// strict about what it takes: a date, a volume or a lot is as it stands there or absent.
#pragma once
#include <string_view>

#include "core/case/said/removal.h"
#include "core/units/refusal.h"
#include "core/units/time.h"

namespace brimline {

/// Bytes that are read at all.
inline constexpr std::size_t longest_bundle = 16U << 20U;

/// What the document says of the balloon that was left in; its source is a letter, and `clinic` names who
/// wrote it and the number of the document. Shape:  the placement's day is that of its moment in `zone`, the
/// reading clinic's own. Errors: bundle-not-one (no JSON, no FHIR document), bundle-too-long,
/// bundle-no-balloon (deferred, abandoned, taken
///         out, or only an addendum), bundle-field (a date or a number that cannot be true).
/// Source: FHIR R4 4.0.1, as laid out in interchange.md section 1.
[[nodiscard]] Expected<PlacedElsewhere> placement_in_document(std::string_view json, const Zone& zone);

}  // namespace brimline
