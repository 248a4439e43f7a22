// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A new instrument is checked in liquids that anybody can make, and gets its correction.
//
//   const auto calibration = calibrate(stem, {in_water(stem.read(1.001_sg, 21_degC)),
//                                             in_solution(stem.read(1.049_sg, 21_degC), sugar)});
//   const auto wort = calibration.instrument.read(1.048_sg, 27_degC);
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/calibration/solution.hpp"
#include "areo/front/instruments.hpp"
#include "areo/front/uncertain.hpp"

namespace areo {

using calibration::Conformity;
using calibration::Water;

/// White sugar and water from a kitchen balance.
struct SugarAndWater {
  detail::ByName by_name{};
  Mass sugar, water;
  Mass balance_division = grams(1);
};
/// Table salt and water.
struct SaltAndWater {
  detail::ByName by_name{};
  Mass salt, water;
  Mass balance_division = grams(1);
};
/// A liquid whose density is known from what was weighed.
using ReferenceLiquid = calibration::WeighedSolution;
/// A mass that is not above zero is an Error{domain} where the liquid is used.
[[nodiscard]] ReferenceLiquid weighed(const SugarAndWater& solution);
[[nodiscard]] ReferenceLiquid weighed(const SaltAndWater& solution);

/// What an instrument showed in a liquid that is known.
template <class TypedReading>
struct Check {
  TypedReading reading;
  std::optional<ReferenceLiquid> solution;  ///< nothing: water
  Water water = Water::pure;
};
/// In clean water. The instrument need not show 1.000, or 0: its scale and reference temperature
/// decide.
template <class TypedReading>
[[nodiscard]] Check<TypedReading> in_water(const TypedReading& reading, Water water = Water::pure) {
  return {reading, std::nullopt, water};
}
template <class TypedReading>
[[nodiscard]] Check<TypedReading> in_solution(const TypedReading& reading,
                                              const ReferenceLiquid& solution,
                                              Water water = Water::pure) {
  return {reading, solution, water};
}

/// What a thermometer showed at a temperature that is known.
struct ThermometerCheck {
  TemperatureReading reading;
  std::optional<Pressure> boiling_at{};  ///< nothing: melting ice
  Pressure known_to = pascals(0);        ///< half-width of that
};
/// In crushed melting ice of clean water.
[[nodiscard]] inline ThermometerCheck in_ice(const TemperatureReading& reading) {
  return {reading};
}
/// In boiling water.
/// @param station   absolute pressure at the place, not the one reduced to sea level
/// @param known_to  half-width
[[nodiscard]] inline ThermometerCheck in_boiling_water(
    const TemperatureReading& reading, const Pressure& station,
    const Pressure& known_to = pascals(calibration::barometer_half_width_pa)) {
  return {reading, station, known_to};
}

namespace detail {
using AnyCheck = Check<SampleReading>;
[[nodiscard]] calibration::CorrectionFit fit(const instruments::Hydrometer& instrument,
                                             const std::vector<AnyCheck>& checks);
[[nodiscard]] calibration::CorrectionFit fit(const instruments::Refractometer& instrument,
                                             const std::vector<AnyCheck>& checks);
[[nodiscard]] calibration::CorrectionFit fit(const Thermometer& instrument,
                                             const std::vector<ThermometerCheck>& checks);
[[nodiscard]] Evidence correction_at(const measurement::Calibrated& instrument, double mark);
[[nodiscard]] Evidence correction_at(const measurement::CalibratedRefractometer& instrument,
                                     double mark);
[[nodiscard]] Evidence correction_at(const Thermometer& instrument, double mark);
}  // namespace detail

/// A calibrated instrument and why its correction looks as it does.
template <class Instrument>
struct Calibration {
  Instrument instrument;  ///< the same one, with its correction
  /// The fit behind the correction: `fit.reason`, whether the checks are consistent, ...
  calibration::CorrectionFit fit;

  /// What has to be added to a mark.
  template <class Mark>
  requires std::is_same_v<Mark, decltype(Instrument::lo)>
  [[nodiscard]] Uncertain<DifferenceOf<Mark>> correction(Mark mark) const {
    if constexpr (std::is_same_v<Instrument, Thermometer>)
      return Uncertain<TemperatureDelta>{detail::correction_at(instrument, number(mark))};
    else
      return Uncertain<DifferenceOf<Mark>>{
          detail::correction_at(instrument.calibrated(), number(mark))};
  }
  /// Whether it is within its tolerance (one division unless stated) over its checked part.
  /// @source calibration::judge(), [ilac-g8]
  [[nodiscard]] Conformity verdict() const {
    return calibration::judge(fit.correction, instrument.maximum_permissible_error());
  }
};

/// One check gives an offset, two or more a slope as well.
/// @throws Error{inconsistent} for a check that another instrument showed, and as
///         calibration::HydrometerChecks; Error{domain} for no checks
/// @source calibration::fit_correction()
template <class Mark>
[[nodiscard]] Calibration<Hydrometer<Mark>> calibrate(
    const Hydrometer<Mark>& stem,
    const std::vector<Check<std::type_identity_t<ReadingOf<Mark>>>>& checks);
template <class Mark>
[[nodiscard]] Calibration<Refractometer<Mark>> calibrate(
    const Refractometer<Mark>& prism,
    const std::vector<Check<std::type_identity_t<RefractionOf<Mark>>>>& checks);

[[nodiscard]] Calibration<Thermometer> calibrate(const Thermometer& thermometer,
                                                 const std::vector<ThermometerCheck>& checks);

namespace detail {
template <class Instrument, class TypedCheck>
Calibration<Instrument> calibrated(Instrument instrument, const std::vector<TypedCheck>& checks) {
  std::vector<AnyCheck> all;
  for (const TypedCheck& c : checks) all.push_back({c.reading, c.solution, c.water});
  calibration::CorrectionFit fitted = fit(instrument.inner(), all);
  instrument.correction = fitted.correction;
  return {std::move(instrument), std::move(fitted)};
}
}  // namespace detail

template <class Mark>
Calibration<Hydrometer<Mark>> calibrate(
    const Hydrometer<Mark>& stem,
    const std::vector<Check<std::type_identity_t<ReadingOf<Mark>>>>& checks) {
  return detail::calibrated(stem, checks);
}
template <class Mark>
Calibration<Refractometer<Mark>> calibrate(
    const Refractometer<Mark>& prism,
    const std::vector<Check<std::type_identity_t<RefractionOf<Mark>>>>& checks) {
  return detail::calibrated(prism, checks);
}

}  // namespace areo
