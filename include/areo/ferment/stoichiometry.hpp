// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How much carbon dioxide a gram of sugar gives.
#include "areo/ferment/balling.hpp"

namespace areo::ferment {

/// Atomic masses (from memory; those that carbon dioxide of 44.0095 g/mol is made of).
inline constexpr double carbon = 12.0107, hydrogen = 1.00794, oxygen = 15.9994;
inline constexpr double carbon_dioxide_mass = carbon + 2 * oxygen;
inline constexpr double hexose_mass = 6 * carbon + 12 * hydrogen + 6 * oxygen;
inline constexpr double sucrose_mass = 12 * carbon + 22 * hydrogen + 11 * oxygen;

/// Complete: C6H12O6 -> 2 C2H5OH + 2 CO2, 0.4886 g/g of glucose or fructose.
inline constexpr double carbon_dioxide_per_hexose = 2 * carbon_dioxide_mass / hexose_mass;
/// Complete, with the water that splits it: 0.5143 g/g of sucrose or maltose.
inline constexpr double carbon_dioxide_per_sucrose = 4 * carbon_dioxide_mass / sucrose_mass;
/// As Balling found it, the rest being yeast: 0.9565 / 2.0665 = 0.4629 g/g of extract [balling].
inline constexpr double carbon_dioxide_per_extract =
    carbon_dioxide_per_ethanol / balling_yield.extract_per_ethanol;

}  // namespace areo::ferment
