// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/quantile.hpp"

#include <fmt/format.h>
#include <gsl/gsl_cdf.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "handle.hpp"

namespace areo::numeric {
namespace {

void require_probability(double p) {
  if (!(p > 0 && p < 1))
    throw Error{Errc::domain, fmt::format("a probability lies between 0 and 1; got {}", p)};
}

void require_degrees_of_freedom(double nu) {
  if (!(nu >= 1))
    throw Error{Errc::domain, fmt::format("degrees of freedom start at 1; got {}", nu)};
}

// From here on Student's t is the normal distribution to 12 digits; further on GSL gives NaN.
constexpr double as_good_as_infinite = 1e12;

void require_number(double x) {
  if (std::isnan(x)) throw Error{Errc::domain, "a probability needs a number, got none (NaN)"};
}

}  // namespace

double student_t_coverage(double p, double degrees_of_freedom) {
  require_probability(p);
  // The upper tail as such: 1 - (1 - p) / 2 would lose digits for p near 1.
  return -student_t_quantile((1 - p) / 2, degrees_of_freedom);
}

double normal_quantile(double p) {
  const StatusCodes instead_of_the_handler;
  require_probability(p);
  return gsl_cdf_ugaussian_Pinv(p);
}

double normal_probability(double x) {
  const StatusCodes instead_of_the_handler;
  require_number(x);
  return gsl_cdf_ugaussian_P(x);
}

double student_t_quantile(double p, double degrees_of_freedom) {
  require_degrees_of_freedom(degrees_of_freedom);
  if (degrees_of_freedom >= as_good_as_infinite) return normal_quantile(p);
  const StatusCodes instead_of_the_handler;
  require_probability(p);
  return gsl_cdf_tdist_Pinv(p, degrees_of_freedom);
}

double student_t_probability(double x, double degrees_of_freedom) {
  require_degrees_of_freedom(degrees_of_freedom);
  if (degrees_of_freedom >= as_good_as_infinite) return normal_probability(x);
  const StatusCodes instead_of_the_handler;
  require_number(x);
  return gsl_cdf_tdist_P(x, degrees_of_freedom);
}

double chi_squared_quantile(double p, double degrees_of_freedom) {
  const StatusCodes instead_of_the_handler;
  require_probability(p);
  if (!(degrees_of_freedom > 0))
    throw Error{Errc::domain,
                fmt::format("degrees of freedom must be above 0; got {}", degrees_of_freedom)};
  return gsl_cdf_chisq_Pinv(p, degrees_of_freedom);
}

}  // namespace areo::numeric
