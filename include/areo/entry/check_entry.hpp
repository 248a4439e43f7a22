// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A check of an instrument from what was typed of it.
#include <string>

#include "areo/calibration/check.hpp"
#include "areo/notebook/store.hpp"

namespace areo::entry {

/// As typed; what is not given is empty.
struct TypedCheck {
  std::string reading, temperature, thermometer, temperature_accuracy;
  std::string solute, water, balance = "1g";  ///< of a weighed solution; the balance's division
  std::string correction, expanded, factor = "2";  ///< of a certificate
  std::string pressure, altitude;                  ///< of boiling water: one of them
  std::string on, note, balance_name;
  bool top = false, tap = false, distilled = false;  ///< not both kinds of water
  bool apart = false;  ///< made apart from the others, with nothing in common
};

/// What was read goes into the notebook, not what follows from it.
/// @throws ParseError, Error{store}, Error{inconsistent} for what cannot be noted
[[nodiscard]] notebook::CheckRecord check_record(const TypedCheck& typed,
                                                 notebook::CheckMethod method,
                                                 const notebook::InstrumentRecord& instrument,
                                                 const notebook::Notebook& book);

/// A boundary at the foot of the scale may lie anywhere below it.
/// @throws Error{inconsistent} if an instrument without error would show less than its scale has:
///         then this is no reading
void refuse_foot_of_scale(const notebook::InstrumentRecord& instrument,
                          const calibration::Check& check);

}  // namespace areo::entry
