// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/monte_carlo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "evaluate.hpp"
#include "moments.hpp"
#include "sampler.hpp"

namespace areo::uncertainty {
namespace {

constexpr std::size_t least_block = 10'000;  // [jcgm101] 7.9.4
// [jcgm101] asks for two, from which the scatter between blocks would hardly be known.
constexpr std::size_t least_blocks = 5;
constexpr std::size_t most_trials = 10'000'000;
constexpr double most_beyond = 0.01;

// 100 / (1 - p) trials, so that a hundred lie outside the interval [jcgm101] 7.2.2.
std::size_t block_size(double p) {
  // Rounded first: 1 - 0.9999 is a little more than 0.0001, 1 - 0.99 a little less than 0.01.
  return std::max(least_block, static_cast<std::size_t>(std::ceil(100 / (1 - p) - 1e-6)));
}

void require_sensible(const MonteCarloOptions& o, std::size_t outputs) {
  if (!(o.p >= 0.5 && o.p <= 0.9999))
    throw Error{Errc::domain,
                fmt::format("sampling gives intervals of 0.5 to 0.9999 probability; got {}", o.p)};
  (void)numerical_tolerance(1, o.digits);
  const std::size_t least = least_blocks * block_size(o.p);
  if (o.max_trials < least || o.max_trials > most_trials)
    throw Error{Errc::domain, fmt::format("sampling takes {} to {} trials for a probability of {}; "
                                          "got {}",
                                          least, most_trials, o.p, o.max_trials)};
  if (o.min_trials > o.max_trials)
    throw Error{Errc::domain,
                fmt::format("at least {} trials, but at most {}", o.min_trials, o.max_trials)};
  if (!o.tolerances.empty() &&
      (o.tolerances.size() != outputs ||
       !std::all_of(o.tolerances.begin(), o.tolerances.end(), [](double t) { return t >= 0; })))
    throw Error{Errc::domain, "one tolerance, zero or more, for each output of the model"};
  for (const std::size_t k : o.keep)
    if (k >= outputs)
      throw Error{Errc::domain,
                  fmt::format("output {} is to be kept, but the model has {} outputs, "
                              "counted from 0",
                              k, outputs)};
}

// How one output goes from block to block.
class Blocks {
 public:
  explicit Blocks(double p) : p_{p} {}

  void add(std::span<const double> y) {
    const Moments m = moments(y);
    std::vector<double> sorted(y.begin(), y.end());
    std::sort(sorted.begin(), sorted.end());
    const Interval i = symmetric_interval(sorted, p_);
    mean_.push_back(m.mean);
    u_.push_back(m.deviation);
    lo_.push_back(i.lo);
    hi_.push_back(i.hi);
  }

  // Twice the standard deviation of the average over the blocks, of the least stable quantity.
  [[nodiscard]] double scatter() const {
    const double h = std::sqrt(static_cast<double>(mean_.size()));
    return 2 / h *
           std::max({moments(mean_).deviation, moments(u_).deviation, moments(lo_).deviation,
                     moments(hi_).deviation});
  }

  // Standard deviation of the values; that of the blocks' means is too small to count.
  [[nodiscard]] double u() const {
    double squares = 0;
    for (const double u : u_) squares += u * u;
    return std::sqrt(squares / static_cast<double>(u_.size()));
  }

 private:
  double p_;
  std::vector<double> mean_, u_, lo_, hi_;
};

// Adds `size` trials to the columns; counts those beyond the model.
void draw_block(Sampler& sampler, const Model& model, std::size_t size,
                std::vector<std::vector<double>>& columns, std::size_t& beyond) {
  const std::size_t end = columns.front().size() + size;
  while (columns.front().size() < end) {
    const std::span<const double> x = sampler.next();
    try {
      const std::vector<double> y = evaluate(model, x);
      for (std::size_t k = 0; k < columns.size(); ++k) columns[k].push_back(y[k]);
    } catch (const Error&) {
      ++beyond;
      if (static_cast<double>(beyond) > most_beyond * static_cast<double>(end))
        throw Error{
            Errc::domain,
            // What the last one broke would name a drawn value, which is nobody's reading.
            fmt::format("more than {:g} % of the trials are beyond the model", 100 * most_beyond),
            "the inputs are too uncertain for this model, or too near the end of its range"};
    }
  }
}

// Rank of the lower end, and how many values further the upper one is [jcgm101] 7.7.1.
std::size_t span_of(std::span<const double> sorted, double p) {
  if (!(p > 0 && p < 1))
    throw Error{Errc::domain, fmt::format("a probability lies between 0 and 1; got {}", p)};
  const auto n = static_cast<double>(sorted.size());
  const double q = std::floor(p * n + 0.5);
  if (!(q >= 1 && q < n))
    throw Error{Errc::domain,
                fmt::format("{} values are too few for an interval of {} probability", n, p),
                "take more trials"};
  return static_cast<std::size_t>(q);
}

}  // namespace

Interval symmetric_interval(std::span<const double> sorted, double p) {
  const std::size_t q = span_of(sorted, p);
  const std::size_t r = (sorted.size() - q + 1) / 2;  // counted from 1
  return {sorted[r - 1], sorted[r - 1 + q]};
}

Interval shortest_interval(std::span<const double> sorted, double p) {
  const std::size_t q = span_of(sorted, p);
  Interval best{sorted[0], sorted[q]};
  for (std::size_t r = 1; r + q < sorted.size(); ++r)
    if (sorted[r + q] - sorted[r] < best.hi - best.lo) best = {sorted[r], sorted[r + q]};
  return best;
}

double numerical_tolerance(double u, int digits) {
  if (digits < 1 || digits > 4)
    throw Error{Errc::domain,
                fmt::format("an uncertainty is quoted with 1 to 4 digits; got {}", digits)};
  if (!std::isfinite(u) || u < 0)
    throw Error{Errc::domain, fmt::format("an uncertainty is zero or more; got {}", u)};
  if (u == 0) return 0;
  double exponent = std::floor(std::log10(u)) - (digits - 1);
  // 9.96 is quoted as 10, so its last digit is a higher one.
  if (std::round(u / std::pow(10, exponent)) >= std::pow(10, digits)) ++exponent;
  return std::pow(10, exponent) / 2;
}

MonteCarlo monte_carlo(const Inputs& inputs, const Model& model, const MonteCarloOptions& options) {
  const std::size_t outputs = evaluate(model, inputs.estimates()).size();
  require_sensible(options, outputs);
  if (outputs == 0) throw Error{Errc::domain, "the measurement model has no output"};
  Sampler sampler{inputs, options.seed};
  const std::size_t size = block_size(options.p);
  std::vector<std::vector<double>> columns(outputs);
  std::vector<Blocks> blocks(outputs, Blocks{options.p});
  MonteCarlo result;
  result.outputs.resize(outputs);
  std::size_t beyond = 0;
  while (!result.converged && result.trials + size <= options.max_trials) {
    draw_block(sampler, model, size, columns, beyond);
    result.trials += size;
    const bool enough = result.trials >= least_blocks * size;
    result.converged = enough && result.trials >= options.min_trials;
    for (std::size_t k = 0; k < outputs; ++k) {
      blocks[k].add(std::span{columns[k]}.last(size));
      if (!enough) continue;
      MonteCarloOutput& out = result.outputs[k];
      out.scatter = blocks[k].scatter();
      out.tolerance = options.tolerances.empty()
                          ? numerical_tolerance(blocks[k].u(), options.digits)
                          : options.tolerances[k];
      out.converged = out.scatter <= out.tolerance;
      result.converged = result.converged && out.converged;
    }
    if (options.progress) {
      const bool last = result.converged || result.trials + size > options.max_trials;
      options.progress(
          last ? 1 : static_cast<double>(result.trials) / static_cast<double>(options.max_trials));
    }
  }
  for (std::size_t k = 0; k < outputs; ++k) {
    MonteCarloOutput& out = result.outputs[k];
    std::vector<double> sample = std::move(columns[k]);
    const Moments m = moments(sample);
    std::sort(sample.begin(), sample.end());
    out.mean = m.mean;
    out.u = m.deviation;
    out.p = options.p;
    out.symmetric = symmetric_interval(sample, options.p);
    out.shortest = shortest_interval(sample, options.p);
    if (std::find(options.keep.begin(), options.keep.end(), k) != options.keep.end())
      out.sample = std::move(sample);
  }
  result.beyond = static_cast<double>(beyond) / static_cast<double>(beyond + result.trials);
  return result;
}

Comparison agree(const Value& value, const MonteCarloOutput& sampled, int digits) {
  return agree_within(value, sampled, numerical_tolerance(value.u, digits));
}

Comparison agree_within(const Value& value, const MonteCarloOutput& sampled, double tolerance) {
  if (!(tolerance >= 0))
    throw Error{Errc::domain, fmt::format("a tolerance is zero or more; got {}", tolerance)};
  Comparison c;
  c.tolerance = tolerance;
  const double expanded = value.expanded(sampled.p);
  c.d_low = std::abs(value.estimate - expanded - sampled.symmetric.lo);
  c.d_high = std::abs(value.estimate + expanded - sampled.symmetric.hi);
  if (!std::isfinite(c.d_low) || !std::isfinite(c.d_high))
    throw Error{Errc::domain, "the results to be compared are not finite numbers"};
  const double d = std::max(c.d_low, c.d_high);
  const bool coarse = sampled.scatter > c.tolerance;
  if (coarse && d <= c.tolerance + sampled.scatter)
    c.verdict = Agreement::cannot_tell;
  else
    c.verdict = d <= c.tolerance ? Agreement::agree : Agreement::differ;
  return c;
}

}  // namespace areo::uncertainty
