// The record of a case as plain text, 100 columns wide: page one for who reads in a hurry, then everything.
// The same state gives the same text, byte for byte, because the text is what is sealed.
#pragma once
#include <string>
#include <string_view>

#include "core/case/state.h"
#include "core/clinic/policy.h"
#include "core/desk/desk.h"
#include "core/record/text_layout.h"
#include "core/units/time.h"

namespace brimline {

/// The record as it stands. `number` is that of the seal; empty when the case is not sealed.
/// Shape: lines end with a line feed; none is longer than 100 columns.
[[nodiscard]] std::string record_text(const CaseState& state, const Desk& desk, const Policy& policy,
                                      const Zone& zone, std::string_view number);
/// The same as it was written, block by block: what a printed record is laid out from.
[[nodiscard]] record::Sheet record_sheet(const CaseState& state, const Desk& desk, const Policy& policy,
                                         const Zone& zone, std::string_view number);
/// What was added after the seal: addenda, flags, and what completed or corrected who the patient is. Empty
/// when there is nothing.
[[nodiscard]] std::string addenda_text(const CaseState& state, const Desk& desk, const Zone& zone);
[[nodiscard]] record::Sheet addenda_sheet(const CaseState& state, const Desk& desk, const Zone& zone);

}  // namespace brimline
