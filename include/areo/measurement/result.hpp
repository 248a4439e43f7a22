// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Outcome of a measurement: named quantities with their uncertainty, and the inputs behind them.
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "areo/instruments/readings.hpp"
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

/// What a reader has to know: a sentence, or what is said of one reading, so that what holds for
/// several of them can be said once.
struct Note {
  // A sentence is a note without more words.
  Note(std::string sentence) : text{std::move(sentence)} {}  // NOLINT(google-explicit-constructor)
  Note(const char* sentence) : text{sentence} {}             // NOLINT(google-explicit-constructor)
  /// "1.020" "is" "outside the checked part of stem-1 (1.001 to 1.010)"
  Note(std::string of_reading, std::string is)
      : text{std::move(is)}, reading{std::move(of_reading)} {}

  std::string text;       ///< the whole sentence; of a reading what it is
  std::string reading{};  ///< that it is about; empty: a whole sentence
  [[nodiscard]] std::string sentence() const {
    return reading.empty() ? text : reading + " is " + text;
  }
  friend bool operator==(const Note&, const Note&) = default;
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
  std::vector<Note> notes;
  /// What holds for the method, whatever was read: of no use behind every one of many results.
  std::vector<std::string> method_notes = {};

  /// Its own notes as sentences.
  [[nodiscard]] std::vector<std::string> own_notes() const;
  /// With those on the method, for whoever sees this result alone, and for programs.
  [[nodiscard]] std::vector<std::string> all_notes() const;

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
