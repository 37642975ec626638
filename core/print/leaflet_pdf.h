// The patient's sheet as a PDF: one page, large type, black on white.
#pragma once
#include <string>

#include "core/print/canvas.h"
#include "core/record/leaflet.h"

namespace brimline::print {

/// The type is as large as the page allows, and never smaller than `least_leaflet_type` points.
/// Errors: empty when it does not fit even so, or cairo could not draw it.
[[nodiscard]] std::string leaflet_pdf(const LeafletSheet& sheet, PageSize page, Instant created);

/// Source: 12 points and more is the usual advice for patients' print (from memory); notes stand below it.
inline constexpr double least_leaflet_type = 10.5;

}  // namespace brimline::print
