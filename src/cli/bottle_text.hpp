#pragma once
// How a closed bottle is told, for people and for programs.
#include <optional>
#include <string>
#include <vector>

#include "areo/measurement/bottle.hpp"
#include "areo/trend/history.hpp"

namespace areo::cli {

/// How a ferment may end in the bottle.
struct BottleCase {
  std::string key, words;  ///< of the quantities; after "if"
};

/// What is told, and what of.
struct BottleTelling {
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
[[nodiscard]] bool all_below(const BottleTelling& t);
/// Whether each case is decided, whichever way; there has to be a rating.
[[nodiscard]] bool answers(const BottleTelling& t);
void print_bottle(const BottleTelling& t, bool full);
void print_bottle_json(const BottleTelling& t);

}  // namespace areo::cli
