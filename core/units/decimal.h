// Decimal: an exact decimal number with six places, for amounts that a person types ("2.5", "0.041").
// There is no conversion from or to double here; rounding happens once, at the edge, half away from zero.
#pragma once
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace brimline {

class Decimal {
public:
    static constexpr std::int64_t scale = 1'000'000;  // millionths

    constexpr Decimal() = default;
    /// A whole number. Shape: |n| up to 9e12.
    [[nodiscard]] static constexpr Decimal of(std::int64_t n) { return Decimal{n * scale}; }
    /// From millionths, the inner form.
    [[nodiscard]] static constexpr Decimal of_millionths(std::int64_t n) { return Decimal{n}; }
    /// Reads "12", "-0.5", "1e3"; nothing else, no blanks. Empty when it is no number, has more than six
    /// places that matter, or does not fit.
    [[nodiscard]] static std::optional<Decimal> parse(std::string_view text);

    [[nodiscard]] constexpr std::int64_t in_millionths() const { return millionths_; }
    /// How many decimal places are needed to write this exactly (0 to 6).
    [[nodiscard]] int places() const;
    /// The value times `per_unit`, when that is a whole number; empty otherwise.
    [[nodiscard]] std::optional<std::int64_t> whole(std::int64_t per_unit = 1) const;
    /// Exact text without trailing zeros: "2.5", "40", "0.041".
    [[nodiscard]] std::string text() const;
    /// Text rounded half away from zero to `places` decimals, trailing zeros kept.
    [[nodiscard]] std::string rounded(int places) const;

    friend constexpr auto operator<=>(Decimal, Decimal) = default;
    friend constexpr Decimal operator+(Decimal a, Decimal b) {
        return Decimal{a.millionths_ + b.millionths_};
    }
    friend constexpr Decimal operator-(Decimal a, Decimal b) {
        return Decimal{a.millionths_ - b.millionths_};
    }
    friend constexpr Decimal operator*(Decimal a, std::int64_t n) { return Decimal{a.millionths_ * n}; }

private:
    explicit constexpr Decimal(std::int64_t n) : millionths_{n} {}
    std::int64_t millionths_{0};
};

/// numerator / denominator rounded half away from zero to `places` decimals, trailing zeros kept; exact
/// inside. Errors: the denominator must not be 0 (asserted).
[[nodiscard]] std::string ratio_text(std::int64_t numerator, std::int64_t denominator, int places);
/// numerator / denominator as a Decimal rounded half away from zero to `places` decimals.
[[nodiscard]] Decimal ratio(std::int64_t numerator, std::int64_t denominator, int places);
/// numerator / denominator rounded half away from zero to a whole number.
[[nodiscard]] std::int64_t ratio_whole(std::int64_t numerator, std::int64_t denominator);

}  // namespace brimline
