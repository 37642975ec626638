// The sphere's diameter by whole-number search between two bounds of pi, and masses as exact fractions.
#include "core/rules/physics.h"

#include <cassert>

namespace brimline::rules {
namespace {

__extension__ using Wide = __int128;

// pi = 3.14159 26535 89793 23846 26..., cut and one more, in units of 1e-20. With up to 1e8 half steps cubed
// the two never disagree: pi is irrational, and no fraction of such denominators comes that close to it
// (asserted).
constexpr Wide pi_cut = static_cast<Wide>(31415926535LL) * 10'000'000'000LL + 8'979'323'846LL;
constexpr Wide pi_unit = static_cast<Wide>(10'000'000'000LL) * 10'000'000'000LL;

/// Whether the diameter of the sphere is at least (2k + 1) half tenths of a cm.
/// d >= (2k+1)/20 cm  <=>  6 V / pi >= (2k+1)^3 / 8000  <=>  4800 v >= pi (2k+1)^3, V = v/10 cm3.
bool reaches_half_step(std::int64_t tenths_ml, std::int64_t k) {
    const Wide cube = static_cast<Wide>(2 * k + 1) * (2 * k + 1) * (2 * k + 1);
    const Wide left = static_cast<Wide>(4800) * tenths_ml * pi_unit;
    const bool by_cut = left >= pi_cut * cube;
    assert(by_cut == (left >= (pi_cut + 1) * cube));
    return by_cut;
}

}  // namespace

Centimetres sphere_diameter(Millilitres volume) {
    assert(volume >= Millilitres{} && volume <= 100'000_mL);
    std::int64_t low = 0;      // d is at least low - 0.5 tenths
    std::int64_t high = 1000;  // 100 cm: more than 100 000 mL reach
    while (low < high) {
        const std::int64_t middle = (low + high) / 2;
        if (reaches_half_step(volume.in_tenths(), middle)) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return Centimetres::of_tenths(low);
}

Fraction fill_mass(Millilitres volume, Decimal g_per_ml) {
    return {volume.in_tenths() * g_per_ml.in_millionths(), 10 * Decimal::scale};
}

Fraction fill_mass_lb(Millilitres volume, Decimal g_per_ml) {
    // tenths x millionths / 1e7 g, over 453.59237 g = 45 359 237 / 1e5
    return {volume.in_tenths() * g_per_ml.in_millionths(), std::int64_t{45'359'237} * 100};
}

Fraction saline_volume(Decimal grams, Decimal g_per_ml) {
    assert(g_per_ml > Decimal{});
    return {grams.in_millionths(), g_per_ml.in_millionths()};
}

Fraction osmolarity(Decimal nacl_g_per_l, Decimal molar_mass, int ions) {
    assert(molar_mass > Decimal{});
    return {nacl_g_per_l.in_millionths() * ions * 1000, molar_mass.in_millionths()};
}

}  // namespace brimline::rules
