// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What was typed of a reading, as the notebook keeps it: the same for checks, pairs and batches.
#include <optional>
#include <string>

#include "areo/notebook/store.hpp"

namespace areo::entry {

/// An indication as understood.
struct NotedMark {
  double value = 0;
  double half_width = 0;  ///< if typed more coarsely than the eye reads; else 0
  std::string echo;       ///< how it was understood, if not as typed
};
/// @param instrument  a hydrometer or a refractometer
/// @throws ParseError as mark_from_text() and refraction_from_text()
[[nodiscard]] NotedMark noted_mark(const std::string& typed,
                                   const notebook::InstrumentRecord& instrument);

/// A temperature as understood.
struct NotedTemperature {
  std::optional<double> celsius;
  std::optional<notebook::Id> thermometer;
  double half_width_c = 0.5;
};
/// @param typed        may be empty
/// @param thermometer  name of one in the notebook; may be empty
/// @param accuracy     as typed, "0.2C"; may be empty
/// @param of_a_liquid  0 °C .. 85 °C only
/// @throws ParseError, Error{store}, Error{inconsistent} if it is no thermometer
[[nodiscard]] NotedTemperature noted_temperature(const std::string& typed,
                                                 const std::string& thermometer,
                                                 const std::string& accuracy, bool of_a_liquid,
                                                 const notebook::Notebook& book);

/// An instrument of a kind: "hydrometer", "refractometer", "thermometer".
/// @throws Error{store} if there is none of this name, Error{inconsistent} if it is of another kind
[[nodiscard]] notebook::InstrumentRecord of_kind(const notebook::Notebook& book,
                                                 const std::string& name, std::string_view kind);

/// A name for something new in the notebook.
/// @param what     "an instrument"
/// @param example  of a name
/// @throws Error{domain} for none, and for one that a command would take for an option
void require_name(const char* what, const std::string& name, const char* example);

}  // namespace areo::entry
