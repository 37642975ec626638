// The shape of a rule's inputs and outputs, as data: read from one line of text, used to refuse what does not
// fit, and printed by `brimline rules --list`. Nothing here knows a rule.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/json_tree.h"

namespace brimline::worked {

struct Field;

/// What a value of a field may be.
struct Type {
    enum class Kind : std::uint8_t {
        text,
        word,  // one of `words`
        whole,
        decimal,
        tenths,   // a decimal that is kept in tenths: kg, cm, mL
        seconds,  // a decimal of a clock that counts since it was started
        truth,
        time,  // a date, a reading of a clock, or both
        zone,  // an IANA name
        list,
        set,   // a list whose order says nothing
        span,  // dates from the first to the last
        object,
        words  // an object of texts whose names are free
    };
    Kind kind = Kind::text;
    std::vector<Type> item;          // of a list, set or span: one
    std::vector<Field> fields;       // of an object
    std::vector<std::string> words;  // that a word may be
};
struct Field {
    std::string name;
    bool optional = false;
    Type type;
};
using Fields = std::vector<Field>;

/// Reads "kind: one of a|b, items: list of {at: time, ml?: tenths}". A slip in the text is a bug and stops
/// the program.
[[nodiscard]] Fields read_fields(std::string_view text);

/// The number that a node holds, written as a number or in quotes; empty when it is none.
[[nodiscard]] std::optional<Decimal> decimal_of(const JsonNode& node);
/// The names of the fields.
[[nodiscard]] std::vector<std::string> names_of(const Fields& fields);

/// What does not fit, as one sentence; empty when all does. `due`: fields without "?" must be there (null is
/// not).
[[nodiscard]] std::optional<std::string> misfit(const Fields& fields, const JsonNode& object, bool due,
                                                const std::string& where = "");

}  // namespace brimline::worked
