// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Propagation of distributions by sampling [jcgm101], and its comparison with the law of
// propagation.
#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "areo/uncertainty/input.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::uncertainty {

struct Interval {
  double lo = 0;
  double hi = 0;
};

/// Leaves as much probability below as above [jcgm101] 7.7.2.
/// @param sorted ascending, at least 1 / (1 - p) values
/// @param p      coverage probability, 0 < p < 1
/// @throws Error{domain} for another p or fewer values
[[nodiscard]] Interval symmetric_interval(std::span<const double> sorted, double p);
/// The shortest one; where the distribution leans, it lies elsewhere [jcgm101] 7.7.4.
[[nodiscard]] Interval shortest_interval(std::span<const double> sorted, double p);

/// Half a unit of the last digit when u is quoted with so many significant digits [jcgm101] 7.9.2.
/// @param digits 1 .. 4
/// @throws Error{domain} for other digits, or if u is not finite or below zero
/// @check  u = 0.35, two digits -> 0.005; u = 32, one digit -> 5
[[nodiscard]] double numerical_tolerance(double u, int digits);

struct MonteCarloOptions {
  std::uint64_t seed = 1;  ///< the same seed, inputs and model give the same numbers
  double p = 0.95;         ///< of the coverage intervals, 0.5 .. 0.9999
  int digits = 2;          ///< significant digits of u that shall be stable, 1 .. 4
  /// Where sampling ends, stable or not: at least five blocks, at most 10 million. A block is
  /// 10 000 trials, or 100 / (1 - p) if that is more.
  std::size_t max_trials = 1'000'000;
  std::size_t min_trials = 0;  ///< so many at least, stable or not; up to max_trials
  /// What each output shall be stable to, in its unit, instead of so many digits of u; one per
  /// output, or none.
  std::vector<double> tolerances{};
  std::vector<std::size_t> keep{};  ///< outputs whose sorted sample is to be kept
  /// Called after each block with the fraction done: of max_trials, and 1 after the last one.
  std::function<void(double)> progress{};
};

/// What sampling found for one output, in its unit.
struct MonteCarloOutput {
  double mean = 0;
  double u = 0;        ///< standard deviation of the sample
  double p = 0.95;     ///< of the intervals
  Interval symmetric;  ///< probabilistically symmetric coverage interval
  Interval shortest;   ///< its ends wander more than those of the symmetric one
  /// Twice the standard deviation, from block to block, of the least stable of mean, u and the
  /// ends of the symmetric interval: how far these may be off because there are only so many
  /// trials.
  double scatter = 0;
  double tolerance = 0;          ///< numerical_tolerance(u, digits), or as it was stated
  bool converged = false;        ///< scatter <= tolerance
  std::vector<double> sample{};  ///< ascending, if it was to be kept
};

struct MonteCarlo {
  std::vector<MonteCarloOutput> outputs;
  std::size_t trials = 0;  ///< that gave outputs
  double beyond = 0;       ///< fraction of trials that were beyond the model, 0 .. 0.01
  bool converged = false;  ///< every output
};

/// Draws the inputs from their distributions, in blocks, until the results are stable in the stated
/// digits [jcgm101] 7.9.4, but five blocks at least. The stopping rule looks at mean, u and the
/// symmetric interval.
///
/// Inputs with a correlation are drawn together: normal ones as a multivariate normal, others
/// through a normal copula, where the correlation that comes out differs from the stated one a
/// little (rectangular: 6/π asin(r/2), 0.02 less at most). A normal input with few degrees of
/// freedom counts as normal; to have its tails, state it as student_t().
///
/// A trial at which the model throws Error is beyond the model; it is counted, left out and drawn
/// anew, so that the result holds for inputs within the range of the model. Above 1 % this would
/// shift the result, and is refused.
///
/// Memory: 8 bytes times outputs times trials, twice that while it grows; with the default limit of
/// trials 16 MB per output.
/// One thread.
/// @throws Error{domain} for options outside the limits above, for inputs that cannot be drawn, and
///         if more than 1 % of the trials are beyond the model; what the model throws at the
///         estimates; what `progress` throws (this ends the sampling)
/// @source [jcgm101] clause 7
/// @check  [jcgm101] 9.4: X1² + X2² about zero with u = 0.005: 50e-6, u = 50e-6, 0 .. 150e-6
[[nodiscard]] MonteCarlo monte_carlo(const Inputs& inputs, const Model& model,
                                     const MonteCarloOptions& options = {});

/// Do both evaluations say the same?
enum class Agreement {
  agree,        ///< in the digits that are quoted
  differ,       ///< take the sampled result
  cannot_tell,  ///< too few trials for these digits
};
struct Comparison {
  double d_low = 0;   ///< distance of the lower ends of both intervals
  double d_high = 0;  ///< of the upper ends
  double tolerance = 0;
  Agreement verdict = Agreement::cannot_tell;
};

/// Compares estimate ± U with the symmetric interval: both ends have to agree within half a unit of
/// the last digit of u. The sampling should be stable to a digit more than that, else its own
/// scatter decides near the tolerance.
/// @param digits significant digits of u that are quoted, 1 .. 4
/// @throws Error{domain} as numerical_tolerance()
/// @source [jcgm101] clause 8
[[nodiscard]] Comparison agree(const Value& value, const MonteCarloOutput& sampled, int digits = 2);
/// The same within a stated distance of both ends, where it is not u that is quoted.
/// @param tolerance unit of the value, >= 0
/// @throws Error{domain} for another tolerance
[[nodiscard]] Comparison agree_within(const Value& value, const MonteCarloOutput& sampled,
                                      double tolerance);

}  // namespace areo::uncertainty
