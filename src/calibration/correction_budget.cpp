// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/calibration/correction_budget.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"

namespace areo::calibration {
namespace {

// The smallest of 1, 2 and 5 times a power of ten that is no smaller.
double round_step(double least) {
  const double decade = std::pow(10.0, std::floor(std::log10(least)));
  for (const double digit : {1.0, 2.0, 5.0})
    if (digit * decade >= least * (1 - 1e-9)) return digit * decade;
  return 10 * decade;
}

}  // namespace

CorrectionBudget correction_budget(const CheckSet& set, const CorrectionFit& fit,
                                   double indication) {
  const std::size_t inputs = set.inputs.all().size();
  if (set.shares.size() != set.checks.size() || set.checks.empty())
    throw Error{Errc::domain, "a budget needs what each input contributes to each check"};
  if (!std::isfinite(indication))
    throw Error{Errc::domain, fmt::format("there is no mark {} on a scale", indication)};
  const auto weights = weights_at(set, fit, fit.slope_weight, indication);
  const instruments::Correction& c = fit.correction;
  CorrectionBudget budget;
  budget.indication = indication;
  budget.shares.assign(inputs, 0.0);
  for (std::size_t i = 0; i < set.checks.size(); ++i)
    for (std::size_t k = 0; k < inputs; ++k) budget.shares[k] += weights[i] * set.shares[i].at(k);
  budget.beyond = c.u_slope_beyond * std::abs(c.beyond(indication));
  // What the shares do not hold: a slope that is not fully used, and what a certificate's points
  // may add to one.
  const double shared = uncertainty::combined(0, budget.shares, set.inputs).u;
  const double all = std::hypot(c.u_offset, c.u_surface, c.u_slope * (indication - c.r0));
  budget.slope = all > shared * (1 + 1e-9) ? std::sqrt(all * all - shared * shared) : 0;
  const std::vector<double> further{budget.slope, budget.beyond};
  budget.correction = uncertainty::combined(c.at(indication), budget.shares, set.inputs, further);
  return budget;
}

std::vector<std::size_t> checks_with(const CheckSet& set, std::size_t input) {
  if (input >= set.inputs.all().size())
    throw Error{Errc::domain, fmt::format("the checks have no input {}", input)};
  constexpr double none = 1e-6;
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < set.checks.size(); ++i)
    if (std::abs(set.shares.at(i).at(input)) > none * set.checks[i].correction.u) all.push_back(i);
  return all;
}

std::vector<double> correction_marks(const instruments::Correction& c, double lo, double hi) {
  if (!(lo < hi) || !std::isfinite(hi - lo))
    throw Error{Errc::domain, "a scale needs a lower end below the upper"};
  constexpr double fewest_steps = 8;
  const double step = round_step((hi - lo) / fewest_steps);
  std::vector<double> marks{lo, hi, c.checked_lo, c.checked_hi};
  const auto free = [&](double mark) {
    return std::all_of(marks.begin(), marks.end(), [&](double other) {
      return std::abs(mark - other) > step / 4 || mark == other;
    });
  };
  std::vector<double> round_ones;
  const double first = std::ceil(lo / step);
  for (double n = first; n * step <= hi; ++n)
    if (free(n * step)) round_ones.push_back(n * step);
  marks.insert(marks.end(), round_ones.begin(), round_ones.end());
  std::sort(marks.begin(), marks.end());
  const double same = (hi - lo) * 1e-9;
  marks.erase(std::unique(marks.begin(), marks.end(),
                          [&](double a, double b) { return std::abs(a - b) < same; }),
              marks.end());
  return marks;
}

}  // namespace areo::calibration
