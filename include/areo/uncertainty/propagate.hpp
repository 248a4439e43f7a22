#pragma once
// Law of propagation of uncertainty [gum] clause 5, for models with several outputs.
#include <functional>
#include <limits>
#include <vector>

#include "areo/numeric/covariance.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::uncertainty {

/// A result: estimate, standard uncertainty and effective degrees of freedom, in the model's unit.
struct Value {
  double estimate = 0;
  double u = 0;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();

  /// Expanded uncertainty: the true value lies within estimate ± U with probability p.
  /// The coverage factor is Student's for the degrees of freedom, truncated to an integer
  /// [gum] G.4.1; 1.96 for p = 0.95 and infinite degrees of freedom.
  [[nodiscard]] double expanded(double p = 0.95) const;
};

/// Computes all outputs of a measurement at one point of its inputs; same length at every call.
using Model = std::function<std::vector<double>(const Point&)>;

/// Outcome of propagate(). `shares[k][i]` is the signed contribution c_i u(x_i) of input i to the
/// standard uncertainty of output k, in the unit of the output.
struct Propagation {
  std::vector<double> estimates;
  std::vector<std::vector<double>> shares;
  std::vector<Value> values;  ///< one per output
};

/// Evaluates the model at the estimates and propagates the inputs' uncertainties.
/// A sensitivity is a central difference over ± u(x_i) [gum] 5.1.3 note 2; where one side leaves
/// the range of the model, the difference to the other side is used.
/// @throws Error{domain} if an output is not finite, or an input's ± u leaves the range of the
/// model on
///         both sides; what the model throws at the estimates
[[nodiscard]] Propagation propagate(const Inputs& inputs, const Model& model);

/// Covariance of the outputs of a model: what they owe to the same inputs they err in together.
/// @source [gum] F.1.2.3
[[nodiscard]] numeric::Covariance covariance(const Inputs& inputs, const Propagation& propagation);

}  // namespace areo::uncertainty
