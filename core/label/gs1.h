// GS1 element strings: what a scanner sends or a person types from a device's label, taken apart or refused
// with a reason. Any bytes come back as a label or a fault, in time linear in their length. Source:
// interchange.md section 2 (GS1 Barcode Syntax Dictionary for formats; General Specifications 7.12 for the
// century rule).
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/label/gtin.h"
#include "core/units/time.h"

namespace brimline {

/// One application identifier with its value as it stood there ("17", "280300").
struct LabelElement {
    std::string ai, value;
    bool operator==(const LabelElement&) const = default;
};

struct Label {
    std::vector<LabelElement>
        elements;  // in order, each identifier once; a bare GTIN is ("01", its 14 digits)
    std::optional<std::string> gtin14, lot, serial;
    std::optional<LocalDate> expiry, produced;
    /// No separator and no serial came, and the lot holds "21" or "17": the scanner may not send separators
    /// (house rule, interchange.md 2.2 rule 9). Show lot and serial large for a glance.
    bool separators_doubtful = false;

    /// The value of that identifier, or empty.
    [[nodiscard]] std::optional<std::string> value_of(std::string_view ai) const;
    bool operator==(const Label&) const = default;
};

/// Bytes that are read at all.
inline constexpr std::size_t longest_label = 512;

/// Takes a scan, a typed bracketed form or a bare GTIN apart.
/// Units:  `today` settles the century of two-digit years; it is an argument, never a clock.
/// Errors: empty, bad_prefix, unknown_ai, truncated, empty_value, too_long (of a value, or of more than 512
/// bytes),
///         bad_charset, bad_check_digit, bad_date, bad_brackets, duplicate_ai; judged from left to right, in
///         a field length before characters before check digit or date, duplicates last.
/// Source: interchange.md 2.2 and 2.3.
[[nodiscard]] tl::expected<Label, LabelFault> parse_label(std::string_view text, LocalDate today);

/// A second scan of the same device may add elements but not contradict.
/// Errors: duplicate_ai. Source: interchange.md 2.2 rule 8.
[[nodiscard]] tl::expected<Label, LabelFault> add_scan(const Label& first, const Label& second);

/// YYMMDD as a date; day 00 is the last day of that month. Empty when it is no date.
/// Source: interchange.md 2.2 rule 6.
[[nodiscard]] std::optional<LocalDate> label_date(std::string_view six_digits, LocalDate today);

/// Every code that a label or number may be refused with, each with its plain sentence.
/// Source: interchange.md 2.3.
struct LabelCode {
    std::string_view code, say;
};
[[nodiscard]] std::span<const LabelCode> label_codes();

/// Usable through the printed day, expired from the next on. Source: before.md 12, expiry-today (house
/// reading).
[[nodiscard]] inline bool label_expired(LocalDate expiry, LocalDate today) { return today > expiry; }

}  // namespace brimline
