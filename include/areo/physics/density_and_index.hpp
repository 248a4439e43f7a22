// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Density and refractive index of the same liquid: alcohol pulls them apart, so both together give
// its composition.
#include "areo/core/model_temperature.hpp"
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/liquid.hpp"
#include "areo/physics/refraction.hpp"

namespace areo::physics {

/// The liquid that has density `rho` at `t_rho` and refractive index `n` at `t_n`: two unknowns,
/// two equations. Newton's method; where it fails, a bracketed search along the liquids of that
/// density.
/// @param optics  of its extract: an extract that refracts 3 % more than was thought reads as about
///                0.2 % vol at 5 % extract
/// @return        with an ethanol fraction down to -0.02, for readings that scatter around none
/// @throws        Error{inconsistent} if no liquid within index_extract_range has both;
///                Error{domain} for a drink stronger than index_ethanol_range, and outside the
///                ranges of temperature
/// @source        density() and refractive_index(); no measured ternary index was available, so the
///                pair rests on the models. Barth's constants for beer [simmonds1919] agree within
///                0.25 % mass (tests).
/// @check         0.001 in SG less: 0.37 % vol more; 0.1 Brix more: 0.14 % vol more
[[nodiscard]] Liquid liquid_from_density_and_index(Density rho, ModelTemperature t_rho,
                                                   RefractiveIndex n, ModelTemperature t_n,
                                                   const ExtractOptics& optics = sucrose_optics);

/// The same for a density that depends a little on the ethanol, as that of a hydrometer reading.
[[nodiscard]] Liquid liquid_from_density_and_index(const DensityRead& rho_read,
                                                   ModelTemperature t_rho, RefractiveIndex n,
                                                   ModelTemperature t_n,
                                                   const ExtractOptics& optics = sucrose_optics);

}  // namespace areo::physics
