// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What an indication at some temperature needs added, whoever reads it: the entries of a correction
// table and of a bench card.
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/instruments/thermometer.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/extract_kind.hpp"
#include "areo/measurement/refract.hpp"
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
/// @param t           of the liquid, 0 °C .. 85 °C; with alcohol to 40 °C
/// @param alcohol     of the liquid, at 20 °C; 0 for a sugar liquid. Alcohol makes a drink expand
///                    more than sugar does
/// @throws Error{domain} for an indication off the scale, a temperature or a strength outside the
///         models, or where no liquid of that strength has this density
/// @source glass [iso1768], liquid physics::density()
[[nodiscard]] Result temperature_correction(const Calibrated& instrument, double indication,
                                            Temperature t,
                                            StrengthByVolume alcohol = StrengthByVolume{0});

/// What has to be added to a Brix indication at t to get the percent of extract by mass, before
/// anything ferments: the instrument's own correction and the temperature of the liquid; a
/// compensated instrument has the second in it. The same estimate as refract() gives for a reading;
/// its uncertainty is that of the instrument, its compensation, the kind of extract and the
/// formula, without what each reading brings (eye, thermometer). Quantities: "correction", in Brix;
/// "extract_percent", the indication with it.
/// @param indication  as read, in Brix
/// @param t           of prism and liquid, 10 °C .. 30 °C; compensated or not
/// @param kind        of extract
/// @throws Error{domain} for a scale that is not in Brix, an indication off the scale, a
///         temperature outside the model or NaN, and where no extract has this index
/// @uncertainty 0.03 Brix against published tables (docs/explanation/models.md), as
///         physics::refractive_index_model_uncertainty()
/// @source physics::refractive_index(): [icumsa1974] at 20 °C, water [iapws-r9-97]
/// @check  15 Brix at 25 °C, no error: 0.37 Brix; [itct1936] from 24 °C and 26 °C: 0.36
[[nodiscard]] Result temperature_correction(const CalibratedRefractometer& instrument,
                                            double indication, Temperature t,
                                            const ExtractKind& kind);

/// What has to be added to the indication of a thermometer: its own correction.
/// Quantities: "correction", and "temperature_c", the indication with it; both in °C.
/// @param indication_c  as read
/// @throws Error{domain} for an indication off its scale, or NaN
[[nodiscard]] Result temperature_correction(const instruments::Thermometer& thermometer,
                                            const instruments::Correction& correction,
                                            double indication_c);

}  // namespace areo::measurement
