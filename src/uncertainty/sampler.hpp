// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Draws values of all inputs of a model from what is known about them.
#include <cstdint>
#include <random>
#include <span>
#include <vector>

#include "areo/uncertainty/input.hpp"

namespace areo::uncertainty {

/// The generator's output is fixed by the language; what is made of it is made here and in
/// `numeric`, so a seed gives the same values with every standard library.
class Sampler {
 public:
  /// @throws Error{domain} for Student's t with two degrees of freedom or fewer, a curvilinear
  ///         trapezoid with a correlation, or correlations that contradict each other
  Sampler(const Inputs& inputs, std::uint64_t seed);

  /// The next values of all inputs; valid until the next call.
  [[nodiscard]] std::span<const double> next();

 private:
  [[nodiscard]] double uniform();
  [[nodiscard]] double value(std::size_t i, double r);
  void draw_correlated();

  std::vector<Input> inputs_;  // a sample's values in order
  std::vector<std::size_t> alone_, correlated_;
  std::vector<double> factor_;  // Cholesky, of the correlated ones
  std::vector<double> independent_;
  std::mt19937_64 generator_;
  std::vector<double> x_;
};

}  // namespace areo::uncertainty
