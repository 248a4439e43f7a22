// SPDX-License-Identifier: GPL-3.0-or-later
#include "sampler.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "areo/core/error.hpp"
#include "areo/numeric/covariance.hpp"
#include "areo/numeric/quantile.hpp"

namespace areo::uncertainty {
namespace {

void require_drawable(const Input& in, bool correlated) {
  if (in.shape == Distribution::student_t && !(in.degrees_of_freedom > 2))
    throw Error{Errc::domain,
                fmt::format("{}: Student's t has no standard deviation below 3 degrees of freedom "
                            "[jcgm101]; got {}",
                            in.name, in.degrees_of_freedom),
                "take four readings or more, or state what is known of their scatter"};
  if (correlated && in.shape == Distribution::curvilinear_trapezoid)
    throw Error{
        Errc::domain,
        fmt::format("{}: a curvilinear trapezoid cannot be drawn with a correlation", in.name),
        "state it as rectangular, or state what the inputs share"};
}

}  // namespace

Sampler::Sampler(const Inputs& inputs, std::uint64_t seed)
    : inputs_{inputs.all().begin(), inputs.all().end()}, generator_{seed}, x_{inputs.estimates()} {
  std::vector<bool> joined(inputs_.size(), false);
  for (const auto& [a, b, r] : inputs.correlations())
    if (r != 0) joined[a.index] = joined[b.index] = true;
  for (std::size_t i = 0; i < inputs_.size(); ++i) {
    Input& in = inputs_[i];
    if (in.u == 0) continue;
    require_drawable(in, joined[i]);
    std::sort(in.read.begin(), in.read.end());
    (joined[i] ? correlated_ : alone_).push_back(i);
  }
  const numeric::Covariance all = inputs.correlation_matrix();
  numeric::Covariance r{correlated_.size()};
  for (std::size_t i = 0; i < r.size(); ++i)
    for (std::size_t j = i; j < r.size(); ++j) r.set(i, j, all(correlated_[i], correlated_[j]));
  factor_ = numeric::cholesky(r);
  independent_.resize(r.size());
}

// The middles of 2^53 equal parts of 0 .. 1: never an end, where quantiles are infinite.
double Sampler::uniform() { return (static_cast<double>(generator_() >> 11) + 0.5) * 0x1p-53; }

// Value of input i that is not exceeded with probability r [jcgm101] 6.4. The curvilinear trapezoid
// has no such formula: r places the value between limits that are drawn first.
double Sampler::value(std::size_t i, double r) {
  const Input& in = inputs_[i];
  switch (in.shape) {
    case Distribution::normal: return in.value + in.u * numeric::normal_quantile(r);
    case Distribution::rectangular: return in.value + in.u * std::sqrt(3.0) * (2 * r - 1);
    case Distribution::triangular:
      return in.value +
             in.u * std::sqrt(6.0) * (r < 0.5 ? std::sqrt(2 * r) - 1 : 1 - std::sqrt(2 * (1 - r)));
    case Distribution::arcsine:
      return in.value - in.u * std::sqrt(2.0) * std::cos(std::numbers::pi * r);
    case Distribution::student_t:
      return in.value + in.u * numeric::student_t_quantile(r, in.degrees_of_freedom);
    case Distribution::curvilinear_trapezoid: {
      const double d = in.limit_error;
      const double half_width = std::sqrt(3 * in.u * in.u - d * d / 3);
      return in.value + (half_width + d * (2 * uniform() - 1)) * (2 * r - 1);
    }
    case Distribution::sample: {
      const auto n = static_cast<double>(in.read.size());
      return in.read[static_cast<std::size_t>(r * n)];
    }
  }
  throw Error{Errc::domain, fmt::format("{}: has a shape that is not known", in.name)};
}

// Normal copula: correlated normal deviates, each turned into the probability that its input takes.
// Normal inputs get exactly the stated correlation.
void Sampler::draw_correlated() {
  const std::size_t n = correlated_.size();
  for (double& z : independent_) z = numeric::normal_quantile(uniform());
  for (std::size_t i = 0; i < n; ++i) {
    double z = 0;
    for (std::size_t j = 0; j <= i; ++j) z += factor_[i * n + j] * independent_[j];
    const Input& in = inputs_[correlated_[i]];
    // Beyond about eight standard deviations the probability would round to 1.
    const double r = std::min(numeric::normal_probability(z), 1 - 0x1p-53);
    x_[correlated_[i]] =
        in.shape == Distribution::normal ? in.value + in.u * z : value(correlated_[i], r);
  }
}

std::span<const double> Sampler::next() {
  for (const std::size_t i : alone_) x_[i] = value(i, uniform());
  draw_correlated();
  return x_;
}

}  // namespace areo::uncertainty
