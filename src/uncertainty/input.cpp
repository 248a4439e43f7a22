// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/uncertainty/input.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "areo/core/error.hpp"
#include "moments.hpp"

namespace areo::uncertainty {
namespace {

constexpr std::size_t least_sample = 20;

Moments moments_of(const std::string& name, std::span<const double> x, std::size_t least) {
  if (x.size() < least)
    throw Error{Errc::domain,
                fmt::format("{}: needs at least {} values; got {}", name, least, x.size()),
                "take more readings, or state a standard uncertainty"};
  if (!std::all_of(x.begin(), x.end(), [](double v) { return std::isfinite(v); }))
    throw Error{Errc::domain, fmt::format("{}: a reading is not a finite number", name)};
  return moments(x);
}

// What the shapes need besides value and u.
void require_shape(const Input& in) {
  const double d = in.limit_error;
  const bool trapezoid = in.shape == Distribution::curvilinear_trapezoid;
  // d at most the half width: u² = half_width² / 3 + d² / 9 >= 4 d² / 9; rounding may be used up.
  if (!(d >= 0) || (d > 0 && !trapezoid) || (trapezoid && !(in.u * (1 + 1e-12) >= 2 * d / 3)))
    throw Error{
        Errc::domain,
        fmt::format("{}: limits known to ± {} need a curvilinear trapezoid whose half width "
                    "is at least that",
                    in.name, d)};
  const bool sampled = in.shape == Distribution::sample;
  if (!sampled && !in.read.empty())
    throw Error{Errc::domain, fmt::format("{}: only a sample has values of its own", in.name)};
  if (sampled) {
    const Moments m = moments_of(in.name, in.read, least_sample);
    const double slack = 1e-9 * (in.u + std::abs(in.value));  // another order of summation
    if (!(std::abs(m.mean - in.value) <= slack && std::abs(m.deviation - in.u) <= slack))
      throw Error{Errc::inconsistent,
                  fmt::format("{}: is stated as {} with u = {}, but its sample has {} and {}",
                              in.name, in.value, in.u, m.mean, m.deviation),
                  "make it with sample()"};
  }
}

}  // namespace

Input normal(std::string name, std::string unit, double value, double u, std::string provenance) {
  return {.name = std::move(name),
          .unit = std::move(unit),
          .value = value,
          .u = u,
          .provenance = std::move(provenance)};
}

Input rectangular(std::string name, std::string unit, double value, double half_width,
                  std::string provenance) {
  Input in = normal(std::move(name), std::move(unit), value, half_width / std::sqrt(3.0),
                    std::move(provenance));
  in.shape = Distribution::rectangular;
  return in;
}

Input triangular(std::string name, std::string unit, double value, double half_width,
                 std::string provenance) {
  Input in = normal(std::move(name), std::move(unit), value, half_width / std::sqrt(6.0),
                    std::move(provenance));
  in.shape = Distribution::triangular;
  return in;
}

Input between(std::string name, std::string unit, double lo, double hi, std::string provenance) {
  return rectangular(std::move(name), std::move(unit), (lo + hi) / 2, (hi - lo) / 2,
                     std::move(provenance));
}

Input arcsine(std::string name, std::string unit, double value, double half_width,
              std::string provenance) {
  Input in = normal(std::move(name), std::move(unit), value, half_width / std::sqrt(2.0),
                    std::move(provenance));
  in.shape = Distribution::arcsine;
  return in;
}

Input curvilinear_trapezoid(std::string name, std::string unit, double value, double half_width,
                            double limit_error, std::string provenance) {
  const double u = std::sqrt(half_width * half_width / 3 + limit_error * limit_error / 9);
  Input in = normal(std::move(name), std::move(unit), value, u, std::move(provenance));
  in.shape = Distribution::curvilinear_trapezoid;
  in.limit_error = limit_error;
  return in;
}

Input student_t(std::string name, std::string unit, double value, double u,
                double degrees_of_freedom, std::string provenance) {
  Input in = normal(std::move(name), std::move(unit), value, u, std::move(provenance));
  in.shape = Distribution::student_t;
  in.type = Evaluation::type_a;
  in.degrees_of_freedom = degrees_of_freedom;
  return in;
}

Input repeated(std::string name, std::string unit, std::span<const double> readings,
               double resolution, std::string provenance) {
  const Moments m = moments_of(name, readings, 2);
  if (!std::isfinite(resolution) || resolution < 0)
    throw Error{Errc::domain,
                fmt::format("{}: a resolution is zero or more; got {} {}", name, resolution, unit)};
  const auto n = static_cast<double>(readings.size());
  const double u = m.deviation / std::sqrt(n);
  Input step = rectangular(name, unit, m.mean, resolution / 2, provenance);
  if (step.u > u) return step;
  return student_t(std::move(name), std::move(unit), m.mean, u, n - 1, std::move(provenance));
}

Input sample(std::string name, std::string unit, std::vector<double> values,
             std::string provenance) {
  const Moments m = moments_of(name, values, least_sample);
  Input in = normal(std::move(name), std::move(unit), m.mean, m.deviation, std::move(provenance));
  in.shape = Distribution::sample;
  in.type = Evaluation::type_a;
  in.degrees_of_freedom = static_cast<double>(values.size()) - 1;
  in.read = std::move(values);
  return in;
}

Input from(Origin origin, Input input, double step) {
  input.origin = origin;
  input.step = step;
  return input;
}

InputRef Inputs::add(Input input) {
  if (!std::isfinite(input.value) || !std::isfinite(input.u) || !(input.u >= 0) ||
      !(input.degrees_of_freedom >= 1))
    throw Error{Errc::domain,
                fmt::format("{}: needs a finite value, an uncertainty of zero or more and at least "
                            "one degree of freedom; got {} with u = {}",
                            input.name, input.value, input.u)};
  if (!(input.step >= 0) || !std::isfinite(input.step))
    throw Error{Errc::domain, fmt::format("{}: a step is zero or more and finite; got {} {}",
                                          input.name, input.step, input.unit)};
  require_shape(input);
  inputs_.push_back(std::move(input));
  return {inputs_.size() - 1};
}

void Inputs::correlate(InputRef a, InputRef b, double r) {
  if (a.index >= inputs_.size() || b.index >= inputs_.size() || a.index == b.index ||
      !(r >= -1 && r <= 1))
    throw Error{Errc::domain, fmt::format("a correlation joins two inputs by -1 .. 1; got {}", r)};
  for (const auto& [i, j, known] : correlations_)
    if ((i.index == a.index && j.index == b.index) || (i.index == b.index && j.index == a.index))
      throw Error{Errc::inconsistent,
                  fmt::format("{} and {} have the correlation {} already; got {}",
                              inputs_[a.index].name, inputs_[b.index].name, known, r)};
  correlations_.push_back({a, b, r});
}

std::vector<double> Inputs::estimates() const {
  std::vector<double> values;
  values.reserve(inputs_.size());
  for (const Input& in : inputs_) values.push_back(in.value);
  return values;
}

numeric::Covariance Inputs::correlation_matrix() const {
  numeric::Covariance r{inputs_.size()};
  for (std::size_t i = 0; i < inputs_.size(); ++i) r.set(i, i, 1);
  for (const auto& [a, b, c] : correlations_) r.set(a.index, b.index, c);
  return r;
}

}  // namespace areo::uncertainty
