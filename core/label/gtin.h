// A trade item number typed or scanned by itself: GTIN-8, -12, -13 or -14.
#pragma once
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace brimline {

/// Why a label or number was not read.
/// Shape: `code` is one of interchange.md 2.3 in snake_case; `where` is a byte offset from 0 into the text as
/// given.
struct LabelFault {
    std::string code;
    std::size_t where = 0;
    std::string sentence;
    bool operator==(const LabelFault&) const = default;
};

/// The check digit that belongs behind these digits ('0' to '9').
/// Shape: digits only (asserted), without the check digit. Source: interchange.md 2.2 rule 5: from the right,
/// weights 3, 1, 3, ...; check = (10 - sum mod 10) mod 10.
[[nodiscard]] char gtin_check_digit(std::string_view digits);
/// Whether the last digit is the one due. Shape: digits only; empty is false.
[[nodiscard]] bool gtin_check_good(std::string_view digits);
/// A GTIN of 8, 12, 13 or 14 digits in its 14-digit form, padded with zeros on the left.
/// Errors, in this order: empty, bad_length, bad_charset, bad_check_digit.
[[nodiscard]] tl::expected<std::string, LabelFault> parse_gtin(std::string_view text);

}  // namespace brimline
