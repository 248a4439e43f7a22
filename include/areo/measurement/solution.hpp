// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A weighed reference liquid: what it is, and what instruments should show in it.
#include <span>

#include "areo/calibration/solution.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/refractometer.hpp"
#include "areo/instruments/thermometer.hpp"
#include "areo/measurement/result.hpp"

namespace areo::measurement {

/// Quantities: "mass_percent", "density_at_t_kg_m3", "sg_20_20" (of the liquid at 20 °C), then for
/// each instrument "shows_<name or scale key>": what it would show at this temperature if it had no
/// error. Sugar scales in a salt solution show the sugar solution of the same density.
/// @throws Error{inconsistent} for a refractometer in salt; Error{domain} for one outside 10 °C ..
///         30 °C
[[nodiscard]] Result describe_solution(
    const calibration::WeighedSolution& solution,
    const instruments::TemperatureReading& temperature,
    std::span<const instruments::Hydrometer> hydrometers,
    std::span<const instruments::Refractometer> refractometers = {});

}  // namespace areo::measurement
