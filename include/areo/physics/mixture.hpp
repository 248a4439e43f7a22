// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Density of a drink (water + extract + ethanol): the only density behind readings and scales.
#include <optional>

#include "areo/core/error.hpp"
#include "areo/core/model_temperature.hpp"
#include "areo/core/range.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/liquid.hpp"
#include "areo/physics/water.hpp"

namespace areo::physics {

/// Below zero extract the sugar formula is continued: the noise of a reading in water, and the
/// apparent extract of a dry drink, need a number there. It is a convention of the scale, not a
/// liquid; callers that show such a value say so.
inline constexpr Range mixture_extract_range{"extract mass fraction", "", -0.10, 0.85, "sps4"};
/// Tabarié's relation was compared with measurements to 18 % ethanol by mass [hackbarth2009]: no
/// result is stronger. The range goes on to 20 %, so that what a drink of 18 % might be can be
/// computed too. The small negative end is for differences around zero only.
inline constexpr Range mixture_ethanol_range{"ethanol mass fraction of a drink", "", -0.02, 0.20,
                                             "hackbarth2009"};
inline constexpr EthanolFraction strongest_covered{0.18};
/// Without alcohol. [sps4] reaches 100 °C; above 85 °C nobody reads a hydrometer.
inline constexpr Range mixture_temperature_range{
    "density of a liquid",
    "°C",
    0,
    85,
    "sps4",
    "let the liquid come nearer to room temperature and read again"};
/// With alcohol.
inline constexpr Range drink_temperature_range{"density of a drink with alcohol",
                                               "°C",
                                               0,
                                               40,
                                               "oimlr22",
                                               "let it cool to room temperature and read again"};

/// @throws Error{domain} outside drink_temperature_range: "with alcohol the density is known to
///         40 °C [oimlr22]; got 41 °C"
void require_drink_temperature(ModelTemperature t);

/// Density of a drink.
///
/// One water: [tanaka2001] plus the increments of [sps4] and [oimlr22] over their own waters, so
/// that zero composition is exactly water and nothing jumps where sugar or alcohol goes to zero.
/// The difference to each source's own numbers is at most 0.0075 kg/m³, 7.5e-6 in SG.
/// Above 40 °C, where [tanaka2001] ends, the water is that of [sps4], 0.0033 kg/m³ higher
/// throughout so that it meets [tanaka2001] at 40 °C without a step. Its slope changes there from
/// -0.38263 to -0.38248 kg/m³ per °C, 0.04 %; it lies 0.0012 to 0.0024 kg/m³ below [iapws95].
/// Extract and ethanol add up by Tabarié's relation, rho = rho_alcohol + rho_extract - rho_water,
/// each binary with the drink's own mass concentration [oiv-as2-03b].
/// @param liquid within mixture_extract_range and mixture_ethanol_range
/// @param t      0 °C .. 85 °C, with ethanol 0 °C .. 40 °C
/// @return       kg/m³
/// @throws       Error{domain} outside the ranges or for NaN
/// @uncertainty  density_model_uncertainty()
/// @check        (0.05 extract, 0.04 ethanol, 20 °C) -> 1010.358 kg/m³ (1010.3544 on [sps4]'s
/// water)
[[nodiscard]] Density density(const Liquid& liquid, ModelTemperature t);

/// Relative standard uncertainty of the sugar's share of a density, rho(w) - rho(0), at 20 °C: rms
/// agreement of [sps4] with the table of [nbsc440]. 0.06 % to w = 0.60, rising to 0.13 % at 0.85,
/// and 0.015 kg/m³ on top, which counts below 10 %.
/// @throws Error{domain} outside mixture_extract_range
[[nodiscard]] double sucrose_formula_uncertainty(ExtractFraction w);

/// Standard uncertainty of the density of a hot liquid without alcohol in kg/m³, beyond what is
/// known of it at 20 °C and of its expansion to 40 °C: 0.0075 kg/m³ for each °C above 40 °C, so
/// 0.15 kg/m³ at 60 °C and 0.34 kg/m³ at 85 °C; 0 to 40 °C.
/// @source rms of [sps4] against the hydrometer corrections of [nbsc440] at 45 °C to 60 °C; beyond
///         60 °C, and for extracts that are not sucrose, engineering judgement
inline constexpr double hot_uncertainty_kg_m3_per_c = 0.0075;
[[nodiscard]] constexpr double degrees_hot(double t_c) {
  return t_c > drink_temperature_range.hi ? t_c - drink_temperature_range.hi : 0;
}

/// Standard uncertainty of what ethanol adds to density(), in kg/m³: 0.03 kg/m³ for the formula
/// from 1 % by mass on, less below; for Tabarié's relation 10 kg/m³ times the product of the two
/// mass fractions (the spread between it and a volume-additive form). Above 16 % ethanol real
/// mixtures are lighter than the relation says, by an amount that is not stated [hackbarth2009]:
/// there the last term grows to its threefold at 18 %, by judgement.
[[nodiscard]] double ethanol_model_uncertainty(const Liquid& liquid);
namespace detail {
/// Its last term, for fractions of extract and ethanol that are not negative.
[[nodiscard]] double tabarie_uncertainty(double w_s, double w_e) noexcept;
}  // namespace detail

/// Standard uncertainty of density() in kg/m³ from the models alone, to 40 °C:
/// sucrose_formula_uncertainty() and ethanol_model_uncertainty() together.
[[nodiscard]] double density_model_uncertainty(const Liquid& liquid);

/// What to say of a drink with more alcohol than strongest_covered.
[[nodiscard]] Error too_strong();

/// The extract of a liquid of known density and ethanol; inverse of density(). Without ethanol: of
/// an unfermented liquid.
/// @throws Error{domain} if no extract within mixture_extract_range has this density
[[nodiscard]] ExtractFraction extract_from_density(Density rho, ModelTemperature t,
                                                   EthanolFraction ethanol = EthanolFraction{0});

/// Drinks whose extract changes in a straight line with their ethanol.
struct CompositionLine {
  ExtractFraction without_ethanol;
  double extract_per_ethanol;  ///< below zero where the one becomes the other
};
/// The ethanol of the drink on a line that has the density read; beyond the ranges of the model
/// too, for whoever calls to judge. Nothing if there is none, or none is found.
/// @param t  within drink_temperature_range
[[nodiscard]] std::optional<EthanolFraction> ethanol_on_line(const CompositionLine& line,
                                                             const DensityRead& rho_read,
                                                             ModelTemperature t);

}  // namespace areo::physics
