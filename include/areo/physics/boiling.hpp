// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Boiling point of water, and the standard atmosphere: the upper fixed point of a thermometer.
#include "areo/core/range.hpp"
#include "areo/core/units.hpp"

namespace areo::physics {

inline constexpr Range boiling_pressure_range{"boiling point", "kPa", 0.611213, 22064, "if97"};
inline constexpr Range altitude_range{"standard atmosphere", "m", -500, 11000, "isa"};

/// Saturation temperature of pure water.
/// @param p     absolute (station) pressure, not the one reduced to sea level by weather services
/// @throws      Error{domain} outside the range or for NaN
/// @uncertainty below 0.001 °C from 50 kPa to 110 kPa against [wagner1993]
/// @source      [if97] region 4, eq. 31
/// @check       0.1 MPa -> 372.755919 K; 101.325 kPa -> 99.9743 °C
[[nodiscard]] Temperature boiling_point(Pressure p);

/// Pressure of the standard atmosphere at a geopotential altitude.
/// @uncertainty weather moves the real pressure by ± 2 kPa
/// @source      [isa] troposphere, p = 101325 Pa (1 - 0.0065 H / 288.15)^(g0 M / (0.0065 R))
/// @check       500 m -> 95460.84 Pa
[[nodiscard]] Pressure standard_pressure(Length altitude);

}  // namespace areo::physics
