#pragma once
// Balling's balance of a yeast ferment: where the original extract went.
#include "areo/core/model_temperature.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/liquid.hpp"
#include "areo/physics/refraction.hpp"

namespace areo::ferment {

/// [balling], also official practice: 2.0665 g extract give 1 g ethanol, 0.9565 g carbon dioxide
/// and 0.11 g yeast. Extract lost per gram of ethanol, measured: 2.099 ± 0.013 [tolman1917].
inline constexpr double extract_per_ethanol = 2.0665;
inline constexpr double carbon_dioxide_per_ethanol = 0.9565;
/// Mass that left the liquid per gram of ethanol (carbon dioxide and yeast).
inline constexpr double mass_lost_per_ethanol = 1.0665;

/// The drink that a liquid of `original` extract becomes when it holds `ethanol`.
/// RE = OE (1 + 1.0665 A) - 2.0665 A, all mass fractions of the drink.
/// @source [balling]
[[nodiscard]] physics::Liquid fermented(ExtractFraction original, EthanolFraction ethanol);

/// Original extract from the finished drink, OE = (2.0665 A + RE) / (1 + 1.0665 A).
/// @source [balling], AOAC 935.20
[[nodiscard]] ExtractFraction original_extract(const physics::Liquid& drink);

/// Ethanol from original and real extract, A = (OE - RE) / (2.0665 - 1.0665 OE).
/// @source [balling]
[[nodiscard]] EthanolFraction ethanol_from_extracts(ExtractFraction original, ExtractFraction real);

/// The drink on the Balling line from `original` that has density `rho` at t: the one unknown is
/// the ethanol. Valid for a yeast ferment of the sugar; other cultures make acids instead.
/// @throws Error{inconsistent} if the density is above that of the unfermented liquid, or below
///         what fermenting all of its extract could make
[[nodiscard]] physics::Liquid fermented_to_density(ExtractFraction original, Density rho,
                                                   ModelTemperature t);

/// The same for the refractive index `n` at t: both extract and ethanol refract, so the index falls
/// less than the extract does.
/// @param original  at most 0.73: a little less alcohol than none still has to be within
///                  physics::index_extract_range
/// @param t         within physics::index_temperature_range
[[nodiscard]] physics::Liquid fermented_to_index(
    ExtractFraction original, RefractiveIndex n, ModelTemperature t,
    const physics::ExtractOptics& optics = physics::sucrose_optics);

/// Alcohol from the attenuation difference D = RE - AE (percent) of the old saccharometer test,
/// A = D b / (q - 1), b = 100 / (206.65 - 1.0665 p), q = 1.220 + 0.001 p, p = original extract in
/// percent. Reproduces Balling's printed table B; kept as a check, not used for results.
/// @return percent by mass
/// @source [balling] table B
[[nodiscard]] double balling_table_alcohol(double difference_percent, double original_percent);

}  // namespace areo::ferment
