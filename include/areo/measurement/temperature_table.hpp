#pragma once
// What a hydrometer's indication at some temperature needs added, whoever reads it: the entries of
// a correction table and of a bench card.
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/result.hpp"

namespace areo::measurement {

/// An instrument without error.
[[nodiscard]] Calibrated without_error(const instruments::Hydrometer& h);

/// What has to be added to an indication at t to get what the scale means at its reference
/// temperature: the instrument's own correction, the expansion of its glass, and that of the
/// liquid. The same estimate as correct() gives for a reading; its uncertainty is that of the
/// instrument and the formulas, without what each reading brings (eye, surface, thermometer).
/// Quantity: "correction", in the unit of the scale.
/// @param indication  as read, level with the surface
/// @param t           of the liquid, 0 °C .. 40 °C
/// @param alcohol     of the liquid, at 20 °C; 0 for a sugar liquid. Alcohol makes a drink expand
///                    more than sugar does
/// @throws Error{domain} for an indication off the scale, a temperature or a strength outside the
///         models, or where no liquid of that strength has this density
/// @source glass [iso1768], liquid physics::density()
[[nodiscard]] Result temperature_correction(const Calibrated& instrument, double indication,
                                            Temperature t,
                                            StrengthByVolume alcohol = StrengthByVolume{0});

}  // namespace areo::measurement
