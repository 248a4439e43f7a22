// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The instruments of a notebook as they were at given moments. Remembers what it computed, so that
// many readings with few instruments are quick.
#include <compare>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "areo/instruments/thermometer.hpp"
#include "areo/notebook/store.hpp"
#include "areo/uncertainty/repeatability.hpp"

namespace areo::notebook {

class InstrumentHistory {
 public:
  /// What counts between two calibrations: the one in force, or both, on a straight line in time.
  enum class Between { in_force, interpolated };

  /// @param notebook must outlive the shelf; what is added to it later may go unseen
  explicit InstrumentHistory(const Notebook& notebook, Between between = Between::in_force)
      : notebook_{&notebook}, between_{between} {}

  [[nodiscard]] const InstrumentRecord& instrument(Id id);
  /// The calibration that holds for a reading of that moment; nothing if there is none.
  [[nodiscard]] std::optional<Id> calibration(Id instrument, Moment at);
  /// Until release() this instrument counts at all times with one calibration; with nothing, as if
  /// it had never been checked. What would the readings say then?
  void hold(Id instrument, const std::optional<Id>& calibration);
  void release() { held_.reset(); }
  [[nodiscard]] Between between() const { return between_; }
  /// As correction_in_force(), or interpolated_correction(), unless one is held.
  [[nodiscard]] instruments::Correction correction(Id instrument, Moment at);
  /// A temperature as noted: with the thermometer's correction at that time, or assumed.
  /// @param reference  of the scale, assumed if there is no temperature
  [[nodiscard]] instruments::TemperatureReading temperature(Temperature reference,
                                                            const std::optional<double>& celsius,
                                                            double half_width_c,
                                                            const std::optional<Id>& thermometer,
                                                            Moment at);
  /// From all samples that a person read repeatedly with an instrument.
  [[nodiscard]] const uncertainty::Repeatability& repeatability(Id instrument,
                                                                const std::string& person);

 private:
  // A correction, and whether at that moment its calibration was still to come, overdue or old, and
  // the instrument retired: then it has other remarks. How far it may have drifted is of each
  // moment.
  struct Version {
    Id calibration;
    bool early, overdue, old, retired;
    friend auto operator<=>(const Version&, const Version&) = default;
  };
  [[nodiscard]] const std::vector<CalibrationRecord>& calibrations(Id instrument);
  const Notebook* notebook_;
  Between between_;
  std::map<Id, InstrumentRecord> instruments_;
  std::map<Id, std::vector<CalibrationRecord>> calibrations_;
  std::map<Id, std::optional<Retirement>> retirements_;
  std::map<Version, instruments::Correction> corrections_;
  std::optional<std::pair<Id, instruments::Correction>> held_;
  std::map<std::pair<Id, std::string>, uncertainty::Repeatability> repeatabilities_;
};

}  // namespace areo::notebook
