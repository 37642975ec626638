// The lines that an implant card needs.
#include "core/rules/card.h"

#include <algorithm>
#include <array>

namespace brimline::rules {
namespace {

constexpr std::array<std::string_view, 10> needed{
    "device_name",   "device_type", "udi",          "maker_name",       "maker_address",
    "maker_website", "patient",     "implant_date", "institution_name", "institution_address"};

bool written(const std::vector<CardLine>& lines, std::string_view id) {
    return std::any_of(lines.begin(), lines.end(), [&](const CardLine& line) {
        return line.id == id && line.text.find_first_not_of(" \t") != std::string::npos;
    });
}

}  // namespace

std::vector<std::string> implant_card_missing(const std::vector<CardLine>& lines) {
    std::vector<std::string> missing;
    for (const std::string_view id : needed) {
        if (!written(lines, id)) {
            missing.emplace_back(id);
        }
    }
    if (!written(lines, "serial") && !written(lines, "lot")) {
        missing.emplace_back("serial or lot");
    }
    return missing;
}

}  // namespace brimline::rules
