#include "areo/numeric/curve.hpp"

#include <fmt/format.h>
#include <gsl/gsl_multifit_nlinear.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>

#include "areo/core/error.hpp"
#include "handle.hpp"

namespace areo::numeric {
namespace {

using Workspace = Handle<gsl_multifit_nlinear_workspace, gsl_multifit_nlinear_free>;
using Matrix = Handle<gsl_matrix, gsl_matrix_free>;

constexpr int max_steps = 500;
constexpr double negligible_step = 1e-11, negligible_gradient = 1e-14;
// A residual where the curve has no value: no sum of squares with it is ever the least.
constexpr double out_of_reach = 1e100;

struct Problem {
  const Curve& curve;
  std::span<const double> x, y;
  std::vector<double> factor;  // Cholesky, of the covariance of y
  std::exception_ptr error{};  // what the curve threw that is no Error

  [[nodiscard]] double at(double xi, std::span<const double> parameters) {
    try {
      return curve(xi, parameters);
    } catch (const Error&) {
      return std::numeric_limits<double>::quiet_NaN();  // beyond the curve
    } catch (...) {
      if (!error) error = std::current_exception();
      return std::numeric_limits<double>::quiet_NaN();
    }
  }
};

// Residuals that are independent and of uncertainty 1: L r' = r. No exception crosses GSL.
int residuals(const gsl_vector* parameters, void* data, gsl_vector* r) noexcept {
  auto& p = *static_cast<Problem*>(data);
  const std::span<const double> b{parameters->data, parameters->size};
  const std::size_t n = p.x.size();
  for (std::size_t i = 0; i < n; ++i) {
    double rest = p.at(p.x[i], b) - p.y[i];
    if (p.error) return GSL_EFAILED;
    for (std::size_t k = 0; k < i; ++k) rest -= p.factor[i * n + k] * gsl_vector_get(r, k);
    rest /= p.factor[i * n + i];
    gsl_vector_set(r, i, std::isfinite(rest) ? rest : out_of_reach);
  }
  return GSL_SUCCESS;
}

void require_sensible(std::span<const double> x, std::span<const double> y, const Covariance& v,
                      std::span<const double> start) {
  if (y.size() != x.size() || v.size() != x.size())
    throw Error{Errc::domain, fmt::format("{} places need as many values and their covariance; got "
                                          "{} and {}",
                                          x.size(), y.size(), v.size())};
  if (start.empty() || x.size() < start.size())
    throw Error{Errc::domain,
                fmt::format("{} points do not fix {} parameters", x.size(), start.size())};
  const auto finite = [](double d) { return std::isfinite(d); };
  for (const auto values : {x, y, start})
    if (!std::all_of(values.begin(), values.end(), finite))
      throw Error{Errc::domain, "a fit needs finite numbers"};
}

[[noreturn]] void refuse(const char* why) {
  throw Error{Errc::no_convergence, fmt::format("no curve was found: {}", why),
              "take more points, or start nearer"};
}

// The covariance of the parameters at the solution; refused if the values leave one of them open:
// then what the others do can be undone by it, and its variance is larger by `hopeless` than if the
// others were known. The derivatives are good to 1e-10, their squares to less.
Covariance covariance_of(gsl_multifit_nlinear_workspace* w, std::size_t n) {
  constexpr double hopeless = 1e14;
  const Matrix m{gsl_matrix_alloc(n, n)};
  const gsl_matrix* slopes = gsl_multifit_nlinear_jac(w);
  gsl_multifit_nlinear_covar(slopes, 0, m.get());
  const auto alone = [&](std::size_t i) {  // 1 over its variance if the others were known
    double sum = 0;
    for (std::size_t k = 0; k < slopes->size1; ++k)
      sum += std::pow(gsl_matrix_get(slopes, k, i), 2);
    return sum;
  };
  Covariance v{n};
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i; j < n; ++j) {
      const double element = gsl_matrix_get(m.get(), i, j);
      if (!std::isfinite(element) || (i == j && !(element > 0 && element * alone(i) < hopeless)))
        refuse("the values do not fix all of its parameters");
      v.set(i, j, element);
    }
  return v;
}

}  // namespace

double CurveFit::residual_variance() const {
  return degrees_of_freedom > 0 ? chi_squared / degrees_of_freedom
                                : std::numeric_limits<double>::quiet_NaN();
}

CurveFit fit_curve(const Curve& curve, std::span<const double> x, std::span<const double> y,
                   const Covariance& v, std::span<const double> start) {
  use_status_codes();
  require_sensible(x, y, v, start);
  Problem problem{curve, x, y, definite_cholesky(v)};
  for (const double xi : x)
    if (!std::isfinite(curve(xi, start)))
      throw Error{Errc::domain, "the curve has no value at the start of the fit"};
  gsl_multifit_nlinear_parameters settings = gsl_multifit_nlinear_default_parameters();
  settings.fdtype = GSL_MULTIFIT_NLINEAR_CTRDIFF;
  settings.h_df = std::cbrt(std::numeric_limits<double>::epsilon());
  const Workspace w{
      gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &settings, x.size(), start.size())};
  gsl_multifit_nlinear_fdf f{};
  f.f = residuals;
  f.n = x.size();
  f.p = start.size();
  f.params = &problem;
  const gsl_vector_const_view first = gsl_vector_const_view_array(start.data(), start.size());
  int info = 0;
  int status = gsl_multifit_nlinear_init(&first.vector, &f, w.get());
  if (status == GSL_SUCCESS)
    status = gsl_multifit_nlinear_driver(max_steps, negligible_step, negligible_gradient, 0,
                                         nullptr, nullptr, &info, w.get());
  if (problem.error) std::rethrow_exception(problem.error);
  // A step that gets nowhere any more from a good place is as good as an end.
  if (status != GSL_SUCCESS && status != GSL_ENOPROG) refuse(gsl_strerror(status));
  CurveFit fit;
  const gsl_vector* solution = gsl_multifit_nlinear_position(w.get());
  for (std::size_t i = 0; i < start.size(); ++i)
    fit.parameters.push_back(gsl_vector_get(solution, i));
  const gsl_vector* r = gsl_multifit_nlinear_residual(w.get());
  for (std::size_t i = 0; i < x.size(); ++i)
    fit.chi_squared += gsl_vector_get(r, i) * gsl_vector_get(r, i);
  if (!(fit.chi_squared < out_of_reach)) refuse("it left the range of the curve");
  fit.covariance = covariance_of(w.get(), start.size());
  fit.degrees_of_freedom = static_cast<int>(x.size() - start.size());
  fit.steps = static_cast<int>(gsl_multifit_nlinear_niter(w.get()));
  return fit;
}

}  // namespace areo::numeric
