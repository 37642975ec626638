// What a person has to have read before a signature: every entry that was that person's word, in the words of
// the record, with who entered it.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "core/case/state.h"
#include "core/clinic/policy.h"
#include "core/desk/desk.h"
#include "core/units/time.h"

namespace brimline {

struct SaidEntry {
    std::int64_t seq{0};
    Instant at{};
    std::string words;  ///< as the timeline of the record has it
    std::string by;     ///< id of who entered it
};
/// Entries of this case said by the person, or entered by the person without another's word; in the order in
/// which they happened, withdrawn ones left out.
[[nodiscard]] std::vector<SaidEntry> said_entries(const CaseState& state, const Desk& desk,
                                                  const Policy& policy, const Zone& zone,
                                                  std::string_view person);

/// The record as lines, for a page that shows it.
[[nodiscard]] std::vector<std::string> record_lines(const CaseState& state, const Desk& desk,
                                                    const Policy& policy, const Zone& zone);

}  // namespace brimline
