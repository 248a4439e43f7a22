// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A solution that is weighed in for a check, from what was typed of it, and what instruments show
// in it.
#include <string>
#include <vector>

#include "areo/calibration/solution.hpp"
#include "areo/entry/reading_resolver.hpp"
#include "areo/text/parse_temperature.hpp"

namespace areo::entry {

/// As typed; either the two masses, or a target and the mass of the whole.
struct TypedSolution {
  std::string kind;           ///< "sugar" or "salt"
  std::string solute, water;  ///< masses
  std::string target, total;  ///< a mark on any scale, and a mass
  std::string balance = "1g", temperature = "20C";
  std::string instrument;  ///< in the notebook; empty = one of each usual scale, without error
};

/// As weighed, or with the masses that come nearest to the target on that balance.
/// @throws ParseError; Error{domain} for a target that no such solution shows;
///         Error{inconsistent} for less than one division of the balance
[[nodiscard]] calibration::WeighedSolution weighed_solution(const TypedSolution& typed);

/// What instruments show in it.
/// @throws as measurement::describe_solution()
[[nodiscard]] measurement::Result solution_shows(const calibration::WeighedSolution& weighed,
                                                 const TypedSolution& typed,
                                                 ReadingResolver& resolver);

/// The masses, what the solution is, and what instruments show in it.
/// @param shows  as solution_shows() gives it
[[nodiscard]] std::vector<std::string> solution_lines(const calibration::WeighedSolution& weighed,
                                                      const TypedSolution& typed,
                                                      const measurement::Result& shows, bool full,
                                                      text::TemperatureUnit unit);

}  // namespace areo::entry
