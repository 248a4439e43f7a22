// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/propagate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"
#include "areo/core/range.hpp"
#include "areo/numeric/quantile.hpp"
#include "evaluate.hpp"
#include "second_order.hpp"

namespace areo::uncertainty {
namespace {

struct Change {
  std::vector<double> of_outputs;
  bool both_sides;
};

// Change of the outputs for one standard uncertainty of input i.
Change change(const Model& model, std::vector<double>& x, std::size_t i, const Input& input,
              const std::vector<double>& middle) {
  const auto lower = evaluate_moved(model, x, {{i, input.value - input.u}});
  const auto upper = evaluate_moved(model, x, {{i, input.value + input.u}});
  if (!lower && !upper)
    throw Error{Errc::domain,
                fmt::format("{}: {} ± {:.2g} leaves the range of the model on both sides",
                            input.name, number_text(input.value), input.u)};
  const double steps = lower && upper ? 2 : 1;
  std::vector<double> d(middle.size());
  for (std::size_t k = 0; k < d.size(); ++k)
    d[k] = ((upper ? (*upper)[k] : middle[k]) - (lower ? (*lower)[k] : middle[k])) / steps;
  return {d, lower && upper};
}

// Covariance of two outputs with the shares a and b: sum a_i b_i + sum r (a_i b_j + a_j b_i) over
// the correlated pairs of inputs; of an output with itself its variance.
double covariance(const Inputs& inputs, std::span<const double> a, std::span<const double> b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  for (const auto& [i, j, r] : inputs.correlations())
    sum += r * (a[i.index] * b[j.index] + a[j.index] * b[i.index]);
  return sum;
}

}  // namespace

Value combined(double estimate, std::span<const double> shares, const Inputs& inputs,
               std::span<const double> beyond) {
  if (shares.size() != inputs.all().size())
    throw Error{Errc::domain, fmt::format("{} inputs need as many shares; got {}",
                                          inputs.all().size(), shares.size())};
  double variance = std::max(covariance(inputs, shares, shares), 0.0);
  for (const double share : beyond) variance += share * share;
  double fourth = 0;
  for (std::size_t i = 0; i < shares.size(); ++i)
    fourth += std::pow(shares[i], 4) / inputs.all()[i].degrees_of_freedom;
  Value v{estimate, std::sqrt(variance)};
  if (fourth > 0 && variance > 0)
    v.degrees_of_freedom = std::max(1.0, variance * variance / fourth);
  return v;
}

double Value::whole_degrees_of_freedom() const {
  // To one decimal first, as the examples of [gum] do, so that 18.999 counts as 19 and 16.7 as 16.
  return std::floor(degrees_of_freedom + 0.05);
}

double Value::expanded(double p) const {
  return u * numeric::student_t_coverage(p, whole_degrees_of_freedom());
}

numeric::Covariance covariance(const Inputs& inputs, const Propagation& p) {
  numeric::Covariance v{p.shares.size()};
  for (std::size_t k = 0; k < v.size(); ++k)
    for (std::size_t l = k; l < v.size(); ++l)
      v.set(k, l, covariance(inputs, p.shares[k], p.shares[l]));
  return v;
}

Propagation propagate(const Inputs& inputs, const Model& model, const PropagationOptions& options) {
  std::vector<double> x = inputs.estimates();
  Propagation result;
  result.estimates = evaluate(model, x);
  const std::size_t outputs = result.estimates.size();
  result.shares.assign(outputs, std::vector<double>(x.size(), 0.0));
  result.warnings.resize(outputs);
  for (std::size_t i = 0; i < x.size(); ++i) {
    const Input& input = inputs.all()[i];
    if (input.u == 0) continue;
    const Change d = change(model, x, i, input, result.estimates);
    for (std::size_t k = 0; k < outputs; ++k) {
      result.shares[k][i] = d.of_outputs[k];
      if (!d.both_sides)
        result.warnings[k].push_back(
            {Warning::Kind::edge,
             fmt::format(
                 "{}: {} ± {:.2g} reaches beyond the model on one side; the other one served",
                 input.name, number_text(input.value), input.u)});
    }
  }
  for (std::size_t k = 0; k < outputs; ++k)
    result.values.push_back(combined(result.estimates[k], result.shares[k], inputs));
  if (options.check_linearity) check_linearity(inputs, model, result);
  return result;
}

}  // namespace areo::uncertainty
