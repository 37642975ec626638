// The table of refusal codes of labels.
#include <array>

#include "core/label/gs1.h"

namespace brimline {

std::span<const LabelCode> label_codes() {
    static constexpr std::array<LabelCode, 12> table{{
        {"empty", "Nothing came from the label."},
        {"bad_prefix", "The scanner announces a code that is no GS1 label."},
        {"unknown_ai", "The next digits start no identifier that a device label has."},
        {"truncated", "A value of fixed length ends early."},
        {"empty_value", "An identifier has nothing after it."},
        {"too_long", "A value, or the whole text, is longer than allowed."},
        {"bad_length", "A typed GTIN has 8, 12, 13 or 14 digits."},
        {"bad_charset", "A character stands where it is not allowed."},
        {"bad_check_digit", "The check digit does not fit."},
        {"bad_date", "Six digits are no date."},
        {"duplicate_ai", "One identifier stands there twice with two values."},
        {"bad_brackets", "Brackets are empty or do not pair."},
    }};
    return table;
}

}  // namespace brimline
