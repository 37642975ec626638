// The balloon card: the facts of the balloon that a patient carries, in words of one language and as two
// codes. Contents: Regulation (EU) 2017/745 Art. 18(1)(a) and 18(2), MDCG 2019-8 v2 (field list as summarised
// in after.md 1); what the maker did not give is named, never made up.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/case/state.h"
#include "core/desk/desk.h"
#include "core/record/card_code.h"
#include "core/record/sheet_words.h"

namespace brimline {

struct CardLineShown {
    std::string label, value;
};
struct BalloonCard {
    std::string language, title, name, born_and_number, practice;
    std::vector<CardLineShown> balloon;  ///< placed, volume, lot, serial
    CardLineShown book_by, out_by;
    std::vector<CardLineShown> device;  ///< device, type, maker, expiry
    CardLineShown udi;                  ///< as people read it; empty when the label gave no number
    std::vector<CardLineShown> clinic;  ///< where placed, phone
    std::string note, missing;          ///< `missing`: empty when the card holds all that Art. 18 asks for
    std::string device_code_label, facts_code_label;
    std::string device_code;  ///< "(01)...(17)...(10)...(21)..."; empty when the label gave no number
    std::string facts_code;   ///< the text of card_code
};

/// Empty when no balloon stays in by this case.
[[nodiscard]] std::optional<BalloonCard> balloon_card(const CaseState& state, const Desk& desk,
                                                      const Policy& policy, const Zone& zone,
                                                      const SheetWords& words);
/// The facts alone, for the code. Empty as above.
[[nodiscard]] std::optional<CardFacts> card_facts(const CaseState& state, const Desk& desk,
                                                  const Policy& policy, const Zone& zone);

}  // namespace brimline
