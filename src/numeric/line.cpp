#include "areo/numeric/line.hpp"

#include <gsl/gsl_fit.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "areo/core/error.hpp"
#include "handle.hpp"

namespace areo::numeric {
namespace {

std::vector<double> weights(std::span<const double> x, std::span<const double> y,
                            std::span<const double> u, std::size_t least) {
  const auto finite = [](std::span<const double> v) {
    return std::all_of(v.begin(), v.end(), [](double a) { return std::isfinite(a); });
  };
  if (x.size() < least || y.size() != x.size() || u.size() != x.size())
    throw Error{Errc::domain, "a fit needs as many values as uncertainties, and enough of them"};
  if (!finite(x) || !finite(y) || !finite(u) ||
      !std::all_of(u.begin(), u.end(), [](double a) { return a > 0; }))
    throw Error{Errc::domain, "a fit needs finite values and uncertainties above zero"};
  std::vector<double> w;
  for (const double a : u) w.push_back(1 / (a * a));
  return w;
}

std::vector<double> shifted(std::span<const double> x, double x0) {
  std::vector<double> d;
  for (const double a : x) d.push_back(a - x0);
  return d;
}

}  // namespace

double LineFit::residual_variance() const {
  return degrees_of_freedom > 0 ? chi_squared / degrees_of_freedom
                                : std::numeric_limits<double>::quiet_NaN();
}

double weighted_centre(std::span<const double> x, std::span<const double> u) {
  const std::vector<double> w = weights(x, x, u, 1);
  double sum_w = 0;
  double sum_wx = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sum_w += w[i];
    sum_wx += w[i] * x[i];
  }
  return sum_wx / sum_w;
}

LineFit fit_line(std::span<const double> x, std::span<const double> y, std::span<const double> u,
                 double x0) {
  use_status_codes();
  const std::vector<double> w = weights(x, y, u, 2);
  if (std::all_of(x.begin(), x.end(), [&](double a) { return a == x[0]; }))
    throw Error{Errc::domain, "a line needs at least two different places on the scale"};
  const std::vector<double> d = shifted(x, x0);
  LineFit fit{.x0 = x0, .degrees_of_freedom = static_cast<int>(x.size()) - 2};
  const int status =
      gsl_fit_wlinear(d.data(), 1, w.data(), 1, y.data(), 1, x.size(), &fit.intercept, &fit.slope,
                      &fit.var_intercept, &fit.covariance, &fit.var_slope, &fit.chi_squared);
  if (status != GSL_SUCCESS) throw Error{Errc::no_convergence, gsl_strerror(status)};
  return fit;
}

LineFit fit_offset(std::span<const double> x, std::span<const double> y, std::span<const double> u,
                   double x0) {
  const std::vector<double> w = weights(x, y, u, 1);
  LineFit fit{.x0 = x0, .degrees_of_freedom = static_cast<int>(x.size()) - 1};
  double sum_w = 0;
  for (std::size_t i = 0; i < y.size(); ++i) {
    sum_w += w[i];
    fit.intercept += (y[i] - fit.intercept) * w[i] / sum_w;
  }
  fit.var_intercept = 1 / sum_w;
  for (std::size_t i = 0; i < y.size(); ++i)
    fit.chi_squared += w[i] * (y[i] - fit.intercept) * (y[i] - fit.intercept);
  return fit;
}

}  // namespace areo::numeric
