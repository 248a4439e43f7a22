// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What the sub-commands of `calibrate` share.
#include <string>
#include <vector>

#include "areo/entry/check_entry.hpp"
#include "areo/notebook/store.hpp"
#include "output.hpp"

namespace areo::cli {

struct CalibrateOptions : entry::TypedCheck {
  std::string name, from, since, due;
  bool yes = false;
  std::vector<notebook::Id> without;
};

/// Notes one check, and says what it says by itself.
int run_check(const CalibrateOptions& o, notebook::CheckMethod method, const Session& session);
/// Builds the correction from the checks and puts it in force.
int run_fit(const CalibrateOptions& o, const Session& session);
/// The calibration in force, the checks left out of it, and the history.
int run_show_calibration(const CalibrateOptions& o, const Session& session);

}  // namespace areo::cli
