// The sheet that a patient takes home, put together in one language from the case, the policy and the words
// of that language. What it says is settled here; how it looks is for whoever prints it. Source: after.md
// 3, 4.2 and 4.3; 10-decisions F16.
#pragma once
#include <string>
#include <vector>

#include "core/case/state.h"
#include "core/desk/desk.h"
#include "core/record/sheet_words.h"

namespace brimline {

struct LeafletLine {
    std::string label, value, note;
};
struct LeafletBlock {
    std::string head;
    std::vector<std::string> signs;
};
/// Parts that a case has no use for are empty.
struct LeafletSheet {
    std::string language, clinic, title, name, about, version, practice;
    std::string food_head, food_foot;
    std::vector<LeafletLine> food;
    std::string medicine_head;
    std::vector<std::string> medicines;
    std::string rest_head, rest;
    std::string dates_head;
    std::vector<LeafletLine> dates;
    LeafletLine out_by;  ///< the date that is printed largest
    LeafletBlock emergency, same_day;
    std::string phone_head, phone, tell, caution;
};

/// While the patient is still here the hours count from `now`.
[[nodiscard]] LeafletSheet leaflet_sheet(const CaseState& state, const Desk& desk, const Policy& policy,
                                         const Zone& zone, const SheetWords& words, Instant now);
/// Whether a patient is sent home by practice: numbers that begin with "P-".
[[nodiscard]] bool is_practice(const CaseState& state);

}  // namespace brimline
