// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/analysis/budget.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "areo/core/error.hpp"

namespace areo::analysis {

std::size_t uncertain_quantity(const measurement::Result& result, std::string_view key) {
  const measurement::Quantity& q = result.at(key);
  if (!(q.value.u > 0) || !std::isfinite(q.value.u))
    throw Error{Errc::domain, fmt::format("{} has no uncertainty, so there is no budget", q.name),
                "ask for another quantity"};
  return static_cast<std::size_t>(&q - result.quantities.data());
}

std::vector<Contribution> budget(const measurement::Result& result, std::string_view key) {
  const std::size_t k = uncertain_quantity(result, key);
  const std::vector<double>& shares = result.shares[k];
  // Each share times what it is correlated with: the terms of the variance, input by input.
  std::vector<double> with = shares;
  for (const auto& [a, b, r] : result.inputs.correlations()) {
    with[a.index] += r * shares[b.index];
    with[b.index] += r * shares[a.index];
  }
  const double variance = result.quantities[k].value.u * result.quantities[k].value.u;
  std::vector<Contribution> all;
  for (std::size_t i = 0; i < shares.size(); ++i)
    if (shares[i] != 0)
      all.push_back({result.inputs.all()[i], std::abs(shares[i]), shares[i] * with[i] / variance});
  std::stable_sort(all.begin(), all.end(),
                   [](const Contribution& a, const Contribution& b) { return a.share > b.share; });
  return all;
}

}  // namespace areo::analysis
