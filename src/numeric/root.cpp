// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/numeric/root.hpp"

#include <fmt/format.h>
#include <gsl/gsl_roots.h>

#include <exception>
#include <new>
#include <string>

#include "areo/core/error.hpp"
#include "areo/core/range.hpp"
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

std::string with_unit(const Sought& s) {
  return fmt::format("{}{}{}", number_text(s.value), s.unit.empty() ? "" : " ", s.unit);
}

}  // namespace

double find_root(const std::function<double(double)>& f, double lo, double hi, double x_tol,
                 const Sought& sought) {
  const double f_lo = f(lo);
  if (f_lo == 0) return lo;
  const double f_hi = f(hi);
  if (f_hi == 0) return hi;
  if (!((f_lo < 0 && f_hi > 0) || (f_lo > 0 && f_hi < 0)))  // NaN lands here too
    throw Error{Errc::domain,
                fmt::format("no {} from {:.4g} to {:.4g} has a {} of {}", sought.unknown, lo, hi,
                            sought.given, with_unit(sought)),
                std::string{sought.hint}};
  Call call{f};
  gsl_function g{trampoline, &call};
  const StatusCodes instead_of_the_handler;
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
              fmt::format("solving for the {} with a {} of {} did not converge: {}", sought.unknown,
                          sought.given, with_unit(sought),
                          status != GSL_SUCCESS ? gsl_strerror(status) : "iteration limit"),
              std::string{sought.hint}};
}

}  // namespace areo::numeric
