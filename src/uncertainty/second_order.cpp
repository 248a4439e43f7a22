// SPDX-License-Identifier: GPL-3.0-or-later
#include "second_order.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "evaluate.hpp"

namespace areo::uncertainty {
namespace {

using Outputs = std::optional<std::vector<double>>;  // nothing: beyond the model

// Derivatives of one output, each times the u of the inputs it is taken by.
struct Derivatives {
  explicit Derivatives(std::size_t inputs)
      : n{inputs}, first(n, 0.0), second(n * n, 0.0), third(n, 0.0) {}
  std::size_t n;
  std::vector<double> first;   // f_i u_i
  std::vector<double> second;  // f_ij u_i u_j
  std::vector<double> third;   // sum over j of f_ijj u_i u_j²
};

// Variance of the output to second order, for normal inputs with the correlation matrix R:
// gᵀ R g + tr(H R H R) / 2 + gᵀ R t with first derivatives g, second H, third t; without
// correlations [gum] 5.1.2 note.
double variance(const Derivatives& d, const numeric::Covariance& r) {
  const std::size_t n = d.n;
  std::vector<double> hr(n * n, 0.0);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j)
      for (std::size_t k = 0; k < n; ++k) hr[i * n + j] += d.second[i * n + k] * r(k, j);
  double sum = 0;
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j)
      sum += d.first[i] * r(i, j) * (d.first[j] + d.third[j]) + hr[i * n + j] * hr[j * n + i] / 2;
  return sum;
}

// One input on its own: both sides, and both with half the step.
struct Sides {
  Outputs lower, upper, half_lower, half_upper;
  [[nodiscard]] bool all() const { return lower && upper && half_lower && half_upper; }
};

class Check {
 public:
  Check(const Inputs& inputs, const Model& model, Propagation& result)
      : inputs_{inputs.all()},
        model_{model},
        result_{result},
        x_{inputs.estimates()},
        derivatives_(result.estimates.size(), Derivatives{x_.size()}) {}

  void run(const numeric::Covariance& correlation) {
    sides_.resize(x_.size());
    for (std::size_t i = 0; i < x_.size(); ++i)
      if (inputs_[i].u > 0) alone(i);
    for (std::size_t i = 0; i < x_.size(); ++i)
      for (std::size_t j = i + 1; j < x_.size(); ++j)
        if (sides_[i].all() && sides_[j].all()) together(i, j);
    for (std::size_t k = 0; k < derivatives_.size(); ++k) conclude(k, correlation);
  }

 private:
  [[nodiscard]] double moved(std::size_t i, double steps) const {
    return inputs_[i].value + steps * inputs_[i].u;
  }
  Outputs at(std::size_t i, double steps) {
    return evaluate_moved(model_, x_, {{i, moved(i, steps)}});
  }
  Outputs at(std::size_t i, double steps_i, std::size_t j, double steps_j) {
    return evaluate_moved(model_, x_, {{i, moved(i, steps_i)}, {j, moved(j, steps_j)}});
  }

  void alone(std::size_t i) {
    Sides& s = sides_[i];
    s = {at(i, -1), at(i, 1), at(i, -0.5), at(i, 0.5)};
    if (!s.all()) return;  // propagate() has given the warning
    for (std::size_t k = 0; k < derivatives_.size(); ++k) {
      Derivatives& d = derivatives_[k];
      const double whole = ((*s.upper)[k] - (*s.lower)[k]) / 2;
      const double half = (*s.half_upper)[k] - (*s.half_lower)[k];
      // The slope over ± u is f' + f''' u² / 6; half the step leaves a quarter of that.
      d.first[i] = (4 * half - whole) / 3;
      d.third[i] += 8 * (whole - half);
      d.second[i * d.n + i] = (*s.upper)[k] - 2 * result_.estimates[k] + (*s.lower)[k];
      if (std::abs(whole - half) > worth_a_warning * result_.values[k].u)
        result_.warnings[k].push_back(
            {Warning::Kind::curved,
             fmt::format("{}: the output does not change in proportion: its share is {:.2g} over "
                         "± u and {:.2g} over ± u/2",
                         inputs_[i].name, whole, half)});
    }
  }

  void together(std::size_t i, std::size_t j) {
    const Outputs pp = at(i, 1, j, 1);
    const Outputs pm = at(i, 1, j, -1);
    const Outputs mp = at(i, -1, j, 1);
    const Outputs mm = at(i, -1, j, -1);
    const bool reached = pp && pm && mp && mm;
    for (std::size_t k = 0; k < derivatives_.size(); ++k) {
      if (!reached) {
        result_.warnings[k].push_back(
            {Warning::Kind::edge,
             fmt::format("{} and {}: both at ± u reach beyond the model; not checked together",
                         inputs_[i].name, inputs_[j].name)});
        continue;
      }
      Derivatives& d = derivatives_[k];
      const double cross = ((*pp)[k] - (*pm)[k] - (*mp)[k] + (*mm)[k]) / 4;
      d.second[i * d.n + j] = d.second[j * d.n + i] = cross;
      // Curvature along one, above minus below along the other.
      const auto bend = [k](const Outputs& a, const Outputs& middle, const Outputs& b) {
        return (*a)[k] - 2 * (*middle)[k] + (*b)[k];
      };
      d.third[i] += (bend(pp, sides_[i].upper, pm) - bend(mp, sides_[i].lower, mm)) / 2;
      d.third[j] += (bend(pp, sides_[j].upper, mp) - bend(pm, sides_[j].lower, mm)) / 2;
    }
  }

  void conclude(std::size_t k, const numeric::Covariance& correlation) {
    Derivatives& d = derivatives_[k];
    for (std::size_t i = 0; i < d.n; ++i)
      if (!sides_[i].all()) d.first[i] = result_.shares[k][i];
    const double u = result_.values[k].u;
    // A variance below zero says as well that the series is of no use here; the warning follows.
    const double u2 = std::sqrt(std::max(variance(d, correlation), 0.0));
    result_.u_second_order.push_back(u2);
    if (std::abs(u2 - u) > worth_a_warning * std::max(u, u2))
      result_.warnings[k].push_back(
          {Warning::Kind::second_order,
           fmt::format(
               "terms of second order change the standard uncertainty from {:.2g} to {:.2g}", u,
               u2)});
  }

  std::span<const Input> inputs_;
  const Model& model_;
  Propagation& result_;
  std::vector<double> x_;
  std::vector<Derivatives> derivatives_;  // per output
  std::vector<Sides> sides_;              // per input
};

}  // namespace

void check_linearity(const Inputs& inputs, const Model& model, Propagation& result) {
  Check{inputs, model, result}.run(inputs.correlation_matrix());
}

}  // namespace areo::uncertainty
