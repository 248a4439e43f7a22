#include "areo/uncertainty/propagate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "areo/core/error.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::uncertainty {
namespace {

std::vector<double> evaluate(const Model& model, std::span<const double> x) {
  std::vector<double> y = model(Point{x});
  if (!std::all_of(y.begin(), y.end(), [](double v) { return std::isfinite(v); }))
    throw Error{Errc::domain, "the measurement model gave no finite number"};
  return y;
}

// The outputs with input i moved to `value`; nothing if the model does not reach there.
std::optional<std::vector<double>> side(const Model& model, std::vector<double>& x, std::size_t i,
                                        double value) {
  const double kept = std::exchange(x[i], value);
  std::optional<std::vector<double>> y;
  try {
    y = evaluate(model, x);
  } catch (const Error&) {
    // Expected at the edge of a model (water at 0 °C ± 0.3 °C): the other side serves alone.
  }
  x[i] = kept;
  return y;
}

// Change of the outputs for one standard uncertainty of input i.
std::vector<double> change(const Model& model, std::vector<double>& x, std::size_t i,
                           const Input& input, const std::vector<double>& middle) {
  const auto lower = side(model, x, i, input.value - input.u);
  const auto upper = side(model, x, i, input.value + input.u);
  if (!lower && !upper)
    throw Error{Errc::domain, fmt::format("{}: {} ± {} leaves the range of the model on both sides",
                                          input.name, input.value, input.u)};
  const double steps = lower && upper ? 2 : 1;
  std::vector<double> d(middle.size());
  for (std::size_t k = 0; k < d.size(); ++k)
    d[k] = ((upper ? (*upper)[k] : middle[k]) - (lower ? (*lower)[k] : middle[k])) / steps;
  return d;
}

// Covariance of two outputs with the shares a and b: sum a_i b_i + sum r (a_i b_j + a_j b_i) over
// the correlated pairs of inputs; of an output with itself its variance.
double covariance(const Inputs& inputs, const std::vector<double>& a,
                  const std::vector<double>& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  for (const auto& [i, j, r] : inputs.correlations())
    sum += r * (a[i.index] * b[j.index] + a[j.index] * b[i.index]);
  return sum;
}

// Degrees of freedom by Welch-Satterthwaite [gum] G.4.1.
Value combine(double estimate, const std::vector<double>& shares, const Inputs& inputs) {
  const double variance = std::max(covariance(inputs, shares, shares), 0.0);
  double fourth = 0;
  for (std::size_t i = 0; i < shares.size(); ++i)
    fourth += std::pow(shares[i], 4) / inputs.all()[i].degrees_of_freedom;
  Value v{estimate, std::sqrt(variance)};
  if (fourth > 0 && variance > 0)
    v.degrees_of_freedom = std::max(1.0, variance * variance / fourth);
  return v;
}

}  // namespace

double Value::expanded(double p) const {
  // Truncated to an integer [gum] G.4.1; quoted to one decimal first, as its examples do, so that
  // 18.999 counts as 19.0 and 16.7 as 16.
  const double quoted = std::floor(degrees_of_freedom + 0.05);
  return u * numeric::student_t_coverage(p, quoted);
}

numeric::Covariance covariance(const Inputs& inputs, const Propagation& p) {
  numeric::Covariance v{p.shares.size()};
  for (std::size_t k = 0; k < v.size(); ++k)
    for (std::size_t l = k; l < v.size(); ++l)
      v.set(k, l, covariance(inputs, p.shares[k], p.shares[l]));
  return v;
}

Propagation propagate(const Inputs& inputs, const Model& model) {
  std::vector<double> x = inputs.estimates();
  Propagation result;
  result.estimates = evaluate(model, x);
  const std::size_t outputs = result.estimates.size();
  result.shares.assign(outputs, std::vector<double>(x.size(), 0.0));
  for (std::size_t i = 0; i < x.size(); ++i) {
    const Input& input = inputs.all()[i];
    if (input.u == 0) continue;
    const std::vector<double> d = change(model, x, i, input, result.estimates);
    for (std::size_t k = 0; k < outputs; ++k) result.shares[k][i] = d[k];
  }
  for (std::size_t k = 0; k < outputs; ++k)
    result.values.push_back(combine(result.estimates[k], result.shares[k], inputs));
  return result;
}

}  // namespace areo::uncertainty
