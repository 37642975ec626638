// The modulo-10 check of GTINs and their 14-digit form. Source: interchange.md 2.2 rule 5 and 2.3.
#include "core/label/gtin.h"

#include <algorithm>
#include <cassert>

namespace brimline {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

char gtin_check_digit(std::string_view digits) {
    int sum = 0;
    int weight = 3;
    for (auto c = digits.rbegin(); c != digits.rend(); ++c) {
        assert(is_digit(*c));
        sum += (*c - '0') * weight;
        weight = 4 - weight;
    }
    return static_cast<char>('0' + (10 - sum % 10) % 10);
}

bool gtin_check_good(std::string_view digits) {
    return !digits.empty() && gtin_check_digit(digits.substr(0, digits.size() - 1)) == digits.back();
}

tl::expected<std::string, LabelFault> parse_gtin(std::string_view text) {
    if (text.empty()) {
        return tl::unexpected{LabelFault{"empty", 0, "There is no number."}};
    }
    if (text.size() != 8 && text.size() != 12 && text.size() != 13 && text.size() != 14) {
        return tl::unexpected{LabelFault{"bad_length", std::min<std::size_t>(text.size(), 14),
                                         "A GTIN has 8, 12, 13 or 14 digits."}};
    }
    const auto odd = std::find_if_not(text.begin(), text.end(), is_digit);
    if (odd != text.end()) {
        return tl::unexpected{LabelFault{"bad_charset", static_cast<std::size_t>(odd - text.begin()),
                                         "A GTIN is digits only."}};
    }
    if (!gtin_check_good(text)) {
        return tl::unexpected{
            LabelFault{"bad_check_digit", text.size() - 1,
                       "The check digit does not fit: a digit is wrong. Scan or type it again."}};
    }
    return std::string(14 - text.size(), '0').append(text);
}

}  // namespace brimline
