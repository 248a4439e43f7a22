#include "areo/numeric/quantile.hpp"

#include <gsl/gsl_cdf.h>

#include <cmath>

#include "areo/core/error.hpp"
#include "handle.hpp"

namespace areo::numeric {
namespace {

void require_probability(double p) {
  if (!(p > 0 && p < 1)) throw Error{Errc::domain, "a coverage probability lies between 0 and 1"};
}

}  // namespace

double student_t_coverage(double p, double degrees_of_freedom) {
  use_status_codes();
  require_probability(p);
  if (!(degrees_of_freedom >= 1)) throw Error{Errc::domain, "degrees of freedom start at 1"};
  const double upper = (1 - p) / 2;
  return std::isinf(degrees_of_freedom) ? gsl_cdf_ugaussian_Qinv(upper)
                                        : gsl_cdf_tdist_Qinv(upper, degrees_of_freedom);
}

double chi_squared_quantile(double p, double degrees_of_freedom) {
  use_status_codes();
  require_probability(p);
  if (!(degrees_of_freedom > 0)) throw Error{Errc::domain, "degrees of freedom must be above 0"};
  return gsl_cdf_chisq_Pinv(p, degrees_of_freedom);
}

}  // namespace areo::numeric
