// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/curve.hpp"

#include <fmt/format.h>
#include <gsl/gsl_multifit_nlinear.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>

#include "areo/core/error.hpp"
#include "fit_data.hpp"

namespace areo::numeric {
namespace {

using Solver = Handle<gsl_multifit_nlinear_workspace, gsl_multifit_nlinear_free>;

constexpr double negligible = 1e-7;      // distance to the solution, in standard uncertainties
constexpr double far_too_large = 1e300;  // and yet finite, as its length is compared
constexpr double epsilon = std::numeric_limits<double>::epsilon();

// The curve less the values, made independent; and its derivatives, central differences.
struct Problem {
  const Curve& curve;
  std::span<const double> x, y, start;
  const Whitening& independent;
  std::exception_ptr error{};

  [[nodiscard]] double at(std::size_t i, std::span<const double> parameters) const {
    return curve(x[i], parameters);
  }
  [[nodiscard]] double step(std::size_t j, double parameter) const {
    const double size = std::max(std::abs(parameter), std::abs(start[j]));
    return std::cbrt(epsilon) * (size > 0 ? size : 1);
  }
};

std::span<const double> elements(const gsl_vector* v) { return {v->data, v->size}; }

int residuals(const Problem& p, const gsl_vector* parameters, gsl_vector* out) {
  for (std::size_t i = 0; i < p.x.size(); ++i) {
    const double value = p.at(i, elements(parameters));
    if (!std::isfinite(value)) {
      // Worse than anything: the solver takes the step back and tries a shorter one.
      gsl_vector_set_all(out, far_too_large);
      return GSL_SUCCESS;
    }
    gsl_vector_set(out, i, value - p.y[i]);
  }
  return p.independent.apply(out);
}

int derivatives(const Problem& p, const gsl_vector* parameters, gsl_matrix* out) {
  const auto all = elements(parameters);
  std::vector<double> beside(all.begin(), all.end());
  for (std::size_t j = 0; j < beside.size(); ++j) {
    const double hi = all[j] + p.step(j, all[j]);
    const double lo = all[j] - p.step(j, all[j]);
    for (std::size_t i = 0; i < p.x.size(); ++i) {
      beside[j] = hi;
      const double above = p.at(i, beside);
      beside[j] = lo;
      const double slope = (above - p.at(i, beside)) / (hi - lo);
      if (!std::isfinite(slope))
        throw Error{Errc::domain,
                    fmt::format("the curve ends beside {:.6g}, where a fit has led parameter {}",
                                all[j], j + 1),
                    "start elsewhere, or fit another curve"};
      gsl_matrix_set(out, i, j, slope);
    }
    beside[j] = all[j];
  }
  return p.independent.apply(out);
}

// No exception may unwind through C frames: keep it, report a failure, throw it afterwards.
template <auto Function, class Out>
int trampoline(const gsl_vector* parameters, void* problem, Out* out) noexcept {
  auto& p = *static_cast<Problem*>(problem);
  try {
    return Function(p, parameters, out);
  } catch (...) {
    if (!p.error) p.error = std::current_exception();
    return GSL_EBADFUNC;
  }
}

// (JᵀJ)⁻¹, from columns of length one, so that the units of the parameters do not matter. What the
// points leave open gets a variance of zero.
Covariance covariance_from(const gsl_matrix* derivative) {
  constexpr double no_independent_part = 1e-9;  // of a column; central differences resolve this
  const std::size_t parameters = derivative->size2;
  const auto scaled = owned(Matrix{gsl_matrix_alloc(derivative->size1, parameters)});
  const auto inverse = owned(Matrix{gsl_matrix_alloc(parameters, parameters)});
  require_status(gsl_matrix_memcpy(scaled.get(), derivative));
  std::vector<double> length(parameters);
  for (std::size_t j = 0; j < parameters; ++j) {
    auto column = gsl_matrix_column(scaled.get(), j);
    length[j] = gsl_blas_dnrm2(&column.vector);
    if (length[j] > 0) gsl_vector_scale(&column.vector, 1 / length[j]);
  }
  require_status(gsl_multifit_nlinear_covar(scaled.get(), no_independent_part, inverse.get()));
  Covariance c{parameters};
  for (std::size_t i = 0; i < parameters; ++i)
    for (std::size_t j = i; j < parameters; ++j)
      if (length[i] > 0 && length[j] > 0)
        c.set(i, j, gsl_matrix_get(inverse.get(), i, j) / (length[i] * length[j]));
  return c;
}

// √(gᵀ C g) with the gradient g = Jᵀ r: how far the solution is away if the curve is straight up to
// there; no parameter is further, in its standard uncertainties.
double distance(const gsl_matrix* derivative, const gsl_vector* residual, const Covariance& c) {
  const auto gradient = owned(Vector{gsl_vector_alloc(derivative->size2)});
  require_status(gsl_blas_dgemv(CblasTrans, 1, derivative, residual, 0, gradient.get()));
  const auto g = elements(gradient.get());
  double sum = 0;
  for (std::size_t i = 0; i < g.size(); ++i)
    for (std::size_t j = 0; j < g.size(); ++j) sum += g[i] * c(i, j) * g[j];
  return std::sqrt(std::max(sum, 0.0));
}

// What rounding of the values leaves of a distance.
double rounding_of_values(std::span<const double> y, const Whitening& independent) {
  const auto values = owned(Vector{gsl_vector_alloc(y.size())});
  std::copy(y.begin(), y.end(), values->data);
  require_status(independent.apply(values.get()));
  return 10 * epsilon * gsl_blas_dnrm2(values.get());
}

void require_start(const Problem& p) {
  if (!all_finite(p.start)) throw Error{Errc::domain, "a fit needs a finite start"};
  if (p.start.empty() || p.x.size() < p.start.size())
    throw Error{Errc::domain,
                fmt::format("a fit of {} parameters needs as many points or more; got {}",
                            p.start.size(), p.x.size()),
                "add points, or fit a curve with fewer parameters"};
  for (std::size_t i = 0; i < p.x.size(); ++i)
    if (!std::isfinite(p.at(i, p.start)))
      throw Error{
          Errc::domain,
          fmt::format("the curve has no finite value at {:.6g} with the parameters that the "
                      "fit starts from",
                      p.x[i]),
          "start from other parameters"};
}

void require_determined(const Covariance& c) {
  for (std::size_t j = 0; j < c.size(); ++j)
    if (!(c(j, j) > 0))
      throw Error{Errc::domain,
                  fmt::format("the points leave parameter {} open, or tell it only together with "
                              "another one",
                              j + 1),
                  "add points where the curve depends on it, or fit a curve without it"};
}

CurveFit outcome(const gsl_multifit_nlinear_workspace* solver, const Covariance& c, int steps) {
  const auto parameters = elements(gsl_multifit_nlinear_position(solver));
  const gsl_vector* residual = gsl_multifit_nlinear_residual(solver);
  CurveFit fit{
      .parameters = {parameters.begin(), parameters.end()},
      .covariance = c,
      .degrees_of_freedom = static_cast<int>(residual->size) - static_cast<int>(parameters.size()),
      .iterations = steps};
  require_status(gsl_blas_ddot(residual, residual, &fit.chi_squared));
  return fit;
}

}  // namespace

double CurveFit::residual_variance() const {
  return degrees_of_freedom > 0 ? chi_squared / degrees_of_freedom
                                : std::numeric_limits<double>::quiet_NaN();
}

CurveFit fit_curve(const Curve& curve, std::span<const double> x, std::span<const double> y,
                   const Covariance& v, std::span<const double> start, int most_steps) {
  const StatusCodes instead_of_the_handler;
  require_fit_data(x, y, v);
  const Whitening independent{v};
  Problem problem{curve, x, y, start, independent};
  require_start(problem);
  const double rounding = rounding_of_values(y, independent);

  const auto options = gsl_multifit_nlinear_default_parameters();
  const auto solver = owned(Solver{
      gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &options, x.size(), start.size())});
  gsl_multifit_nlinear_fdf functions{};
  functions.f = trampoline<residuals, gsl_vector>;
  functions.df = trampoline<derivatives, gsl_matrix>;
  functions.n = x.size();
  functions.p = start.size();
  functions.params = &problem;
  const auto first = gsl_vector_const_view_array(start.data(), start.size());
  int status = gsl_multifit_nlinear_init(&first.vector, &functions, solver.get());
  for (int step = 0;; ++step) {
    if (problem.error) std::rethrow_exception(problem.error);
    if (!std::isfinite(gsl_blas_dnrm2(gsl_multifit_nlinear_residual(solver.get()))))
      status = GSL_EFAILED;
    if (status == GSL_SUCCESS || status == GSL_ENOPROG) {
      const gsl_matrix* derivative = gsl_multifit_nlinear_jac(solver.get());
      const gsl_vector* residual = gsl_multifit_nlinear_residual(solver.get());
      const Covariance c = covariance_from(derivative);
      // A distance d lessens chi-squared by d², which has to be seen in it to lead on: beyond its
      // own rounding, and where no step leads on, beyond what rounding of the values makes of it.
      const double length = gsl_blas_dnrm2(residual);
      const double of_values = status == GSL_ENOPROG ? 2 * length * rounding : 0;
      const double visible = std::sqrt(4 * epsilon * length * length + of_values);
      if (distance(derivative, residual, c) <= std::max({negligible, visible, rounding})) {
        require_determined(c);
        return outcome(solver.get(), c, step);
      }
    }
    if (status != GSL_SUCCESS || step == most_steps)
      throw Error{Errc::no_convergence,
                  fmt::format("no curve was found after {} steps: {}", step,
                              status == GSL_SUCCESS ? "iteration limit" : gsl_strerror(status)),
                  "start nearer to the solution, or fit a curve with fewer parameters"};
    status = gsl_multifit_nlinear_iterate(solver.get());
  }
}

}  // namespace areo::numeric
