// The balloon card as a PDF: two sides of a credit card, alone or on a sheet to cut and fold.
#pragma once
#include <string>

#include "core/print/canvas.h"
#include "core/record/balloon_card.h"

namespace brimline::print {

/// `page` of the card's own size gives two pages, front and back; any larger one gives a sheet with both
/// beside each other, back turned to be folded, and marks to cut. `caution` is printed on it. Errors: empty
/// when a code could not be made or cairo could not draw.
[[nodiscard]] std::string card_pdf(const BalloonCard& card, const std::string& caution, PageSize page,
                                   Instant created);

}  // namespace brimline::print
