// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/polynomial.hpp"

#include <fmt/format.h>
#include <gsl/gsl_multifit.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <set>

#include "areo/core/error.hpp"
#include "areo/core/told_apart.hpp"
#include "areo/numeric/quantile.hpp"
#include "areo/numeric/root.hpp"
#include "fit_data.hpp"

namespace areo::numeric {
namespace {

using Workspace = Handle<gsl_multifit_linear_workspace, gsl_multifit_linear_free>;

constexpr double level = 0.95;
constexpr std::size_t most_coefficients = 3;

std::size_t different(std::span<const double> x) {
  return std::set<double>(x.begin(), x.end()).size();
}

void require_sensible(std::span<const double> x, std::span<const double> y, const Covariance& v,
                      double x0, std::size_t degree) {
  if (degree >= most_coefficients)
    throw Error{Errc::domain,
                fmt::format("a fit is a constant, a line or a parabola; got degree {}", degree)};
  require_fit_data(x, y, v);
  if (!std::isfinite(x0)) throw Error{Errc::domain, "a fit needs a finite place to count from"};
  if (different(x) <= degree)
    throw Error{Errc::domain,
                fmt::format("a fit of degree {} needs at least {} different places; got {}", degree,
                            degree + 1, different(x)),
                "add a point at another place, or fit a lower degree"};
}

// 1, d, d² or their derivatives, as far as the fit has coefficients.
using Gradient = std::array<double, most_coefficients>;
Gradient powers(double d) { return {1, d, d * d}; }
Gradient derivatives(double d) { return {0, 1, 2 * d}; }

double value(const PolynomialFit& f, const Gradient& g) {
  double sum = 0;
  for (std::size_t i = 0; i < f.coefficients.size(); ++i) sum += g[i] * f.coefficients[i];
  return sum;
}

double variance(const PolynomialFit& f, const Gradient& g) {
  double sum = 0;
  for (std::size_t i = 0; i < f.coefficients.size(); ++i)
    for (std::size_t j = 0; j < f.coefficients.size(); ++j) sum += g[i] * g[j] * f.covariance(i, j);
  return std::max(sum, 0.0);
}

double normal_coverage() {
  return student_t_coverage(level, std::numeric_limits<double>::infinity());
}

void require_estimate(const char* what, double v, double u) {
  if (!std::isfinite(v) || !std::isfinite(u) || u < 0)
    throw Error{
        Errc::domain,
        fmt::format("{} needs a finite value and an uncertainty of zero or more; got {} ± {}", what,
                    v, u)};
}

}  // namespace

double PolynomialFit::at(double x) const { return value(*this, powers(x - x0)); }
double PolynomialFit::variance_at(double x) const { return variance(*this, powers(x - x0)); }
double PolynomialFit::slope_at(double x) const { return value(*this, derivatives(x - x0)); }
double PolynomialFit::slope_variance_at(double x) const {
  return variance(*this, derivatives(x - x0));
}

double PolynomialFit::residual_variance() const {
  return degrees_of_freedom > 0 ? chi_squared / degrees_of_freedom
                                : std::numeric_limits<double>::quiet_NaN();
}

PolynomialFit fit_polynomial(std::span<const double> x, std::span<const double> y,
                             const Covariance& v, double x0, std::size_t degree) {
  const StatusCodes instead_of_the_handler;
  require_sensible(x, y, v, x0, degree);
  const std::size_t n = x.size();
  const std::size_t parameters = degree + 1;
  const Whitening independent{v};
  const auto design = owned(Matrix{gsl_matrix_alloc(n, parameters)});
  const auto values = owned(Vector{gsl_vector_alloc(n)});
  const auto ones = owned(Vector{gsl_vector_alloc(n)});
  gsl_vector_set_all(ones.get(), 1);
  for (std::size_t i = 0; i < n; ++i) {
    const Gradient row = powers(x[i] - x0);
    for (std::size_t j = 0; j < parameters; ++j) gsl_matrix_set(design.get(), i, j, row[j]);
    gsl_vector_set(values.get(), i, y[i]);
  }
  require_status(independent.apply(design.get()));
  require_status(independent.apply(values.get()));
  const auto parameter = owned(Vector{gsl_vector_alloc(parameters)});
  const auto covariance = owned(Matrix{gsl_matrix_alloc(parameters, parameters)});
  const auto work = owned(Workspace{gsl_multifit_linear_alloc(n, parameters)});
  PolynomialFit f{.x0 = x0,
                  .coefficients = std::vector<double>(parameters),
                  .covariance = Covariance{parameters},
                  .degrees_of_freedom = static_cast<int>(n) - static_cast<int>(parameters)};
  // With weights, even of one, the covariance is that of the stated uncertainties.
  require_status(gsl_multifit_wlinear(design.get(), ones.get(), values.get(), parameter.get(),
                                      covariance.get(), &f.chi_squared, work.get()));
  for (std::size_t i = 0; i < parameters; ++i) {
    f.coefficients[i] = gsl_vector_get(parameter.get(), i);
    for (std::size_t j = i; j < parameters; ++j)
      f.covariance.set(i, j, gsl_matrix_get(covariance.get(), i, j));
  }
  return f;
}

std::vector<double> weights_at(std::span<const double> x, const Covariance& v, std::size_t degree,
                               double at) {
  std::vector<double> unit(x.size(), 0.0);
  std::vector<double> weights;
  for (double& y : unit) {
    y = 1;
    weights.push_back(fit_polynomial(x, unit, v, at, degree).coefficients[0]);
    y = 0;
  }
  return weights;
}

Estimate forward(const PolynomialFit& fit, double x, double u_x) {
  require_estimate("the place", x, u_x);
  return {fit.at(x), std::hypot(fit.slope_at(x) * u_x, std::sqrt(fit.variance_at(x)))};
}

Estimate inverse(const PolynomialFit& fit, double y, double u_y, double lo, double hi) {
  require_estimate("the value", y, u_y);
  if (!std::isfinite(lo) || !std::isfinite(hi) || !(lo < hi))
    throw Error{Errc::domain,
                fmt::format("the range of a fit needs two ends in order; got {} to {}", lo, hi)};
  const double rounding =
      4 * std::numeric_limits<double>::epsilon() * std::max({std::abs(lo), std::abs(hi), hi - lo});
  const double x = find_root([&](double at) { return fit.at(at) - y; }, lo, hi, rounding,
                             {"place of the fit", "value", y, "", ""});
  const double slope = fit.slope_at(x);
  const double u_slope = std::sqrt(fit.slope_variance_at(x));
  if (!(std::abs(slope) > normal_coverage() * u_slope))
    throw Error{
        Errc::domain,
        fmt::format("the slope {:.2g} at {:.6g} is not larger than {:.2f} times its standard "
                    "uncertainty {:.2g}: a value does not tell the place",
                    slope, x, normal_coverage(), u_slope),
        "take points further apart, or more of them"};
  return {x, std::hypot(u_y, std::sqrt(fit.variance_at(x))) / std::abs(slope)};
}

PolynomialChoice choose_polynomial(std::span<const double> x, std::span<const double> y,
                                   const Covariance& v, double x0, std::size_t highest) {
  require_sensible(x, y, v, x0, 0);
  const std::size_t most = std::min(highest, different(x) - 1);
  static constexpr std::array<const char*, most_coefficients> names{"constant", "slope",
                                                                    "curvature"};
  PolynomialChoice choice;
  if (most < highest)
    choice.reason = fmt::format("{} different place{}: degree {} at most; ", different(x),
                                different(x) == 1 ? "" : "s", most);
  for (std::size_t degree = most;; --degree) {
    choice.fit = fit_polynomial(x, y, v, x0, degree);
    const double c = choice.fit.coefficients[degree];
    const double expanded = normal_coverage() * std::sqrt(choice.fit.covariance(degree, degree));
    const bool used = degree == 0 || std::abs(c) > expanded;
    choice.reason += fmt::format("{} {}: {}", names[degree], beside_expanded(c, expanded),
                                 degree == 0 ? "used"
                                 : used      ? "significant, used"
                                             : "not significant, left out; ");
    if (used) break;
  }
  const PolynomialFit& f = choice.fit;
  choice.consistent = f.degrees_of_freedom == 0 ||
                      f.chi_squared <= chi_squared_quantile(level, f.degrees_of_freedom);
  if (!choice.consistent)
    choice.reason += "; the points scatter more than their uncertainties allow";
  return choice;
}

}  // namespace areo::numeric
