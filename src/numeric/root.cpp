#include "areo/numeric/root.hpp"

#include <fmt/format.h>
#include <gsl/gsl_roots.h>

#include <exception>
#include <new>

#include "areo/core/error.hpp"
#include "handle.hpp"

namespace areo::numeric {
namespace {

using Solver = Handle<gsl_root_fsolver, gsl_root_fsolver_free>;

struct Call {
  const std::function<double(double)>& f;
  std::exception_ptr error{};
};

// No exception may unwind through C frames: keep it, hand NaN to the solver, throw it afterwards.
double trampoline(double x, void* p) noexcept {
  auto& call = *static_cast<Call*>(p);
  try {
    return call.f(x);
  } catch (...) {
    if (!call.error) call.error = std::current_exception();
    return GSL_NAN;
  }
}

constexpr int max_steps = 100;  // Brent needs about 6 for the nearly straight functions used here

}  // namespace

double find_root(const std::function<double(double)>& f, double lo, double hi, double x_tol,
                 std::string_view what) {
  use_status_codes();
  const double f_lo = f(lo);
  if (f_lo == 0) return lo;
  const double f_hi = f(hi);
  if (f_hi == 0) return hi;
  if (!((f_lo < 0 && f_hi > 0) || (f_lo > 0 && f_hi < 0)))  // NaN lands here too
    throw Error{Errc::domain, fmt::format("no {} from {:.4g} to {:.4g} fits", what, lo, hi)};
  Call call{f};
  gsl_function g{trampoline, &call};
  const Solver solver{gsl_root_fsolver_alloc(gsl_root_fsolver_brent)};
  if (!solver) throw std::bad_alloc{};
  int status = gsl_root_fsolver_set(solver.get(), &g, lo, hi);
  for (int step = 0; step < max_steps && status == GSL_SUCCESS && !call.error; ++step) {
    status = gsl_root_fsolver_iterate(solver.get());
    if (status != GSL_SUCCESS || call.error) break;
    if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver.get()),
                               gsl_root_fsolver_x_upper(solver.get()), x_tol, 0) == GSL_SUCCESS)
      return gsl_root_fsolver_root(solver.get());
  }
  if (call.error) std::rethrow_exception(call.error);
  throw Error{Errc::no_convergence,
              fmt::format("solving for {} did not converge: {}", what,
                          status != GSL_SUCCESS ? gsl_strerror(status) : "iteration limit")};
}

}  // namespace areo::numeric
