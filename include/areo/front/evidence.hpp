// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// What an uncertain value rests on: its estimate and what each input contributes, as plain numbers.
// Uncertain<T> puts the unit back; nobody else needs this header.
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "areo/analysis/budget.hpp"
#include "areo/core/identity.hpp"
#include "areo/measurement/result.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo {

/// What one input contributes to an uncertain value: the input, with its name and where it comes
/// from; `share`, the part of the standard uncertainty due to it; `fraction` of the variance.
using Contribution = analysis::Contribution;

namespace detail {

/// Every input says which thing it is a property of (Input::thing): an instrument, a reading, a
/// ferment, an amount. Two values depend on each other through the inputs that are the same.
struct Evidence {
  uncertainty::Value value;
  std::shared_ptr<const uncertainty::Inputs> inputs;
  std::vector<double> shares;  ///< one per input, unit of the value, with signs

  /// Of an exact number.
  [[nodiscard]] static Evidence exact(double number);
};

/// The quantities of a result as evidence; they share its inputs.
class EvidenceOf {
 public:
  /// @param whose  thing of the inputs that are no property of a reading or an instrument: the
  ///               ferment, the value as typed
  /// @throws Error{domain} for a result with correlated inputs (none of today's results has any)
  EvidenceOf(const measurement::Result& result, const Identity& whose);
  [[nodiscard]] Evidence operator()(std::string_view key) const;

 private:
  const measurement::Result* result_;
  std::shared_ptr<const uncertainty::Inputs> inputs_;
};

/// One input alone.
[[nodiscard]] Evidence single(uncertainty::Input input);

/// Whether both are one input: of the same thing, of the same kind, with the same numbers. A
/// reading has one input of each kind, whatever it is called in a result; of an instrument those
/// with the same name are the same.
[[nodiscard]] bool same_input(const uncertainty::Input& a, const uncertainty::Input& b);

/// factor * value of one term of a sum.
struct Term {
  const Evidence& evidence;
  double factor;
};
/// A sum whose estimate is known.
[[nodiscard]] Evidence sum(double estimate, std::span<const Term> terms);
/// Correlation of two values; 0 if one is exact.
[[nodiscard]] double correlation(const Evidence& a, const Evidence& b);

/// A function of several numbers by the law of propagation, with all that they have in common.
/// @throws as uncertainty::propagate()
[[nodiscard]] Evidence propagate(const std::function<double(std::span<const double>)>& model,
                                 std::span<const Evidence* const> arguments);

[[nodiscard]] std::vector<Contribution> budget(const Evidence& evidence);
/// "5.09 ± 0.33 % vol"
[[nodiscard]] std::string text(const Evidence& evidence, const std::string& symbol);

}  // namespace detail
}  // namespace areo
