// What a rule answers for one worked example, by name, and whether it is what was expected.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/units/fraction.h"
#include "core/units/json_tree.h"
#include "core/units/quantity.h"
#include "core/units/time.h"

namespace brimline::worked {

/// A decimal: exact, and as the program shows it.
struct Number {
    Fraction exact;
    Decimal shown;
    bool only_as_shown = false;  // the rule is the rounding itself, as for a displayed BMI
};
/// A moment with the zone whose wall clock shows it. The zone outlives the example.
struct Moment {
    Instant at;
    const Zone* zone = nullptr;  // none = UTC
    bool clock_only = false;     // the example gave readings of a clock without dates
};
/// Dates from the first to the last.
struct DateSpan {
    LocalDate first, last;
};

struct Value;
using Values = std::vector<Value>;
using Members = std::vector<std::pair<std::string, Value>>;
struct Value {
    std::variant<bool, std::int64_t, Number, std::string, LocalDate, Moment, DateSpan, Values, Members> is;
};

class Outputs {
public:
    Outputs& put(std::string_view name, bool value);
    Outputs& put(std::string_view name, int value);
    Outputs& put(std::string_view name, std::int64_t value);
    Outputs& put(std::string_view name, std::string_view value);
    Outputs& put(std::string_view name, const char* value) { return put(name, std::string_view{value}); }
    Outputs& put(std::string_view name, LocalDate value);
    Outputs& put(std::string_view name, DateSpan value);
    Outputs& put(std::string_view name, Moment value);
    Outputs& put(std::string_view name, Millilitres value);
    Outputs& put(std::string_view name, Decimal value);
    /// Exact, shown with that many decimals; either is right where a worked example expects it.
    Outputs& put(std::string_view name, const Fraction& value, int places);
    /// Right only as shown.
    Outputs& put_shown(std::string_view name, const std::string& number);
    Outputs& put(std::string_view name, const std::vector<std::string>& texts);
    Outputs& put(std::string_view name, Values values);
    Outputs& put(std::string_view name, Members members);
    /// Nothing is put where nothing is known.
    template <class T>
    Outputs& put(std::string_view name, const std::optional<T>& value) {
        return value ? put(name, *value) : *this;
    }
    Outputs& put(std::string_view name, const std::optional<Fraction>& value, int places) {
        return value ? put(name, *value, places) : *this;
    }

    [[nodiscard]] const Value* find(std::string_view name) const;
    /// One line of JSON, numbers as shown.
    [[nodiscard]] std::string text() const;

private:
    Members members_;
    Outputs& add(std::string_view name, Value value);
};

/// A refused input: `refused` true and why.
[[nodiscard]] Outputs refused(std::string_view reason);

/// The keys of `expected` that do not agree with what came. Shape: `expected` is an object whose fields were
/// checked; only its keys are compared; null agrees with what is not there. `sets` names lists whose order
/// says nothing. Units: numbers agree within `tolerance`, exactly where it is 0.
[[nodiscard]] std::vector<std::string> disagreements(const JsonNode& expected, const Outputs& got,
                                                     const std::vector<std::string>& sets,
                                                     const JsonNode* tolerance);

/// A node as one line of JSON.
[[nodiscard]] std::string json_text(const JsonNode& node);

}  // namespace brimline::worked
