// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Outcome of a measurement: named quantities with their uncertainty, and the inputs behind them.
#include <string>
#include <string_view>
#include <vector>

#include "areo/instruments/readings.hpp"
#include "areo/measurement/note.hpp"
#include "areo/uncertainty/input.hpp"
#include "areo/uncertainty/propagate.hpp"

namespace areo::measurement {

/// One number of a result.
struct Quantity {
  std::string key;   ///< stable, with the unit: "alcohol_percent_vol"
  std::string name;  ///< "alcohol"
  std::string unit;  ///< "% vol"
  uncertainty::Value value;
};

/// `shares[k][i]` is the contribution of inputs.all()[i] to the uncertainty of quantities[k].
struct Result {
  std::vector<Quantity> quantities;
  uncertainty::Inputs inputs;
  /// The model behind the quantities, in their order; it can be evaluated again.
  uncertainty::Model model;
  std::vector<std::vector<double>> shares;
  /// The instruments behind it; none if nothing was read.
  std::vector<instruments::InstrumentUse> instruments;
  std::vector<Note> notes;  ///< in words: wording::own_notes(), wording::all_notes()
  /// What holds for the method, whatever was read: of no use behind every one of many results.
  std::vector<Note> method_notes = {};

  /// @throws Error{domain} if there is no such quantity
  [[nodiscard]] const Quantity& at(std::string_view key) const;
};

/// Name, key and unit of an output, before it has a value.
struct Label {
  std::string key, name, unit;
};
/// Evaluates `model`, which must not refer to anything that ends before the result does, and
/// attaches the labels, in the order of the model's outputs.
[[nodiscard]] Result evaluate(uncertainty::Inputs inputs, const uncertainty::Model& model,
                              std::vector<Label> labels);
/// The same for a model of readings: the result keeps the instruments too.
[[nodiscard]] Result evaluate(const instruments::Readings& readings,
                              const uncertainty::Model& model, std::vector<Label> labels);

}  // namespace areo::measurement
