// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Density of sodium chloride solutions, a second reference liquid for checks.
#include "areo/core/model_temperature.hpp"
#include "areo/core/range.hpp"
#include "areo/core/scales.hpp"

namespace areo::physics {

inline constexpr Range salt_fraction_range{"salt mass fraction", "", 0, 0.26, "laliberte2009"};
inline constexpr Range salt_temperature_range{"salt solution density", "°C", 0, 40, "tanaka2001"};

/// Density of a solution of sodium chloride, on areo's one water: Tanaka's density plus the
/// increment of the source over its own water.
/// @param w     sodium chloride mass fraction, 0 .. 0.26
/// @param t     0 °C .. 40 °C (the source's increment reaches 140 °C)
/// @return      kg/m³
/// @throws      Error{domain} outside either range or for NaN
/// @uncertainty 0.1 kg/m³ to 10 %, 0.3 kg/m³ to 26 % (k = 1): half of the spread between
///              correlations and the handbook table
/// @source      [laliberte2009]
/// @check       (0.035, 17.3 °C) -> 1023.6922 kg/m³ with the source's own water
[[nodiscard]] Density salt_density(SaltFraction w, ModelTemperature t);

/// Standard uncertainty of salt_density() in kg/m³, as stated there.
[[nodiscard]] double salt_density_uncertainty(SaltFraction w);

}  // namespace areo::physics
