// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of the notebook: what was read, as it was typed and as it was understood. Nothing computed.
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "areo/calibration/solution.hpp"
#include "areo/core/moment.hpp"
#include "areo/instruments/hydrometer.hpp"
#include "areo/instruments/reading.hpp"
#include "areo/instruments/refractometer.hpp"
#include "areo/instruments/thermometer.hpp"

namespace areo::notebook {

using Id = std::int64_t;

/// The scale of any instrument, in its own unit.
struct Graduation {
  double lo, hi, division;
  double length;  ///< from end to end: hi - lo, or what is usual where nobody stated them
  double maximum_permissible_error;
};

/// A registered instrument.
struct InstrumentRecord {
  Id id = 0;
  std::variant<instruments::Hydrometer, instruments::Refractometer, instruments::Thermometer>
      instrument;
  Moment added_at;
  std::string note;
  std::string maker{}, serial{};  ///< as marked on it

  [[nodiscard]] const std::string& name() const;
  /// "hydrometer", "refractometer", "thermometer": what people call it, and the notebook's word.
  [[nodiscard]] const char* kind() const;
  [[nodiscard]] Graduation graduation() const;
  [[nodiscard]] const instruments::Hydrometer* hydrometer() const {
    return std::get_if<instruments::Hydrometer>(&instrument);
  }
  [[nodiscard]] const instruments::Refractometer* refractometer() const {
    return std::get_if<instruments::Refractometer>(&instrument);
  }
  [[nodiscard]] const instruments::Thermometer* thermometer() const {
    return std::get_if<instruments::Thermometer>(&instrument);
  }
};

/// How an instrument was checked.
enum class CheckMethod { water, sugar, salt, certificate, ice, boiling };
[[nodiscard]] std::string_view word(CheckMethod method);
/// Whether it takes water, or a solution in water.
[[nodiscard]] constexpr bool in_liquid(CheckMethod method) {
  return method == CheckMethod::water || method == CheckMethod::sugar ||
         method == CheckMethod::salt;
}

/// One check as made. Fields that the method does not use are empty.
struct CheckRecord {
  Id id = 0;
  Id instrument = 0;
  CheckMethod method = CheckMethod::water;
  Moment made_at;
  std::string reading_typed;
  double reading = 0;
  double reading_half_width = 0;  ///< as coarse as typed; 0 = half a division
  std::string temperature_typed;  ///< empty: none was given
  std::optional<double> temperature_c;
  std::optional<Id> thermometer;  ///< instrument that the temperature was read from, if named
  double temperature_half_width_c = 0.5;
  instruments::Meniscus meniscus = instruments::Meniscus::level;
  std::optional<calibration::WeighedSolution> solution;  ///< sugar, salt
  /// In a liquid: its water. Nothing: nobody said.
  std::optional<calibration::Water> water{};
  std::string balance{};  ///< which one, for people
  bool apart = false;     ///< a certificate's point that has nothing in common with the others
  std::optional<double> correction, expanded, coverage_factor;  ///< certificate
  std::optional<double> pressure_pa, pressure_half_width_pa;    ///< boiling
  std::string note;
  friend bool operator==(const CheckRecord&, const CheckRecord&) = default;
};

/// Checks that together make the correction in force from a day on. The glass did not change on the
/// day somebody checked it: the first calibration of an instrument holds for earlier readings too,
/// unless its owner stated from when on it holds.
struct CalibrationRecord {
  Id id = 0;
  Id instrument = 0;
  Moment in_force_from;
  std::vector<Id> checks;
  std::string note;
  std::optional<Moment> due{};  ///< when it is to be checked again, if its owner said so
  bool from_stated = false;     ///< its owner stated in_force_from
  friend bool operator==(const CalibrationRecord&, const CalibrationRecord&) = default;
};
/// The newest calibration that came into force until then; of two from the same moment the one
/// added last. Nothing if there is none.
/// @param all  of one instrument, in order of their time
[[nodiscard]] const CalibrationRecord* newest(std::span<const CalibrationRecord> all, Moment until);
/// The newest one that came into force before another did and rests on other checks, so that the
/// two can show a drift; nothing if there is none.
[[nodiscard]] const CalibrationRecord* predecessor(std::span<const CalibrationRecord> all,
                                                   const CalibrationRecord& of);
/// The calibration that holds for a reading of that moment: the newest one, or before all of them
/// the first, unless its owner stated since when it holds. Nothing if there is none.
[[nodiscard]] const CalibrationRecord* in_force(std::span<const CalibrationRecord> all, Moment at);

/// One half of a pair: a reading as typed and as understood.
struct PairHalf {
  Id instrument = 0;
  std::string typed;
  double reading = 0;
  double half_width = 0;          ///< as coarse as typed; 0 = half a division
  std::string temperature_typed;  ///< empty: none was given
  std::optional<double> temperature_c;
};

/// An unfermented sample of a named liquid, read with a refractometer and a hydrometer.
struct LiquidPairRecord {
  Id id = 0;
  std::string liquid;
  Moment made_at;
  PairHalf refraction, gravity;
  instruments::Meniscus meniscus = instruments::Meniscus::level;
  std::optional<Id> thermometer;  ///< of both temperatures, if named
  double temperature_half_width_c = 0.5;
  std::string note;
  std::string left_out;  ///< why it does not count; empty if it does
};

}  // namespace areo::notebook
