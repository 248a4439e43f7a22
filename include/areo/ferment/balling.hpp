// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Balling's balance of a yeast ferment: where the original extract went.
#include "areo/core/model_temperature.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/liquid.hpp"
#include "areo/physics/refraction.hpp"

namespace areo::ferment {

/// What a ferment makes of its extract: y grams of it are used up for each gram of ethanol. What is
/// neither ethanol nor extract has left the liquid, as carbon dioxide and yeast.
struct Yield {
  double extract_per_ethanol;  ///< y in g/g, above 1

  [[nodiscard]] constexpr double mass_lost_per_ethanol() const noexcept {
    return extract_per_ethanol - 1;
  }
};
/// [balling], also official practice (AOAC 935.20): 2.0665 g extract give 1 g ethanol, 0.9565 g
/// carbon dioxide and 0.11 g yeast.
inline constexpr Yield balling_yield{2.0665};
inline constexpr double carbon_dioxide_per_ethanol = 0.9565;

/// How far the yields of the beers of [tolman1917] scatter among each other, in g/g, errors of
/// their analyses included.
inline constexpr double yield_scatter = 0.076;
/// Standard uncertainty of the yield of one ferment, in g/g: the scatter, and the doubt about the
/// mean. That of the beers, 2.099 ± 0.013, lies above Balling's factor; that of 532 brews of today,
/// 2.05, below [cutaia2009]. So the factor stays, and the mean may lie anywhere within ± 0.033 of
/// it: √(0.076² + 0.033² / 3).
inline constexpr double yield_uncertainty = 0.0783;

/// Extract, as a mass fraction, that may ferment without becoming alcohol, or become more of it
/// than the balance says, however little has fermented: half-width, rectangular. Yeast grows first.
/// The balance has 0.11 g of it per gram of alcohol, 0.26 g/L at 0.3 % vol; a small ferment can
/// grow about 0.6 g/L more or less before much alcohol is there. Engineering judgement; below
/// weakest_compared_percent_vol nothing was measured.
inline constexpr double growth_half_width = 0.0006;
/// The distilled beers of [tolman1917], which the yield's scatter was measured with, in % vol.
inline constexpr double weakest_compared_percent_vol = 3.6, strongest_compared_percent_vol = 7.2;

/// The drink that a liquid of `original` extract becomes when it holds `ethanol`.
/// RE = OE (1 + (y - 1) A) - y A, all mass fractions of the drink.
/// @source [balling]
[[nodiscard]] physics::Liquid fermented(ExtractFraction original, EthanolFraction ethanol,
                                        Yield yield = balling_yield);

/// Original extract from the finished drink, OE = (y A + RE) / (1 + (y - 1) A).
/// @source [balling], AOAC 935.20
[[nodiscard]] ExtractFraction original_extract(const physics::Liquid& drink,
                                               Yield yield = balling_yield);

/// Ethanol from original and real extract, A = (OE - RE) / (y - (y - 1) OE).
/// @source [balling]
[[nodiscard]] EthanolFraction ethanol_from_extracts(ExtractFraction original, ExtractFraction real,
                                                    Yield yield = balling_yield);

/// The drink on the Balling line from `original` that has density `rho` at t: the one unknown is
/// the ethanol. Valid for a yeast ferment of the sugar; other cultures make acids instead.
/// @throws Error{inconsistent} if the density is above that of the unfermented liquid, or below
///         what fermenting all of its extract could make; Error{domain} if the drink would be
///         stronger than physics::mixture_ethanol_range
[[nodiscard]] physics::Liquid fermented_to_density(ExtractFraction original, Density rho,
                                                   ModelTemperature t, Yield yield = balling_yield);
/// The same for a density that depends a little on the ethanol, as that of a hydrometer reading
/// does: the surface of a drink pulls less than that of water.
/// @param rho_read  falls with the ethanol by less than the density of the drink
[[nodiscard]] physics::Liquid fermented_to_density(ExtractFraction original,
                                                   const physics::DensityRead& rho_read,
                                                   ModelTemperature t, Yield yield = balling_yield);

/// The same for the refractive index `n` at t: both extract and ethanol refract, so the index falls
/// less than the extract does.
/// @param original  at most 0.73: a little less alcohol than none still has to be within
///                  physics::index_extract_range
/// @param t         within physics::index_temperature_range
[[nodiscard]] physics::Liquid fermented_to_index(
    ExtractFraction original, RefractiveIndex n, ModelTemperature t,
    const physics::ExtractOptics& optics = physics::sucrose_optics, Yield yield = balling_yield);

/// Alcohol from the attenuation difference D = RE - AE (percent) of the old saccharometer test,
/// A = D b / (q - 1), b = 100 / (206.65 - 1.0665 p), q = 1.220 + 0.001 p, p = original extract in
/// percent. Reproduces Balling's printed table B; kept as a check, not used for results.
/// @return percent by mass
/// @source [balling] table B
[[nodiscard]] double balling_table_alcohol(double difference_percent, double original_percent);

}  // namespace areo::ferment
