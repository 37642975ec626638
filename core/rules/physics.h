// Physics shown beside the count: the sphere of that volume and the mass of the fluid, rounded exactly though
// a cube root and pi stand in it. Source: before.md 14.
#pragma once
#include <cstdint>

#include "core/units/fraction.h"
#include "core/units/quantity.h"

namespace brimline::rules {

/// Diameter of the sphere of that volume, d = (6 V / pi)^(1/3), in tenths of a cm, correctly rounded.
/// Shape: 0 to 100 000 mL (asserted).
[[nodiscard]] Centimetres sphere_diameter(Millilitres volume);
/// Volume x density in g, exact; .text(0) is shown.
[[nodiscard]] Fraction fill_mass(Millilitres volume, Decimal g_per_ml);
/// The same in pounds of 453.59237 g; .text(1) is shown.
[[nodiscard]] Fraction fill_mass_lb(Millilitres volume, Decimal g_per_ml);
/// Volume of so many g of saline, exact; for the closed tap. Shape: the density is above 0 (asserted).
[[nodiscard]] Fraction saline_volume(Decimal grams, Decimal g_per_ml);
/// Calculated osmolarity in mOsm/L: g/L over molar mass, times ions, times 1000.
[[nodiscard]] Fraction osmolarity(Decimal nacl_g_per_l, Decimal molar_mass, int ions);

}  // namespace brimline::rules
