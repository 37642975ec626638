// Comparing and cutting of exact fractions, in 128 bits so that no product overflows.
#include "core/units/fraction.h"

#include <cassert>

namespace brimline {

__extension__ using Wide = __int128;

Fraction::Fraction(std::int64_t numerator, std::int64_t denominator)
    : numerator_{numerator}, denominator_{denominator} {
    assert(denominator > 0);
}

std::strong_ordering operator<=>(const Fraction& a, const Fraction& b) {
    const Wide left = static_cast<Wide>(a.numerator_) * b.denominator_;
    const Wide right = static_cast<Wide>(b.numerator_) * a.denominator_;
    return left < right   ? std::strong_ordering::less
           : left > right ? std::strong_ordering::greater
                          : std::strong_ordering::equal;
}

Decimal Fraction::cut(int places) const {
    Wide power = 1;
    for (int i = 0; i < places; ++i) {
        power *= 10;
    }
    const Wide whole = static_cast<Wide>(numerator_) * power / denominator_;  // division cuts towards zero
    return Decimal::of_millionths(static_cast<std::int64_t>(whole * (Decimal::scale / power)));
}

}  // namespace brimline
