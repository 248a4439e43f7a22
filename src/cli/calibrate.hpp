#pragma once
// What the sub-commands of `calibrate` share.
#include <string>
#include <vector>

#include "areo/notebook/store.hpp"
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

}  // namespace areo::cli
