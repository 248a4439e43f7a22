// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How a closed bottle is told, for people and for programs.
#include <optional>
#include <string>
#include <vector>

#include "areo/measurement/bottle.hpp"
#include "areo/trend/history.hpp"

namespace areo::wording {

/// How a ferment may end in the bottle.
struct BottleCase {
  std::string key, words;  ///< of the quantities; after "if"
};

/// What is said about a closed bottle, and which bottle it is.
struct BottleReport {
  const batch::Batch& batch;
  const std::string& bottle;  ///< "" is the batch as a whole
  const batch::Point& point;  ///< the last reading
  const trend::History& history;
  bool stuck;
  const measurement::BottlePlan& plan;
  bool storage_stated;
  const measurement::BottleResult& outcome;
  std::optional<Pressure> rating;
  std::vector<BottleCase> cases{};
};

[[nodiscard]] std::vector<BottleCase> cases_of(const measurement::BottlePlan& plan,
                                               measurement::Priming priming);
/// Whether the pressure is below the rating in all cases; there has to be a rating.
[[nodiscard]] bool all_below(const BottleReport& t);
/// Whether each case is decided, whichever way; there has to be a rating.
[[nodiscard]] bool answers(const BottleReport& t);
/// What is in the drink, down to the line above case_rows().
[[nodiscard]] std::vector<std::string> bottle_lines(const BottleReport& t, bool full);
/// What each case comes to, below the names of the columns.
[[nodiscard]] std::vector<std::vector<std::string>> case_rows(const BottleReport& t, bool full);
/// Below them: pace, priming, rating, cautions, and what to do next.
[[nodiscard]] std::vector<std::string> bottle_advice(const BottleReport& t, bool full);
[[nodiscard]] std::string bottle_json(const BottleReport& t);

}  // namespace areo::wording
