// An exact fraction, for figures that must be compared before they are rounded: BMI, mean pressure,
// percentages.
#pragma once
#include <compare>
#include <cstdint>
#include <string>

#include "core/units/decimal.h"

namespace brimline {

class Fraction {
public:
    constexpr Fraction() = default;
    /// Shape: the denominator is above 0 (asserted).
    Fraction(std::int64_t numerator, std::int64_t denominator);
    /// A decimal as a fraction of millionths.
    explicit Fraction(Decimal value) : Fraction{value.in_millionths(), Decimal::scale} {}

    [[nodiscard]] std::int64_t numerator() const { return numerator_; }
    [[nodiscard]] std::int64_t denominator() const { return denominator_; }
    /// Exact, whatever the two denominators are.
    friend std::strong_ordering operator<=>(const Fraction& a, const Fraction& b);
    friend bool operator==(const Fraction& a, const Fraction& b) { return (a <=> b) == 0; }

    /// Rounded half away from zero to `places` decimals, trailing zeros kept.
    [[nodiscard]] std::string text(int places) const { return ratio_text(numerator_, denominator_, places); }
    [[nodiscard]] Decimal rounded(int places) const { return ratio(numerator_, denominator_, places); }
    /// Cut towards zero to `places` decimals.
    [[nodiscard]] Decimal cut(int places) const;

private:
    std::int64_t numerator_{0};
    std::int64_t denominator_{1};
};

}  // namespace brimline
