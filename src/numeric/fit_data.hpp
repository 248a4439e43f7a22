// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What every fit asks of its data, and how it makes them independent.
#include <gsl/gsl_blas.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_vector.h>

#include <new>
#include <span>
#include <vector>

#include "areo/core/error.hpp"
#include "areo/numeric/covariance.hpp"
#include "handle.hpp"

namespace areo::numeric {

using Vector = Handle<gsl_vector, gsl_vector_free>;
using Matrix = Handle<gsl_matrix, gsl_matrix_free>;

template <class Owner>
Owner owned(Owner p) {
  if (!p) throw std::bad_alloc{};
  return p;
}

inline void require_status(int status) {
  if (status != GSL_SUCCESS) throw Error{Errc::no_convergence, gsl_strerror(status)};
}

[[nodiscard]] bool all_finite(std::span<const double> values);

/// @throws Error{domain} unless there are as many values as places and uncertainties, all finite
void require_fit_data(std::span<const double> x, std::span<const double> y, const Covariance& v);

/// Makes values of covariance v independent, with uncertainty 1.
class Whitening {
 public:
  /// @throws Error{domain} as definite_cholesky()
  explicit Whitening(const Covariance& v) : n_{v.size()}, factor_{definite_cholesky(v)} {}
  [[nodiscard]] int apply(gsl_vector* values) const {
    const auto l = factor();
    return gsl_blas_dtrsv(CblasLower, CblasNoTrans, CblasNonUnit, &l.matrix, values);
  }
  /// Column by column.
  [[nodiscard]] int apply(gsl_matrix* columns) const {
    const auto l = factor();
    return gsl_blas_dtrsm(CblasLeft, CblasLower, CblasNoTrans, CblasNonUnit, 1, &l.matrix, columns);
  }

 private:
  [[nodiscard]] gsl_matrix_const_view factor() const {
    return gsl_matrix_const_view_array(factor_.data(), n_, n_);
  }
  std::size_t n_;
  std::vector<double> factor_;
};

}  // namespace areo::numeric
