// SPDX-License-Identifier: GPL-3.0-or-later
#include "evaluate.hpp"

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"

namespace areo::uncertainty {

std::vector<double> evaluate(const Model& model, std::span<const double> x) {
  std::vector<double> y = model(Point{x});
  if (!std::all_of(y.begin(), y.end(), [](double v) { return std::isfinite(v); }))
    throw Error{Errc::domain, "the measurement model gave no finite number"};
  return y;
}

std::optional<std::vector<double>> evaluate_moved(
    const Model& model, std::vector<double>& x,
    std::initializer_list<std::pair<std::size_t, double>> moves) {
  const std::vector<double> before = x;
  for (const auto& [i, value] : moves) x[i] = value;
  std::optional<std::vector<double>> y;
  try {
    y = evaluate(model, x);
  } catch (const Error&) {
    // Expected at the edge of a model: the caller goes on with what is left.
  }
  x = before;
  return y;
}

}  // namespace areo::uncertainty
