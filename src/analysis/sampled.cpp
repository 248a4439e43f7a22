// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/analysis/sampled.hpp"

#include <algorithm>
#include <utility>

namespace areo::analysis {
namespace {

constexpr int quoted_digits = 2;  // of U
constexpr std::size_t most_trials = 10'000'000;

// Sampling goes in whole blocks: the last one must still fit.
std::size_t limit_of(const SamplingPlan& plan) {
  constexpr std::size_t block = 10'000;
  return std::max(plan.max_trials, std::min(plan.min_trials + block, most_trials));
}

}  // namespace

Sampled sample(const measurement::Result& result, const SamplingPlan& plan) {
  uncertainty::MonteCarloOptions options{.seed = plan.seed,
                                         .max_trials = limit_of(plan),
                                         .min_trials = plan.min_trials,
                                         .keep = plan.keep,
                                         .progress = plan.progress};
  for (const measurement::Quantity& q : result.quantities)
    options.tolerances.push_back(
        uncertainty::numerical_tolerance(q.value.expanded(options.p), quoted_digits));
  uncertainty::MonteCarlo found = uncertainty::monte_carlo(result.inputs, result.model, options);
  Sampled all{.quantities = {},
              .seed = plan.seed,
              .trials = found.trials,
              .beyond = found.beyond,
              .converged = found.converged};
  for (std::size_t k = 0; k < found.outputs.size(); ++k) {
    const auto comparison = uncertainty::agree_within(result.quantities[k].value, found.outputs[k],
                                                      options.tolerances[k]);
    all.quantities.push_back({std::move(found.outputs[k]), comparison});
  }
  return all;
}

std::vector<BeyondTheLaw> beyond_the_law(const measurement::Result& result) {
  const uncertainty::Propagation p =
      uncertainty::propagate(result.inputs, result.model, {.check_linearity = true});
  std::vector<BeyondTheLaw> all;
  for (std::size_t k = 0; k < p.warnings.size(); ++k)
    if (!p.warnings[k].empty()) all.push_back({k, p.warnings[k].front().text});
  return all;
}

}  // namespace areo::analysis
