// Whether the implant card may be handed over: what must stand on it. Source: after.md 1, Regulation (EU)
// 2017/745 Art. 18(1)(a) and 18(2), MDCG 2019-8 v2 (field list as summarised).
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace brimline::rules {

/// One line of the card as it stands: its id and what is written there ("" or blanks = nothing).
struct CardLine {
    std::string_view id;
    std::string text;
};
/// Ids of what is missing, in the card's order; "serial or lot" last, when both are.
/// Shape: lines with ids device_name, device_type, serial, lot, udi, maker_name, maker_address,
/// maker_website, patient, implant_date, institution_name, institution_address; one that is not given is
/// missing.
[[nodiscard]] std::vector<std::string> implant_card_missing(const std::vector<CardLine>& lines);

}  // namespace brimline::rules
