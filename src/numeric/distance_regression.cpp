// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/distance_regression.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "areo/core/error.hpp"

namespace areo::numeric {
namespace {

constexpr int max_steps = 200;        // about 10 for points near a line, 30 for Pearson's
constexpr double negligible = 1e-10;  // change of a coefficient, in its standard uncertainties

// Covariance of y - b x.
Covariance across(const Covariance& v, double b) {
  const std::size_t n = v.size() / 2;
  Covariance c{n};
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i; j < n; ++j)
      c.set(i, j, v(n + i, n + j) - b * (v(i, n + j) + v(j, n + i)) + b * b * v(i, j));
  return c;
}

// x of the points of the line to which the points move: x + (b V_xx - V_xy) V_c⁻¹ r with the
// residuals r = y - line(x) and V_c their covariance, the least move that ends on the line.
std::vector<double> adjusted(std::span<const double> x, std::span<const double> y,
                             const Covariance& v, const PolynomialFit& line) {
  const std::size_t n = x.size();
  const double b = line.coefficients[1];
  std::vector<double> r(n);
  for (std::size_t i = 0; i < n; ++i) r[i] = y[i] - line.at(x[i]);
  const std::vector<double> w = solve(across(v, b), r);
  std::vector<double> moved(x.begin(), x.end());
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) moved[i] += (b * v(i, j) - v(i, n + j)) * w[j];
  return moved;
}

}  // namespace

PolynomialFit fit_line_both(std::span<const double> x, std::span<const double> y,
                            const Covariance& v, double x0) {
  const std::size_t n = x.size();
  if (y.size() != n || v.size() != 2 * n)
    throw Error{Errc::domain, fmt::format("{} places and {} values need a covariance of {}; got {}",
                                          n, y.size(), n + y.size(), v.size())};
  (void)cholesky(v);  // refuses what is no covariance
  // Start as if x were exact and y equally uncertain.
  PolynomialFit line =
      fit_polynomial(x, y, Covariance::diagonal(std::vector<double>(n, 1.0)), x0, 1);
  for (int step = 0; step < max_steps; ++step) {
    // Gauss-Newton: about the adjusted points the line is linear in its coefficients.
    const std::vector<double> moved = adjusted(x, y, v, line);
    const double b = line.coefficients[1];
    std::vector<double> projected(n);
    for (std::size_t i = 0; i < n; ++i) projected[i] = y[i] - b * (x[i] - moved[i]);
    const PolynomialFit next = fit_polynomial(moved, projected, across(v, b), x0, 1);
    double change = 0;
    for (std::size_t k = 0; k < 2; ++k)
      change = std::max(change, std::abs(next.coefficients[k] - line.coefficients[k]) /
                                    std::sqrt(next.covariance(k, k)));
    line = next;
    if (change < negligible) return line;
  }
  throw Error{
      Errc::no_convergence,
      fmt::format("no line was found after {} steps: the points scatter too much in x and y",
                  max_steps),
      "check the uncertainties of x, or take points further apart"};
}

}  // namespace areo::numeric
