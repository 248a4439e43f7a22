// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The tables of numbers: what each is asked for, and the grid that it is.
//
// Sides are texts as they are typed, "1.040" or "10P": how they are written decides their decimals.
#include <optional>
#include <string>

#include "areo/calibration/solution.hpp"
#include "areo/ferment/culture.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/measurement/correct.hpp"
#include "areo/measurement/refract.hpp"
#include "areo/paper/grid.hpp"

namespace areo::paper {

/// Scales side by side, for unfermented sugar liquids.
struct ConversionTable {
  std::string from = "1.000", to = "1.120";
  std::string step{};     ///< a usual division if empty
  std::string columns{};  ///< scales, nD, potential; all if empty
};
/// @throws ParseError, Error{domain}, Error{inconsistent} for what makes no table; so do the others
[[nodiscard]] Grid conversion_table(const ConversionTable& t);

/// What to add to a hydrometer's reading at each temperature.
struct TemperatureTable {
  std::string coldest{}, warmest{}, step{};  ///< 10 °C to 35 °C by 1 °C; of 60/60 °F 50 °F to 96 °F
  std::string readings{};                    ///< a usual list, or the instrument's own, if empty
  std::string alcohol{};                     ///< of the drink, % vol; none if empty
  std::optional<measurement::Calibrated> instrument{};  ///< one without error unless stated
};
/// @param shape  for people its first column has a short name, so that ten columns fit
[[nodiscard]] Grid temperature_table(const TemperatureTable& t, Shape shape);

/// The strength for each present and original gravity.
struct AlcoholTable {
  std::string from = "0.990", to = "1.040";
  std::string step{};  ///< a usual division if empty
  std::string originals = "1.030,1.040,1.050,1.060,1.070,1.080";
  std::optional<measurement::Calibrated> instrument{};  ///< one without error unless stated
  instruments::TemperatureReading temperature{};        ///< of both readings
  ferment::Culture culture = ferment::Culture::yeast;
};
[[nodiscard]] Grid alcohol_table(const AlcoholTable& t);

/// What a reading during fermentation means, for each reading before it.
struct RefractometerTable {
  std::string from = "0Bx", to = "16Bx", step = "1Bx", originals = "8,10,12,14,16";
  std::optional<measurement::CalibratedRefractometer> instrument{};
  measurement::ExtractKind kind{};
  instruments::TemperatureReading temperature{};  ///< of the prism, both times
};
/// @throws Error{inconsistent} for an instrument that does not show Brix
[[nodiscard]] Grid refractometer_table(const RefractometerTable& t);

/// What to weigh in for a reference liquid, and what it shows.
struct SolutionTable {
  calibration::Solute solute = calibration::Solute::sucrose;
  std::string from = "1.005", to = "1.100";
  std::string step{};  ///< 0.005, or a usual division, if empty
  double total_g = 500, balance_division_g = 1;
};
[[nodiscard]] Grid solution_table(const SolutionTable& t);

/// Mixtures of ethanol and water.
struct EthanolTable {
  std::string from = "0", to = "15", step = "0.5";  ///< % vol
  std::string reference = "20C";                    ///< of volumes and gravity
};
[[nodiscard]] Grid ethanol_table(const EthanolTable& t);

/// Water that brings a liquid down, or sugar that brings it up.
struct DilutionTable {
  enum class Add { water, sugar };
  Add add = Add::water;
  std::string from = "1.040", to = "1.100";
  std::string step{};  ///< 0.005, or a usual division, if empty
  std::string wanted = "1.030,1.040,1.050,1.060,1.070,1.080";
};
[[nodiscard]] Grid dilution_table(const DilutionTable& t);

}  // namespace areo::paper
