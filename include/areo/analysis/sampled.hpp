// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The second evaluation of a result: its inputs drawn from their distributions [jcgm101].
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "areo/measurement/result.hpp"
#include "areo/uncertainty/monte_carlo.hpp"

namespace areo::analysis {

/// One quantity, evaluated a second time, and whether that says the same as the first.
struct SampledQuantity {
  uncertainty::MonteCarloOutput output;
  uncertainty::Comparison comparison;
};

/// All quantities of a result, in their order.
struct Sampled {
  std::vector<SampledQuantity> quantities;
  std::uint64_t seed = 1;
  std::size_t trials = 0;
  double beyond = 0;       ///< fraction of trials that were beyond the model
  bool converged = false;  ///< every quantity is stable in its quoted digits
};

struct SamplingPlan {
  std::uint64_t seed = 1;
  std::size_t min_trials = 0;          ///< as uncertainty::MonteCarloOptions
  std::size_t max_trials = 1'000'000;  ///< likewise, but never below min_trials
  std::vector<std::size_t> keep{};
  std::function<void(double)> progress{};
};

/// Samples the model of a result until every quantity is stable in the digits that are quoted, the
/// second of its expanded uncertainty. Both evaluations agree if the ends of estimate ± U and of
/// the symmetric 95 % interval differ by less than half a unit of that digit. This is somewhat
/// coarser than half a digit of u, which [jcgm101] 7.9.2 takes and nobody sees here.
/// @param result  with its model and inputs
/// @throws Error as uncertainty::monte_carlo()
/// @source [jcgm101] clauses 7 and 8
[[nodiscard]] Sampled sample(const measurement::Result& result, const SamplingPlan& plan = {});

/// A quantity for which the law of propagation is too simple, and why.
struct BeyondTheLaw {
  std::size_t quantity;  ///< its number in the result
  std::string why;       ///< one sentence
};
/// Looks at all quantities with uncertainty::propagate(); the first reason of each.
/// @throws Error as uncertainty::propagate()
[[nodiscard]] std::vector<BeyondTheLaw> beyond_the_law(const measurement::Result& result);

}  // namespace areo::analysis
