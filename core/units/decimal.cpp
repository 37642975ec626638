// Reading, writing and rounding of exact decimals.
#include "core/units/decimal.h"

#include <cassert>
#include <cstdlib>

namespace brimline {
namespace {

__extension__ using Wide = __int128;  // 64 x 64 bits without loss; g++ and clang both have it

constexpr std::int64_t power_of_ten(int n) {
    std::int64_t value = 1;
    for (int i = 0; i < n; ++i) {
        value *= 10;
    }
    return value;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "e+09" -> 9; empty when malformed or too large to matter.
std::optional<int> exponent_of(std::string_view text) {
    bool negative = false;
    if (!text.empty() && (text.front() == '+' || text.front() == '-')) {
        negative = text.front() == '-';
        text.remove_prefix(1);
    }
    if (text.empty() || text.size() > 3) {
        return std::nullopt;
    }
    int value = 0;
    for (const char c : text) {
        if (!is_digit(c)) {
            return std::nullopt;
        }
        value = value * 10 + (c - '0');
    }
    return negative ? -value : value;
}

/// digits * 10^shift in millionths; empty when a digit that matters would be lost or it does not fit.
std::optional<std::int64_t> shifted(Wide digits, int shift) {
    constexpr Wide limit = static_cast<Wide>(9) * power_of_ten(18);
    for (; shift > 0; --shift) {
        digits *= 10;
        if (digits > limit) {
            return std::nullopt;
        }
    }
    for (; shift < 0; ++shift) {
        if (digits % 10 != 0) {
            return std::nullopt;
        }
        digits /= 10;
    }
    return digits > limit ? std::nullopt : std::optional{static_cast<std::int64_t>(digits)};
}

Wide rounded_quotient(Wide numerator, Wide denominator) {
    assert(denominator != 0);
    const bool negative = (numerator < 0) != (denominator < 0);
    const Wide n = numerator < 0 ? -numerator : numerator;
    const Wide d = denominator < 0 ? -denominator : denominator;
    const Wide q = (2 * n + d) / (2 * d);
    return negative ? -q : q;
}

std::string with_places(Wide scaled, int places) {
    const bool negative = scaled < 0;
    Wide rest = negative ? -scaled : scaled;
    std::string digits;
    do {
        digits.insert(digits.begin(), static_cast<char>('0' + static_cast<int>(rest % 10)));
        rest /= 10;
    } while (rest != 0);
    while (static_cast<int>(digits.size()) <= places) {
        digits.insert(digits.begin(), '0');
    }
    if (places > 0) {
        digits.insert(digits.size() - static_cast<std::size_t>(places), 1, '.');
    }
    return negative ? "-" + digits : digits;
}

}  // namespace

std::optional<Decimal> Decimal::parse(std::string_view text) {
    bool negative = false;
    if (!text.empty() && text.front() == '-') {
        negative = true;
        text.remove_prefix(1);
    }
    int exponent = 0;
    if (const auto e = text.find_first_of("eE"); e != std::string_view::npos) {
        const auto parsed = exponent_of(text.substr(e + 1));
        if (!parsed) {
            return std::nullopt;
        }
        exponent = *parsed;
        text = text.substr(0, e);
    }
    Wide digits = 0;
    int after_point = -1;
    bool any = false;
    for (const char c : text) {
        if (c == '.' && after_point < 0 && any) {
            after_point = 0;
            continue;
        }
        if (!is_digit(c) || digits > power_of_ten(18)) {
            return std::nullopt;
        }
        digits = digits * 10 + (c - '0');
        any = true;
        after_point += after_point >= 0 ? 1 : 0;
    }
    if (!any || text.back() == '.') {
        return std::nullopt;
    }
    if (digits == 0) {
        return Decimal{};
    }
    const auto value = shifted(digits, 6 + exponent - (after_point > 0 ? after_point : 0));
    return value ? std::optional{Decimal{negative ? -*value : *value}} : std::nullopt;
}

int Decimal::places() const {
    int places = 6;
    std::int64_t rest = std::llabs(millionths_);
    while (places > 0 && rest % 10 == 0) {
        rest /= 10;
        --places;
    }
    return places;
}

std::optional<std::int64_t> Decimal::whole(std::int64_t per_unit) const {
    const Wide value = static_cast<Wide>(millionths_) * per_unit;
    return value % scale == 0 ? std::optional{static_cast<std::int64_t>(value / scale)} : std::nullopt;
}

std::string Decimal::text() const { return rounded(places()); }

std::string Decimal::rounded(int places) const {
    return with_places(rounded_quotient(static_cast<Wide>(millionths_) * power_of_ten(places), scale),
                       places);
}

std::string ratio_text(std::int64_t numerator, std::int64_t denominator, int places) {
    return with_places(rounded_quotient(static_cast<Wide>(numerator) * power_of_ten(places), denominator),
                       places);
}

Decimal ratio(std::int64_t numerator, std::int64_t denominator, int places) {
    const Wide q = rounded_quotient(static_cast<Wide>(numerator) * power_of_ten(places), denominator);
    return Decimal::of_millionths(static_cast<std::int64_t>(q * power_of_ten(6 - places)));
}

std::int64_t ratio_whole(std::int64_t numerator, std::int64_t denominator) {
    return static_cast<std::int64_t>(rounded_quotient(numerator, denominator));
}

}  // namespace brimline
