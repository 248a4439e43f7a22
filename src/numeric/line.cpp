#include "areo/numeric/line.hpp"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_multifit.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <new>

#include "areo/core/error.hpp"
#include "handle.hpp"

namespace areo::numeric {
namespace {

using Vector = Handle<gsl_vector, gsl_vector_free>;
using Matrix = Handle<gsl_matrix, gsl_matrix_free>;
using Workspace = Handle<gsl_multifit_linear_workspace, gsl_multifit_linear_free>;

template <class Owner>
Owner owned(Owner p) {
  if (!p) throw std::bad_alloc{};
  return p;
}

void require_status(int status) {
  if (status != GSL_SUCCESS) throw Error{Errc::no_convergence, gsl_strerror(status)};
}

void require_sensible(std::span<const double> x, std::span<const double> y, const Covariance& v,
                      std::size_t least) {
  const auto finite = [](std::span<const double> all) {
    return std::all_of(all.begin(), all.end(), [](double a) { return std::isfinite(a); });
  };
  if (x.size() < least || y.size() != x.size() || v.size() != x.size())
    throw Error{Errc::domain, "a fit needs as many values as uncertainties, and enough of them"};
  if (!finite(x) || !finite(y) || !finite(v.elements()))
    throw Error{Errc::domain, "a fit needs finite values and uncertainties"};
}

// The lower Cholesky factor of v: multiplied by its inverse, values become independent with
// uncertainty 1.
Matrix cholesky(const Covariance& v) {
  const std::size_t n = v.size();
  auto factor = owned(Matrix{gsl_matrix_alloc(n, n)});
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) gsl_matrix_set(factor.get(), i, j, v(i, j));
  if (gsl_linalg_cholesky_decomp1(factor.get()) != GSL_SUCCESS)
    throw Error{Errc::domain,
                "a fit needs uncertainties above zero, each value with one of its own"};
  return factor;
}

// Fits the columns 1 and, with a slope, x - x0.
LineFit fit(std::span<const double> x, std::span<const double> y, const Covariance& v, double x0,
            bool with_slope) {
  use_status_codes();
  const std::size_t n = x.size();
  const std::size_t parameters = with_slope ? 2 : 1;
  const Matrix factor = cholesky(v);
  const auto design = owned(Matrix{gsl_matrix_alloc(n, parameters)});
  const auto values = owned(Vector{gsl_vector_alloc(n)});
  const auto ones = owned(Vector{gsl_vector_alloc(n)});
  gsl_vector_set_all(ones.get(), 1);
  for (std::size_t i = 0; i < n; ++i) {
    gsl_matrix_set(design.get(), i, 0, 1);
    if (with_slope) gsl_matrix_set(design.get(), i, 1, x[i] - x0);
    gsl_vector_set(values.get(), i, y[i]);
  }
  require_status(gsl_blas_dtrsm(CblasLeft, CblasLower, CblasNoTrans, CblasNonUnit, 1, factor.get(),
                                design.get()));
  require_status(
      gsl_blas_dtrsv(CblasLower, CblasNoTrans, CblasNonUnit, factor.get(), values.get()));
  const auto parameter = owned(Vector{gsl_vector_alloc(parameters)});
  const auto covariance = owned(Matrix{gsl_matrix_alloc(parameters, parameters)});
  const auto work = owned(Workspace{gsl_multifit_linear_alloc(n, parameters)});
  LineFit f{.x0 = x0, .degrees_of_freedom = static_cast<int>(n) - static_cast<int>(parameters)};
  // With weights, even of one, the covariance is that of the stated uncertainties.
  require_status(gsl_multifit_wlinear(design.get(), ones.get(), values.get(), parameter.get(),
                                      covariance.get(), &f.chi_squared, work.get()));
  f.intercept = gsl_vector_get(parameter.get(), 0);
  f.var_intercept = gsl_matrix_get(covariance.get(), 0, 0);
  if (with_slope) {
    f.slope = gsl_vector_get(parameter.get(), 1);
    f.var_slope = gsl_matrix_get(covariance.get(), 1, 1);
    f.covariance = gsl_matrix_get(covariance.get(), 0, 1);
  }
  return f;
}

}  // namespace

double LineFit::residual_variance() const {
  return degrees_of_freedom > 0 ? chi_squared / degrees_of_freedom
                                : std::numeric_limits<double>::quiet_NaN();
}

LineFit LineFit::centred() const {
  LineFit f = *this;
  if (!(var_slope > 0)) return f;
  const double shift = -covariance / var_slope;
  f.x0 = x0 + shift;
  f.intercept = at(f.x0);
  f.var_intercept = var_intercept + shift * covariance;  // the least there is along the line
  f.covariance = 0;
  return f;
}

LineFit fit_line(std::span<const double> x, std::span<const double> y, const Covariance& v,
                 double x0) {
  require_sensible(x, y, v, 2);
  if (std::all_of(x.begin(), x.end(), [&](double a) { return a == x[0]; }))
    throw Error{Errc::domain, "a line needs at least two different places on the scale"};
  return fit(x, y, v, x0, true);
}

LineFit fit_offset(std::span<const double> x, std::span<const double> y, const Covariance& v,
                   double x0) {
  require_sensible(x, y, v, 1);
  return fit(x, y, v, x0, false);
}

}  // namespace areo::numeric
