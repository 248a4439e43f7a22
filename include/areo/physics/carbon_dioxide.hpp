// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Carbon dioxide: how much of it a liquid holds, and the pressure it makes in a closed bottle.
#include "areo/core/model_temperature.hpp"
#include "areo/core/range.hpp"
#include "areo/core/scales.hpp"
#include "areo/core/units.hpp"
#include "areo/physics/water.hpp"

namespace areo::physics {

/// g/mol.
inline constexpr double carbon_dioxide_molar_mass = 44.0095;
/// One volume is a litre of the gas, at 0 °C and 101.325 kPa, in a litre of drink: g/L. The two
/// forms of [eu2676-90], in g/L and in L/L, go together by the same number.
inline constexpr double carbon_dioxide_g_per_volume = 1.977;

inline constexpr Range henry_range{"Henry constant of carbon dioxide", "K", 273, 433,
                                   "carroll1991"};
/// The density of water is needed too.
inline constexpr Range solubility_temperature_range{
    "solubility of carbon dioxide",    "°C", water_range.lo, water_range.hi, "tanaka2001",
    "keep what can make pressure cold"};
/// The equation as read states no limits; these are judgements. The negative ends are for the noise
/// of readings around zero only.
inline constexpr Range solubility_strength_range{"alcohol beside carbon dioxide", "% vol", -5, 25,
                                                 "eu2676-90"};
inline constexpr Range solubility_sugar_range{"sugar beside carbon dioxide", "g/L", -50, 300,
                                              "eu2676-90"};
/// The measurements behind the Henry constant end here, absolute.
inline constexpr Range solubility_pressure_range{"solubility of carbon dioxide", "bar", 0, 10,
                                                 "carroll1991"};
/// Share of a bottle that may be without drink, at most; nobody closes a bottle half empty.
inline constexpr double most_headspace = 0.5;

/// Henry constant of carbon dioxide in water: pressure over mole fraction, at low pressure.
/// @param t     273 K .. 433 K
/// @return      Pa, > 0
/// @throws      Error{domain} outside the range or for NaN
/// @uncertainty solubility_uncertainty
/// @source      [carroll1991], ln(H/MPa) = -6.8346 + 1.2817e4/T - 3.7668e6/T² + 2.997e8/T³
/// @check       20 °C -> 141.4 MPa
[[nodiscard]] Pressure henry_constant(Temperature t);

/// Relative standard uncertainty of solubility_in_water(): [carroll1991] lies 1.3 % below to 2.6 %
/// above the measurements of four laboratories between 1 °C and 35 °C, 3.9 % above those of a
/// fifth.
inline constexpr double solubility_uncertainty = 0.03;
/// Carbon dioxide that water takes up at a partial pressure of 1 bar.
/// @param t     0 °C .. 40 °C
/// @return      g/(L bar), > 0
/// @throws      Error{domain} outside the range or for NaN
/// @uncertainty solubility_uncertainty
/// @source      henry_constant() and water_density(): x / (1 - x) rho / 18.01528 * 44.0095
/// @check       0 °C -> 3.29; 20 °C -> 1.73
[[nodiscard]] double solubility_in_water(ModelTemperature t);

/// Relative standard uncertainty of 1 - solubility_ratio(), what alcohol and sugar take away. The
/// equation is for 20 °C. A lager at 6 °C and a sparkling wine at 10 °C [acs-omega2021] hold
/// about 10 % less than water, where it says 11 % and 16 % for what such drinks contain.
inline constexpr double solubility_ratio_uncertainty = 0.25;
/// What a drink takes up, relative to water: (1 - 0.01 A / 0.86) (1 - 0.00144 S). Taken as the same
/// at every temperature.
/// @param strength -5 % vol .. 25 % vol
/// @param sugar    S, -50 g/L .. 300 g/L; all extract counts
/// @return         1 for water, less for drinks
/// @throws         Error{domain} outside the ranges or for NaN
/// @uncertainty    solubility_ratio_uncertainty
/// @source         [eu2676-90], 1.951e-5 P (0.86 - 0.01 A) (1 - 0.00144 S) g/L, P in Pa, 20 °C
/// @check          5 % vol and 50 g/L -> 0.874; 12 % vol, dry -> 0.860
[[nodiscard]] double solubility_ratio(StrengthByVolume strength, MassConcentration sugar);

/// A closed bottle of a drink.
struct ClosedBottle {
  ModelTemperature t;         ///< 0 °C .. 40 °C
  double solubility_g_l_bar;  ///< of carbon dioxide in the drink at t
  double headspace = 0;       ///< share of the volume without drink, 0 .. 0.5
  /// Beyond the laws of ideal gas and solution, relative to 1 bar: fewer grams at one pressure.
  double beyond_ideal_per_bar = 0;
};

/// The fugacity coefficient of carbon dioxide is about 0.995 at 1 bar, and its 33 cm³/mol in the
/// liquid take another 0.0013 per bar; both from memory. Nothing and twice as much are the ends of
/// what is taken as possible.
inline constexpr double beyond_ideal_lo = 0, beyond_ideal_hi = 0.0126;

/// All carbon dioxide in a closed bottle, in the drink and above it, per litre of drink:
/// k p / (1 + c p) + p V_h M / (V_l R T).
/// @param partial pressure of carbon dioxide, >= 0
/// @return        g per litre of drink
/// @throws        Error{domain} for a bottle or a pressure outside what is said above, or NaN
/// @uncertainty   that of the solubility, and of `beyond_ideal_per_bar`; above 10 bar unknown
/// @source        Henry's law and that of the ideal gas
/// @check         1 bar, k = 1.5, no headspace -> 1.5 g/L
[[nodiscard]] double carbon_dioxide_held(const ClosedBottle& bottle, Pressure partial);

/// The partial pressure at which a closed bottle holds so much: inverse of carbon_dioxide_held().
/// Below zero, for differences around zero, it is continued along its tangent there.
/// @param total_g_l finite
/// @throws          Error{domain} for such a bottle, for NaN, and for more than any pressure holds
[[nodiscard]] Pressure carbon_dioxide_pressure(const ClosedBottle& bottle, double total_g_l);

/// By how much the pressure in a bottle is above that outside. The air that was in the headspace
/// stays and warms with it: p + p_air T / T_closed - p_outside. Yeast uses up its oxygen, a fifth,
/// which is not counted and outweighs the water vapour, below 0.08 bar, that is not counted either.
/// @param partial    pressure of the carbon dioxide
/// @param atmosphere when it was closed, and around it now
/// @param closed_at  temperature of the drink then
/// @return           below zero for a bottle that was cooled
/// @source           law of the ideal gas
/// @check            no gas, closed at 20 °C and 1 bar, 40 °C -> 0.068 bar
[[nodiscard]] Pressure gauge_pressure(const ClosedBottle& bottle, Pressure partial,
                                      Pressure atmosphere, ModelTemperature closed_at);

}  // namespace areo::physics
