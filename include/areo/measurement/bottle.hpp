// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What a drink could do in a closed bottle: the carbon dioxide that its sugar could still make, the
// pressure of it, and the sugar for a wanted carbonation.
#include <optional>
#include <string_view>

#include "areo/core/units.hpp"
#include "areo/instruments/thermometer.hpp"
#include "areo/measurement/alcohol.hpp"
#include "areo/uncertainty/monte_carlo.hpp"

namespace areo::measurement {

/// How a bottle is filled and kept.
struct BottlePlan {
  /// Of the drink when it is closed: it holds no more carbon dioxide than saturates it then.
  instruments::TemperatureReading closing{};
  double storage_c = 25, storage_half_width_c = 5;  ///< rectangular
  /// Share of the bottle's volume, rectangular; about 4 % is usual: common practice, no source.
  double headspace = 0.04, headspace_half_width = 0.01;
  std::optional<double> expected_sg{};  ///< SG 20/20 where the ferment should end
  std::optional<double> carbonation{};  ///< wanted, g/L dissolved at the storage temperature
  std::optional<double> volume_l{};     ///< of drink, for the sugar that it needs in all
  /// Whether its readings show that it has stopped; if not, no figure is given for priming sugar:
  /// it would go on making gas, and what it takes is another amount every day.
  bool at_rest = true;
};

/// What is to be said about sugar for a wanted carbonation.
enum class Priming {
  none,    ///< nobody asked
  figure,  ///< the quantities stand
  /// The sugar that is left could make as much by itself, or what is dissolved and what is left
  /// need no more: no figure.
  enough,
  not_yet,  ///< it has not stopped: no figure
};

struct BottleResult {
  /// Quantities, each per litre of drink. "now": nothing more ferments; "expected": down to
  /// BottlePlan::expected_sg, if there is one; "all": all of the real extract ferments, an upper
  /// bound, as part of it never does. CO2 is all that is in the bottle, dissolved and above it.
  /// - sugar_all_g_l, sugar_expected_g_l: the extract that would ferment
  /// - co2_dissolved_g_l: before it is closed
  /// - co2_CASE_g_l, co2_CASE_volumes, gauge_pressure_CASE_bar for each case
  /// With a figure for the priming sugar:
  /// - priming_sugar_g_l, and priming_sugar_g with a volume
  /// - gauge_pressure_carbonated_bar: at the wanted carbonation
  /// - the three of two more cases, beside as much priming sugar as the upper end of its range, for
  ///   whoever weighs that: "primed", all of the extract ferments; "expected_primed", down to the
  ///   expected gravity
  Result result;
  Priming priming = Priming::none;
};

/// Carbon dioxide per gram of extract: between what Balling found for wort, yeast left out, and
/// what sucrose makes completely. Of a drink whose sugar is glucose and fructose it is less than
/// that. Cultures that make acids make less, or none.
///
/// A closed bottle keeps what is dissolved and what ferments, in the drink and in the headspace, as
/// physics::carbon_dioxide_held() has it. Solubility is that of the drink each case ends as. The
/// drink is taken to hold between nothing, as after degassing, and what saturates it.
/// @param drink  of alcohol(), with a strength; its inputs go on into the result
/// @throws Error{inconsistent} for a drink without a strength, an expected gravity above the
///         present one, or below what fermenting all could make; Error{domain} for a plan outside
///         0 °C .. 40 °C, a headspace below zero or above physics::most_headspace, other amounts
///         that are not above zero, or NaN
/// @uncertainty physics::solubility_uncertainty and physics::solubility_ratio_uncertainty; above
///              10 bar the solubility is beyond its measurements
/// @source      [balling] and atomic masses for the gas, [carroll1991] and [eu2676-90] for what
///              dissolves
/// @check       a thousandth of gravity more to ferment: about 1.0 g/L, 0.65 bar at 20 °C
[[nodiscard]] BottleResult bottle(const AlcoholResult& drink, const BottlePlan& plan);

/// Estimate ± U, but nothing below zero.
[[nodiscard]] uncertainty::Interval range_of(const Quantity& quantity);
/// The same of a case, but with neither end below that of the case where nothing more ferments: a
/// reading that lies below the expected end takes no gas back.
/// @param now  the same quantity of that case
[[nodiscard]] uncertainty::Interval range_of(const Quantity& quantity, const Quantity& now);

/// A pressure against the rating of a bottle.
enum class RatingVerdict {
  below,  ///< the upper end of its range is
  above,  ///< the upper end is not
  /// It would be below, but lies where the solubility of the gas was not measured.
  cannot_tell,
};
/// @param pressure range in bar
/// @param rating   above the pressure outside, > 0
/// @throws         Error{domain} for another rating, or NaN
[[nodiscard]] RatingVerdict against_rating(const uncertainty::Interval& pressure, Pressure rating);
/// Whether the upper end of a pressure in bar is beyond the measurements of the solubility.
[[nodiscard]] bool beyond_measurements(const uncertainty::Interval& pressure);

}  // namespace areo::measurement
