// The record of a case as a PDF: page one for the reader with ten minutes, then everything, from the blocks
// of the very text that is sealed. Black on white; nothing is said by colour.
#pragma once
#include <string>

#include "core/print/canvas.h"
#include "core/record/charts.h"
#include "core/record/text_layout.h"

namespace brimline::print {

struct RecordPrint {
    record::Sheet sheet;    ///< as it was sealed, or as it stands
    record::Sheet addenda;  ///< what was added after the seal; may be empty
    RecordCharts charts;
    Zone zone;
    std::string number;           ///< of the seal; empty when the case is not sealed
    std::string clinic, patient;  ///< as the head of each page names them
    bool practice{false};
    std::string hash, signature, key;  ///< of the seal, in hex
    bool as_sealed{true};              ///< the blocks still give the sealed text, byte for byte
    Instant created{};                 ///< of the latest entry: when the file says it was made
};

/// Errors: empty when cairo could not draw it (out of memory).
[[nodiscard]] std::string record_pdf(const RecordPrint& record, PageSize page);

}  // namespace brimline::print
