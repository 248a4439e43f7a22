// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Law of propagation of uncertainty [gum] clause 5, for models with several outputs.
#include <functional>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "areo/numeric/covariance.hpp"
#include "areo/uncertainty/input.hpp"

namespace areo::uncertainty {

/// A result: estimate, standard uncertainty and effective degrees of freedom, in the model's unit.
struct Value {
  double estimate = 0;
  double u = 0;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();

  /// Quoted to one decimal and truncated to an integer [gum] G.4.1, as tables are entered.
  [[nodiscard]] double whole_degrees_of_freedom() const;
  /// Expanded uncertainty: the true value lies within estimate ± U with probability p.
  /// The coverage factor is Student's for the degrees of freedom, truncated to an integer
  /// [gum] G.4.1; 1.96 for p = 0.95 and infinite degrees of freedom.
  [[nodiscard]] double expanded(double p = 0.95) const;
};

/// Computes all outputs of a measurement at one point of its inputs; same length at every call.
using Model = std::function<std::vector<double>(const Point&)>;

/// What a reader of an output should know about its propagation.
struct Warning {
  enum class Kind {
    edge,    ///< ± u of an input reaches beyond the model: one side, or nothing, was looked at
    curved,  ///< the share of an input depends on the step that was taken
    second_order,  ///< terms of second order change the standard uncertainty
  };
  Kind kind;
  std::string text;  ///< one sentence, with the name of the input
};

/// Outcome of propagate(). `shares[k][i]` is the signed contribution c_i u(x_i) of input i to the
/// standard uncertainty of output k, in the unit of the output.
struct Propagation {
  std::vector<double> estimates;
  std::vector<std::vector<double>> shares;
  std::vector<Value> values;                     ///< one per output
  std::vector<std::vector<Warning>> warnings{};  ///< per output
  /// Per output the standard uncertainty with terms of second order; empty unless checked.
  std::vector<double> u_second_order{};
};

struct PropagationOptions {
  /// Checks whether the law of propagation, which is linear, fits the model: shares again with half
  /// the step, and the terms of second order [gum] 5.1.2 note. Takes 2 n² + 2 n more evaluations of
  /// the model for n uncertain inputs.
  bool check_linearity = false;
};
/// Part of the standard uncertainty above which a warning is given: 5 %, which moves its second
/// digit. A judgement, no source.
inline constexpr double worth_a_warning = 0.05;

/// Evaluates the model at the estimates and propagates the inputs' uncertainties.
/// A sensitivity is a central difference over ± u(x_i) [gum] 5.1.3 note 2; where one side leaves
/// the range of the model, the difference to the other side is used, with a warning.
/// The terms of second order are those of inputs with a normal distribution; of the third
/// derivatives they take the ones by at most two inputs.
/// @source [gum] 5.1, 5.2; degrees of freedom G.4.1
/// @check  [gum] H.1: u = 32 nm, with terms of second order 34 nm
/// @throws Error{domain} if an output is not finite, or an input's ± u leaves the range of the
///         model on both sides; what the model throws at the estimates
[[nodiscard]] Propagation propagate(const Inputs& inputs, const Model& model,
                                    const PropagationOptions& options = {});

/// What shares make of an estimate: its standard uncertainty by the law of propagation, with the
/// correlations of the inputs, and its degrees of freedom by Welch and Satterthwaite.
/// @param shares  one per input, in their order
/// @param beyond  shares of what is no input: independent of all, infinite degrees of freedom
/// @throws Error{domain} unless there is one share per input
/// @source [gum] 5.1, 5.2, G.4.1
[[nodiscard]] Value combined(double estimate, std::span<const double> shares, const Inputs& inputs,
                             std::span<const double> beyond = {});

/// Covariance of the outputs of a model: what they owe to the same inputs they err in together.
/// @source [gum] F.1.2.3
[[nodiscard]] numeric::Covariance covariance(const Inputs& inputs, const Propagation& propagation);

}  // namespace areo::uncertainty
