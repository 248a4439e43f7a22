#pragma once
// What the sub-commands of `calibrate` share: options, and how an instrument's numbers are shown.
#include <string>
#include <vector>

#include "areo/calibration/check.hpp"
#include "areo/calibration/drift.hpp"
#include "areo/calibration/fit.hpp"
#include "areo/notebook/store.hpp"
#include "instrument_text.hpp"
#include "output.hpp"

namespace areo::cli {

struct CalibrateOptions {
  std::string name, reading, temperature, thermometer, temperature_accuracy;
  std::string solute, water, balance = "1g";
  std::string correction, expanded, factor = "2", pressure, altitude, on, from, since, due, note;
  std::string balance_name;
  bool top = false, yes = false, tap = false, distilled = false, apart = false;
  std::vector<notebook::Id> without;
};

/// Notes one check, and says what it says by itself.
int run_check(const CalibrateOptions& o, notebook::CheckMethod method, const Session& session);
/// Builds the correction from the checks and puts it in force.
int run_fit(const CalibrateOptions& o, const Session& session);
/// The calibration in force, the checks left out of it, and the history.
int run_show_calibration(const CalibrateOptions& o, const Session& session);

/// What changed since the calibration before: lines for people, one object for programs.
[[nodiscard]] std::vector<std::string> drift_lines(const notebook::InstrumentRecord& instrument,
                                                   const notebook::CalibrationRecord& before,
                                                   const calibration::Drift& drift);
void print_drift(const notebook::InstrumentRecord& instrument,
                 const notebook::CalibrationRecord& before, const calibration::Drift& drift);
[[nodiscard]] std::string drift_json(const notebook::CalibrationRecord& before,
                                     const calibration::Drift& drift);

/// What a new calibration changes: a line for each batch, liquid and instrument, a list for
/// programs.
[[nodiscard]] std::vector<std::string> changes_lines(const std::vector<notebook::ReadWith>& all);
[[nodiscard]] std::string changes_json(const std::vector<notebook::ReadWith>& all);

/// "within", "outside", "cannot_tell"
[[nodiscard]] const char* conformity_word(calibration::Conformity c);
/// How many digits beyond those that `expanded` supports show whether a difference is larger than
/// it; 0 as a rule.
[[nodiscard]] int telling_digits(double difference, double expanded);
/// "-0.92", or "+1.004" where two digits would not show on which side of 1 it lies.
[[nodiscard]] std::string en_text(double en);
/// A moment as a JSON string, or null.
[[nodiscard]] std::string moment_json(const std::optional<Moment>& m);
/// A difference with its sign: "+0.0012", to the last place that `expanded` supports and `more`.
[[nodiscard]] std::string signed_text(double value, double expanded, int more = 0);
/// One check as an object for programs.
[[nodiscard]] std::string check_json(const notebook::CheckRecord& r, const calibration::Check& c,
                                     const std::string& unit,
                                     const std::vector<std::string>& notes);

}  // namespace areo::cli
